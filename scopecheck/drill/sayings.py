"""Parts of what an exercise says: readings by letter, things, and why a limitation lets a thing in or not."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from string import ascii_uppercase

from scopecheck.answers.about import Reread
from scopecheck.core.construction import Construction, names_in
from scopecheck.core.declared import NumberDecl
from scopecheck.core.formula import Article, Measured
from scopecheck.core.model import Limitation
from scopecheck.drill.bench import Bench, facts_text
from scopecheck.report.amounts import exactly, plain_degrees
from scopecheck.report.describe import own_words
from scopecheck.report.rereadings import meaning_text, presumed_stretch, standing_text
from scopecheck.report.wording import flat, quoted, sentence
from scopecheck.solving.constraints import Undecided
from scopecheck.solving.ends import Extremum, infimum, supremum


def words_of(limitation: Limitation) -> str:
    """`1b "between 2 and 4 mm"`."""
    return f"{limitation.label} {own_words(limitation)}"


def reading_said(bench: Bench, limitation: Limitation, reading: int) -> str:
    """`"both ends in" (2 mm <= gap <= 4 mm)`, with the stretch it is taken at."""
    group = bench.group(limitation)
    assert group is not None
    label = quoted(bench.sheet.groups[group].readings[reading].label)
    meaning = meaning_text(bench.sheet, Reread(group, reading), (limitation.label,))
    own = [p for p in bench.sheet.parameters if (p.group, p.reading) == (group, reading)]
    parts = list(
        dict.fromkeys([*([meaning] if meaning else []), *(presumed_stretch(bench.sheet, p) for p in own)])
    )
    return f"{label} ({'; '.join(parts)})" if parts else label


def lettered(bench: Bench, limitation: Limitation) -> list[tuple[str, int]]:
    """The readings of the limitation's phrase, each with its letter."""
    group = bench.group(limitation)
    assert group is not None
    return list(zip(ascii_uppercase, bench.readings(group), strict=False))


def readings_said(bench: Bench, limitation: Limitation, article: Article | None = None) -> list[str]:
    """The readings line by line, each with its standing and, of a thing, whether it is met."""
    group = bench.group(limitation)
    if group is None:
        return []
    met = bench.on_readings(limitation, article) if article is not None else ()
    lines = []
    for reading in bench.readings(group):
        said = reading_said(bench, limitation, reading)
        standing = standing_text(bench.sheet.groups[group], reading)
        key = "plain" if article is None else "met" if reading in met else "missed"
        lines.append(sentence("drill", "reading", key, reading=said, standing=standing))
    return lines


def thing_said(bench: Bench, article: Article, start: Article, names: Iterable[str] = ()) -> str:
    """A thing by what departs from the thing to start from; where nothing does, by the names given."""
    departing = [n for n in article if article[n] != start.get(n)]
    return told(facts_text(bench.sheet, article, departing or list(names) or list(article)))


def told(facts: str) -> str:
    """Facts for people to read: degrees as signs."""
    return plain_degrees(facts)


def value_said(bench: Bench, name: str, value: Fraction) -> str:
    d = bench.sheet.declaration(name)
    assert isinstance(d, NumberDecl)
    return exactly(d.unit.from_base(value), d.unit.symbol).replace("\u00a0", " ")


def size_said(bench: Bench, name: str, size: Fraction) -> str:
    """A difference of two values of one quantity, in its unit."""
    d = bench.sheet.declaration(name)
    assert isinstance(d, NumberDecl)
    symbol = "K" if d.unit.symbol == "degC" else d.unit.symbol
    return exactly(size / d.unit.factor, symbol).replace("\u00a0", " ")


# ---- why not, and by how much


def why_missed(bench: Bench, limitation: Limitation, article: Article) -> list[str]:
    """That no reading of the limitation lets the thing in, and how far off it is."""
    lines = [sentence("drill", "why", "missed", limitation=words_of(limitation))]
    return lines + _how_far_off(bench, limitation, article)


def _how_far_off(bench: Bench, limitation: Limitation, article: Article) -> list[str]:
    """For each number the limitation speaks of, how far the nearest value is that would be let in."""
    lines = []
    for name in (d.name for d in bench.sheet.declarations if d.name in names_in(limitation.formula)):
        value = article[name]
        if not isinstance(value, Fraction):
            continue
        end = nearest_met(bench, limitation, article, name)
        if end is None:
            continue
        lines.append(
            sentence(
                "drill", "why", "off_closed" if end.closed else "off_open",
                name=flat(name), value=value_said(bench, name, value),
                end=value_said(bench, name, end.value), size=size_said(bench, name, abs(end.value - value)),
            )
        )  # fmt: skip
    return lines


def nearest_met(bench: Bench, limitation: Limitation, article: Article, name: str) -> Extremum | None:
    """The nearest value of one quantity, all else as it is, at which some reading lets the thing in."""
    session, value = bench.session, article[name]
    assert isinstance(value, Fraction)
    found: list[Extremum] = []
    for above in (True, False):
        search = session.search(session.groups_in(limitation.formula))
        search.require(session.met(limitation.formula), bench.same_but(article, (name,)))
        search.require(session.at_least(name, value) if above else session.at_most(name, value))
        try:
            if search.holds():
                end = infimum(search, Measured(name)) if above else supremum(search, Measured(name))
                found += [end] if end else []
        except Undecided:
            continue
    return min(found, key=lambda e: (abs(e.value - value), e.value), default=None)


def read_said(bench: Bench, limitation: Limitation, k: Construction) -> list[str]:
    """How the limitation's phrase is read in a construction; nothing where it has one reading."""
    group = bench.group(limitation)
    if group is None:
        return []
    said = reading_said(bench, limitation, k.readings[group])
    return [sentence("drill", "why", "read_as", limitation=words_of(limitation), reading=said)]
