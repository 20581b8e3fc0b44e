"""What every command shares at its end: where text goes, how trouble is shown, exit status, progress."""

from __future__ import annotations

import codecs
import io
import os
import sys
import time
from collections.abc import Callable, Iterable
from typing import TextIO

FOUND, BAD_INPUT, UNDECIDED, FAULT, INTERRUPTED = 1, 2, 3, 4, 130
PATIENCE = 1
"""Seconds of work before progress is told."""


def worst(statuses: Iterable[int]) -> int:
    """Bad input before anything found, that before undecided, that before nothing."""
    return min(statuses, key=(BAD_INPUT, FOUND, UNDECIDED, 0).index, default=0)


def put(text: str, path: str = "") -> bool:
    """Writes to the standard output, or to a file that must not exist yet; False once nobody reads it."""
    if path:
        # The name of a sheet may hold bytes that are no text.
        with open(path, "x", encoding="utf-8", errors="replace") as file:
            file.write(text)
        return True
    return _written(sys.stdout, text, PLAINER)


def complain(text: str) -> None:
    """A line, or several, on the error stream."""
    _written(sys.stderr, text.rstrip("\n") + "\n", "backslashreplace")


def _written(stream: TextIO, text: str, errors: str) -> bool:
    """False where whoever read the stream has gone: the answer, and so the status, is what it is."""
    if isinstance(stream, io.TextIOWrapper):
        stream.reconfigure(errors=errors)
    try:
        stream.write(text)
        stream.flush()
    except BrokenPipeError:
        # What is still buffered must not raise again at the end.
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
        return False
    return True


PLAINER = "scopecheck.plainer"
PLAIN_SIGNS = str.maketrans(
    dict(zip("─━═┈│●○▲·×–\u00a0\u202f‘’“”", "-==.|*o^.x-  ''\"\"", strict=True))
    | {"≤": "<=", "≥": ">=", "≠": "!=", "≈": "~=", "±": "+/-", "µ": "u", "μ": "u", "—": "--", "…": "..."}
)
"""What stands for a sign where the terminal lacks it; for any other a question mark."""


def _plainer(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    signs = error.object[error.start : error.end].translate(PLAIN_SIGNS)
    return "".join(c if c.isascii() else "?" for c in signs), error.end


codecs.register_error(PLAINER, _plainer)


class Progress:
    """What is being done, on the error stream if that is a terminal, once the work has taken a while."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.started = time.monotonic()
        self.told = False

    def tell(self, doing: str) -> None:
        if time.monotonic() - self.started > PATIENCE and sys.stderr.isatty():
            line = "".join(c for c in f"{self.name}: {doing} ..." if c.isprintable())
            sys.stderr.write(f"\r\x1b[K{line[:78]}")
            sys.stderr.flush()
            self.told = True

    def clear(self) -> None:
        if self.told:
            sys.stderr.write("\r\x1b[K")
            sys.stderr.flush()
            self.told = False


def guarded(run: Callable[[], int]) -> int:
    """The exit status of a command; whatever goes wrong, nothing shows a traceback."""
    try:
        return run()
    except KeyboardInterrupt:
        return INTERRUPTED
    except FileExistsError as error:
        complain(already_there(error.filename))
        return BAD_INPUT
    except OSError as error:
        name = f": {error.filename}" if error.filename else ""
        complain(f"error: {error.strerror or 'a file cannot be used'}{name}")
        return BAD_INPUT
    except Exception as error:
        complain(_apology(error))
        return FAULT


def already_there(path: str) -> str:
    """Why nothing was written."""
    return f"error: {path} exists already\n  help: name a file that does not exist; nothing was written"


def _apology(error: Exception) -> str:
    place = error.__traceback__
    while place is not None and place.tb_next is not None:
        place = place.tb_next
    where = ""
    if place is not None:
        where = f" in {os.path.basename(place.tb_frame.f_code.co_filename)}, line {place.tb_lineno}"
    return (
        f"scopecheck failed on an internal fault ({type(error).__name__}{where}); no answer was given.\n"
        "Sorry. Please report this line, with the smallest sheet on which it happens if you may share one."
    )
