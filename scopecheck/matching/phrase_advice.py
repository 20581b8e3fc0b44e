"""What is said where no phrase reads some words: what comes nearest, what is missing, what to lift."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from contextlib import suppress
from difflib import SequenceMatcher
from fractions import Fraction
from functools import cache, lru_cache
from itertools import pairwise

from scopecheck.core.declared import Assembly, ChoiceDecl, Composition, NumberDecl, SetDecl, Step
from scopecheck.core.formula import OTHERS
from scopecheck.foundations.diagnostics import Trouble, did_you_mean, trouble
from scopecheck.foundations.kinds import KindError, quotient_kind
from scopecheck.foundations.quantity import PLAIN_KIND, find_unit, kind_word
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import word_lists
from scopecheck.foundations.word_lists import words as word_list
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import CALENDAR, Token
from scopecheck.matching.chart import FILLERS, matches, word_of
from scopecheck.matching.entries_for import applies
from scopecheck.matching.everyday import placed_at, with_fractions
from scopecheck.matching.lifting import advised, in_symbols
from scopecheck.matching.nouns import OWN_MEASURES
from scopecheck.matching.one_quantity import what_has_so_many
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.subjects import LISTS, without_basis
from scopecheck.matching.surroundings import dangles, is_part, literals_here, longest_read
from scopecheck.vocabulary.assemblies import no_assembly
from scopecheck.vocabulary.catalogue import Phrasebook
from scopecheck.vocabulary.names import Typed, member_of, no_member, number_of
from scopecheck.vocabulary.parts import plural_of
from scopecheck.vocabulary.patterns import Pattern, Slot

Tokens = tuple[Token, ...]
_Finder = Callable[[Job, Tokens], tuple[str, str] | None]
"""Tells why words are not read, and what to write; None where it has nothing to say of them."""
NOT_READ = "no phrase reads"
"""With this the error begins for words that nothing reads; other errors are of words that are read."""
MOST_STRANGE = 4
"""So many words that no phrase has are told."""


def shortened(words: str) -> str:
    """The words as an error's heading has room for them, cut between two of them."""
    return words if len(words) <= 60 else f"{words[:57].rpartition(' ')[0]} ..."


def no_phrase(job: Job, tokens: Tokens) -> Trouble:
    """The error for words that no phrase reads, with the likeliest way to write them."""
    literals = literals_here(job)
    special = (_mean_of, _both_signs, _chain, _of_how_many, _of_a_class, _of_a_member, _member_of_others)
    several = (_several_of_one, _noted_elsewhere, _so_much_per, _so_many_in_each, _parts_alone, _one_for_each)
    return (
        _measured_from_there(job, tokens)
        or _first_told(job, tokens, special)
        or _shorter(job, tokens, literals)
        or _without_circumstance(job, tokens)
        or _of_a_list(job, tokens, literals)
        or _of_what_is_left(job, tokens)
        or (_no_step(job, tokens) if job.sort in ("steps", "sequences") else None)
        or (no_assembly(job.span(tokens), job.subjects[0].text) if isinstance(job.first, Typed) else None)
        or _first_told(job, tokens, several)
        or _for_how_long(job, tokens)
        or _share_of_undeclared(job, tokens)
        or _value_or_nearest(job, tokens, literals)
    )


_ONE_PHRASE = "The words right of a colon are read as one phrase, whole."


def _not_read(job: Job, tokens: Tokens, cause: str, help: str) -> Trouble:
    return trouble(job.span(tokens), f"{NOT_READ} '{shortened(job.text(tokens))}'", cause, help)


def _first_told(job: Job, tokens: Tokens, finders: tuple[_Finder, ...]) -> Trouble | None:
    """The error with the cause and the help of the first that finds something."""
    told = next((found for finder in finders if (found := finder(job, tokens))), None)
    return _not_read(job, tokens, *told) if told else None


def _measured_from_there(job: Job, tokens: Tokens) -> Trouble | None:
    if not (help := _without_place(job, tokens)):
        return None
    place = job.text(tokens[placed_at(tokens) :]).removeprefix("away ").partition(" ")[2]
    return _not_read(job, tokens, f"'{place}' is no declared name, so it is no value here.", help)


def _shorter(job: Job, tokens: Tokens, literals: frozenset[str]) -> Trouble | None:
    """The error that offers the longest stretch of the words that a phrase reads."""
    if not (shorter := longest_read(job, tokens, literals)):
        return None
    return _not_read(job, tokens, *advised(job, tokens, *shorter, _perhaps_unit(job, tokens)))


def _without_circumstance(job: Job, tokens: Tokens) -> Trouble | None:
    """The error that offers the words up to where or how it is measured."""
    if (at := _circumstance(job, tokens)) is None:
        return None
    limit, rest = job.text(tokens[:at]), job.text(tokens[at:])
    if any(t.number and t.number.unit for t in tokens[at:]) and _is_limit(tokens[at:]):
        help = f"lift only: {limit}; or declare by a name of its own what '{rest}' limits, and lift both"
        return _not_read(job, tokens, _LIMITS_ANOTHER, help)
    return _not_read(
        job, tokens, _HOW_MEASURED, f"lift only: {limit}; and mark the rest: not restated : {rest}"
    )


def _of_a_list(job: Job, tokens: Tokens, literals: frozenset[str]) -> Trouble | None:
    if not isinstance(job.first, LISTS):
        return None
    said = set(map(word_of, tokens))
    if {"and", "or"} <= said and "," not in said:
        name = job.subjects[0].text
        help = f'put a reading below for each way: reading "..." : ... IN {name} AND (... OR ...)'
        return _not_read(job, tokens, _WHICH_TOGETHER, help)
    return _unknown_member(job, tokens, literals)


