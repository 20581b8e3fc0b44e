"""What is said more plainly in other words, tried only where nothing reads the words as they stand.

Nothing here changes what is said: whoever reads the words in either way reads the same limit.
"""

from __future__ import annotations

from itertools import pairwise

from scopecheck.core.declared import ChoiceDecl, Step
from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.quantity import PLAIN_KIND, find_unit, kind_word
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import COMBINATIONS, has_number, word_of
from scopecheck.matching.circumstances import IN_EACH, SO_MANY_PER, SO_OFTEN
from scopecheck.matching.subjects import Subject, is_bare_share
from scopecheck.rewording.forms import with_forms, with_runs, words_at
from scopecheck.rewording.multiples import with_folds
from scopecheck.rewording.plainer_amounts import (
    NO_NAME,
    OPEN_WORDS,
    of_any_of_them,
    of_what_holds_it,
    selected_from,
    with_basis_in_commas,
    with_change_from,
    with_excess,
    with_free_of,
    with_mixtures_alone,
    with_only_behind,
    with_parts_of_a_hundred,
    with_presence,
    with_same_amount,
    without_body_weight,
    without_both_before,
    without_comprising,
    without_content,
    without_own_basis,
)
from scopecheck.rewording.plainer_counts import (
    number_per_each,
    with_different_number,
    with_each_multiple,
    with_ends_said,
    with_least_beside,
    with_limit_before,
    with_limits_joined,
    with_names_noted,
    with_neither_as_not,
    with_note_behind_name,
    with_number_per,
    with_numbers_of_each,
    with_one_for_every,
    with_one_in_so_many,
    with_outnumbering,
    with_pairs_counted,
    with_state_before_noun,
    with_total_of,
    with_what_both_have,
    with_which_named,
    without_apart,
    without_commas_round_equal,
    without_holding,
    without_names_before_each_other,
    without_noted_lead,
    without_number_before,
    without_plurality,
)
from scopecheck.rewording.plainer_members import members_plainly
from scopecheck.rewording.plainer_numbers import (
    from_the_first,
    if_and_only_if,
    of_any_two,
    of_each_other,
    of_some_of_them,
    of_the_class,
    so_often,
    with_average_before,
    with_each,
    with_ends_limited,
    with_members_alone,
    with_multiples,
    with_noted_name,
    with_smaller_in,
    with_stroke,
    with_tolerance_of_a_value,
    with_which_is,
    with_within_behind,
    without_as_large_as,
    without_bearer,
    without_containing,
    without_either_direction,
    without_field_behind_differ,
    without_less_behind_within,
    without_what_is_done,
)
from scopecheck.rewording.plainer_parts import parts_plainly
from scopecheck.rewording.plainer_shares import shares_plainly, with_part_of_the_other
from scopecheck.rewording.plainer_states import STATES, in_mode, states_plainly
from scopecheck.rewording.plainer_steps import steps_plainly
from scopecheck.rewording.plainer_values import (
    in_the_state,
    of_the_greatest,
    with_amount_per,
    with_change_named,
    with_doubled,
    with_limits_before,
    with_measure_unsaid,
    with_numbers_alone,
    with_variation,
    without_by,
    without_nominal_of_name,
    without_noted_behind,
    without_noted_noun_before_inclusive,
    without_only,
    without_own_noun,
    without_threshold,
)
from scopecheck.rewording.plainer_written import (
    SAYS_WHICH,
    with_carbon_atoms,
    with_each_first,
    with_noted_plural,
    with_number_said,
    with_per_unit,
    with_pressure_in_brackets,
    with_times_before_name,
    without_basis_of_share,
    without_colon,
    without_inclined,
    without_intervals,
    without_leading_by,
    without_measures_behind,
    without_of_again,
    without_own_kind,
    without_own_measure_behind,
    without_relative,
    without_short_name,
    without_thereof,
    without_what_is_noted,
)
from scopecheck.vocabulary.names import Bound, Typed

Tokens = tuple[Token, ...]
_DETERMINERS = frozenset(("the", "a", "an"))
_TOLERANCES = ("±", "+/-")


