"""How the words of a sheet came to be read: `python -m tests.traced SHEET`.

Prints, in the order of the work, each wording that was tried in place of another, with the function that
made it, and each phrase that some words were found to be. Mistakes and warnings stand last.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from types import FrameType

from scopecheck.foundations.drawing import draw
from scopecheck.foundations.spans import Source
from scopecheck.language.scan import Token
from scopecheck.matching.phrase_finding import Job
from scopecheck.resolve.sheet import read_sheet


def traced(source: Source) -> Iterator[str]:
    """Each step once: the function that put words otherwise, and what it made of them."""
    steps: dict[str, None] = {}
    given: dict[FrameType, object] = {}

    def tell(frame: FrameType, event: str, made: object) -> None:
        if event == "call":
            given[frame] = frame.f_locals.get("tokens")
        elif event == "return" and (words := given.pop(frame, None)) and made:
            where = f"{Path(frame.f_code.co_filename).stem}.{frame.f_code.co_name}"
            named = "<locals>" not in frame.f_code.co_qualname  # and not a row of a table
            if (
                named
                and isinstance(made, tuple)
                and made != words
                and all(isinstance(t, Token) for t in made)
            ):
                steps[f"{where:44} {_text(made)}"] = None
            if frame.f_code is Job._found.__code__ and isinstance(made, list) and isinstance(words, tuple):
                for match in made:
                    found = f"'{match.pattern.plain}', phrase '{match.entry.title}'"
                    steps[f"{where:44} {_text(words)}  is  {found}"] = None

    sys.setprofile(tell)
    try:
        _, told = read_sheet(source)
    finally:
        sys.setprofile(None)
    yield from steps
    yield from map(draw, told)


def _text(tokens: tuple[Token, ...]) -> str:
    return " ".join(t.text for t in tokens)


if __name__ == "__main__":
    for step in traced(Source(sys.argv[1], Path(sys.argv[1]).read_text("utf-8"))):
        print(step)