def _of_what_is_left(job: Job, tokens: Tokens) -> Trouble | None:
    share = isinstance(job.first, Typed) and job.first.kind is not None and bool(job.first.kind.basis)
    left = share and _speaks_of_what_is_left(tokens)
    return _not_read(job, tokens, WHAT_IS_LEFT, OF_WHAT_IS_LEFT) if left else None


def _for_how_long(job: Job, tokens: Tokens) -> Trouble | None:
    help = _how_long(job, tokens)
    return _not_read(job, tokens, _ONE_PHRASE, help) if help else None


def _share_of_undeclared(job: Job, tokens: Tokens) -> Trouble | None:
    if not (whole := _of_undeclared(job, tokens)):
        return None
    cause = f"'{whole}' is no declared name, so the share is one of nothing that is known."
    return _not_read(job, tokens, cause, _of_what_it_is(job, whole))


def _value_or_nearest(job: Job, tokens: Tokens, literals: frozenset[str]) -> Trouble:
    """The error for a value that is not declared; else the one that tells the nearest wordings."""
    more = _or_in_symbols(job)
    unknown = _undeclared(job, tokens, literals)
    if unknown and not f" {unknown.lower()} ".endswith(f" of {job.subjects[0].text.lower()} "):
        return _not_read(job, tokens, *_no_value(job, unknown, more))
    near = _nearest(job, tokens)
    cause = _ONE_PHRASE + (_beside_parts(job) or _in_no_phrase(job, tokens))
    if left := _left_over(job, tokens):
        read = job.text(tokens[: len(tokens) - len(left)])
        cause = f"Read up to here: '{read}'; these words are left: '{job.text(left)}'."
    shown, telling = frozenset(map(word_of, tokens)), _telling(job, tokens)
    listed = list(dict.fromkeys(p.said_with(shown) for p in near if _shares(p, telling)))
    help = "nearest: " + "; ".join(f"'{text}'" for text in listed) if listed else ""
    cause = _operands(tokens, near) or _of_other_things(job.text(tokens), near) or cause
    return _not_read(job, tokens, cause, (help + more).removeprefix("; or "))


def _or_in_symbols(job: Job) -> str:
    """The last way out behind another help; of a field of parts that adds up, with its sum."""
    more = f"; or {in_symbols(job)}"
    field = job.place.names.field_of(job.subjects[0].text) if job.subjects else None
    first = job.of_parts.each[0] if job.of_parts is not None else None
    if field and isinstance(first, Typed) and first.kind and first.kind.adds_up:
        more += f" such as SUM {field[0][0].name} ({field[1]}) >= ... for all together"
    return more


def _of_a_class(job: Job, tokens: tuple[Token, ...]) -> tuple[str, str] | None:
    """Why `film : a polymer selected from gum and starch` is not read, where the polymers are a class."""
    made, said = job.first, f" {' '.join(map(word_of, tokens))} "
    if not isinstance(made, Composition):
        return None
    for name, members in made.classes:
        named = any(f" {called} " in said for called in (name.lower(), plural_of(name.lower())))
        spoken = [m for m in made.members if m != OTHERS and f" {m.lower()} " in said]
        if named and spoken and set(spoken) <= set(members):
            cause = f"'{name}' is a class of {made.name}: what is said of its members is said of {name}."
            return cause, f"write: {name} : {job.text(tokens)}"
    return None


def _of_a_member(job: Job, tokens: tuple[Token, ...]) -> tuple[str, str] | None:
    """Why `thickener : at most 1 wt% of pectin` is not read, where pectin is one of the thickeners."""
    name, said = job.subjects[0].text, f" {' '.join(map(word_of, tokens))} "
    classes = (of for made in job.place.names.compositions.values() for of in made.classes)
    members = next((below for above, below in classes if above == name), ())
    spoken = [m for m in members if f" {m.lower()} " in said]
    if len(job.subjects) != 1 or not spoken:
        return None
    cause = f"'{spoken[0]}' is one of {name}: what the words limit stands left of the colon."
    return cause, f"write: {', '.join(spoken)} : {job.text(tokens)}"


def _member_of_others(job: Job, tokens: tuple[Token, ...]) -> tuple[str, str] | None:
    """Why `copper, tin and salts thereof` is not read, and what to write: salts are no listed member."""
    said, name = [word_of(t) for t in tokens], job.subjects[0].text
    start = next(
        (i for i in range(len(said) - 2, 0, -1) if said[i] in ("and", "or", ",", "a", "an", "any")), 0
    )
    other = job.text(tokens[start + 1 : -1]) if said[-1] == "thereof" and start else ""
    mixed = other.lower().removesuffix("s") in ("mixture", "combination", "blend")
    if not other or mixed or not isinstance(job.first, SetDecl | ChoiceDecl):
        return None
    members = ", ".join((*(m for m in job.first.members if m != OTHERS), other))
    kind = "any of" if isinstance(job.first, SetDecl) else "one of"
    return (
        f"'{other} thereof' is no member of {name}.",
        f"add '{other}' to its list, as in: {name}  {kind} {members}; and keep the words",
    )


