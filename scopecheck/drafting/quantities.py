"""Which quantities the limits and lists of claims are about, under which names, and their declarations."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import chain

from scopecheck.drafting.draft import Quantity, declarations
from scopecheck.drafting.kinds_of import family, kind_text
from scopecheck.drafting.limits import Stretch
from scopecheck.drafting.naming import Called
from scopecheck.drafting.work import Work
from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Source
from scopecheck.foundations.word_lists import words
from scopecheck.language.layout import HEADINGS
from scopecheck.language.statements import parse_sheet
from scopecheck.language.syntax import Declare
from scopecheck.resolve.claims import letters
from scopecheck.resolve.declared import declare_all
from scopecheck.resolve.dependencies import category, is_thing
from scopecheck.vocabulary.names import Names
from scopecheck.vocabulary.parts import plural_of

KEPT_WORDS = frozenset("reading meant exactly not dependent presumed strained taken free own sets".split())
"""Words with which a line below a claim begins, so that no name does."""


def limited(works: Sequence[Work]) -> list[Quantity]:
    """One quantity for all limits of one noun and kind that one thing has, or that no two things have."""
    _of_one_and_of_many(works)
    owners: dict[tuple[str, str], list[str]] = {}
    for stretch, what in (limit for work in works for limit in work.limits):
        of = owners.setdefault((what.noun, family(what, stretch.unit)), [])
        if what.owner and what.owner not in of and not what.apart:
            of.append(what.owner)
    made: dict[tuple[str, str, str, str], Quantity] = {}
    used: set[str] = set()
    for work in works:
        items: dict[tuple[str, str], int] = {}
        for stretch, what in work.limits:
            kind = family(what, stretch.unit)
            item = work.text.texts[: stretch.start].count(";")
            first = items.setdefault((what.noun, kind), item)
            again = first != item and not what.owner and _of_a_step(work, stretch, what)
            several = len(owners[what.noun, kind]) > 1
            alone = f"{work.claim.number} {stretch.start}" if what.unnamed or again else what.apart
            key = (what.noun, kind, alone or (what.owner if several else ""), what.under)
            if key not in made:
                owner = what.owner or ("" if alone else next(iter(owners[what.noun, kind]), ""))
                whose = what.owner if alone.startswith("each ") else "" if alone else key[2]
                name = _free_name(what.noun, whose, kind, used, owner)
                made[key] = Quantity(name, kind_text(what, stretch.unit), what.noun, owner, note=what.under)
            tokens = work.text.tokens
            if any(t.text in _MINUS for f in stretch.figures for t in tokens[f.start : f.digits]):
                made[key].kind = _of_any_sign(made[key].kind)
            if made[key].kind == "share in %" and _may_be_more(work, stretch, what):
                made[key].kind = "ratio in %"
            _met_in(made[key], work)
            work.of.append(made[key])
    return list(made.values())


def _of_one_and_of_many(works: Sequence[Work]) -> None:
    """`the diameter of the rollers` is that of each roller, where claims speak of both."""
    owners = {what.owner for work in works for _, what in work.limits if what.owner}
    single = {plural_of(owner): owner for owner in owners}
    for work in works:
        work.limits = [(s, replace(w, owner=single.get(w.owner, w.owner))) for s, w in work.limits]


def _of_a_step(work: Work, stretch: Stretch, what: Called) -> bool:
    """`holding it for 10 min` in a later item: is it what another step takes, or takes place at?

    "The holding time" in a later item is the one that was named.
    """
    if is_thing(category(work.claim.text)):
        return False
    said = " ".join(work.text.texts[max(0, stretch.starts[0] - 8) : stretch.end])
    named = any(f"{word} {what.noun}" in said for word in ("the", "said"))
    return what.noun.endswith(_STEP_MEASURES) and not named


_STEP_MEASURES = ("time", "temperature", "pressure", "speed", "duration")


def _of_any_sign(kind: str) -> str:
    """`length in mm` as `in mm`: what is declared by the word for its kind is taken to be 0 or more."""
    word, _, unit = kind.partition(" in ")
    return f"in {unit}" if unit and word in _NEVER_BELOW else kind


def _may_be_more(work: Work, stretch: Stretch, what: Called) -> bool:
    """Whether what is told in per cent may be more than the whole: 'an elongation of', 'at least 150 %'."""
    numbers = [work.text.tokens[f.digits].text for f in stretch.figures]
    over = any(n.replace(".", "", 1).isdecimal() and Fraction(n) > WHOLE for n in numbers)
    return over or what.noun.split()[-1] in words("measures", "beyond_the_whole")


WHOLE = 100
_MINUS = ("-", "−", "–", "minus")
_NEVER_BELOW = ("length", "width", "height", "depth", "thickness", "diameter", "distance", "time", "angle")
"""Words for kinds of which a claim may mean a place, with a sign, where it has numbers below 0."""


def chosen(works: Sequence[Work], others: Sequence[Quantity]) -> list[Quantity]:
    """One quantity for each noun of which several are said, or a list; lists of one noun are one list."""
    made: dict[tuple[str, bool], Quantity] = {}
    counts = {q.name: q for q in others if q.kind == "count"}
    several = {choice.noun.lower() for work in works for choice in work.choices if not choice.members}
    for q in others:
        if q.kind == "share in %" and q.name.lower() in several:
            q.name += " share"  # 'at least 90 % of the chambers' beside 'a plurality of chambers'
    used = {q.name.lower() for q in others}
    for work in works:
        for choice in work.choices:
            key = (choice.noun, bool(choice.members))
            if not choice.members and choice.noun in counts:
                _met_in(counts[choice.noun], work)
                continue
            if key not in made:
                more = " material" if choice.made else ""
                more = " count" if not choice.members and choice.noun in counts else more
                wanted = f"{choice.noun}{more}"
                apart = "kind" if "material" in choice.noun.split() else "material"
                name = _free_name(wanted, "", apart if choice.members else "count", used)
                made[key] = Quantity(name, choice.kind, choice.noun, choice.noun)
            elif choice.members:
                have = made[key].kind.removeprefix("any of ").split(", ")
                made[key].kind = "any of " + ", ".join(dict.fromkeys((*have, *choice.members)))
            _met_in(made[key], work)
    return list(made.values())


def _met_in(quantity: Quantity, work: Work) -> None:
    quantity.claims = sorted({*quantity.claims, work.claim.number})


def undeclared(works: Sequence[Work], names: Names, others: Sequence[Quantity]) -> list[Quantity]:
    """Quantities for the pluralities and lists that a sheet's declarations do not have yet."""
    return [q for q in chosen(works, others) if names.declared(q.name) is None]


