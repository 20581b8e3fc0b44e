"""Ways to read words on compositions, classes of ingredients and lists: how much, and of which."""

from __future__ import annotations

from contextlib import suppress
from fractions import Fraction

from scopecheck.core.declared import ChoiceDecl, Composition, NumberDecl, SetDecl
from scopecheck.core.formula import Add, All, Compare, Const, Formula, Implies
from scopecheck.foundations.diagnostics import Diagnostic, Trouble
from scopecheck.foundations.record import record, replace
from scopecheck.language.number_words import ONE_OR_MORE
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.chart import word_of
from scopecheck.matching.phrase_finding import Job, Read
from scopecheck.matching.subjects import Subject
from scopecheck.matching.together import accounts_for, says_together
from scopecheck.resolve.left_unsaid import none_of_some, unheard
from scopecheck.resolve.line_reader import LineReader
from scopecheck.rewording.amount_behind import amounts_behind
from scopecheck.rewording.forms import words_at
from scopecheck.rewording.ingredients import (
    by_ingredient,
    closed_list,
    closes,
    closing,
    named_in,
    opening,
    parted_at_balance,
    without_verb,
)
from scopecheck.rewording.one_phrase import is_read, whole
from scopecheck.rewording.two_limits import DENIED_WITH_THEM, which_is_of_what
from scopecheck.vocabulary.names import Typed, number_of

_SELECTED = ("selected", "chosen")
_BEFORE_SELECTED = frozenset("of a an the which is are being ,".split())
_AMOUNTS = ("amount", "amounts", "content", "quantity")