def _unknown_member(job: Job, tokens: tuple[Token, ...], literals: frozenset[str]) -> Trouble | None:
    """That what a list of members in the words has is none of them; None where there is no such list."""
    listing = job.first
    if not isinstance(listing, LISTS):
        return None
    loose = matches(tokens, job.place.phrases, job.tests(any_item=True))
    for fill in (f for m in loose for f in m.fills if f.slot.kind == "list"):
        for member in fill.members:
            member = member[len(member) > 1 and word_of(member[0]) in ("is", "are", "being") :]
            said = set(map(word_of, member)) - FILLERS
            if isinstance(listing, Assembly):
                said -= NUMBER_WORDS.keys()
            ends = (member, member[1:]) if len(member) > 1 else (member,)
            known = any(member_of(listing, job.text(end)) for end in ends)
            if literals.isdisjoint(said) and not known:
                if beside := _beside_members(job, member):
                    return trouble(job.span(tokens), f"{NOT_READ} '{shortened(job.text(tokens))}'", *beside)
                return no_member(listing, job.text(member), job.span(member))
    return None


def _beside_members(job: Job, tokens: tuple[Token, ...]) -> tuple[str, str] | None:
    """That `solder is made of zinc` names no member, and what to lift of it; None where it may name one."""
    listing, said = job.first, [word_of(t) for t in tokens]
    if not isinstance(listing, SetDecl | ChoiceDecl):
        return None
    members = (*listing.members, *(name for name, _ in listing.classes))
    own = {w for m in (*members, job.subjects[0].text) for w in m.lower().split()}
    never = word_list("names", "no_member") - own
    beside = next((i for i, w in enumerate(said) if w in never or (w == "of" and i == 0)), None)
    if beside is None:
        return None
    name = job.subjects[0].text
    cause = f"'{said[beside]}' is in no member's name. The members of {name}: {', '.join(members)}."
    verb = next((i for i, w in enumerate(said) if i and w in ("is", "are", "being")), 0)
    alone = tokens[verb:] if verb else ()
    if alone and job.readable(alone):
        return cause, f"lift only: {job.text(alone)}"
    return cause, in_symbols(job)


def _of_other_things(words: str, near: Sequence[Pattern]) -> str:
    """That the very words are a phrase, of other things than what stands to the left; else ''."""
    same = any(p.plain.lower() == " ".join(words.lower().split()) for p in near)
    return "These words are a phrase of other things than what stands left of the colon." if same else ""


def _noted_elsewhere(job: Job, tokens: tuple[Token, ...]) -> tuple[str, str] | None:
    """`a multiple of the number of planet gears`, of what the note of another count calls so; else None."""
    names, said = job.place.names, [word_of(t) for t in tokens]
    left = [s.text for s in job.subjects]
    for name in names.all():
        noted = [w for w in names.note_of(name).lower().split() if w not in FILLERS]
        behind = next((i for i in range(1, len(said)) if noted and said[i : i + len(noted)] == noted), 0)
        if name in left or not behind or behind + len(noted) != len(said) or "of" not in said[:behind]:
            continue
        called = " ".join(noted)
        if names.declared(called) or names.step(called):
            continue  # the words name that, and nothing by its note
        cause = f"'{called}' stands in the note of {name}, which does not stand left of the colon."
        return cause, f"write both left of the colon: {', '.join([*left, name])} : {job.text(tokens)}"
    return None


def _one_for_each(job: Job, tokens: tuple[Token, ...]) -> tuple[str, str] | None:
    """What to write of `2 and 4 mm, respectively` where things and limits do not go together; else None."""
    if word_list("asides", "in_order").isdisjoint(map(word_of, tokens)) or len(job.subjects) < 2:
        return None
    names = ", ".join(s.text for s in job.subjects)
    cause = f"'Respectively' gives each of these its own limit, in this order: {names}."
    return (
        cause,
        f"write the things in the order of the words, or a line for each: {job.subjects[0].text} : ...",
    )


def _so_much_per(job: Job, tokens: tuple[Token, ...]) -> tuple[str, str] | None:
    """What to write of `20 mg of the extract per cm2 of film`, of a mass and an area; else None."""
    kinds = [s.bound.kind for s in job.subjects if isinstance(s.bound, Typed) and s.bound.kind]
    units = [t.number.unit for t in tokens if t.number and t.number.unit]
    if not units or not 0 < len(kinds) == len(job.subjects) <= len(_AMOUNT_AND_WHOLE) or job.sort:
        return None
    said, amount, first = [word_of(t) for t in tokens], units[-1], job.subjects[0].text
    name, symbol = " per ".join(s.text for s in job.subjects), ""
    with suppress(KindError):
        both = len(kinds) == len(_AMOUNT_AND_WHOLE)
        symbol = amount.symbol if both and amount.kind == quotient_kind(*kinds) else ""
    for at in (i for i, w in enumerate(said) if w == "per" and i and amount.kind == kinds[0]):
        for end in (at + 3, at + 2):
            unit = find_unit(" ".join(said[at + 1 : end])) if end <= len(said) else None
            if unit is not None and kinds[1:] in ([unit.kind], []):
                name = name if len(kinds) > 1 else f"{first} per {job.text(tokens[at + 1 : end])}"
                symbol = symbol or f"{amount.symbol}/{unit.symbol}"
    if not symbol:
        return None
    return (
        f"So much {symbol} is one quantity, and no limit of {' or of '.join(s.text for s in job.subjects)}.",
        f"declare it, as in: {name}  in {symbol}; and write: {name} : {job.text(tokens)}",
    )