def plainer(tokens: Tokens, subjects: tuple[Subject, ...], notes: tuple[str, ...] = ()) -> Tokens:
    """The words said more plainly; the same words where there is no other way to say them.

    `notes` are those of the declarations of what stands left of the colon.
    """
    tokens = with_state_before_noun(tokens, subjects[0]) if len(subjects) == 1 else tokens
    changes = any(set(s.text.lower().split()) & listed("beside", "other_values") for s in subjects)
    tokens = tokens if changes or len(subjects) > 1 else _without_leading_to(tokens)
    tokens = with_forms(with_folds(_with_condition_first(tokens)), "forms_of_times")
    tokens = with_forms(with_ends_limited(tokens, subjects), "plainer_forms")
    if listed("limits", "conditions").isdisjoint(map(word_of, tokens)):
        tokens = with_forms(tokens, "exceeding_forms")  # by so much, and no value of which it passes
    tokens = with_amount_per(with_per_unit(tokens, subjects), subjects, notes)
    tokens = with_variation(with_measure_unsaid(tokens, subjects), subjects, notes)
    tokens = with_change_named(tokens, subjects)
    tokens = without_measures_behind(tokens, subjects, notes) if len(subjects) > 1 else tokens
    tokens = with_each_first(with_runs(without_threshold(tokens), "plainer_runs"), subjects)
    tokens = with_forms(tokens, "plainer_forms")
    for said in (
        _without_dots_of_units,
        _with_both_ends_within,
        _without_measure_before,
        _without_per_unit,
        with_basis_in_commas,
        _with_parted_fractions,
        _with_half_before_unit,
        _without_nominal,
        _with_tolerance_behind,
        _with_open_ends,
        _with_condition_behind,
        _with_presence_behind,
        without_body_weight,
        _without_setting,
        _without_use_behind,
        without_either_direction,
        with_within_behind,
        with_multiples,
        with_tolerance_of_a_value,
        with_average_before,
        without_less_behind_within,
        without_as_large_as,
        from_the_first,
        with_smaller_in,
        if_and_only_if,
        without_by,
        with_limits_before,
        with_pressure_in_brackets,
        without_colon,
        with_number_said,
        without_commas_round_equal,
        with_least_beside,
        without_plurality,
        with_neither_as_not,
        with_ends_said,
        with_each_multiple,
        with_limit_before,
    ):
        tokens = said(tokens) if tokens else tokens
    of_parts = bool(subjects) and subjects[0].parts is not None
    tokens = tokens if of_parts else without_apart(tokens, subjects, notes)
    tokens = states_plainly(tokens, subjects) if tokens else tokens
    tokens = members_plainly(tokens, subjects) if tokens else tokens
    tokens = steps_plainly(tokens, subjects) if tokens else tokens
    tokens = parts_plainly(tokens, subjects) if tokens else tokens
    tokens = shares_plainly(with_part_of_the_other(tokens, subjects), subjects) if tokens else tokens
    tokens = number_per_each(with_names_noted(tokens, subjects, notes), subjects) if tokens else tokens
    tokens = (
        without_noted_lead(without_short_name(tokens, subjects, notes), subjects, notes) if tokens else tokens
    )
    tokens = with_note_behind_name(tokens, subjects, notes) if tokens else tokens
    for said_of in (
        with_pairs_counted,
        with_total_of,
        with_numbers_of_each,
        with_different_number,
        with_outnumbering,
        with_one_for_every,
        with_what_both_have,
        with_limits_joined,
        with_which_named,
        without_names_before_each_other,
        with_number_per,
        without_number_before,
        with_one_in_so_many,
        without_holding,
    ):
        tokens = said_of(tokens, subjects) if tokens else tokens
    tokens = with_each(without_field_behind_differ(tokens, subjects), subjects) if tokens else tokens
    tokens = with_stroke(of_the_class(tokens, subjects), subjects) if tokens else tokens
    tokens = without_leading_by(without_of_again(tokens, subjects), subjects, notes) if tokens else tokens
    tokens = in_mode(tokens if of_parts else without_intervals(tokens, subjects), subjects)
    tokens = without_basis_of_share(with_times_before_name(tokens, subjects), subjects) if tokens else tokens
    tokens = of_any_two(of_some_of_them(of_each_other(tokens, subjects), subjects), subjects)
    tokens = in_the_state(with_doubled(without_nominal_of_name(tokens, subjects), subjects), subjects)
    if len(subjects) == 1:
        tokens = without_thereof(without_relative(tokens, subjects[0]), subjects[0]) if tokens else tokens
        tokens = with_numbers_alone(without_inclined(tokens, subjects[0]), subjects[0])
        tokens = with_carbon_atoms(without_only(tokens, subjects[0]), subjects[0], notes)
        tokens = without_own_kind(with_noted_plural(tokens, subjects[0], notes), subjects[0])
        tokens = without_own_measure_behind(without_what_is_noted(tokens, notes), subjects[0], notes)
        tokens = of_the_greatest(tokens, subjects)
        tokens = without_own_noun(without_noted_behind(tokens, notes), subjects[0], notes)
        tokens = without_noted_noun_before_inclusive(tokens, subjects[0], notes)
        tokens = _with_measure_last(tokens)
        tokens = with_which_is(so_often(tokens, subjects[0].bound), subjects[0].bound)
        tokens = without_what_is_done(with_members_alone(tokens, subjects[0].bound), subjects[0])
        tokens = without_bearer(tokens, subjects[0]) if tokens else tokens
        tokens = with_noted_name(without_containing(tokens, subjects[0].listing), subjects[0], notes)
        tokens = _without_name_behind(_without_verb_of_name(tokens, subjects[0]), subjects[0].text)
        tokens = _without_needless(tokens, subjects[0], notes)
        tokens = _without_noted_whole(tokens, subjects[0], notes)
        tokens = _in_the_first(_for_so_long(tokens, subjects[0].bound), subjects[0], notes)
        tokens = _with_times_per(tokens, subjects[0].bound)
        tokens = _with_temperature_behind(tokens, subjects[0].bound)
        tokens = _with_value_named(tokens, subjects[0].text)
        tokens = selected_from(with_mixtures_alone(tokens), subjects[0].bound)
        tokens = _without_comprising(tokens, subjects[0].bound)
        tokens = of_what_holds_it(tokens, subjects[0].text)
        tokens = with_only_behind(tokens, subjects[0].bound)
        tokens = with_free_of(tokens, subjects[0].text)
        tokens = _without_comma_before_inclusive(tokens, subjects[0])
    tokens = with_change_from(with_excess(tokens, subjects), subjects) if tokens else tokens
    tokens = with_parts_of_a_hundred(without_both_before(tokens, subjects), subjects)
    tokens = without_comprising(tokens, subjects)
    tokens = with_same_amount(tokens, subjects)
    tokens = without_own_basis(of_any_of_them(tokens, subjects), subjects)
    tokens = _in_a_state(_without_what_is_counted(tokens, subjects), subjects)
    tokens = _without_their(tokens, subjects)
    tokens = _with_same_or_more(_with_both_alike(tokens, subjects, notes), subjects)
    return with_presence(without_content(tokens, subjects), subjects)


