"""The files that the package brings with it. JSON is written from what people edit and read in its place."""

from __future__ import annotations

import json
import os
from typing import Any

PACKAGE = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))


def text_of(*path: str) -> str:
    """The text of a file of the package, by its folder and name."""
    with open(os.path.join(PACKAGE, *path), "rb") as file:
        return file.read().decode("utf-8")


def data_file(name: str) -> Any:
    """What a JSON file in `data/` holds."""
    return json.loads(text_of("data", name))
