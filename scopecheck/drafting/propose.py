"""From claims to proposals: names for what is limited, lines with the claims' words, marks for the rest."""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.drafting.abbreviated import without_points
from scopecheck.drafting.around import worked_out_of
from scopecheck.drafting.as_many import counted, equals
from scopecheck.drafting.beside import a_parameter
from scopecheck.drafting.both_sides import readable_names, with_sides, without_sides
from scopecheck.drafting.by_letter import call_by_signs
from scopecheck.drafting.choices import choices, chosen_again
from scopecheck.drafting.claim_limits import (
    MOST_OF_AMOUNT,
    also_of_each,
    by_its_basis,
    by_its_letter,
    in_parts,
    limits_stated,
    named_by_kind,
    of_the_list,
    plain,
    said_of_one,
    so_many_of_a_size,
    strange_unit,
    without_doubtful,
)
from scopecheck.drafting.compared import name_others, with_wholes
from scopecheck.drafting.conditional import held_spans, without_held
from scopecheck.drafting.conditions import behind_limits
from scopecheck.drafting.contrary import without_contrary
from scopecheck.drafting.draft import Draft, DraftClaim, Quantity
from scopecheck.drafting.formulas import formulas
from scopecheck.drafting.grouped import in_groups, ungrouped
from scopecheck.drafting.in_steps import of_item, told_apart
from scopecheck.drafting.joint import joint, summed
from scopecheck.drafting.leading import AMOUNTS
from scopecheck.drafting.left_out import left_out
from scopecheck.drafting.limits import Stretch, by_parts, with_basis, with_closing
from scopecheck.drafting.lines import propose_lines
from scopecheck.drafting.naming import Called, called
from scopecheck.drafting.no_limits import limits_nothing, surroundings
from scopecheck.drafting.on_condition import conditioned
from scopecheck.drafting.only_together import only_together
from scopecheck.drafting.quantities import chosen, limited
from scopecheck.drafting.reference_values import reference_values
from scopecheck.drafting.relations import beside_others, changed
from scopecheck.drafting.same import doubts, unified, with_ordinals
from scopecheck.drafting.some_of import of_some, some_of
from scopecheck.drafting.stepped import called_by_label, items, labelled, steps
from scopecheck.drafting.switches import switched
from scopecheck.drafting.turned import turned_spans
from scopecheck.drafting.two_measures import Comparison, comparisons, goes_on, has_it_too
from scopecheck.drafting.whole import kept_whole
from scopecheck.drafting.work import Held, Work
from scopecheck.exact.bare_shares import PERCENT
from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.spans import Source, Span
from scopecheck.matching.said_once import basis_said, numbers_in_percent
from scopecheck.resolve.amounts import inside_amounts
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.resolve.dependencies import Reference, references


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
    with_sides(works)
    labelled(works)
    called_by_label(works)
    with_ordinals(works)
    unified(works)
    quantities = limited(works)
    without_sides(works)
    quantities += chosen(works, quantities)
    quantities = in_groups(works, quantities) if group else quantities
    quantities += left_out(works, quantities)
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
    names, readable = readable_names(works, quantities)
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
            if plain(stretch) and unit is not None and (_ingredient(what), unit.symbol) in based:
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
    text = without_points(ClaimText.of([Span(source, 0, len(claim.text))]))
    text.inside = inside_amounts(text, {})
    named = references(claim.text, claim.number, known)
    astray = [r for r in named if _goes_nowhere(r, claim.number, known)]
    places = tuple((r.start, r.end) for r in named if r not in astray)
    text.refer(places)
    listing, listed_ = items(text) if group else ((0, 0), ())
    work = Work(claim, text, places, [], listing=listing, items=told_apart(text, listed_, done))
    work.nowhere = [" ".join(claim.text[r.start : r.end].split()) for r in astray]
    work.parents = tuple(n for r in named if r not in astray for n in r.numbers)
    _find_limits(work)
    return work


def _find_limits(work: Work) -> None:
    """Sets the limits of a claim, what they are of, and what is kept whole, marked or left unread."""
    text = work.text
    every = limits_stated(text)
    turned = turned_spans(text, every)
    held = [*held_spans(text), *turned]
    work.comparisons = [_in_its_step(work, c) for c in _comparisons(text, every, held)]
    stated = [s for s in every if not _in_any([(c.start, c.end) for c in work.comparisons], s.starts[0])]
    together = [j for s in stated if (j := joint(text, s)) is not None]
    of_sums = {j.stretch.start for j in together}
    found = behind_limits(text, [(s, _called(work, s)) for s in stated if s.start not in of_sums])
    found, work.some, many = of_some(text, some_of(text), found)
    work.formulas = formulas(text)
    work.whole = [*kept_whole(text, found), *many, *work.formulas, *worked_out_of(text, stated)]
    work.whole += only_together(text, found)
    work.choices = [c for c in choices(text) if not _in_any(work.whole, c.start)]
    # 'selected from A, B and C in a total amount of': of the list, and of no two of it
    of_lists = [j for j in together if any(c.members and c.start < j.begin < c.end for c in work.choices)]
    whole_ = [j for j in together if _in_any(work.whole, j.stretch.starts[0])]
    work.joint = [j for j in together if j not in of_lists and j not in whole_]
    nothing = _limiting_nothing(work, found)
    _set_limits(work, [(s, c) for s, c in found if s.start not in nothing])
    begins = {*work.some.values(), *(begin for begin, _ in many)}
    compared = {c.start for c in work.comparisons}
    work.held = [h for h in held if h.start not in compared and (h.first not in begins or h not in turned)]
    work.equal = equals(text)
    beside = {at for one in work.equal for at in range(one.start, one.end)}
    work.limits = [(s, c) for s, c in work.limits if s.figures[0].start not in beside]
    kept = {s.start for s, _ in work.limits}
    left = [s for s, _ in found if s.start not in kept]
    work.unread = [(at, s.end) for s in left if (at := changed(text.texts, s))]
    work.unread += dict.fromkeys(nothing.values())
    work.unread += [
        (_with_amount(text.texts, j.stretch.starts[0]), j.stretch.end) for j in of_lists if j not in whole_
    ]
    work.unread += [(s.starts[0], s.end) for s in left if s.start not in nothing and _by_weight(text, s)]
    strange = [(s.starts[0], end) for s in left if (end := strange_unit(text, s))]
    work.strange = _ranges_of(text.texts, strange)


