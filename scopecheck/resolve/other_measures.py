"""Words beside a name that make another quantity of it, or say which of several is meant.

`The thickness difference` is no thickness, `the other width` none that is declared.
"""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.core.declared import Composition
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.syntax import Words
from scopecheck.matching.chart import word_of
from scopecheck.matching.subjects import Subject
from scopecheck.resolve.left_unsaid import taken_as_declared
from scopecheck.vocabulary.names import Names, Typed

Why = tuple[str, str, str] | None
"""What is wrong, why, and what to write instead."""
Things = tuple[Subject, ...]
_SIZES = frozenset("length width height thickness diameter depth radius circumference".split())
_BETWEEN_THINGS = frozenset("spacing clearance pitch offset".split())
"""The row spacing may be what a length called row is; a height spacing is no height."""
_OF_TWO = frozenset("difference sum".split())
_LEAVING = frozenset("other remaining".split())
_AVERAGE = frozenset("average mean median".split())
_EACH = frozenset("each every no".split())
_HAS = frozenset("has have having contains contain comprises comprise includes include".split())


def another_quantity(said: list[str], subjects: Things, names: Names) -> Why:
    """What makes of a name that is said another quantity than the one declared; None where nothing does."""
    return (
        _worked_out_of_it(said, subjects, names)
        or _size_of_a_size(said, subjects, names)
        or _which_of_them(said, subjects, names)
        or _of_each_holder(said, subjects, names)
        or _on_a_dry_basis(said, subjects, names)
    )


def _named(said: list[str], subjects: Things) -> Iterator[tuple[Subject, int, int]]:
    """Each value left of the colon where the words name it: from where to where."""
    for s in subjects:
        own = s.text.lower().split()
        if not isinstance(s.bound, Typed) or s.parts is not None or s.mixture is not None or s.bound.whole:
            continue
        for run in (own, [*own[:-1], f"{own[-1]}s"]):
            for at in range(len(said) - len(run) + 1):
                if said[at : at + len(run)] == run:
                    yield s, at, at + len(run)


def _is_a_name(said: list[str], start: int, end: int, names: Names) -> bool:
    """Is all of this part of a longer name that is declared: 'gap tolerance', beside a gap?"""
    for name in (n.lower().split() for n in names.all()):
        places = range(max(0, end - len(name)), start + 1)
        if len(name) > 1 and any(said[i : i + len(name)] == name for i in places):
            return True
    return False


def _called(subject: Subject, names: Names) -> set[str]:
    """The words of its name and of its note."""
    return {w.strip(",;()") for w in f"{subject.text} {names.note_of(subject.text)}".lower().split()}


def _worked_out_of_it(said: list[str], subjects: Things, names: Names) -> Why:
    """`a ratio of thickness difference to length`, `a clearance of the diameter`."""
    others = listed("unheard", "worked_out_of_it")
    for s, at, end in _named(said, subjects):
        assert isinstance(s.bound, Typed)
        rate = {"rate"} if len(subjects) == 1 or _is_a_rate(s.bound) else set()
        measured = s.text.lower().split()[-1] in _SIZES
        another = others - _called(s, names) - rate - (set() if measured else _BETWEEN_THINGS)
        of_two = _OF_TWO if len(subjects) > 1 else frozenset[str]()
        behind = said[end] if end < len(said) else ""
        joined = at > 0 and said[at - 1] in ("and", "or", ",", "-") and behind in of_two
        own = end < len(said) and _is_a_name(said, at, end + 1, names)
        between = said[end + 1 : end + 2] == ["between"]
        between = between or (behind == "difference" and "between" in said[end + 1 :])
        if behind in another and not own and not joined and not between:
            return _another(" ".join(said[at : end + 1]), s)
        of = at - 1 - (said[at - 1 : at] in (["the"], ["a"], ["an"]))
        noun = said[of - 1] if of > 0 and said[of] == "of" else ""
        if noun in another - of_two - {"rate"} and not _is_a_name(said, of - 1, end, names):
            return _another(" ".join(said[of - 1 : end]), s)
    return None