def _so_many_in_each(job: Job, tokens: tuple[Token, ...]) -> tuple[str, str] | None:
    """What to write of `at most 44 candidates in each slot`, of a number of candidates; else None."""
    if not (help := note_of_each(job, tokens)):
        return None
    return f"'{job.subjects[0].text}' is one number, and may be that of all of them together.", help


def note_of_each(job: Job, tokens: tuple[Token, ...]) -> str:
    """How to say that a count is that of each of what has so many; '' for other words."""
    behind = what_has_so_many(job, tokens)
    if not behind:
        return ""
    name = job.subjects[0].text
    return f'if {name} counts those of one, say so where it is declared: {name}  count  "{job.text(behind)}"'


_AMOUNT_AND_WHOLE = ("amount", "whole")
"""Of two things the first is so much per the second."""


def _in_no_phrase(job: Job, tokens: tuple[Token, ...]) -> str:
    """The words that stand in no phrase and no name, in a sentence: what the line may trip over; else ''."""
    known = job.place.phrases.words() | job.tests().own_words
    known |= {w for name in job.place.names.all() for w in name.lower().split()}
    known |= FILLERS | NUMBER_WORDS.keys() | word_lists()["fractions"].keys()
    known |= {w for m in getattr(job.first, "members", ()) for w in m.lower().split()}
    nouns = {word_of(t) for before, t in pairwise(tokens) if word_of(before) in _BEFORE_NOUNS}
    words = (
        t.text for t in tokens if t.sort == "word" and len(t.text) > 1 and word_of(t) not in known | nouns
    )
    strange = list(dict.fromkeys(f"'{word}'" for word in words))[:MOST_STRANGE]
    return f" No phrase has these words: {', '.join(strange)}." if strange else ""


def _beside_parts(job: Job) -> str:
    """That one of the things has a value for each of several, in a sentence; else ''."""
    parts = next((s for s in job.subjects if s.of_parts), None)
    if len(job.subjects) < 2 or parts is None:
        return ""
    return f" '{parts.text}' is a value of each, of which few phrases are read beside something else."


def _no_value(job: Job, unknown: str, more: str) -> tuple[str, str]:
    """Why words are no value to set something beside, and what to write."""
    left = job.subjects[0].text
    if _bare(unknown).lower() == left.lower():
        return (
            f"'{unknown}' is what stands left of the colon, and no value to set it beside.",
            more.removeprefix("; or "),
        )
    if of_each := job.place.names.field_of(_bare(unknown)):
        part, own = of_each[0][0].name, of_each[1]
        cause = f"'{unknown}' has a value of its own for each {part}, and is no one value here."
        said = f"write it in symbols after the words: two blanks, exactly, facts, such as EVERY {part} ("
        return cause, f"{said}{left} >= {own})"
    if changing := next((w for w in unknown.lower().split() if w in word_list("limits", "changes")), ""):
        cause = f"'{changing}' tells a change, of which the limit is the end: {left} is one value."
        return cause, f"declare that end by a name of its own, such as: end {left}  {_like_first(job)}{more}"
    cause = f"'{unknown}' is no declared name, so it is no value here."
    return cause, f"declare it under this name: {_bare(unknown)}  {_like_first(job)}{more}"


_BEFORE_NOUNS = frozenset("the a an its their said of".split())
"""Right behind these stands what is spoken of, which hinders no phrase."""
_WHICH_TOGETHER = "'And' beside 'or' leaves open which of the members belong together."
_CIRCUMSTANCES = frozenset("in at when while under during with after before as if".split())
_HOW_MEASURED = (
    "How a thing is measured, or in which state, is said where it is declared: in the quotes behind it."
)


def _circumstance(job: Job, tokens: tuple[Token, ...]) -> int | None:
    """Where words begin that say how it is measured, behind a whole limit; None if they do not."""
    first = next((i for i, t in enumerate(tokens) if t.number), len(tokens))
    for at in range(first + 1, len(tokens) - 1):
        if word_of(tokens[at + 1]) in ("least", "most"):
            continue
        limits = any(_may_limit(job, t) for t in tokens[at:])
        if word_of(tokens[at]) == "in" and word_of(tokens[at + 1]) in OWN_MEASURES:
            continue  # '3 mm in radius' is another measure
        if word_of(tokens[at + 1]) in _QUANTIFYING:
            continue  # 'at some point' says where the limit holds, and where it need not
        if word_of(tokens[at]) in _CIRCUMSTANCES and not limits and job.readable(tokens[:at]):
            return at
    return None


_QUANTIFYING = word_list("limits", "quantifying")


def _is_limit(tokens: tuple[Token, ...]) -> bool:
    """`at 72 °C or higher`: is more said of the value than that it is that one?"""
    sides = word_list("limits", "inside") - FILLERS - {*_CIRCUMSTANCES}
    return not sides.isdisjoint(map(word_of, tokens))


_LIMITS_ANOTHER = "Where the rest limits something else, that is a line of its own."


def _of_how_many(job: Job, tokens: tuple[Token, ...]) -> tuple[str, str] | None:
    """Why `2 mm in at least 90 % of the samples` is no limit of each, and what to write; None for others."""
    said = [word_of(t) for t in tokens]
    first = next((i for i, t in enumerate(tokens) if t.number), len(tokens))
    for at in range(first + 1, len(tokens) - 3):
        of = next((i for i in range(at + 1, len(said) - 1) if said[i] == "of" and is_part(tokens[i - 1])), 0)
        if said[at] not in ("in", "for", "on", "over", "across", "within", "along") or not of:
            continue
        limit, share, name = tokens[:at], tokens[at + 1 : of], job.subjects[0].text
        if job.readable(limit):
            whole = job.text(tokens[of + 1 :])
            cause = f"The words say of how many of {whole} the limit holds: without that it holds of all."
            note = f"of {whole}, with {name} {job.text(limit)}"
            own = f"share so  share in %  {chr(34)}{note}{chr(34)}"
            return cause, f"declare that share: {own}; and write: share so : {job.text(share)}"
    return None