def _without_dots_of_units(tokens: Tokens) -> Tokens:
    """`from 40° C. to 90° C.` without the points that only close an abbreviation."""
    return tuple(
        t
        for at, t in enumerate(tokens)
        if not (t.text == "." and at and (n := tokens[at - 1].number) and n.unit and at + 1 < len(tokens))
    )


def _without_leading_to(tokens: Tokens) -> Tokens:
    """`to a value of 4.2 or lower`, `to between 80 and 90 %`, of what is brought there, without the `to`.

    `To 90 %` alone may be the end of a range.
    """
    words = [word_of(t) for t in tokens[:3]]
    to = len(words) > 2 and words[0] == "to" and len(tokens) > 3 - (words[1] in _BROUGHT_TO)
    return tokens[1:] if to and words[1] in _DETERMINERS | _BROUGHT_TO else tokens


_BROUGHT_TO = frozenset("at between from about approximately less more not no above below under over".split())


def _with_measure_last(tokens: Tokens) -> Tokens:
    """`4 mm thick or thicker` as 4 mm or thicker thick: what is said behind limits is looked at there."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(words) - 2) if words[i] in SAYS_WHICH and words[i + 1] == "or"), 0)
    number = tokens[at - 1].number if at else None
    if number is None or number.unit is None or at + 3 != len(words) or words[-1] not in _OR_MORE:
        return tokens
    return (*tokens[:at], *tokens[at + 1 :], tokens[at])


_OR_MORE = frozenset(
    "more less greater larger smaller longer shorter wider narrower thicker thinner higher lower taller"
    " deeper above below over under".split()
)


def _with_both_ends_within(tokens: Tokens) -> Tokens:
    """`within 0.8 and 1.25` as between both; `within 3.4-3.8 GHz` as 3.4-3.8 GHz."""
    words = [word_of(t) for t in tokens]
    joined = words[:1] == ["within"] and words[2:3] in (["-"], ["–"], ["to"])
    joined = joined and (len(words) == 4 or words[4:5] == ["of"])
    if joined and tokens[1].number and tokens[3].number:
        return tokens[1:]
    for at in range(len(words) - 3):
        if (
            words[at] == "within"
            and words[at + 2] == "and"
            and tokens[at + 1].number
            and tokens[at + 3].number
        ):
            return (*tokens[:at], replace(tokens[at], text="between"), *tokens[at + 1 :])
    return tokens


def _without_measure_before(tokens: Tokens) -> Tokens:
    """`an HLB value less than 10` as an HLB value of less than 10."""
    words = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(words) if w in _LIMITS_BEGIN), 0)
    noun = words[at - 1] if 1 < at < 6 and words[0] in _DETERMINERS else ""
    measured = noun == "value" or noun in listed("measures", "nouns")
    if noun in COMBINATIONS and words[at] == "between":
        return tokens  # 'the difference between A and B' has its two things there, and no limit
    if not measured or not all(t.sort == "word" for t in tokens[:at]) or "of" in words[:at]:
        return tokens
    return (*tokens[:at], replace(tokens[at], text="of", end=tokens[at].start), *tokens[at:])


def _without_per_unit(tokens: Tokens) -> Tokens:
    """`a mass per unit area of 2 to 6 g/m2` without what the unit says."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(words) - 3) if words[i : i + 2] == ["per", "unit"]), 0)
    divided = any(t.number and t.number.unit and "/" in t.number.unit.symbol for t in tokens[at:])
    return (*tokens[:at], *tokens[at + 3 :]) if at and divided and words[at + 2] in _PER_UNIT else tokens