def class_and_its_amount(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`0.1 to 0.5 % of at least one of A and B`, `a salt selected from A and B in an amount of 0.1 %`, of
    a class of ingredients: how much, and of which; None where a member of the class is not among these.

    Of what is not there nothing is selected.
    """
    if len(subjects) != 1 or subjects[0].parts is None or subjects[0].parts.sort != "classes":
        return None
    said = [word_of(t) for t in tokens]
    chosen_from = next((i for i, w in enumerate(said) if w in _SELECTED), 0)
    of = next(
        (
            i
            for i in range(1, len(said))
            if said[i] == "of" and (said[i + 1 : i + 4] in ONE_OR_MORE or 2 <= chosen_from - i <= 4)
        ),
        0,
    )
    amount = next(
        (i for i in range(3, len(said)) if said[i] in _AMOUNTS and said[i + 1 : i + 2] == ["of"]), 0
    )
    behind = amount and (said[:3] in ONE_OR_MORE or 0 < chosen_from < amount)
    start = max((i for i in range(amount) if said[i] == "in"), default=0) if behind else 0
    which = tokens[of + 1 :] if of else tokens[:start]
    much = tokens[:of] if of else tokens[start + 1 :]
    if not which or not much or not any(t.number for t in much):
        return None
    other = f"other {subjects[0].text.lower()}"
    members = subjects[0].mixture.members if subjects[0].mixture is not None else ()
    listed = f" {' '.join(map(word_of, which))} "
    so_much = Words(words.text, much, words.span)
    if not all(f" {m.lower()} " in listed for m in members if m.lower() != other):
        return _amount_of_some(
            reader, (*much, *words_at(which[0], "of", understood=True), *which), words, subjects
        )
    with suppress(Trouble):
        reader.trying().condition(so_much, subjects)
        if reader.trying().if_read(which, words, subjects) is not None:
            chosen = reader.if_read(which, words, subjects)
            assert isinstance(subjects[0].bound, Typed)
            _tell_of_others(reader, other in map(str.lower, members), words, subjects[0])
            there = Compare(">", subjects[0].bound.term, Const(Fraction(0)))
            of_what = (Implies(there, chosen),) if chosen is not None else ()
            return All((reader.condition(so_much, subjects), *of_what))
    return None


def _amount_of_some(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`at most 5 % of one or more waxes selected from A and B`, of waxes with C: of those that are named.

    Whether others of the class may be there beside them is read as it is without the amount, and so is
    how many are, of `a wax selected from A and B`; where none of those named is there, nothing is selected.
    """
    made = subjects[0].mixture
    selected = _selection(tokens, subjects[0].text)
    if not isinstance(made, Composition) or selected is None:
        return None
    said = f" {' '.join(map(word_of, tokens))} "
    shares = {n: d for n in made.members if isinstance(d := reader.names.declarations.get(n), NumberDecl)}
    some = tuple(
        Subject(number_of(share), name, subjects[0].span)
        for name, share in shares.items()
        if f" {name.lower()} " in said
    )
    of_these = Words(words.text, selected.amount, words.span)
    if len(some) < 2 or not reader.trying().holds(of_these, some):
        return None
    chosen = reader.if_read(selected.chosen, words, subjects) if selected.chosen else None
    if selected.chosen and chosen is None:
        return None
    for member in some:
        reader.names.speak(member.text)
    amount = reader.condition(of_these, some)
    named = Add(tuple(s.bound.term for s in some if isinstance(s.bound, Typed)))
    there = Compare(">", named, Const(Fraction(0)))
    return All((amount, Implies(there, chosen))) if chosen is not None else amount


@record
class _Selection:
    """The words of an amount of one or more of a list; and those that tell which, where they tell more."""

    amount: tuple[Token, ...]
    chosen: tuple[Token, ...]


def _selection(tokens: tuple[Token, ...], own: str) -> _Selection | None:
    """`5 % of one or more waxes selected from A and B`, `5 % of a wax selected from A and B`; else None."""
    said = [word_of(t) for t in tokens]
    several = next((i for i in range(len(said)) if said[i : i + 3] in ONE_OR_MORE), 0)
    if several:
        of_these = tokens[several:] if _names_a_group(tokens[several:]) else ()
        return _Selection(_without_mixtures(tokens) if of_these else tokens, of_these)
    at = next((i for i, w in enumerate(said) if w in _SELECTED), 0)
    noun = ["of", "a", *own.lower().split()]
    end = at - (2 if said[at - 2 : at] in (["which", "is"], ["that", "is"]) else 0)
    start = end - len(noun)
    if start < 1 or said[start:end] not in (noun, ["of", "an", *noun[2:]]):
        return None
    of_any = words_at(tokens[start], "of one or more", understood=True)
    return _Selection((*tokens[:start], *of_any, *tokens[at:]), (*tokens[start + 1 : end], *tokens[at:]))


def _without_mixtures(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`alumina, boehmite and mixtures thereof` without the mixtures, of which an amount says no more."""
    said = [word_of(t) for t in tokens]
    start = len(said) - next((n for n in (3, 4) if said[-n : -n + 1] in (["and"], ["or"], ["and/or"])), 0)
    mixed = said[-1:] == ["thereof"] and said[-2] in _MIXTURES
    if not mixed or start == len(said):
        return tokens
    kept = tokens[: start - (said[start - 1] == ",")]
    last = next((i for i in range(len(kept) - 1, 0, -1) if word_of(kept[i]) == ","), 0)
    joined = any(word_of(t) in ("and", "or") for t in kept[last:])
    return (
        kept if joined or not last else (*kept[:last], replace(tokens[start], text="and"), *kept[last + 1 :])
    )


_MIXTURES = frozenset("mixture mixtures combination combinations blend blends".split())


def _names_a_group(tokens: tuple[Token, ...]) -> bool:
    """`selected from the group consisting of`: do the words tell of others, beside those that they name?"""
    said = [word_of(t) for t in tokens]
    return any(said[i : i + 3] == ["group", "consisting", "of"] for i in range(len(said)))


def _tell_of_others(reader: LineReader, there: bool, words: Words, of: Subject) -> None:
    """A warning that members nobody named count in an amount of the class."""
    told = Diagnostic(
        "warning", words.span, f"the amount is read as that of the whole class '{of.text}'",
        "The class has room for members that its line does not name.",
        "of those named alone, put these left of the colon, with commas",
    )  # fmt: skip
    if there and not reader.tried and told not in reader.groups.passed:
        reader.groups.passed.append(told)


def amount_of_one_chosen(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`dye, dyes : optionally up to 5 % of a dye selected from A and B`: how much, and which.

    Of what is not there nothing is selected.
    """
    if len(subjects) != 2 or not isinstance(subjects[1].bound, SetDecl | ChoiceDecl):
        return None
    amount = subjects[0].bound
    said = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(said) if w in _SELECTED and i), 0)
    if not at or not isinstance(amount, Typed) or amount.whole or amount.kind is None:
        return None
    own = {form for w in subjects[0].text.lower().split() for form in (w, w + "s")}
    end, chosen_from = at, tokens[at:]
    while end:
        if said[end - 3 : end] in ONE_OR_MORE:
            end, chosen_from = end - 3, (*tokens[end - 3 : end], *tokens[at:])
        elif said[end - 1] in _BEFORE_SELECTED | own:
            end -= 1
        else:
            break
    how_much = reader.job(tokens[:end], words, subjects[:1]) if end else None
    chosen = reader.job(chosen_from, words, subjects[1:])
    if how_much is None or not is_read(*how_much) or not is_read(*chosen):
        return None
    there = Compare(">", amount.term, Const(Fraction(0)))
    return All((whole(*how_much), Implies(there, whole(*chosen))))