def _may_limit(job: Job, token: Token) -> bool:
    """May a word behind a limit say more of that limit: a deviation, how close, how wide at most?"""
    word, number = word_of(token), token.number
    kind = job.first.kind if isinstance(job.first, Typed) else None
    own = number is not None and (number.unit is None or number.unit.kind == kind)
    extreme = word.endswith("est") and len(word) > 4
    compared = word in ("compared", "relative", "than", "against")
    return (
        own or extreme or compared or word.startswith(("toleran", "deviat")) or token.text[:1] in ("+", "±")
    )


def _perhaps_unit(job: Job, tokens: tuple[Token, ...]) -> str:
    """What to do if the word behind the last number, and behind all, is a unit; '' where it is none."""
    numbers = [i for i, t in enumerate(tokens) if t.number]
    word = tokens[-1]
    if not numbers or numbers[-1] != len(tokens) - 2 or word.sort != "word":
        return ""
    number, own = tokens[-2].number, job.tests().own_words
    if not isinstance(job.first, Typed) or job.first.whole or word_of(word) in own:
        return ""
    if number is None or number.unit is not None:
        return ""
    unit, name = word.text, job.subjects[0].text
    if unit == "C":
        return f"; or, if that is a rate of charging, declare: {name}  in 1/h; and keep the words"
    return f"; or, if {unit} is a unit, write in the head: unit {unit}, and declare: {name}  in {unit}"


def _parts_alone(job: Job, tokens: tuple[Token, ...]) -> tuple[str, str] | None:
    """Cause and help where words say so many parts of one of two things, and not to how many; else None."""
    said = [word_of(t) for t in tokens]
    if len(job.subjects) != 2 or "parts" not in said or not _SO_MANY_TO.isdisjoint(said):
        return None
    lift = f"lift these as well: per 100 parts by weight of {job.subjects[1].text} ... {job.text(tokens)}"
    return _PARTS_OF_NOTHING, lift


_PARTS_OF_NOTHING = "So many parts are counted beside so many of something else, which these words leave out."
_SO_MANY_TO = frozenset("per based relative respect relation hundred 100".split())


def _speaks_of_what_is_left(tokens: tuple[Token, ...]) -> bool:
    """`the balance being water`, `and the rest water`."""
    said = [word_of(t) for t in tokens]
    return not word_list("asides", "what_is_left").isdisjoint(said) or ("the", "rest") in pairwise(said)


WHAT_IS_LEFT = "What is left of a whole is no limit of one share by itself."
OF_WHAT_IS_LEFT = (
    "declare the whole with its ingredients as a composition, whose shares add up to 100 %, and write: "
    "name of the composition : the balance being ...; or mark the words: not restated : ..."
)
_SEVERAL = frozenset("mixture mixtures combination combinations blend blends both".split())


def _several_of_one(job: Job, tokens: tuple[Token, ...]) -> tuple[str, str] | None:
    """Cause and help where words let in several members of what is declared to have one; else None."""
    if not isinstance(job.first, ChoiceDecl) or _SEVERAL.isdisjoint(map(word_of, tokens)):
        return None
    name, members = job.first.name, ", ".join(m for m in job.first.members if m != OTHERS)
    cause = f"{name} is declared as one of its members, so that several at once are no value of it."
    return cause, f"declare it as a set: {name}  any of {members}"


