"""Regular expressions that are compiled when first used: a start meets a hundred, and a sheet needs some."""

from __future__ import annotations

import re
from typing import Any, cast


class _Uncompiled:
    def __init__(self, text: str, flags: int) -> None:
        self._text, self._flags = text, flags

    def __getattr__(self, name: str) -> Any:
        # Asked for the first use of each method only: afterwards the method is an attribute of its own.
        method = getattr(re.compile(self._text, self._flags), name)
        setattr(self, name, method)
        return method


def regex(text: str, flags: int = 0) -> re.Pattern[str]:
    """What `re.compile` gives, except that a mistake in the text shows when it is first used."""
    return cast(re.Pattern[str], _Uncompiled(text, flags))