def _called(work: Work, stretch: Stretch) -> Called:
    """What a limit is of, where it goes on behind a comparison too."""
    text, at = work.text, stretch.starts[0]
    beside = goes_on(text, work.comparisons, at)
    return beside or has_it_too(text, work.comparisons, at, called(text, stretch))


def _in_its_step(work: Work, made: Comparison) -> Comparison:
    """With the step in which what is compared is brought in: 'heating it to a temperature above'."""
    place = Stretch(made.start, made.start, (), (made.start,))
    return replace(made, one=of_item(work.text, place, made.one, work.items))


def _comparisons(text: ClaimText, stated: Sequence[Stretch], held: Sequence[Held]) -> list[Comparison]:
    """The comparisons that hold by themselves; a difference of two is held for its own sake alone."""
    spans = [(h.start, h.end) for h in held]
    found = comparisons(text, stated)
    return [c for c in found if not _in_any([s for s in spans if s[0] != c.start], c.start)]


def _limiting_nothing(work: Work, found: Sequence[tuple[Stretch, Called]]) -> dict[int, tuple[int, int]]:
    """By limit that limits nothing here by itself, the tokens that are marked in its place."""
    text, within = work.text, [(i.start, i.end) for i in work.items]
    nothing = {
        s.start: of for s, c in found if s.start not in work.some and (of := limits_nothing(text, s, c))[1]
    }
    nothing |= so_many_of_a_size(text, [s for s, _ in found])
    nothing |= reference_values(text, [s for s, _ in found])
    nothing |= {s.start: (a, b) for s, _ in found for a, b in work.whole if a <= s.starts[0] < b}
    around = [s for s, c in found if surroundings(text, s, c, within)]
    return nothing | {s.start: (s.starts[0] - 1, s.end) for s in around}


def _set_limits(work: Work, found: Sequence[tuple[Stretch, Called]]) -> None:
    """Sets the limits that hold, and those that only say when something holds."""
    text = work.text
    found = also_of_each(text, said_of_one(text, [(s, by_its_letter(text, s, c)) for s, c in found]))
    limits = without_doubtful(text, [(s, named_by_kind(c, s)) for s, c in found])
    work.whens = [
        (s, c)
        for s, c in limits
        if s.condition
        and not a_parameter(text, s.starts[0])
        and not any(i.start <= s.condition < s.end <= i.end for i in work.items)
    ]
    for stretch, what in limits:
        if (stretch, what) in work.whens:
            continue
        s = replace(stretch, condition=0) if a_parameter(text, stretch.starts[0]) else stretch
        c = of_item(text, s, what, work.items)
        s, c = by_its_basis(text, with_basis(text, with_closing(text, s)), in_parts(text, s, c))
        c = of_the_list(text, s, c, work.choices)
        listed_ = any(o.members and o.start <= s.start < o.end for o in work.choices)
        work.limits += [(s, c)] if c.noun and not listed_ else []


def _in_any(spans: Sequence[tuple[int, int]], at: int) -> bool:
    return any(start <= at < end for start, end in spans)


def _with_amount(texts: list[str], at: int) -> int:
    """Where 'in a total amount of' begins before a limit."""
    begin = next((i for i in range(at - 1, max(0, at - MOST_OF_AMOUNT), -1) if texts[i] == "in"), at)
    return begin if not set(AMOUNTS).isdisjoint(texts[begin:at]) else at


def _ranges_of(texts: Sequence[str], spans: Sequence[tuple[int, int]]) -> list[tuple[int, int]]:
    """`0.05 C to 0.2 C` as one stretch, and not as two."""
    found: list[tuple[int, int]] = []
    for start, end in spans:
        if found and texts[found[-1][1] : start] in (["to"], ["-"], ["and"], ["or"]):
            found[-1] = (found[-1][0], end)
        else:
            found.append((start, end))
    return found


def _by_weight(text: ClaimText, stretch: Stretch) -> bool:
    return stretch.unit is None and by_parts(text.texts, stretch.figures[-1].end) > 0


def _goes_nowhere(reference: Reference, number: int, known: Sequence[int]) -> bool:
    """Whether a claim names itself, a claim that is not there, or one claim twice."""
    numbers = reference.numbers
    return number in numbers or not set(numbers) <= set(known) or len(set(numbers)) < len(numbers)