def _left_over(job: Job, tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """The words behind a complete phrase that has a number, where they have none; else ()."""
    last = max((i for i, t in enumerate(tokens) if t.number), default=len(tokens))
    for end in range(len(tokens) - 1, last, -1):
        ends = word_of(tokens[end]) not in ("per", "/", "or", "and", "to") and not dangles(tokens[:end])
        if ends and job.readable(tokens[:end]):
            while end - 1 > last and word_of(tokens[end - 1]) in FILLERS and job.readable(tokens[: end - 1]):
                end -= 1
            return tokens[end:]
    return ()


def _of_what_it_is(job: Job, whole: str) -> str:
    """What to write where it is not known of what the words speak as a whole."""
    help = f"declare it under this name: {_bare(whole)}  {_like_first(job)}"
    own = job.first
    if not isinstance(own, Typed) or own.kind is None or own.kind.dimension or own.whole:
        return help
    name = job.subjects[0].text
    return f'if {name} is the share of it, say so in the note behind {name}: "of {whole}"; else {help}'


def _of_undeclared(job: Job, tokens: tuple[Token, ...]) -> str:
    """What a share is one of, 'the thickness of the plate', where no declaration has that name; else ''."""
    if len(job.subjects) != 1 or not isinstance(job.first, Typed):
        return ""
    quotient = job.on(Typed(job.first.term, PLAIN_KIND))
    said = with_fractions(tokens)
    for at in (i for i, t in enumerate(said) if word_of(t) == "of" and 0 < i < len(said) - 1):
        limit, named = said[:at], said[at + 1 :]
        plain = all(t.sort == "word" and word_of(t) not in NUMBER_WORDS for t in named)
        if plain and any(map(is_part, limit)) and quotient.readable(without_basis(limit)):
            return job.text(named)
    return ""


def _like_first(job: Job) -> str:
    """How the first thing left of the colon is declared, to be written of another one."""
    own = job.place.names.declared(job.subjects[0].text)
    if not isinstance(own, NumberDecl):
        return "length in mm (or its own kind)"
    if own.whole:
        return "count"
    if not own.kind.dimension:
        return f"share in {own.unit.symbol}" if own.kind.basis else "number"
    level = own.kind.basis == "level" and own.unit.symbol == "degC"
    return f"temperature in {own.unit.symbol}" if level else f"in {own.unit.symbol}"


def bare_parts_per(job: Job, tokens: tuple[Token, ...]) -> Trouble | None:
    """The error for `less than 50 ppm`, which leaves open of what; the claim's words stay as they are."""
    for number, word in pairwise(tokens):
        if number.number and word_of(word) in ("ppm", "ppb"):
            thing = job.subjects[0].text if job.subjects else "iron"
            said = f"{number.number.text} {word.text}"
            return trouble(
                job.span((number, word)),
                f"'{said}' leaves open whether the parts are by mass, by volume or by mole",
                "The words stay as the claim has them; the declaration says on which basis they count.",
                f"declare {thing} as a share in {word.text} by mass, by volume or by mole; keep the words",
            )  # fmt: skip
    return None


def parts_of_no_whole(job: Job, tokens: tuple[Token, ...]) -> Trouble | None:
    """The error for `5 to 10 parts by weight of frit`, which is so much beside parts of something else."""
    said = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(said) - 1) if said[i] in ("part", "parts") and said[i + 1] == "by"), 0)
    beside = {"per", "based", "relative", "respect"}
    if not at or not tokens[at - 1].number or not beside.isdisjoint(said[at:]):
        return None
    thing = job.subjects[0].text if job.subjects else "frit"
    return trouble(
        job.span(tokens[at - 1 : at + 3]),
        f"'{job.text(tokens[at - 1 : at + 3])}' says how much there is beside parts of something else",
        "Parts are no share of a whole: only what two things come to beside each other is limited.",
        f'declare {thing}  number  "parts by {said[at + 2]}", and so the others; or restate their ratio',
    )


def bare_letter_c(job: Job, tokens: tuple[Token, ...]) -> Trouble | None:
    """The error for `at most 0.2 C` of what is declared neither as a temperature nor as a charging rate."""
    kind = job.first.kind if isinstance(job.first, Typed) else None
    at = next((i for i, (n, c) in enumerate(pairwise(tokens)) if n.number and c.text == "C"), None)
    if at is None or kind is None or not kind.dimension:
        return None
    number = tokens[at].number
    said, thing = f"{number.text if number else ''} C", job.subjects[0].text
    return trouble(
        job.span(tokens[at : at + 2]), f"'{said}' leaves open what C is",
        "C is a coulomb to some, a degree to others and a rate of charging to a third.",
        f"declare {thing} in 1/h where C is a rate of charging, in degC where it is a degree, in A.s where it"
        " is a coulomb; keep the words",
    )  # fmt: skip


def _mean_of(job: Job, tokens: tuple[Token, ...]) -> tuple[str, str] | None:
    """Why `a mean pore diameter of 9 nm` is no limit of a pore diameter, and what to write; else None."""
    said = [word_of(t) for t in tokens if word_of(t) not in ("a", "an", "the")]
    name = job.subjects[0].text.lower() if len(job.subjects) == 1 else ""
    which = said[0] if said and said[0] in ("mean", "median") else ""
    if not which or not name or said[1 : 1 + len(name.split())] != name.split():
        return None
    cause = "A mean of several values is another quantity than each of them."
    return (
        cause,
        f"declare it under this name: {which} {name}  {_like_first(job)}; and write it left of the colon",
    )


def _both_signs(job: Job, tokens: tuple[Token, ...]) -> tuple[str, str] | None:
    """Why `a voltage of ±12 V` is no phrase, and what to write; else None."""
    at = next((i for i, t in enumerate(tokens) if t.text in ("±", "+/-")), len(tokens))
    value = next((t.text for t in tokens[at + 1 : at + 2] if t.number), "")
    if not value or len(job.subjects) != 1 or any(t.number for t in tokens[:at]):
        return None
    name = job.subjects[0].text
    if not _STEADY.isdisjoint(map(word_of, tokens)):
        return (
            f"How far {name} varies is another quantity than {name} itself.",
            f"declare it, as in: {name} variation  {_like_first(job)}; and write: {name} variation : within"
            f" ±{value}",
        )
    return (
        f"'±{value}' alone may be all from -{value} to {value}, or the one or the other of these.",
        f'put a reading below for each way: reading "between" : -{value} <= {name} <= {value}, and reading'
        f' "either" : {name} = -{value} OR {name} = {value}',
    )


_STEADY = word_list("limits", "steady")


def _chain(job: Job, tokens: tuple[Token, ...]) -> tuple[str, str] | None:
    """Why a ratio of 1:2:3 between as many things is no phrase, and what to write; else None."""
    names = [s.text for s in job.subjects]
    written = [w.rstrip(",.;").split(":") for w in job.text(tokens).split() if w.count(":") > 1]
    plain = all(n.replace(".", "").isdecimal() for numbers in written for n in numbers)
    if not 1 <= len(written) <= 2 or not plain or any(len(numbers) != len(names) for numbers in written):
        return None
    low, high = ([Fraction(a) / Fraction(b) for a, b in pairwise(n)] for n in (written[0], written[-1]))
    pairs = zip(pairwise(names), low, high, strict=True)
    facts = ", ".join(
        f"{a} / {b} = {one}" if one == other else f"{min(one, other)} <= {a} / {b} <= {max(one, other)}"
        for (a, b), one, other in pairs
    )
    cause = "A ratio of more than two numbers is no phrase; each two of them are one."
    return cause, f"write the meaning in symbols after the words: two blanks, exactly {facts}"


