"""How many of the listed defects of claim sets are found at their words: `python -m tests.words`.

Each set in `tests/text` is a text and a list made before any rule was run on it: defects with their sort,
claim and words, and what only looks like a defect. `python -m tests.words brake` tells one set in full.
What stands under `# also right` may be told or not, and is counted neither way. A flag of another sort at a
defect's words is false. The lists of the twelve sets were reviewed independently by a
second reader on 2026-11-27, who had listed each set from the claims alone: 3 defects were added (2 of them
had stood under `# also right`) and 40 that only look like one, 2 defects and 3 that were said only to look
like one were removed. The lists of `same_hand` are by the hand that writes the rules; texts and lists of
`second_reader` by the second reader.
"""

from __future__ import annotations

import sys
from pathlib import Path

from scopecheck.drafting.pasted import pasted
from scopecheck.drafting.texts import texts_of
from scopecheck.foundations.record import record
from scopecheck.text.flags import Flag
from scopecheck.text.shown import flags

SETS = Path(__file__).parent / "text" / "sets"
SAME_HAND = Path(__file__).parent / "text" / "same_hand"
SECOND_READER = Path(__file__).parent / "text" / "second_reader"
TABLES = {
    "Twelve sets on which the rules were tuned": SETS,
    "Sets in other trades, written and listed by the hand that writes the rules": SAME_HAND,
    "Sets written and listed by a second reader, before any rule was run on them": SECOND_READER,
}
REFERRING = {"no earlier", "several earlier", "number", "two names", "two things"}
"""Sorts that say of one noun that it does not name one earlier thing; a list may call it by either."""


@record
class Defect:
    sort: str
    claim: int
    words: str


@record
class Outcome:
    """What was found of a set's defects, what was missed, and what was flagged and is listed nowhere."""

    name: str
    found: tuple[Defect, ...]
    missed: tuple[Defect, ...]
    false: tuple[Flag, ...]


def expected(name: str, sets: Path = SETS) -> tuple[list[Defect], list[Defect]]:
    """The defects of a set, and what is right besides."""
    defects: list[Defect] = []
    besides: list[Defect] = []
    into: list[Defect] | None = None
    for line in (sets / f"{name}.expected").read_text("utf-8").splitlines():
        if line.startswith("#"):
            into = defects if "# defects" in line else besides if "# also right" in line else None
        elif into is not None and line.strip():
            sort, claim, words = (part.strip() for part in line.split("|"))
            into.append(Defect(sort, int(claim), words))
    return defects, besides


def outcome(name: str, sets: Path = SETS) -> Outcome:
    found_flags = flags(texts_of(pasted((sets / f"{name}.txt").read_text("utf-8"))))
    defects, besides = expected(name, sets)
    found = tuple(d for d in defects if any(_at(d, f) and _same(d, f) for f in found_flags))
    missed = tuple(d for d in defects if d not in found)
    false = tuple(f for f in found_flags if not any(_at(d, f) and _same(d, f) for d in (*defects, *besides)))
    return Outcome(name, found, missed, false)


def _at(defect: Defect, flag: Flag) -> bool:
    """Whether a flag stands at a defect's words: one holds the other."""
    a, b = " ".join(defect.words.lower().split()), flag.words.lower()
    return defect.claim == flag.claim and (a in b or b in a)


def _same(defect: Defect, flag: Flag) -> bool:
    return defect.sort == flag.sort or {defect.sort, flag.sort} <= REFERRING


def names(sets: Path = SETS) -> list[str]:
    return sorted(path.stem for path in sets.glob("*.txt"))


def main(asked: list[str]) -> None:
    for title, sets in TABLES.items():
        every = [outcome(name, sets) for name in names(sets) if not asked or name in asked]
        if every:
            print(title)
            _table(every, in_full=bool(asked))


def _table(every: list[Outcome], in_full: bool) -> None:
    for o in every:
        print(f"{o.name:12} {len(o.found):3} of {len(o.found) + len(o.missed):3} found, {len(o.false)} false")
        if in_full:
            for d in o.missed:
                print(f"    missed  claim {d.claim}  {d.sort}: {d.words}")
            for f in o.false:
                print(f"    false   claim {f.claim}  {f.sort}: {f.words}")
    found, false = sum(len(o.found) for o in every), sum(len(o.false) for o in every)
    total = found + sum(len(o.missed) for o in every)
    share = f"{100 * found // total} %"
    print(f"{'all':12} {found:3} of {total:3} found ({share}), {false} false in {len(every)} sets")


if __name__ == "__main__":
    main(sys.argv[1:])
