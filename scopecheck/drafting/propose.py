"""From claims to proposals: names for what is limited, lines with the claims' words, marks for the rest."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from scopecheck.drafting.around import with_words_around, worked_out_of
from scopecheck.drafting.as_many import counted, equals
from scopecheck.drafting.beside import a_parameter, noun_from, noun_start, per_width, width_of
from scopecheck.drafting.by_letter import call_by_signs
from scopecheck.drafting.choices import Choice, choices, chosen_again
from scopecheck.drafting.compared import name_others, with_wholes
from scopecheck.drafting.conditional import held_spans, without_held
from scopecheck.drafting.conditions import before_limits, behind_limits
from scopecheck.drafting.contrary import without_contrary
from scopecheck.drafting.draft import Draft, DraftClaim, Quantity
from scopecheck.drafting.formulas import formulas
from scopecheck.drafting.grouped import in_groups, ungrouped
from scopecheck.drafting.in_steps import of_item, told_apart
from scopecheck.drafting.joint import joint, summed
from scopecheck.drafting.kinds_of import kind_text
from scopecheck.drafting.leading import AMOUNTS
from scopecheck.drafting.left_out import left_out
from scopecheck.drafting.limits import Stretch, by_parts, stretches, with_basis, with_closing, with_qualifiers
from scopecheck.drafting.lines import propose_lines
from scopecheck.drafting.naming import Called, called
from scopecheck.drafting.no_limits import limits_nothing, surroundings
from scopecheck.drafting.on_condition import conditioned
from scopecheck.drafting.only_together import only_together
from scopecheck.drafting.quantities import chosen, declared_names, limited
from scopecheck.drafting.readable import Readable
from scopecheck.drafting.relations import beside_others, changed
from scopecheck.drafting.same import doubts, unified, with_ordinals
from scopecheck.drafting.some_of import of_some, some_of
from scopecheck.drafting.stepped import items, labelled, steps
from scopecheck.drafting.switches import switched
from scopecheck.drafting.turned import turned_spans
from scopecheck.drafting.whole import kept_whole
from scopecheck.drafting.work import Work
from scopecheck.exact.bare_shares import PERCENT
from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Source, Span
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.matching.said_once import basis_said, numbers_in_percent
from scopecheck.resolve.amounts import inside_amounts
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.resolve.dependencies import Reference, references
from scopecheck.vocabulary.catalogue import Phrasebook


def proposals(draft: Draft, group: bool = True) -> None:
    """Fills in the lines of each claim of a draft and the quantities they are about, in the order met.

    `group`: like parts and a composition are made of what the words say belongs together.
    """
    known = tuple(c.number for c in draft.claims)
    done: dict[str, str] = {}
    works = [_work(claim, known, group, done) for claim in draft.claims]
    _set_above(works)
    _percent_above(works)
    _by_the_basis_said(works)
    _choose_again(works)
    beside_others(works)
    call_by_signs(works)
    with_ordinals(works)
    unified(works)
    quantities = limited(works)
    quantities += chosen(works, quantities)
    quantities = in_groups(works, quantities) if group else quantities
    quantities += left_out(works, quantities)
    labelled(works)
    of_time = steps(works, quantities) if group else []
    quantities += of_time
    without_held(works)
    without_contrary(works)
    conditioned(works, quantities)
    switched(works, quantities)
    counted(works, quantities)
    summed(works, quantities)
    with_wholes(works, quantities)
    name_others(works, quantities)
    names = declared_names(quantities)
    readable = Readable(names, Phrasebook(()))
    said = {work.claim.number: work.claim.text for work in works}
    in_percent = {text for text in said.values() if numbers_in_percent([text])}
    for work in works:
        texts = [said[n] for n in (*work.above, work.claim.number)]
        names.in_percent = any(text in in_percent for text in texts)
        names.basis = basis_said(texts) if names.in_percent else ""
        propose_lines(work, readable)
    used = frozenset(name for work in works for line in work.claim.lines for name in line.names)
    ungrouped(quantities, used)
    wholes = [q.within for q in quantities if q.name in used]
    bare = [q for work in works for q in work.bare if q.within in wholes]
    bare += [q for work in works for q in work.beside]
    draft.quantities = [q for q in quantities if q.name in used or q in wholes or q in bare]
    _ask_again(works, [q for q in quantities if q not in draft.quantities])
    draft.unordered = [w.claim.number for w in works if len(w.items) > 1 and not of_time]
    draft.doubts = doubts(works, draft.quantities)


def _ask_again(works: Sequence[Work], dropped: Sequence[Quantity]) -> None:
    """Lines whose words speak of what is not declared in the end: whether they are read is open again."""
    names = [q.name.lower() for q in dropped]
    for line in (line for work in works for line in work.claim.lines if line.asked):
        line.asked = not any(name in line.words.lower() for name in names)


def _set_above(works: Sequence[Work]) -> None:
    """Sets the claims that each claim takes over; one that names a later claim takes over nothing by it."""
    found: dict[int, tuple[int, ...]] = {}
    for work in works:
        parents = [n for n in work.parents if n in found]
        work.above = tuple(sorted({*parents, *(n for parent in parents for n in found[parent])}))
        found[work.claim.number] = work.above


def _percent_above(works: Sequence[Work]) -> None:
    """`wherein C is 0.65 to 0.70`, where a claim above gave C in per cent and says that once for all."""
    known: dict[int, dict[str, tuple[Called, Stretch]]] = {}
    for work in works:
        above = {noun: found for n in work.above for noun, found in known[n].items()}
        for i, (stretch, what) in enumerate(work.limits):
            found = above.get(what.noun.lower())
            if found and stretch.unit is None and not what.counted:
                unit = found[1].unit
                figures = tuple(replace(f, unit=unit) for f in stretch.figures)
                work.limits[i] = replace(stretch, figures=figures), found[0]
        shares = (
            (w, s) for s, w in work.limits if s.unit and s.unit.kind.basis and not s.unit.kind.dimension
        )
        once = numbers_in_percent([work.claim.text])
        known[work.claim.number] = {w.noun.lower(): (w, s) for w, s in shares if once}


def _by_the_basis_said(works: Sequence[Work]) -> None:
    """`4 % of a protein` after `by weight:`, where another claim on it says `6 wt% of the protein`.

    So in a claim that takes over one with `by weight:`.
    """
    based = {
        (_ingredient(what), s.unit.symbol)
        for work in works
        for s, what in work.limits
        if what.noun and s.unit and s.unit.kind.basis and not s.unit.kind.dimension
    }
    said = {work.claim.number: work.claim.text for work in works}
    for work in works if based else ():
        basis = basis_said([said[n] for n in (*work.above, work.claim.number)])
        unit = find_unit(PERCENT[basis]) if basis in PERCENT else None
        for i, (stretch, what) in enumerate(work.limits):
            if _plain(stretch) and unit is not None and (_ingredient(what), unit.symbol) in based:
                figures = tuple(replace(f, unit=unit if f.unit else None) for f in stretch.figures)
                work.limits[i] = replace(stretch, figures=figures), what


def _ingredient(what: Called) -> str:
    """The boron of 'the boron content'."""
    first, _, last = what.noun.lower().rpartition(" ")
    return first if first and last in AMOUNTS else what.noun.lower()


def _choose_again(works: Sequence[Work]) -> None:
    """With what claims say of a list that a claim gave in full: 'the metal is copper'."""
    known: dict[str, list[str]] = {}
    for work in works:
        for choice in work.choices:
            if choice.members:
                known.setdefault(choice.noun, []).extend(choice.members)
    for work in works if known else ():
        again = [
            choice
            for choice in chosen_again(work.text, known)
            if not any(c.start < choice.end and choice.start < c.end for c in work.choices)
        ]
        work.choices += [choice for choice in again if not choice.strange]
        work.unread += [(choice.start, choice.end) for choice in again if choice.strange]


def _work(claim: DraftClaim, known: Sequence[int], group: bool, done: dict[str, str]) -> Work:
    """`done`: what each step so far is done to; a step that is done to something else is another."""
    source = Source(f"claim {claim.number}", claim.text)
    text = ClaimText.of([Span(source, 0, len(claim.text))])
    text.inside = inside_amounts(text, {})
    named = references(claim.text, claim.number, known)
    astray = [r for r in named if _goes_nowhere(r, claim.number, known)]
    places = tuple((r.start, r.end) for r in named if r not in astray)
    text.refer(places)
    nowhere = [" ".join(claim.text[r.start : r.end].split()) for r in astray]
    listing, listed_ = items(text) if group else ((0, 0), ())
    listed_ = told_apart(text, listed_, done)
    stated = with_qualifiers(text, _in_percent(text, claim.text, stretches(text, {})))
    stated = before_limits(text, with_words_around(text, stated))
    together = [j for s in stated if (j := joint(text, s)) is not None]
    of_sums = {j.stretch.start for j in together}
    found = behind_limits(text, [(s, called(text, s)) for s in stated if s.start not in of_sums])
    found, of_so_many, many = of_some(text, some_of(text), found)
    nothing = {
        s.start: of for s, c in found if s.start not in of_so_many and (of := limits_nothing(text, s, c))[1]
    }
    nothing |= _so_many_of_a_size(text, [s for s, _ in found])
    worked = formulas(text)
    whole = [*kept_whole(text, found), *many, *worked, *worked_out_of(text, stated)]
    whole += only_together(text, found)
    nothing |= {s.start: (a, b) for s, _ in found for a, b in whole if a <= s.starts[0] < b}
    together = [j for j in together if not any(a <= j.stretch.starts[0] < b for a, b in whole)]
    within = [(i.start, i.end) for i in listed_]
    around = [s for s, c in found if surroundings(text, s, c, within)]
    nothing |= {s.start: (s.starts[0] - 1, s.end) for s in around}
    kept_ = [(s, c) for s, c in found if s.start not in nothing]
    kept_ = [(s, _by_its_letter(text, s, c)) for s, c in kept_]
    limits = _without_doubtful(text, [(s, named_by_kind(c, s)) for s, c in _said_of_one(text, kept_)])
    inside = [(i.start, i.end) for i in listed_]
    only_when = [
        (s, c)
        for s, c in limits
        if s.condition
        and not a_parameter(text, s.starts[0])
        and not any(a <= s.condition < s.end <= b for a, b in inside)
    ]
    limits = [limit for limit in limits if limit not in only_when]
    limits = [(replace(s, condition=0) if a_parameter(text, s.starts[0]) else s, c) for s, c in limits]
    limits = [(s, of_item(text, s, c, listed_)) for s, c in limits]
    limits = [
        by_its_basis(text, with_basis(text, with_closing(text, s)), _in_parts(text, s, c)) for s, c in limits
    ]
    parents = tuple(n for r in named if r not in astray for n in r.numbers)
    lists = [c for c in choices(text) if not any(a <= c.start < b for a, b in whole)]
    limits = [(s, _of_the_list(text, s, c, lists)) for s, c in limits]
    # 'selected from A, B and C in a total amount of': of the list, and of no two of it
    of_lists = [j for j in together if any(o.members and o.start < j.begin < o.end for o in lists)]
    together = [j for j in together if j not in of_lists]
    limits = [(s, c) for s, c in limits if not any(o.members and o.start <= s.start < o.end for o in lists)]
    work = Work(claim, text, places, [(s, c) for s, c in limits if c.noun], lists, nowhere, parents)
    work.whole, work.formulas = whole, worked
    work.items, work.listing, work.joint = listed_, listing, together
    work.whens = only_when
    begins = {*of_so_many.values(), *(begin for begin, _ in many)}
    work.held = [*held_spans(text), *(h for h in turned_spans(text, stated) if h.first not in begins)]
    work.some = of_so_many
    work.equal = equals(text)
    beside = {at for one in work.equal for at in range(one.start, one.end)}
    work.limits = [(s, c) for s, c in work.limits if s.figures[0].start not in beside]
    kept = {s.start for s, _ in work.limits}
    left = [s for s, _ in found if s.start not in kept]
    work.unread = [(at, s.end) for s in left if (at := changed(text.texts, s))]
    work.unread += dict.fromkeys(nothing.values())
    work.unread += [(_with_amount(text.texts, j.stretch.starts[0]), j.stretch.end) for j in of_lists]
    work.unread += [(s.starts[0], s.end) for s in left if s.start not in nothing and _by_weight(text, s)]
    strange = [(s.starts[0], end) for s in left if (end := _strange_unit(text, s))]
    work.strange = _ranges_of(text.texts, strange)
    return work


def _of_the_list(text: ClaimText, stretch: Stretch, what: Called, lists: Sequence[Choice]) -> Called:
    """The salt of `a salt selected from halite and sylvite in an amount of`: none of the last named."""
    for one in lists:
        between = text.texts[one.end : stretch.starts[0]] if one.members else []
        if what.noun in one.members and between[:1] in (["in"], ["at"]) and len(between) < MOST_OF_AMOUNT:
            return replace(what, noun=one.noun)
    return what


def _with_amount(texts: list[str], at: int) -> int:
    """Where 'in a total amount of' begins before a limit."""
    begin = next((i for i in range(at - 1, max(0, at - MOST_OF_AMOUNT), -1) if texts[i] == "in"), at)
    return begin if not set(AMOUNTS).isdisjoint(texts[begin:at]) else at


MOST_OF_AMOUNT = 6
"""How many words 'in a total amount of' may have."""


def _in_percent(text: ClaimText, said: str, stated: list[Stretch]) -> list[Stretch]:
    """With the unit of `in % by mass: C: 0.60 to 0.75; Si: at most 0.3` for each number behind a colon.

    So for each of `in mole percent: 60 to 72 SiO2; 8 to 14 Al2O3`, and for a sum of several of them; and for
    plain per cent of an item of that list, `in percent by mass: 28.5 to 32.0% of R`.
    """
    basis = basis_said([said]) if numbers_in_percent([said]) else ""
    if not basis:
        return stated
    unit = find_unit(PERCENT[basis])
    begins = next((i for i in text.where.get("in", ()) if _says_percent(text.texts, i + 1)), 0)
    listed_to = next((i for i in text.where.get("wherein", ()) if i > begins), len(text.texts))
    return [
        replace(
            s, figures=tuple(replace(f, unit=unit if s.unit is None or f.unit else None) for f in s.figures)
        )
        if (
            s.unit is None
            and (
                text.texts[s.start - 1 : s.start] == [":"] or _item_beside_its_noun(text, s) or joint(text, s)
            )
        )
        or (_plain(s) and s.end < listed_to and _of_item(text, s))
        else s
        for s in stated
    ]


def _says_percent(texts: list[str], at: int) -> bool:
    """Whether 'percent by mass', 'wt%', '% by weight' stands here."""
    return not {"%", "percent", "mass", "weight", "wt", "vol", "mol"}.isdisjoint(texts[at : at + 2])


def _plain(stretch: Stretch) -> bool:
    return stretch.unit is not None and stretch.unit.symbol == "%"


def _of_item(text: ClaimText, stretch: Stretch) -> bool:
    """Whether a share is of an item of a list: `28 % of R`, `: 3 %`, `5 % copper`, not `80 % of a height`."""
    texts, end = text.texts, stretch.end
    if texts[stretch.starts[0] - 1] == ":" or _item_beside_its_noun(text, stretch):
        return True
    noun = noun_from(text, end + 1) if texts[end : end + 1] == ["of"] else ""
    return bool(noun) and noun.split()[-1] not in listed("measures", "nouns")


def _item_beside_its_noun(text: ClaimText, stretch: Stretch) -> bool:
    """Whether a number is an item of a list, of the noun beside it: `; 8 to 14 Al2O3;`, `, Si 0.4,`.

    Or so much of one thing: `impurity being present in an amount of at most 0.05`.
    """
    texts, at, end = text.texts, stretch.starts[0], stretch.end
    begin = at - (texts[at - 1] in ("and", "optionally"))
    if (behind := end + width_of(noun_from(text, end))) > end:
        return texts[behind : behind + 1] in _ENDS_OF_ITEMS and texts[begin - 1] in _PARTING
    if texts[end : end + 1] not in _ENDS_OF_ITEMS:
        return False
    start = noun_start(texts, at)
    return (start < at and texts[start - 1] in _PARTING) or texts[at - 2 : at] in _AMOUNTS


_PARTING = (":", ";", ",", "and")
_ENDS_OF_ITEMS = ([";"], [","], ["."], ["and"])
_AMOUNTS = (["amount", "of"], ["content", "of"], ["proportion", "of"])


def _said_of_one(text: ClaimText, limits: Sequence[tuple[Stretch, Called]]) -> list[tuple[Stretch, Called]]:
    """`a temperature that is lower than 72 °C and is at least 60 °C`: the second is of the same."""
    found: list[tuple[Stretch, Called]] = []
    for stretch, what in limits:
        before = found[-1] if found else None
        between = text.texts[before[0].end : stretch.starts[0]] if before else []
        alike = before and before[0].unit and stretch.unit and before[0].unit.kind == stretch.unit.kind
        counts = before and before[1].counted and before[0].unit is None and stretch.unit is None
        if (
            before
            and (alike or counts)
            and not what.noun
            and between in (["and", "is"], ["but", "is"], ["and", "being"])
        ):
            what = before[1]
        found.append((stretch, what))
    return found


def _so_many_of_a_size(text: ClaimText, stretches: Sequence[Stretch]) -> dict[int, tuple[int, int]]:
    """Both limits of `fewer than three bubbles larger than 0.2 mm`: neither is one of all the bubbles.

    So of `at least two of ten slots`.
    """
    found: dict[int, tuple[int, int]] = {}
    sized = listed("asides", "greater") | listed("asides", "lesser")
    for many, size in pairwise(stretches):
        start = size.starts[0]
        between = text.texts[many.end : start]
        beside = 0 < len(between) <= 3 and between[0] != "and" and all(word.isalpha() for word in between)
        of = between in (["of"], ["of", "the"], ["of", "said"], ["out", "of"]) and size.start == start
        if of and many.unit is None and size.unit is None and many.end == many.figures[-1].end:
            end = size.end + width_of(noun_from(text, size.end))
            found |= dict.fromkeys((many.start, size.start), (many.starts[0], end))
        if many.unit is None and size.unit is not None and beside and text.texts[start] in sized:
            found |= dict.fromkeys((many.start, size.start), (many.starts[0], size.end))
    return found


def _ranges_of(texts: Sequence[str], spans: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """`0.05 C to 0.2 C` as one stretch, and not as two."""
    found: list[tuple[int, int]] = []
    for start, end in spans:
        if found and texts[found[-1][1] : start] in (["to"], ["-"], ["and"], ["or"]):
            found[-1] = (found[-1][0], end)
        else:
            found.append((start, end))
    return found


def _strange_unit(text: ClaimText, stretch: Stretch) -> int:
    """Where a word ends that may be a unit, behind a number of what is measured; 0 if none stands there."""
    texts, end = text.texts, stretch.end
    named = texts[stretch.starts[0] - 1 : stretch.starts[0]] in (["a"], ["an"])  # 'a 6061 alloy'
    width = width_of(noun_from(text, end)) if end < len(texts) else 0
    if named or stretch.unit is not None or not width:
        return 0
    return min(end + width + per_width(texts, end + width), len(texts))


def _without_doubtful(text: ClaimText, limits: list[tuple[Stretch, Called]]) -> list[tuple[Stretch, Called]]:
    """Without numbers that a word follows which may be a unit; a second sign is of what the first is of."""
    found: list[tuple[Stretch, Called]] = []
    for stretch, what in limits:
        after = text.tokens[stretch.end].text if stretch.end < len(text.tokens) else "."
        unit = stretch.unit is not None or what.counted or what.noun.endswith(" parts")
        beside = run_at(text.texts, stretch.end, "limits", "relations")
        if not unit and after[0].isalpha() and after not in listed("nouns", "stops") and not beside:
            continue
        if found and stretch.sign and found[-1][0].sign and stretch.start - found[-1][0].end <= 2:
            what = found[-1][1]
        found.append((stretch, what))
    return found


def _by_weight(text: ClaimText, stretch: Stretch) -> bool:
    return stretch.unit is None and by_parts(text.texts, stretch.figures[-1].end) > 0


def _in_parts(text: ClaimText, stretch: Stretch, what: Called) -> Called:
    """What is told in parts by weight is another quantity than without: these are its note."""
    end = stretch.figures[-1].end
    width = by_parts(text.texts, end) if stretch.unit is None else 0
    said = " ".join(text.texts[end : end + width])
    return replace(what, under=said.replace("part ", "parts ", 1)) if said and not what.under else what


def by_its_basis(text: ClaimText, stretch: Stretch, what: Called) -> tuple[Stretch, Called]:
    """`A gauge pressure of 1.5 to 3 bar` in bar(g), with the words that say so."""
    said = _PRESSURES.intersection(what.noun.split())
    unit, texts = stretch.unit, text.texts
    told = find_unit(f"{unit.symbol}{_BASES[min(said)]}") if said and unit and not unit.kind.basis else None
    if told is None or unit is None or told.kind.dimension != unit.kind.dimension:
        return stretch, what
    near = range(stretch.starts[0] - 1, max(0, stretch.starts[0] - MOST_OF_PRESSURE), -1)
    at = next((i for i in near if texts[i] in _PRESSURES), 0)
    if not at:
        return stretch, what
    at -= texts[at - 1] in ("a", "an", "the")
    figures = tuple(replace(f, unit=told if f.unit else None) for f in stretch.figures)
    noun = " ".join(word for word in what.noun.split() if word not in _PRESSURES)
    return replace(stretch, start=at, starts=(at,), figures=figures, whole=True), replace(what, noun=noun)


_BASES = {"gauge": "(g)", "absolute": "(a)"}
_PRESSURES = frozenset(_BASES)
MOST_OF_PRESSURE = 6
"""How many words before a limit 'gauge' or 'absolute' is looked for."""


def _by_its_letter(text: ClaimText, stretch: Stretch, what: Called) -> Called:
    """`n` of `wherein n is an integer from 2 to 16`."""
    texts = text.texts
    at = stretch.starts[0] - 1
    while at > 0 and texts[at] in ("integer", "number", "whole", "natural", "positive", "an", "a", "of"):
        at -= 1
    said = texts[at + 1 : stretch.starts[0]]
    letter = text.source.text[text.tokens[at - 1].start : text.tokens[at - 1].end] if at > 0 else ""
    whole = "integer" in said or "whole" in said or "natural" in said
    if stretch.unit is None and whole and texts[at] in _STANDS and len(letter) < 3 and letter.isalpha():
        return Called(letter, "", True)
    return what


_STANDS = ("is", "being", "represents", "denotes")


def named_by_kind(what: Called, stretch: Stretch) -> Called:
    """With the word for what the unit measures, where the words beside a limit give no noun."""
    if what.noun:
        return what
    kind = kind_text(Called("", "", False), stretch.unit)
    return Called(kind.partition(" in ")[0] if " in " in kind else "", what.owner, False, True)


def _goes_nowhere(reference: Reference, number: int, known: Sequence[int]) -> bool:
    """Whether a claim names itself, a claim that is not there, or one claim twice."""
    numbers = reference.numbers
    return number in numbers or not set(numbers) <= set(known) or len(set(numbers)) < len(numbers)
