"""Work that a second process does meanwhile, with the outcome it would have here.

The second process is a copy of this one, made when the work is handed out; what it finds comes back over a
pipe. Where none can be had, or it ends without an answer (it was stopped, ran out of memory, met a fault),
the work is done here when it is asked for: a fault is then raised here, and what was not answered never
counts as answered. So the work must not depend on what is done here after it was handed out.
"""

from __future__ import annotations

import os
import signal
import sys
import warnings
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from typing import BinaryIO, Generic, NoReturn, TypeVar

T = TypeVar("T")
Step = Callable[[], None]
STEP, ANSWER = b".", b"="
MOST_READ = 1 << 16

FORKS = hasattr(os, "fork") and sys.platform != "darwin"
"""Can this process be copied? On one system libraries start threads of their own, which a copy would lack."""


@contextmanager
def meanwhile(work: Callable[[Step], T], known: Sequence[object] = ()) -> Iterator[Meanwhile[T]]:
    """The work, begun in a second process, which is gone afterwards. `work` calls what it gets at each step.

    What it comes to is a copy, but for the objects that are `known`, which are the same again.
    """
    begun = Meanwhile(work, known)
    try:
        if FORKS:
            with suppress(OSError):
                begun.begin()
        yield begun
    finally:
        begun.end()


class Meanwhile(Generic[T]):
    """Work that was handed out."""

    def __init__(self, work: Callable[[Step], T], known: Sequence[object]) -> None:
        self._work = work
        self._known = known
        self._process = 0
        self._reader: BinaryIO | None = None

    def begin(self) -> None:
        """Starts the second process, if one can be had."""
        here, (reader, writer) = os.getpid(), os.pipe()
        self._reader = os.fdopen(reader, "rb", 0)
        try:
            with warnings.catch_warnings():
                # Newer versions warn of threads that a copy lacks; the library ends its own before.
                warnings.simplefilter("ignore")
                self._process = os.fork()
            if not self._process:
                self._reader.close()
                self._do(writer)
        finally:
            if os.getpid() != here:
                os._exit(1)
            os.close(writer)

    def _do(self, writer: int) -> NoReturn:
        """Does the work in the second process: it speaks through the pipe alone, and ends as it stands.

        An interrupt is for the first process, which ends this one. A step that nobody hears of ends it too.
        """
        signal.signal(signal.SIGINT, signal.SIG_IGN)
        nowhere = os.open(os.devnull, os.O_WRONLY)
        for stream in {1, 2} - {writer}:
            os.dup2(nowhere, stream)
        found = self._work(lambda: _say(writer, STEP))
        _say(writer, ANSWER)
        from scopecheck.foundations.sent import send

        with open(writer, "wb") as file:
            send(found, self._known, file)
        os._exit(0)

    def answer(self, told: Callable[[int], None]) -> T:
        """What the work came to; `told` gets the number of steps begun while it is waited for.

        Raises what the work raises.
        """
        sent = self._sent(told)
        if sent is not None:
            from scopecheck.foundations.sent import received

            return received(sent, self._known)  # type: ignore[no-any-return]
        steps = 0

        def step() -> None:
            nonlocal steps
            steps += 1
            told(steps)

        return self._work(step)

    def _sent(self, told: Callable[[int], None]) -> bytes | None:
        """What the second process sent in the end; None if it did not come to an end."""
        if self._reader is None or not self._process:
            return None
        steps, answered, parts = 0, False, list[bytes]()
        while data := self._reader.read(MOST_READ):
            if not answered:
                begun, mark, data = data.partition(ANSWER)
                steps, answered = steps + len(begun), bool(mark)
                told(steps)
            parts.append(data)
        process, self._process = self._process, 0
        _, status = os.waitpid(process, 0)
        return b"".join(parts) if answered and status == 0 else None

    def end(self) -> None:
        """Leaves no process behind."""
        if self._reader is not None:
            self._reader.close()
        if self._process:
            os.kill(self._process, signal.SIGKILL)
            os.waitpid(self._process, 0)


def _say(writer: int, data: bytes) -> None:
    os.write(writer, data)