def _without_place(job: Job, tokens: tuple[Token, ...]) -> str:
    """What to write for `within 3 mm of the rim` where the distance itself is measured; else ''."""
    at, first = placed_at(tokens), job.first
    if (
        not at
        or "or" in map(word_of, tokens[at:])
        or not isinstance(first, Typed)
        or first.kind is None
        or job.is_number(tokens[at + 1 :])
    ):
        return ""
    limit = next(t.number for t in tokens if t.number)
    if limit.unit is None or not limit.unit.kind.dimension or limit.unit.kind != first.kind:
        return ""
    if not job.readable(tokens[:at]):
        return ""
    return f"if {job.subjects[0].text} is measured from there, lift only: {job.text(tokens[:at])}"


def _how_long(job: Job, tokens: tuple[Token, ...]) -> str:
    """What to write for `duration of heating : for 5 min`, or `heating : at least 5 min`; else ''."""
    names, text = job.place.names, job.subjects[0].text if job.subjects else ""
    step = names.step(text.removeprefix("duration of "))
    if step is None or not step.duration or not tokens:
        return ""
    if word_of(tokens[0]) == "for" and job.readable(tokens[1:]):
        return f"write {step.name} : {job.text(tokens)}, or leave out the 'for': {job.text(tokens[1:])}"
    said = [word_of(t) for t in tokens]
    beside = said[said[0] == "without" :]  # 'without rinsing'
    alone = (_BESIDE_OTHERS | word_list("limits", "conditions")).isdisjoint(beside) and len(job.subjects) == 1
    if step.done and sum(w in _DENYING for w in said) == 1 and alone:
        return f"write in symbols after the words: two blanks, exactly NOT DONE({step.name})"
    long = names.declarations[step.duration]
    assert isinstance(long, NumberDecl)
    timed = any(t.number and t.number.unit for t in tokens) and "every" not in said
    if timed and isinstance(job.first, Step) and job.on(number_of(long), text).readable(tokens):
        return f"for how long it takes, write duration of {step.name} : {job.text(tokens)}"
    return ""


_BESIDE_OTHERS = frozenset("before after until during while when if once only prior without".split())
_DENYING = frozenset("without no not never absence free omitted skipped".split())


def _no_step(job: Job, tokens: tuple[Token, ...]) -> Trouble | None:
    """The error for words that are a phrase but for a step that is not declared."""

    def words(part: tuple[Token, ...]) -> bool:
        return len(part) <= 3 and all(t.sort == "word" for t in part)

    names = job.place.names
    for match in matches(tokens, job.place.phrases, replace(job.tests(), step=words)):
        for fill in (f for f in match.fills if f.slot.kind == "step" and not job.is_step(f.tokens)):
            said = _bare(job.text(fill.tokens))
            known = tuple(step.name for step in names.steps.values())
            often, _, once = said.partition(" ")
            if often in ("each", "every") and names.step(once):
                return trouble(
                    job.span(fill.tokens), f"{once} is declared as a step, which is done once",
                    "What is done several times is declared as like parts with a time of their own.",
                    f"write {once}  part, up to 4, and indented below it: moment  time in h",
                )  # fmt: skip
            return trouble(
                job.span(fill.tokens), f"no step is declared as '{said}'", "",
                did_you_mean(said, known) or f"declare it, for example: {said}  step in min",
            )  # fmt: skip
    return None


def _undeclared(job: Job, tokens: tuple[Token, ...], literals: frozenset[str]) -> str:
    """The words that would have to be a declared name for a phrase to read all; '' if there are none."""
    known = {w for name in job.place.names.all() for w in name.lower().split()}

    def number(part: tuple[Token, ...]) -> bool:
        words = list(map(word_of, part))
        measures = {w for w in words if kind_word(w) is not None}
        said = literals.isdisjoint(set(words) - FILLERS - measures) and words[-1] not in FILLERS
        told = len(words) > 2 and words[0] in ("the", "said")
        named = (told or not known.isdisjoint(words)) and all(t.sort == "word" for t in part)
        named = named and _STATES.isdisjoint(words) and "per" not in words
        return job.is_number(part) or (said and named and words[0] not in FILLERS - _ARTICLES)

    loose = replace(job.tests(), number=number, subjects=0)
    for match in matches(tokens, job.place.phrases, loose):
        for fill in match.fills:
            if fill.slot.kind not in ("noun", "list", "limit") and not job.is_number(fill.tokens):
                return job.text(fill.tokens)
    return ""


def _operands(tokens: tuple[Token, ...], near: list[Pattern]) -> str:
    """A sentence on the number of values, if a near phrase has all these words and takes others."""
    words = [word_of(t) for t in tokens if not t.number and word_of(t) not in FILLERS]
    numbers = sum(1 for t in tokens if t.number)
    for pattern in near:
        known = {o for need in pattern.required for o in need}
        slots = [s for s in pattern.slots if s.kind not in ("noun", "list", "limit")]
        if words and slots and known.issuperset(words) and len(slots) != numbers:
            values = f"{len(slots)} value{'s' * (len(slots) > 1)}"
            return f"'{pattern.plain}' takes {values}; here {_stand(numbers)}."
    return ""


