"""Exercises in a real terminal, as someone meets them for the first time: tmux types and reads the screen.

Where there is no tmux nothing is tried.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
PATIENCE = 120

pytestmark = pytest.mark.skipif(shutil.which("tmux") is None, reason="there is no tmux")


class Terminal:
    """A terminal of its own, on a socket of its own."""

    def __init__(self, folder: Path) -> None:
        self.socket = str(folder / "tmux")
        self.folder = folder
        self.tmux("-f", os.devnull, "new-session", "-d", "-x", "100", "-y", "200", "-s", "drill", "sh")

    def tmux(self, *words: str) -> str:
        command = ["tmux", "-S", self.socket, *words]
        return subprocess.run(command, capture_output=True, text=True, check=True, timeout=60).stdout

    def type(self, text: str, *, enter: bool = True) -> None:
        self.tmux("send-keys", "-t", "drill", "-l", text)
        if enter:
            self.press("Enter")

    def press(self, key: str) -> None:
        self.tmux("send-keys", "-t", "drill", key)

    def screen(self) -> str:
        return self.tmux("capture-pane", "-p", "-J", "-S", "-", "-t", "drill")

    def wait(self, text: str, times: int = 1) -> str:
        """The screen once it shows the text so many times."""
        return self.wait_for(lambda shown: shown.count(text) >= times, f"{times} of {text!r}")

    def wait_for(self, holds: Callable[[str], bool], what: str) -> str:
        """The screen once this holds of it."""
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            shown = self.screen()
            if holds(shown):
                return shown
            time.sleep(0.2)
        raise AssertionError(f"{what} was never shown:\n{self.screen()}")

    def run(self, *options: str) -> None:
        """Start a drill on an empty screen: what the last one showed must not be taken for this one's."""
        words = " ".join([sys.executable, "-m", "scopecheck", "drill", *options])
        self.type("clear; echo empty")
        self.wait_for(lambda shown: "Answer:" not in shown and "\nempty" in f"\n{shown}", "an empty screen")
        self.type(f"cd {ROOT} && {words}; echo ended with $?")


@pytest.fixture
def terminal(tmp_path: Path) -> Iterator[Terminal]:
    made = Terminal(tmp_path)
    yield made
    made.tmux("kill-server")


def results(path: Path) -> list[dict[str, object]]:
    return [json.loads(line) for line in path.read_text("utf-8").splitlines()] if path.exists() else []


def test_a_new_user_types_all_sorts_of_things(terminal: Terminal, tmp_path: Path) -> None:
    record = tmp_path / "r.jsonl"
    terminal.run("--seed", "3", "--level", "1", "--kind", "'how far'", "--record", str(record))
    terminal.wait("Answer:")
    asked = 1
    for wrong in ("", "3 furlongs", "12 kg", "asdf qwer", "= = =", "((((", "NOT", "?", "\u20ac\u2603"):
        terminal.type(wrong)
        asked += 1
        terminal.wait("Answer:", asked)
    assert results(record) == []
    terminal.type("none")
    shown = terminal.wait("Answer:", asked + 1)
    assert "Right." in shown or "Wrong." in shown
    assert len(results(record)) == 1
    terminal.press("C-c")
    shown = terminal.wait("ended with 130")
    assert "Traceback" not in shown
    assert "internal fault" not in shown
    assert "1 answer" in shown
    assert len(results(record)) == 1


def test_the_end_of_input_and_an_interrupt_while_thinking_lose_nothing(
    terminal: Terminal, tmp_path: Path
) -> None:
    record = tmp_path / "r.jsonl"
    options = ("--seed", "4", "--level", "1", "--kind", "'falls out'", "--record", str(record))
    terminal.run(*options)
    terminal.wait("Answer:")
    terminal.type("A")
    terminal.wait("Answer:", 2)
    terminal.press("C-d")
    terminal.wait("ended with 0")
    assert len(results(record)) == 1
    terminal.run(*options)
    terminal.wait("Answer:")
    terminal.type("B")
    terminal.press("C-c")
    shown = terminal.wait("ended with 130")
    assert "Traceback" not in shown
    kept = results(record)
    assert 1 <= len(kept) <= 2
    answered = "2 right" in shown or "1 answer" in shown
    assert len(kept) == 1 + answered