def of_each_ingredient(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """Words about a composition as read of the ingredients that they name, each by itself."""
    made = subjects[0].bound
    if len(subjects) > 1 or not isinstance(made, Composition):
        return None
    jobs: list[Read] = []
    closed, rest = closing(made, tokens)
    if closed:
        jobs.append(reader.job(closed, words, subjects))
        if not is_read(*jobs[0]):
            return None
    for name, said in by_ingredient(made, rest):
        if closed and not any(t.number for t in said):
            continue
        share = reader.names.declarations[name]
        assert isinstance(share, NumberDecl)
        one = (Subject(number_of(share), name, subjects[0].span),)
        tried = (reader.job(t, words, one) for t in (said, without_verb(said)) if t)
        found = next((job for job in tried if is_read(*job)), None)
        if found is None or unheard(said, words, one, reader.names):
            return None
        jobs.append(found)
        told = none_of_some(said, words, one, reader.names)
        reader.groups.passed += [told] if told and told not in reader.groups.passed else []
    for job, _ in jobs[bool(closed) :]:
        reader.names.speak(job.subjects[0].text)
    parts = tuple(whole(*job) for job in jobs)
    return All(parts) if len(parts) > 1 else next(iter(parts), None)


def of_named_ingredients(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`free of talc and mica`, `comprising wax and oil in a total amount of at most 5 wt%`, of a
    composition, as of both; None where it is not read so."""
    made = subjects[0].bound if len(subjects) == 1 else None
    if not isinstance(made, Composition) or made.name != subjects[0].text or closes(tokens):
        return None
    shares = (reader.names.declarations[name] for name in named_in(made, tokens))
    members = tuple(
        Subject(number_of(share), share.name, subjects[0].span)
        for share in shares
        if isinstance(share, NumberDecl)
    )
    if len(members) < 2:
        return None
    amounts = any(t.number for t in tokens)
    said = Words(words.text, without_verb(tokens) if amounts else tokens, words.span)
    with suppress(Trouble):
        reader.trying().condition(said, members)
        for member in members:
            reader.names.speak(member.text)
        return reader.condition(said, members)
    return None


def of_ingredients_together(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`comprising at least one of wax and oil in a total amount of 2 wt%`, behind all of the names."""
    made = subjects[0].bound if len(subjects) == 1 else None
    if not isinstance(made, Composition) or not (says_together(words.text) or accounts_for(tokens)):
        return None
    first = next((i for i, t in enumerate(tokens) if t.number), len(tokens))
    behind = f" {' '.join(map(word_of, tokens[first:]))} "
    if any(f" {name.lower()} " in behind for name in made.members):
        return None
    return of_named_ingredients(reader, tokens, words, subjects)


def beside_a_balance(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`at least 50 wt% of wax, the remainder being oil and water`, of a composition, as two lines."""
    rest, balance = parted_at_balance(tokens)
    made = subjects[0].bound
    if len(subjects) != 1 or not isinstance(made, Composition) or not balance:
        return None
    for name in named_in(made, tokens):
        reader.names.speak(name)  # the balance asks what else is recited, before the rest is read
    closed: tuple[Token, ...] = ()
    if head := opening(rest):
        rest = rest[head:]
        amounts = by_ingredient(made, rest)
        closed = closed_list(tokens, [*amounts, *((name, ()) for name in named_in(made, balance))])
    sides = [Words(words.text, side, words.span) for side in (closed, rest, balance) if side]
    with suppress(Trouble):
        for side in sides:
            reader.trying().condition(side, subjects)
        return All(tuple(reader.condition(side, subjects) for side in sides))
    return None


def these_but_not_those(
    reader: LineReader, tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...]
) -> Formula | None:
    """`copper or zinc but not tin`, of a list: both, each as a line by itself would be."""
    if len(subjects) != 1 or not isinstance(subjects[0].bound, SetDecl | ChoiceDecl):
        return None
    said = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(said) - 2) if said[i : i + 2] == ["but", "not"]), 0)
    sides = tokens[: at - (said[at - 1] == ",")], tokens[at + 1 :]
    if not at or any(reader.trying().if_read(side, words, subjects) is None for side in sides):
        return None
    return All(tuple(f for side in sides if (f := reader.if_read(side, words, subjects)) is not None))


def combined_amounts(reader: LineReader, words: Words, subjects: tuple[Subject, ...]) -> Formula | None:
    """`Salt together with at most 5 wt% of sugar`, which is no limit of both, as two lines."""
    return amount_of_the_last(
        reader, tuple(t for t in words.tokens if t.sort != "gap"), words, subjects, True
    )


def amount_of_the_last(
    reader: LineReader,
    tokens: tuple[Token, ...],
    words: Words,
    subjects: tuple[Subject, ...],
    together: bool = False,
) -> Formula | None:
    """`contains salt but less than 2 wt% of sugar`, of several amounts or a composition, as two lines.

    `together`: of words joined by 'together with' alone. Raises Trouble where that is not
    read, and where the last amount may be denied with the words before it.
    """
    made = subjects[0].bound if len(subjects) == 1 else None
    if isinstance(made, Composition) and made.name == subjects[0].text:
        shares = {n: d for n in made.members if isinstance(d := reader.names.declarations.get(n), NumberDecl)}
        things = tuple(Subject(number_of(d), n, subjects[0].span) for n, d in shares.items())
    elif len(subjects) > 1 and all(isinstance(s.bound, Typed) and s.parts is None for s in subjects):
        things = subjects
    else:
        return None
    for way in amounts_behind(tokens, tuple(s.text for s in things)):
        if together and not way.before:
            raise which_is_of_what(words.span, DENIED_WITH_THEM)
        if together != way.together:
            continue
        said = f" {' '.join(map(word_of, way.before))} "
        last = tuple(s for s in things if s.text == way.name)
        before = tuple(s for s in subjects if f" {s.text.lower()} " in said)
        if made is not None:
            before = subjects
        elif len({s.text for s in (*before, *last)}) < len(subjects) or before in ((), last):
            continue
        job = Job(reader.place, subjects, words, frozenset())
        each = ((way.before, before), (way.amount, last))
        halves = [(Words(job.text(t), t, job.span(t)), of) for t, of in each]
        if all(reader.trying().holds(half, of) for half, of in halves):
            for name in (s.text for s in things if s in last or f" {s.text.lower()} " in said):
                reader.names.speak(name)
            return All(tuple(reader.condition(half, of) for half, of in halves))
        if together:
            raise which_is_of_what(words.span, DENIED_WITH_THEM)
    return None