def _nearest(job: Job, tokens: tuple[Token, ...]) -> list[Pattern]:
    """The patterns all of whose words stand in these, in their order, those with the rarest words first; then
    the patterns most like the words."""
    skeleton = ["(" if job.is_number((t,)) else word_of(t) for t in tokens]
    held = _held_in(job, skeleton)
    return [*held, *(p for p in _most_like(job, skeleton) if p not in held)][:MOST_NEAR]


def _telling(job: Job, tokens: tuple[Token, ...]) -> set[str]:
    """The words that tell what is meant; all of them where none tells more than others."""
    said = {word_of(t) for t in tokens if t.sort == "word"}
    return said - _NOT_TELLING - FILLERS - job.tests().own_words or said


_NOT_TELLING = word_list("mention", "not_telling")


def _shares(pattern: Pattern, telling: set[str]) -> bool:
    """Does the pattern have most of the words that tell what is meant, or nearly these?"""
    literals = {o for need in pattern.required for o in need}
    shared = sum(any(w == o or _alike(w, o) for o in literals) for w in telling)
    return 2 * shared >= len(telling)


MOST_NEAR = 3
LEAST_HELD = 3
"""With fewer words of its own a pattern says too little of what was meant."""


def _held_in(job: Job, skeleton: list[str]) -> list[Pattern]:
    """The patterns whose words are said, in their order, and as many numbers as they take."""
    every = [(e, p) for e in job.place.phrases.all() if not e.settled for p in e.patterns]
    rare = _how_often(job.place.phrases)
    numbers, found = skeleton.count("("), list[tuple[float, int, Pattern, frozenset[str]]]()
    for order, (entry, pattern) in enumerate(every):
        valued = sum(s.kind not in ("noun", "list", "limit", "outcome", "condition") for s in pattern.slots)
        fits = applies(job, entry) and valued <= numbers
        said = _in_order(pattern, skeleton) if fits else ()
        if len(said) >= LEAST_HELD or (said and valued and valued == numbers and len(said) > 1):
            weight = -sum(1 / rare[word] for word in said) - 0.01 * valued
            found.append((weight, order, pattern, frozenset(said)))
    kept = list[tuple[Pattern, frozenset[str]]]()
    for _, _, pattern, words in sorted(found, key=lambda f: f[:2]):
        if not any(words <= more for _, more in kept):
            kept.append((pattern, words))
    return [pattern for pattern, _ in kept]


@lru_cache(2)
def _how_often(phrases: Phrasebook) -> Counter[str]:
    """In how many patterns a word stands."""
    every = (p for e in phrases.all() if not e.settled for p in e.patterns)
    return Counter(word for p in every for need in p.required for word in need)


def _in_order(pattern: Pattern, skeleton: list[str]) -> tuple[str, ...]:
    """The words of the pattern as they are said here, one behind the other; none if one is not."""
    said, at = list[str](), 0
    for need in pattern.required:
        at = next((i + 1 for i in range(at, len(skeleton)) if skeleton[i] in need), 0)
        if not at:
            return ()
        said.append(skeleton[at - 1])
    return tuple(said)


def _most_like(job: Job, skeleton: list[str]) -> list[Pattern]:
    """The patterns most like the words, of those that share one with them that is no article or the like."""
    scored: list[tuple[float, int, Pattern]] = []
    order, said = 0, set(skeleton) - FILLERS - _JOINING
    for entry in (e for e in job.place.phrases.all() if not e.settled):
        fits = applies(job, entry)
        for pattern in entry.patterns:
            order += 1
            literals = [o for need in pattern.required for o in need]
            if entry.takes(pattern) > max(1, len(job.subjects)):
                continue
            if any(_is_of_own_unit(o) and o not in skeleton for o in literals):
                continue  # a wording in units of its own
            telling = set(literals) - FILLERS - _JOINING
            if not telling & said and not any(_alike(w, o) for w in said for o in telling):
                continue
            other = ["(" if isinstance(e, Slot) else e.options[0][0].lower() for e in pattern.elements]
            ratio = SequenceMatcher(None, " ".join(skeleton), " ".join(other)).ratio()
            scored.append((-(ratio + (0.2 if fits else 0)), order, pattern))
    return [pattern for _, _, pattern in sorted(scored, key=lambda s: s[:2])[:MOST_NEAR]]


_JOINING = frozenset("and or to by for from on as than no not , ( )".split())


@cache
def _is_of_own_unit(word: str) -> bool:
    return bool(find_unit(word)) or word in CALENDAR or word in ("billion", "million", "trillion")


@cache
def _alike(word: str, other: str) -> bool:
    """Is one word much like the other? The cheap bounds come first."""
    pair = SequenceMatcher(None, word, other)
    return pair.real_quick_ratio() > 0.75 and pair.quick_ratio() > 0.75 and pair.ratio() > 0.75


_STATES = frozenset("is are was were has have present absent".split())
"""Words that say something of a thing, which are no part of a name."""
_ARTICLES = frozenset(("a", "an", "the", "said"))


def _bare(words: str) -> str:
    first, _, rest = words.partition(" ")
    return rest if first.lower() in _ARTICLES and rest else words


def _stand(count: int) -> str:
    return "stands one" if count == 1 else f"stand {count or 'none'}"
