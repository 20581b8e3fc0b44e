"""What the size of the catalogue costs: a check with three phrases, beside one whose catalogue has only them.

The small catalogue is cut from the shipped one and indexed by the same code, so that both runs do the same
but for what lies between the phrases they use.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from scopecheck.vocabulary import catalogue
from scopecheck.vocabulary.entry import Entry
from tests.benchmarks.figures import Figure
from tests.benchmarks.processes import QUIET, ROOT, side_by_side, tool

SHEET = """\
teeth   count
width   length in mm
open    share in %

1. A clip with at least 6 teeth, a width of between 8 and 12 mm and an open share of about 35 %.
   | teeth : at least 6
   | width : between 8 and 12 mm
   | open  : about 35 %
   | not restated : and

inside        teeth   width    open
  sample      8       10 mm    36 %
must stay out
  old clip    4       9 mm     35 %
"""
USED = ("at least (L)", "between (L) and (U)", "about (N)")
SMALL = """
from scopecheck.vocabulary import catalogue
whole = catalogue.text_of
def text_of(*path):
    return open({folder!r} + "/" + path[-1], encoding="utf-8").read()
catalogue.text_of = text_of
"""


def written(entry: Entry) -> str:
    """The lines of an entry in the file where it stands."""
    text, start = entry.span.source.text, entry.span.start
    end = text.find("\nphrase ", start)
    return text[start : end + 1 if end >= 0 else len(text)]


def cut_out(folder: Path) -> None:
    """A catalogue of the used phrases alone, with its index, in a folder."""
    used = [next(e for e in catalogue.entries() if e.title == title) for title in USED]
    by_file: dict[str, str] = {}
    for entry in used:
        file = entry.span.source.name.removeprefix("catalogue ")
        by_file[file] = by_file.get(file, "") + written(entry)
    for file, text in by_file.items():
        (folder / f"{file}.phrases").write_text(text, "utf-8")
    (folder / catalogue.INDEX).write_text(catalogue.index_text(by_file), "utf-8")


def printed(code: str) -> str:
    """What a program prints; it must print something."""
    run = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False)
    if not run.stdout:
        raise SystemExit(run.stderr)
    return run.stdout


def processor_time(code: str) -> float:
    """Seconds of the processor that one run takes: what others do on the machine hardly counts."""
    run = subprocess.Popen([sys.executable, "-c", code], cwd=ROOT, **QUIET)
    _, _, used = os.wait4(run.pid, 0)
    return used.ru_utime + used.ru_stime


def measure_loading() -> Iterator[Figure]:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        sheet = folder / "three.sheet"
        sheet.write_text(SHEET, "utf-8")
        cut_out(folder)
        check = tool("check", str(sheet))
        codes = SMALL.format(folder=name) + check, check
        if len({printed(code) for code in codes}) != 1:
            raise SystemExit("the two catalogues do not give the same report")
        small, whole = side_by_side(processor_time, *codes)
        title = f"check with {len(USED)} phrases / its catalogue having these alone: processor time"
        yield Figure(title, whole * 1000, small * 1000, "ms", 1.2)