def _another(called: str, of: Subject) -> tuple[str, str, str]:
    return (
        f"'{called}' is another quantity than {of.text}",
        f"What is declared is {of.text} itself.",
        f"declare it by a name of its own, such as '{called}', and write that left of the colon",
    )


def _is_a_rate(bound: Typed) -> bool:
    """`a flow rate`, of a flow: so much in a time."""
    return bound.kind is not None and any(
        (name, power) == (TIME[0][0], -1) for name, power in bound.kind.dimension
    )


def _size_of_a_size(said: list[str], subjects: Things, names: Names) -> Why:
    """`twice the diameter of the width`: a width is no thing that has one."""
    for s, at, _ in _named(said, subjects):
        own = s.text.lower().split()[-1]
        of = at - 1 - (said[at - 1 : at] == ["the"])
        noun = said[of - 1] if of > 0 and said[of] == "of" else ""
        if own in _SIZES and noun in _SIZES - _called(s, names) and not _is_a_name(said, of - 1, at, names):
            return _another(f"{noun} of the {s.text}", s)
    return None


def _which_of_them(said: list[str], subjects: Things, names: Names) -> Why:
    """`the height is at least twice the other width`, of one width."""
    values = [s.bound for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
    measured = len(values) == len(subjects) > 1 and all(v.kind and v.kind.dimension for v in values)
    for s, at, _ in _named(said, subjects) if measured else ():
        word = said[at - 1] if at else ""
        if (
            word in _LEAVING
            and word not in s.text.lower().split()
            and not _is_a_name(said, at - 1, at, names)
        ):
            return (
                f"'{word} {s.text}' is one of several",
                f"Declared is one {s.text}.",
                f"declare each {s.text} by a name of its own, and write those meant left of the colon",
            )
    return None


def _of_each_holder(said: list[str], subjects: Things, names: Names) -> Why:
    """`each of the rows has six holes`, `no side has more than three holes`, of the number of all holes."""
    bound = subjects[0].bound if len(subjects) == 1 else None
    if not isinstance(bound, Typed) or not bound.whole or subjects[0].parts is not None:
        return None
    own = _called(subjects[0], names)
    if (
        said[:1] == []
        or said[0] not in _EACH
        or not own.isdisjoint({"per", "each", "every", "one", "single"})
    ):
        return None
    has = next((i for i, w in enumerate(said[:6]) if w in _HAS), 0)
    holder = said[has - 1] if has > 1 else ""
    one, name = holder.removesuffix("s"), subjects[0].text
    if not holder or not own.isdisjoint((holder, one, f"{one}s")):
        return None
    return (
        f"'{' '.join(said[: has + 1])}' speaks of one {one} at a time",
        f"Declared is how many {name} there are in all.",
        f'if {name} counts those of one, say so where it is declared: {name}  count  "of each {one}"',
    )


_DRY = regex(
    r"\b(?:dry|wet|anhydrous|moisture-free|water-free|solvent-free|dry weight|dry mass|dry matter) basis\b"
)


def _on_a_dry_basis(said: list[str], subjects: Things, names: Names) -> Why:
    """`calculated on a dry basis`, of what is declared as a share of the whole, with all that is in it."""
    found = _DRY.search(" ".join(said))
    for s in subjects if found else ():
        made = s.bound if isinstance(s.bound, Composition) else None
        made = made or next((c for c in names.compositions.values() if s.text in c.members), None)
        if found and made is not None and found.group() not in names.note_of(s.text).lower():
            return (
                f"'{found.group()}' counts a part of {made.name}",
                f"What is declared is a share of {made.name}, with all that is in it.",
                "declare the share of what is dry by a name of its own, and write that left of the colon",
            )
    return None


def average_of_one(words: Words, subjects: Things, names: Names) -> Diagnostic | None:
    """A warning of `the mean height is at least twice the width`, of a height that nothing says is a mean."""
    if len(subjects) < 2:
        return None
    said = [word_of(t) for t in words.tokens if t.sort != "gap"]
    for s, at, _ in _named(said, subjects):
        word = said[at - 1] if at else ""
        if word in _AVERAGE and _AVERAGE.isdisjoint(_called(s, names)):
            return taken_as_declared(words, word, s.text, "an average, nor over what", "average")
    return None