_PER_UNIT = frozenset("area length volume mass weight width time".split())
_LIMITS_BEGIN = frozenset("greater less more at between within from exceeding above below not no up".split())


def _in_a_state(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`at least 16 degC in a cooling mode` as when it is in that mode."""
    members = {m.lower() for s in subjects if isinstance(s.bound, ChoiceDecl) for m in s.bound.members}
    words = [word_of(t) for t in tokens]
    found = list[Token]()
    for at, token in enumerate(tokens):
        state = words[at] == "in" and words[at + 1 : at + 2] and words[at + 1] in _DETERMINERS
        named = state and words[at + 3 : at + 4] and words[at + 3] in STATES and words[at + 2] in members
        if named and (not found or word_of(found[-1]) != "when"):
            found.append(replace(token, text="when", end=token.start))
        found.append(token)
    return tuple(found)


def _without_needless(tokens: Tokens, subject: Subject, notes: tuple[str, ...]) -> Tokens:
    """`12 consecutive weeks` as 12 weeks, `eight different sizes` of a number of sizes as eight sizes."""
    own = f"{subject.text} {' '.join(notes)}".lower().split()
    found = list[Token]()
    for at, token in enumerate(tokens):
        before, behind = found[-1] if found else None, tokens[at + 1] if at + 1 < len(tokens) else None
        counted = before is not None and (before.number or word_of(before) in NUMBER_WORDS)
        if not counted or before is None or behind is None or behind.sort != "word":
            found.append(token)
            continue
        unit = find_unit(behind.text) if word_of(token) in _IN_A_ROW else None
        if unit is not None and unit.kind.dimension == TIME:
            continue
        if word_of(token) in _NOT_THE_SAME and word_of(behind) in own and _is_whole(subject.bound):
            continue
        found.append(token)
    return _with_units_joined(tuple(found))


def _without_noted_whole(tokens: Tokens, subject: Subject, notes: tuple[str, ...]) -> Tokens:
    """`at least 10 % of the servers` without what the note says that it is a share of."""
    words, noted = [word_of(t) for t in tokens], {w.strip(",;") for w in " ".join(notes).lower().split()}
    of = max((i for i, w in enumerate(words) if w == "of"), default=0)
    behind = [w for w in words[of + 1 :] if w not in _DETERMINERS and w not in ("its", "their", "said")]
    share = of > 0 and is_bare_share(tokens[of - 1]) and isinstance(subject.bound, Typed)
    own = share and isinstance(subject.bound, Typed) and subject.bound.kind == PLAIN_KIND
    return tokens[:of] if own and behind and noted.issuperset(behind) else tokens


def _with_units_joined(tokens: Tokens) -> Tokens:
    """A number with the unit of time that stands behind it now."""
    found = list[Token]()
    for token in tokens:
        number = found[-1].number if found else None
        unit = find_unit(token.text) if number and number.unit is None and token.sort == "word" else None
        if number and unit is not None and unit.kind.dimension == TIME:
            found[-1] = replace(found[-1], number=replace(number, unit=unit), end=token.end)
        else:
            found.append(token)
    return tuple(found)


_IN_A_ROW = ("consecutive", "successive", "continuous", "uninterrupted")
_NOT_THE_SAME = ("different", "distinct")


def _in_the_first(tokens: Tokens, subject: Subject, notes: tuple[str, ...]) -> Tokens:
    """`within the first 10 minutes`, of when something starts, as within 10 minutes."""
    kind = subject.bound.kind if isinstance(subject.bound, Typed) else None
    words = [word_of(t) for t in tokens]
    own = {w.strip(",;()") for text in (subject.text, *notes) for w in text.lower().split()}
    first = len(words) == 4 and words[1:3] == ["the", "first"] and words[0] in ("within", "in", "during")
    if not first or kind is None or kind.dimension != TIME or not tokens[3].number or not own & _STARTING:
        return tokens
    return (replace(tokens[0], sort="word", text="within"), tokens[3])


_STARTING = frozenset("start onset begin beginning moment instant arrival delay after since".split())


def _for_so_long(tokens: Tokens, subject: Bound) -> Tokens:
    """`20 minutes or longer` of a step as for so long; of a duration, `for one hour` without the 'for'."""
    first, *rest = tokens if len(tokens) > 1 else (*tokens, *tokens)
    timed = isinstance(subject, Typed) and subject.kind is not None and subject.kind.dimension == TIME
    if timed and word_of(first) == "for" and (has_number(rest[0]) or word_of(rest[0]) in _BESIDE_TIMES):
        return tuple(rest)
    units = [t.number.unit for t in tokens if t.number and t.number.unit]
    lasts = bool(units) and all(u.kind.dimension == TIME for u in units)
    words = [word_of(t) for t in tokens]
    at = any(w == "at" and then not in ("least", "most") for w, then in pairwise([*words, ""]))
    others = (w for w, t in zip(words, tokens, strict=True) if not t.number)
    if not isinstance(subject, Step) or not lasts or at or not _BESIDE_TIMES.issuperset(others):
        return tokens
    return (replace(tokens[0], sort="word", text="for", number=None, end=tokens[0].start), *tokens)


_BESIDE_TIMES = frozenset(
    "at least most or more less longer shorter not than no from to between and up about approximately".split()
)


def _with_times_per(tokens: Tokens, subject: Bound) -> Tokens:
    """`at least twice a day` of how often as at least two times per day; else as it is."""
    kind = subject.kind if isinstance(subject, Typed) else None
    words = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(words) if _is_so_often(tokens[i:])), None)
    if kind is None or kind.dimension != SO_MANY_PER or at is None:
        return tokens
    first, often, per = (
        tokens[at],
        SO_OFTEN.get(words[at]),
        words.index("times") if "times" in words else at,
    )
    said = (
        (replace(first, text=w, end=first.end) for w in (often, "times")) if often else tokens[at : per + 1]
    )
    behind = tokens[(at if often else per) + 1 :]
    return (*tokens[:at], *said, replace(behind[0], text="per"), *behind[1:])


def _is_so_often(tokens: Tokens) -> bool:
    """Do the words begin with `twice a day`, `three times per hour`?"""
    words = [word_of(t) for t in tokens[:4]]
    behind = 1 if words[:1] and words[0] in SO_OFTEN else 2 if words[1:2] == ["times"] else 0
    if not behind or len(words) < behind + 2 or words[behind] not in IN_EACH:
        return False
    unit = find_unit(words[behind + 1])
    return unit is not None and unit.kind.dimension == TIME


def _with_both_alike(tokens: Tokens, subjects: tuple[Subject, ...], notes: tuple[str, ...]) -> Tokens:
    """`the same number of spoke holes`, `have the same length`, of two things, as that they are the same."""
    words = [word_of(t) for t in tokens]
    start = next((i for i, w in enumerate(words) if w in ("same", "equal")), None)
    if len(subjects) != 2 or start is None or any(w not in _BEFORE_SAME for w in words[:start]):
        return tokens
    behind = words[start + 1 :]
    if any(t.number or t.sort != "word" for t in tokens) or not {"and", "or", "as", "to"}.isdisjoint(behind):
        return tokens
    if all(_is_whole(s.bound) for s in subjects):
        # Both are numbers of what is said last: left holes and right holes.
        both = [s.text.lower().split() for s in subjects]
        named = set(both[0]) & set(both[1]) | set(notes[0].lower().split()) & set(notes[1].lower().split())
        alike = behind[:2] == ["number", "of"] and len(behind) > 2 and named.issuperset(behind[2:])
    else:
        kind = kind_word(behind[0]) if len(behind) == 1 else None
        kinds = [s.bound.kind for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
        alike = kind is not None and len(kinds) == 2 and all(map(kind.accepts, kinds))
        dimensions = listed("measures", "dimensions").intersection(
            w for s in subjects for w in s.text.split()
        )
        alike = alike and (not dimensions or behind[0] in dimensions)
    if alike:
        return (replace(tokens[start], text="equal", end=tokens[-1].end),)
    return tokens


def _without_their(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`their masses differ by at most 20 g`, of two things, without what both are."""
    words = [word_of(t) for t in tokens[:3]]
    measures = listed("measures", "nouns")
    both = len(subjects) == 2 and words[:1] == ["their"] and len(words) == 3
    singular = {words[1].removesuffix("s"), words[1].removesuffix("es")} if both else set()
    return tokens if singular.isdisjoint(measures) else tokens[2:]


def _without_what_is_counted(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`12 and 14 teeth, respectively`, of two numbers of teeth, without what is counted."""
    words = [word_of(t) for t in tokens]
    end = len(words) - 1 - (words[-2:-1] == [","])
    counts = len(subjects) > 1 and all(_is_whole(s.bound) for s in subjects)
    if not counts or words[-1] != "respectively" or end < 2 or not tokens[end - 2].number:
        return tokens
    noun = words[end - 1]
    counted = tokens[end - 1].sort == "word" and noun not in listed("measures", "not_called")
    return (*tokens[: end - 1], *tokens[end:]) if counted and find_unit(noun) is None else tokens


def _with_same_or_more(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`the same or higher`, of two things, as at least the other."""
    words = [word_of(t) for t in tokens if word_of(t) not in _BEFORE_SAME]
    if len(subjects) != 2 or words[:2] != ["same", "or"] or len(words) != 3:
        return tokens
    side = "least" if words[2] in _MORE else "most" if words[2] in _LESS else ""
    said = ("at", side, *subjects[1].text.split()) if side else ()
    return tuple(replace(tokens[0], text=w, end=tokens[-1].end) for w in said) or tokens


_MORE = "higher greater larger more longer wider thicker heavier".split()
_LESS = "lower less smaller fewer shorter narrower thinner lighter".split()
_BEFORE_SAME = frozenset("the an a have has having of are is being".split())


def _with_parted_fractions(tokens: Tokens) -> Tokens:
    """`one-half`, `three-quarters` as two words each."""
    found = list[Token]()
    for token in tokens:
        above, _, part = word_of(token).partition("-")
        if token.sort == "word" and above in NUMBER_WORDS and part in word_lists()["fractions"]:
            found += (replace(token, text=above, end=token.start), replace(token, text=part))
        else:
            found.append(token)
    return tuple(found)


def _with_half_before_unit(tokens: Tokens) -> Tokens:
    """`one half millimetre`, `a half millimetre` as half a millimetre."""
    words = [word_of(t) for t in tokens]
    found, at = list[Token](), 0
    while at < len(tokens):
        if words[at] in ("one", "a") and words[at + 1 : at + 2] == ["half"] and _is_unit(tokens[at + 2 :]):
            found += (replace(tokens[at], text="half"), replace(tokens[at + 1], text="a"))
            at += 2
        else:
            found.append(tokens[at])
            at += 1
    return tuple(found)


def _is_unit(tokens: Tokens) -> bool:
    return bool(tokens) and tokens[0].sort == "word" and find_unit(tokens[0].text) is not None


def _without_nominal(tokens: Tokens) -> Tokens:
    """`a nominal voltage of 3.3 V ± 10 %` without the word: how far it may lie off is said behind it."""
    words = [word_of(t) for t in tokens]
    if "nominal" not in words or not set(words) & set(_TOLERANCES):
        return tokens
    return tuple(t for t in tokens if word_of(t) != "nominal")


def _without_setting(tokens: Tokens) -> Tokens:
    """`reduce the charging current to 2 A or less` without the verb and what it sets."""
    words = [word_of(t) for t in tokens]
    if not words or words[0] not in _SETTING or words[1:2] not in (["the"], ["a"], ["an"], ["said"], ["its"]):
        return tokens
    to = next((i for i in range(3, min(8, len(words) - 1)) if words[i] == "to"), 0)
    named = bool(to) and all(t.sort == "word" and word_of(t) not in NO_NAME for t in tokens[1:to])
    named &= words[-1] not in (*SO_OFTEN, "times")  # 'raising the power up to three times'
    return tokens[to + 1 :] if named else tokens


_SETTING = frozenset(
    "reduce reduces reducing raise raises raising increase increases increasing lower lowers lowering set"
    " sets".split()
)


def _without_use_behind(tokens: Tokens) -> Tokens:
    """`five phases are carried out` without what is done with them."""
    words = [word_of(t) for t in tokens]
    for at in range(1, len(words) - 1):
        if words[at] in ("is", "are", "being", "be") and " ".join(words[at + 1 :]) in _DONE_WITH:
            return tokens[:at]
    return tokens


_DONE_WITH = (
    "carried out",
    "performed",
    "provided",
    "used",
    "employed",
    "formed",
    "arranged",
    "provided for",
)


def _without_verb_of_name(tokens: Tokens, subject: Subject) -> Tokens:
    """`shrinks by less than 2 %` of a shrinkage, `retried at most twice` of a number of retries, without the
    verb."""
    words = [word_of(t) for t in tokens]
    start = len(words[:1]) and words[0] in ("which", "that", "is", "are", "being")
    whole = isinstance(subject.bound, Typed) and subject.bound.whole
    times = whole and words[-1] in (*SO_OFTEN, "times") and words[start : start + 1] != []
    times = times and words[start].endswith("ed")
    by = words[start + 1 : start + 2] == ["by"]
    if not (by or times) or len(words[start]) < MOST_OF_A_STEM:
        return tokens
    stem = words[start][:MOST_OF_A_STEM]
    named = any(w.startswith(stem) for w in subject.text.lower().split())
    return tokens[start + 1 + by :] if named else tokens


MOST_OF_A_STEM = 5


def _without_name_behind(tokens: Tokens, name: str) -> Tokens:
    """`at least 85 % of the drug is released` of what is called released without the verb behind."""
    words, own = [word_of(t) for t in tokens], name.lower().split()
    at = len(words) - len(own) - 1
    return tokens[:at] if at > 0 and words[at] in ("is", "are") and words[at + 1 :] == own else tokens


def _with_tolerance_behind(tokens: Tokens) -> Tokens:
    """`4 mm to within ± 1 mm` as 4 mm ± 1 mm."""
    words = [word_of(t) for t in tokens]
    for at in (i for i, w in enumerate(words[:-1]) if w == "within" and words[i + 1] in _TOLERANCES):
        start = at - (words[at - 1] == "to")
        if start > 0 and tokens[start - 1].number:
            return (*tokens[:start], *tokens[at + 1 :])
    return tokens


def _with_open_ends(tokens: Tokens) -> Tokens:
    """`from more than 0.5 mm to less than 2 mm` as more than 0.5 mm and less than 2 mm."""
    words = [word_of(t) for t in tokens]
    first = next((i for i in range(len(words)) if words[i] == "from" and words[i + 1 : i + 3] in _OPEN), -1)
    last = next(
        (i for i in range(len(words)) if words[i] in ("to", "and") and words[i + 1 : i + 3] in _OPEN_ABOVE),
        -1,
    )
    if not 0 <= first < last or sum(1 for t in tokens[first:last] if t.number) != 1:
        return tokens
    joined = replace(tokens[last], text="and")
    return (*tokens[:first], *tokens[first + 1 : last], joined, *tokens[last + 1 :])


def _with_condition_first(tokens: Tokens) -> Tokens:
    """`the leakage at an inlet pressure of 210 bar is below 15 mL/min`, with the condition before what is
    limited."""
    words = [word_of(t) for t in tokens]
    numbers = [i for i, t in enumerate(tokens) if t.number]
    first = numbers[0] if len(numbers) > 1 else 0
    at = next((i for i in range(1, first) if words[i] in _BEFORE_CONDITION), 0)
    if not at or (words[at] == "at" and words[at + 1] in ("least", "most")) or words[at - 1] in _SAID_SO:
        return tokens
    for verb in range(first + 1, numbers[-1]):
        behind = words[verb + 1]
        limited = tokens[verb + 1].number or behind in listed("limits", "inside")
        exceeds = words[verb : verb + 3] in (["does", "not", "exceed"], ["do", "not", "exceed"])
        so = words[verb] in _EXCEEDS or exceeds or (words[verb] in (*_SAID_SO, "of") and limited)
        ended = tokens[verb - 1].number or words[verb - 1] in _ENDS_A_LIMIT
        if so and ended:
            condition = tokens[at : verb - (words[verb - 1] == ",")]
            lead = tokens[: at - (words[at - 1] == ",")]
            said = replace(tokens[verb], sort="word", text="is") if words[verb] == "of" else tokens[verb]
            return (*condition, *words_at(condition[-1], ","), *lead, said, *tokens[verb + 1 :])
    return tokens


_BEFORE_CONDITION = ("at", "under", "when", "if", "where", "while")
_SAID_SO = ("is", "are", "being")
_EXCEEDS = ("exceeds", "exceed", "exceeding")
_ENDS_A_LIMIT = frozenset(", more less higher lower greater above below over".split())


def _with_condition_behind(tokens: Tokens) -> Tokens:
    """`a thickness, as measured at the rim, of at most 2 mm` with how it is measured behind the limit."""
    words = [word_of(t) for t in tokens]
    commas = [i for i, t in enumerate(tokens) if t.text == ","]
    for start, end in pairwise(commas):
        inside = words[start + 1 : end]
        measured = bool(inside) and (
            inside[0] in _MEASURED or (inside[0] in ("as", "when") and inside[1:2] != ["a"])
        )
        based = (
            inside[:2] in _BASED
            and end + 1 < len(tokens)
            and word_of(tokens[end + 1]) in ("of", "from", "at", "between", "not", "up")
        )
        if based and start and not any(t.number for t in tokens[start:end]):
            return (*tokens[:start], *tokens[end + 1 :], *tokens[start:end])
        if measured and start and end + 1 < len(tokens) and not any(t.number for t in tokens[:end]):
            return (*tokens[:start], *tokens[end + 1 :], *tokens[start:end])
    return tokens


def _with_presence_behind(tokens: Tokens) -> Tokens:
    """`the alcohol, if any, is less than 0.5 %` with 'if present' behind the limit."""
    words = [word_of(t) for t in tokens]
    for at in range(1, len(tokens) - 4):
        if words[at : at + 4] in ([",", "if", "any", ","], [",", "if", "present", ","]):
            present = replace(tokens[at + 2], text="present")
            return (*tokens[:at], *tokens[at + 4 :], tokens[at], tokens[at + 1], present)
    return tokens


_BASED = (["based", "on"], ["relative", "to"], ["with", "respect"], ["calculated", "on"], ["in", "relation"])
_MEASURED = ("measured", "determined", "tested", "taken")
_OPEN = (["more", "than"], ["greater", "than"])
_OPEN_ABOVE = (["less", "than"], ["at", "most"])


def _with_temperature_behind(tokens: Tokens, subject: Bound) -> Tokens:
    """`a viscosity at 20 degC of less than 5 Pa.s` with the condition of measuring behind the limit."""
    kind = subject.kind if isinstance(subject, Typed) else None
    words = [word_of(t) for t in tokens]
    for at in range(1, len(tokens) - 3):
        number = tokens[at + 1].number
        other = number is not None and number.unit is not None and number.unit.kind != kind
        if words[at] == "at" and other and words[at + 2] in ("of", "is", "being"):
            return (*tokens[:at], *tokens[at + 2 :], *tokens[at : at + 2])
    return tokens


def _with_value_named(tokens: Tokens, name: str) -> Tokens:
    """`an absolute value of at most 50 MPa`, `a stress having an absolute value of`, with the name behind."""
    words, own = [word_of(t) for t in tokens], name.lower().split()
    for at in range(len(words) - 3):
        width = next((len(run) for run in _VALUES if words[at : at + len(run)] == run), 0)
        leading = all(w in _LEADING or w in own for w in words[:at])
        if width and leading and words[at + width] not in ("the", "a", "an", *own[:1]):
            first = tokens[at]
            said = ("absolute", "value", "of", "the", *own, "of")
            named = (replace(first, sort="word", text=w, end=first.start) for w in said)
            return (*named, *tokens[at + width :])
    return tokens


_VALUES = (["absolute", "value", "of"], ["magnitude", "of"], ["absolute", "magnitude", "of"])
_LEADING = frozenset("a an the having has with of whose".split())


def _without_comprising(tokens: Tokens, subject: Bound) -> Tokens:
    """`comprises no more than four layers`, of a number of layers, as having so many."""
    if not _is_whole(subject) or not tokens or word_of(tokens[0]) not in OPEN_WORDS:
        return tokens
    return (replace(tokens[0], text="having"), *tokens[1:])


def _without_comma_before_inclusive(tokens: Tokens, subject: Subject) -> Tokens:
    """`from four to eight holes, inclusive` of holes without their name behind the numbers."""
    if len(tokens) < 4 or word_of(tokens[-1]) not in ("inclusive", "exclusive") or tokens[-2].text != ",":
        return tokens
    named = word_of(tokens[-3]) == subject.text.lower() and _is_whole(subject.bound)
    return (*tokens[:-3], *tokens[-2:]) if named else tokens


def _is_whole(bound: Bound) -> bool:
    return isinstance(bound, Typed) and bound.whole