def _free_name(noun: str, owner: str, kind: str, used: set[str], has: str = "") -> str:
    """A name that no other quantity has: the noun, with its owner before it where several things have one.

    It is added to those in use, which are in small letters. `has`: what has it, if that is needed to tell it.
    """
    wanted = " ".join(f"{owner} {noun}".split()) or "value"
    if wanted.split()[0].lower() in KEPT_WORDS | set(HEADINGS):
        wanted = f"measured {wanted}"
    other = "share" if kind.startswith("plain") else kind.split()[0]
    tries = [wanted, f"{has} {wanted}"] if has and not owner else [wanted]
    measured = wanted.split()[-1] in words("measures", "nouns")
    tries += [] if other in wanted.split() or measured else [f"{wanted} {other}"]
    more = (f"{wanted} {letters(n)}" for n in range(1, 2 + len(used)))
    free = next(name for name in chain(tries, more) if name.lower() not in used)
    used.add(free.lower())
    return free


def declared_names(quantities: Sequence[Quantity]) -> Names:
    """The names as a sheet would declare them; a quantity that cannot be declared has none."""
    lines = "".join(f"{line}\n" for line, _ in declarations(quantities))
    written, _ = parse_sheet(Source("declarations", lines))
    return declare(tuple(s for s in written.statements if isinstance(s, Declare)))


def in_brackets(quantities: Sequence[Quantity]) -> tuple[str, ...]:
    """The members of lists and classes with brackets in their names, the longest first."""
    lists = [q.kind.removeprefix("any of ") for q in quantities if q.members]
    lists += [q.stands_for for q in quantities]
    found = {name for said in lists for name in said.split(", ") if "(" in name}
    return tuple(sorted(found, key=lambda name: (-len(name), name)))


def declare(statements: tuple[Declare, ...]) -> Names:
    """The names that declarations give; what is wrong with one of them is told by the check."""
    names = Names()
    declare_all(statements, names, [])
    return names
