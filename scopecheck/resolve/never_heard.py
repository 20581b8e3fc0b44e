"""Words that turn round, loosen or lift what is said: no reading may stand as if they were not there.

`the lid can be closed` does not say that it is, and `never exceeds 5 mm or falls below 3 mm` denies both.
"""

from __future__ import annotations

from itertools import pairwise

from scopecheck.core.declared import ChoiceDecl, NumberDecl, SetDecl
from scopecheck.core.formula import OTHERS
from scopecheck.foundations.quantity import PLAIN_KIND
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.line_words import AVERAGES
from scopecheck.matching.states import state_by_note
from scopecheck.matching.subjects import Subject, is_bare_share, is_fraction
from scopecheck.matching.whichever import of_a_range
from scopecheck.occurrences.readings import is_switch
from scopecheck.resolve.whole_ranges import ends_apart, only_with_another, within_of_a_sum
from scopecheck.rewording.counted_per import for_a_limit, group_counted
from scopecheck.rewording.moments import denied_at_times, not_always
from scopecheck.rewording.not_both import DENYING
from scopecheck.rewording.plainer_numbers import lies_beyond, preference_with_but
from scopecheck.rewording.shared_verbs import may_share_an_end
from scopecheck.vocabulary.names import Names, Typed

Tokens = tuple[Token, ...]
Things = tuple[Subject, ...]
Why = tuple[str, str] | None
_EXTREMES = {
    "minimum": listed("measures", "highest"),
    "maximum": listed("measures", "lowest"),
}


def never_heard(tokens: Tokens, subjects: Things, names: Names) -> Why:
    """Which of the words no reading would hear, and why; None where nothing speaks against them."""
    said = [word_of(t) for t in tokens]
    own = {w for s in subjects for w in f"{s.text} {names.note_of(s.text)}".lower().split()}
    return (
        _lifted(tokens, said, own, subjects, names)
        or _not_always(tokens, said, subjects)
        or _denied_twice(tokens, said)
        or _denied_range(tokens, said)
        or _but_not(tokens, said)
        or _denied_of_each(said)
        or _more_than_that(said, subjects)
        or _some_of_another(said, own, subjects, names)
        or _within_another(tokens, said, subjects)
        or _with_another_counted(tokens, said, subjects, names)
        or _of_which(said, names)
        or _another_value(tokens, said, own, subjects)
        or _of_both(tokens, subjects)
        or _half_of_itself(said, subjects)
        or _of_a_switch(said, own, subjects)
        or _with_what_is_left_out(said, subjects)
        or _share_of_itself(tokens, said, subjects)
        or _part_of_all(tokens, said, subjects, names)
        or _counted_with(tokens, said)
        or _greater_of_a_range(tokens)
        or ends_apart(tokens, said)
        or within_of_a_sum(said)
        or only_with_another(said, subjects)
        or _so_many_per_one(said, subjects)
        or _of_each_group(tokens, said, subjects)
        or _other_extreme(said, subjects, names)
        or _always_changed(said, subjects)
        or _beside_what_is_other(said, subjects)
        or _of_parts(said, subjects, names)
        or _at_once(tokens, said, subjects)
        or _so_many_of_all(tokens, said, subjects)
        or _selected_of_what(said, subjects)
        or _total_of_the_first(said, subjects)
        or _average_of_each(said, subjects)
        or _but_behind_preference(tokens, said)
        or (_kept_or_lost(said, own) if len(subjects) == 1 else None)
    )


def _total_of_the_first(said: list[str], subjects: Things) -> Why:
    """`a total height and a width of at most 300 mm`: the total is that of the height, and no sum of both."""
    if len(subjects) != 2 or not all(isinstance(s.bound, Typed) for s in subjects):
        return None
    first, second = (s.text.lower().split() for s in subjects)
    for at in (i for i, w in enumerate(said) if w in _TOTALS and said[i + 1 : i + 1 + len(first)] == first):
        behind = at + 1 + len(first)
        again = said[behind + 1 : behind + 2] in (["a"], ["an"], ["the"])
        if said[behind : behind + 1] == ["and"] and again and said[behind + 2 :][: len(second)] == second:
            return (
                f"'{' '.join(said[at:behind])}' may be that of {subjects[0].text} alone, or of both together",
                "Say: the sum of the one and the other; or give each its limit in a line of its own.",
            )
    return None


_TOTALS = ("total", "overall", "combined", "summed", "cumulative")


def _average_of_each(said: list[str], subjects: Things) -> Why:
    """`at most 5 mm and at least 8 mm, respectively, on average`: of each alone, and not of both together."""
    average = next((w for w in said if w in _AVERAGING), "")
    if len(subjects) < 2 or not average or "respectively" not in said:
        return None
    return (
        f"'{average}' beside 'respectively' may be said of each thing alone, or of the last one",
        "Give each its limit in a line of its own, of an average declared by name.",
    )


_AVERAGING = AVERAGES | {"averaged"}


def _but_behind_preference(tokens: Tokens, said: list[str]) -> Why:
    """`up to 5 mm, preferably up to 3 mm but at least 1 mm`: of what is preferred, or of all of it?"""
    preferred = preference_with_but(tokens)
    if preferred is None:
        return None
    beyond = not preferred.behind and lies_beyond(tokens, preferred)
    if preferred.sides != {"at least", "at most"} and not beyond:
        return None
    return (
        f"'{' '.join(said[preferred.but :])}' may be said of what is preferred, or of all of it",
        "Before the preference, or in a line of its own, it is said of all.",
    )


def _selected_of_what(said: list[str], subjects: Things) -> Why:
    """`5 % of a binder selected from A and B`, of the binder and B: its members alone are what is limited."""
    if len(subjects) < 2 or not all(isinstance(s.bound, Typed) for s in subjects):
        return None
    for name in (s.text for s in subjects):
        own = name.lower().split()
        for at in (i for i, w in enumerate(said) if w in _SELECTED and said[i - len(own) : i] == own):
            return (
                f"'{' '.join(said[at - len(own) : at + 1])}' tells which {name} there is, and no limit of it",
                f"Put {name} left of the colon alone, or those that it is selected from.",
            )
    at = next((i for i in range(3, len(said)) if said[i] in _SELECTED), 0)
    one = next((i for i in range(max(1, at - 4), at) if said[i] in ("a", "an") and said[i - 1] == "of"), 0)
    if one:
        return (
            f"'{' '.join(said[one : at + 1])}' may be one of those named, or several",
            "Say which: of one or more of them, or of each.",
        )
    return None


_SELECTED = ("selected", "chosen", "consisting")


def _so_many_per_one(said: list[str], subjects: Things) -> Why:
    """`the number of holes per module is twice the number of modules`, which is none of the holes."""
    if len(subjects) != 2 or not all(isinstance(s.bound, Typed) and s.bound.whole for s in subjects):
        return None
    for name in (s.text.lower() for s in subjects):
        forms = [n.split() for n in (name, name.removesuffix("s"), name.removesuffix("es"))]
        for at in (i for i, w in enumerate(said) if w in ("per", "each", "every")):
            per = next((f for f in forms if said[at + 1 : at + 1 + len(f)] == f), [])
            behind = said[at + 1 + len(per) :]
            again = per and any(behind[i : i + len(f)] == f for f in forms for i in range(len(behind)))
            if again and not _SAYS_IS.isdisjoint(behind[:2]):
                return (
                    f"'{' '.join(said[at : at + 1 + len(per)])}' makes a quotient of the two numbers",
                    "What is held beside one of them is the number for each one, and not the number of all.",
                )
    return None


_SAYS_IS = frozenset("is are being equals equal exceeds exceed corresponds be".split())


def _greater_of_a_range(tokens: Tokens) -> Why:
    if not of_a_range(tokens):
        return None
    return (
        "'whichever' of a range and another amount",
        "It does not say which end of the range is held beside the other amount.",
    )


def _kept_or_lost(said: list[str], own: set[str]) -> Why:
    """`retains at least 98 % of its mass`, of a loss; `losing 2 %`, of what is retained: the rest of it."""
    for of, others in ((_LOST, _KEPT), (_KEPT, _LOST)):
        word = next((w for w in said if w in others), "") if own & of and not own & others else ""
        if word:
            return (
                f"'{word}' says how much the rest of it is",
                "What is lost and what is left are two quantities.",
            )
    return None


_LOST = frozenset("loss losses lost loses losing lose".split())
_KEPT = frozenset("retention retains retain retaining retained preserves preserving preserved".split())


def _judged(tokens: Tokens, said: list[str]) -> str:
    """`more than 5 bar is inadmissible`, `above 5 bar is a failure`: what is said of the limit itself."""
    at = max((i for i, t in enumerate(tokens) if t.number), default=-1) + 1
    if not at or said[at : at + 1] not in (["is"], ["are"], ["being"]) or len(said) <= at + 1:
        return ""
    word = said[at + 1]
    judging = word in ("a", "an") or word.endswith(("able", "ible", "al", "ful", "ous", "less"))
    return " ".join(said[at:]) if judging and word not in _ASKED_FOR else ""


_ASKED_FOR = ("equal", "essential", "vital")


def _lifted(tokens: Tokens, said: list[str], own: set[str], subjects: Things, names: Names) -> Why:
    """`may be locked`, `is hardly equal`, `is not limited to 18 %`, `opens before it exceeds 3 bar`."""
    for at in range(len(said)):
        for table in ("runs_that_lift", "runs_behind_not"):
            width = run_at(said, at, "unheard", table)
            if width and (table != "runs_behind_not" or "not" in said[max(0, at - 2) : at]):
                return f"'{' '.join(said[at : at + width])}' lifts or turns what is said", _SAY
    if short := next((w for w in said if w.endswith(("n't", "n\u2019t"))), ""):
        return f"'{short}' is not read", "Write it as two words: is not, does not."
    unheard = listed("unheard", "words") - own - ({"loses"} if "loss" in own else set())
    lifting = next(
        (i for i, w in enumerate(said) if w in unheard and not _leaves(tokens, i, subjects, names)), None
    )
    if lifting is not None:
        why = _ANYHOW if said[lifting] in ("regardless", "irrespective") else _SAY
        return f"'{said[lifting]}' lifts or turns what is said", why
    if len(subjects) == 1 and isinstance(subjects[0].bound, Typed) and (judged := _judged(tokens, said)):
        return f"'{judged}' says what such a value is, and not that it is so", _SAY
    free = next((w for w, then in pairwise(said) if w in _MAY and then != "not" and w not in own), "")
    if free:
        return f"'{free}' leaves it open whether it is so", _SAY
    allowing = next((i for i in range(len(said)) if len(subjects) > 1 and _allows_more(said, i)), None)
    if allowing is not None:
        return f"'{said[allowing]}' leaves it open whether it is so", _SAY
    needs = next((i for i in range(len(said) - 2) if said[i : i + 2] in _NEEDS), None)
    if needs is not None and len(subjects) > 1 and "only" in said[needs:]:
        return f"'{' '.join(said[needs : needs + 2])}' asks for nothing elsewhere, and forbids nothing", _SAY
    switched = any(isinstance(s.bound, ChoiceDecl) for s in subjects) and len(subjects) > 1
    if switched and "before" in said:
        return "'before' says when it is so, in time", "Only steps are read so: declare them as steps."
    if switched and any(said[i : i + 3] in _SO_LOW for i in range(len(said))):
        return "'as low as' as a condition is not read", "Say at or below which value."
    return None


def _not_always(tokens: Tokens, said: list[str], subjects: Things) -> Why:
    """`temp : not always above 40 degC`, `never always above`: at some time it is not so, but when?"""
    start, end = not_always(said)
    if not end or denied_at_times(tokens, subjects):
        return None
    return f"'{' '.join(said[start:end])}' denies that it is always so", _SAY


def _leaves(tokens: Tokens, at: int, subjects: Things, names: Names) -> bool:
    """`leaves the sleep mode`, of a mode, of what is called or noted so: then it is not so."""
    said = [word_of(t) for t in tokens]
    if said[at] not in ("leaves", "quits"):
        return False
    runs = [s.text.lower().split() for s in subjects]
    runs += [m.lower().split() for s in subjects if isinstance(s.bound, ChoiceDecl) for m in s.bound.members]
    behind = said[at + 1 + (said[at + 1 : at + 2] in (["the"], ["its"])) :]
    if any(behind[: len(run)] == run for run in runs):
        return True
    stretches = (tokens[at:end] for end in range(at + 2, min(at + _LONGEST_STATE, len(tokens)) + 1))
    switches = [s.text for s in subjects if is_switch(s.bound)]
    return any(state_by_note(run, names.note_of(s), s) is False for run in stretches for s in switches)


_LONGEST_STATE = 6
"""Words of `leaves the low power mode` and the like, at the most."""


def _allows_more(said: list[str], at: int) -> bool:
    """`allows the speed to exceed 2 m/s when ...`, `a speed above 2 m/s is permitted when ...`."""
    permits = said[at] in ("allows", "allow", "permits", "permit")
    permitted = said[at] in ("allowed", "permitted") and said[at - 1] in ("is", "are")
    more = not _COMPARING.isdisjoint(said) and not {"if", "when", "while", "where"}.isdisjoint(said)
    return (permits or permitted) and more and {"only", "most", "not"}.isdisjoint(said)


_ANYHOW = (
    "What is limited is so in any case: lift the limit without these words, and mark them 'not restated'."
)
_NEEDS = [[verb, "to"] for verb in ("need", "needs", "has", "have", "required")]
_SO_LOW = (["as", "low", "as"], ["as", "little", "as"], ["as", "small", "as"])
_MAY = frozenset("may might could".split())
_SAY = "Say what must be so."


def _denied_twice(tokens: Tokens, said: list[str]) -> Why:
    """`cannot exceed 5 mm or be less than 3 mm`: both are denied; `different from 3 mm or 5 mm`."""
    numbers = [i for i, t in enumerate(tokens) if t.number]
    for at in (i for i in range(2, len(said) - 1) if said[i] == "or"):
        before = [n for n in numbers if n < at]
        behind = [n for n in numbers if n > at]
        denied = not {"not", "cannot", "never", "without", "prevented", "kept"}.isdisjoint(said[:at])
        anew = said[at + 1] in listed("unheard", "verbs")
        if behind and denied and anew and (before or "exceed" in said[:at]):
            return "what is denied may go on behind 'or'", "Write each limit in a line of its own."
        apart = next(
            (i for i in range(at) if said[i : i + 2] in (["different", "from"], ["unequal", "to"])), None
        )
        if apart is not None and before and behind == [at + 1]:
            return "what it differs from may go on behind 'or'", "Write each in a line of its own."
    return None


def _denied_range(tokens: Tokens, said: list[str]) -> Why:
    """`not more than 3 to 5 mm`, of which no value between is the limit."""
    for at in range(len(said) - 3):
        denied = said[at] == "not" and said[at + 1] in (
            "more",
            "greater",
            "larger",
            "above",
            "over",
            "exceeding",
        )
        first = at + 2 + (said[at + 2 : at + 3] == ["than"])
        if denied and first + 2 < len(tokens) and tokens[first].number and said[first + 1] == "to":
            return f"'{' '.join(said[at:first])}' a range is no limit", "Say which end of it is meant."
    return None


def _but_not(tokens: Tokens, said: list[str]) -> Why:
    """`exceeds 2 mm but not 5 mm`: not that value, or not above it; `20 % above half of the rim`."""
    for at in range(2, len(said) - 2):
        joined = said[at] in ("but", "and") and said[at + 1] in ("not", "never") and tokens[at + 2].number
        if joined and not _COMPARING.isdisjoint(said[:at]):
            return (
                f"'{said[at]} {said[at + 1]}' may deny the limit or the value alone",
                "Write both limits in full.",
            )
    for at in range(len(said) - 2):
        share = is_bare_share(tokens[at]) and said[at + 1] in ("above", "below")
        if share and not {"half", "third", "quarter", "twice", "times"}.isdisjoint(said[at + 2 : at + 5]):
            return "the share may be one of the multiple, or of the thing", "Say of which."
    return None


def _more_than_that(said: list[str], subjects: Things) -> Why:
    """`not only tin`, of a list: it is there, and what else is not said."""
    listing = any(isinstance(s.bound, SetDecl) for s in subjects)
    at = next((i for i, w in enumerate(said[:-1]) if w == "not" and said[i + 1] in _ONLY), None)
    if not listing or at is None or "but" in said[at:]:
        return None
    return f"'not {said[at + 1]}' asks for more than what it names", "Say what must be there besides."


_ONLY = ("only", "just", "merely", "solely")


def _another_value(tokens: Tokens, said: list[str], own: set[str], subjects: Things) -> Why:
    """`the ripple current is below 0.5 A when ...`, of a current: another value than that."""
    another = listed("unheard", "another_value" if len(subjects) > 1 else "another_of_one")
    another -= own | {f"{w}s" for w in own}
    if len(subjects) == 1:
        measured = isinstance(subjects[0].bound, Typed)
        said = said[: measured * next((i for i, t in enumerate(tokens) if t.number), 0)]
        if "by" in said and "least" not in said:
            another -= _MOVING  # by so much at most
    word = next((w for w in said if w in another), "")
    return (
        (f"'{word}' makes another value of what is declared", "Declare it by a name of its own.")
        if word
        else None
    )


_MOVING = frozenset("fluctuates fluctuate fluctuated".split())


def _of_both(tokens: Tokens, subjects: Things) -> Why:
    """`500 kg and 2 m/s or less`: an end of the second alone, or of both."""
    if not may_share_an_end(tokens, subjects):
        return None
    return "what stands behind both values may belong to the second alone, or to both", "Say it behind each."


def _within_another(tokens: Tokens, said: list[str], subjects: Things) -> Why:
    """`a gap in the rim`, `in a range of the set temperature`: no measure of either is equal to the other."""
    if len(subjects) != 2 or any(t.number for t in tokens) or not _COMPARING.isdisjoint(said):
        return None
    text = f" {' '.join(said)}"
    for name in (s.text.lower() for s in subjects if isinstance(s.bound, Typed)):
        before = text.removesuffix(f" {name}").removesuffix(" the")
        if before != text and before.endswith((" in", " in a range of", " in the range of")):
            return f"'in the {name}' does not say how much it is", "Say which is more, or what both share."
    return None


def _with_another_counted(tokens: Tokens, said: list[str], subjects: Things, names: Names) -> Why:
    """`at most 5 minutes, excluding the pause`, `including the rim`: another quantity, no value of it."""
    noted = " ".join(f"{s.text} {names.note_of(s.text)}" for s in subjects).lower()
    if not any(t.number or word in NUMBER_WORDS for t, word in zip(tokens, said, strict=True)):
        return None  # 'comprising clay, excluding water'
    for at in range(len(said)):
        width = run_at(said, at, "unheard", "counted_or_not")
        if not width and any(t.number for t in tokens[:at]):
            width = run_at(said, at, "unheard", "left_out_of_a_limit")
        start = at + width + (said[at + width : at + width + 1] in _ARTICLE)
        for end in range(start + 1, min(start + 5, len(said)) + 1) if width else ():
            name, run = " ".join(said[start:end]), " ".join(said[at:end])
            amount = isinstance(names.declared(name), NumberDecl) or names.step(name) is not None
            behind = said[end : end + 1]
            own = name == subjects[0].text.lower() or behind in (["of"], ["content"])
            own |= said[at] in ("except", "save") and behind not in ([], [","], ["and"], ["or"])
            if amount and not own and run not in noted:
                return (
                    f"'{run}' may say what is counted with the quantity, or which value it may have",
                    f"If {name} is counted in or left out, write the sum or the difference in symbols.",
                )
    return None


def _of_which(said: list[str], names: Names) -> Why:
    """`at least 5 wt% of oil, of which gum makes up no more than a half`: of the oil, not of everything."""
    for at in range(1, len(said) - 2):
        start = at + 2 + (said[at + 2 : at + 3] in _ARTICLE)
        if said[at : at + 2] != ["of", "which"]:
            continue
        for end in range(start + 1, min(start + 5, len(said)) + 1):
            made = names.declared(" ".join(said[start:end]))
            if isinstance(made, NumberDecl) and _is_amount(made):
                return (
                    f"'of which {' '.join(said[start:end])}' tells a share of what stands before it",
                    "Write two lines, the second of the ratio of the two amounts, in symbols.",
                )
    return None


_ARTICLE = (["the"], ["a"], ["an"], ["said"], ["any"])


def _is_amount(made: NumberDecl) -> bool:
    return made.kind != PLAIN_KIND and not made.whole


def _half_of_itself(said: list[str], subjects: Things) -> Why:
    """`half speed or 100 rpm`, of the speed: half of what it can be, and no half of its unit."""
    first = subjects[0].bound if len(subjects) == 1 else None
    if not isinstance(first, Typed) or first.kind is None or not first.kind.dimension:
        return None
    own = subjects[0].text.lower().split()
    at = next((i for i, (w, then) in enumerate(pairwise(said)) if w == "half" and then in own), None)
    if at is None or "of" in said[at : at + 3] or subjects[0].parts is not None:
        return None
    return f"'half {said[at + 1]}' is half of a value that is not said", "Say which value it is."


def _some_of_another(said: list[str], own: set[str], subjects: Things, names: Names) -> Why:
    """`a fraction of the height`, `a function of the height`: nothing says which.

    `The proportion of oil`, of a share called oil, is that share.
    """
    shares = {s.text.lower() for s in subjects if isinstance(s.bound, Typed) and _is_share(s.bound)}
    for at, word in enumerate(said[:-2]):
        if word not in _SOME_OF or word in own or said[at + 1] != "of" or "than" in said[at:]:
            continue
        start = at + 2 + (said[at + 2] in ("the", "its", "said"))
        for end in range(start + 1, min(start + 5, len(said)) + 1):
            name = " ".join(said[start:end])
            if name in shares and word in ("proportion", "percentage", "fraction"):
                continue
            if isinstance(names.declared(name), NumberDecl):
                return f"'{word} of' does not say how much of it", "Say which share of it, or which formula."
    return None


def _is_share(bound: Typed) -> bool:
    return bound.kind is not None and not bound.kind.dimension and bound.kind != PLAIN_KIND


_SOME_OF = listed("limits", "some_of")


def _denied_of_each(said: list[str]) -> Why:
    """`does not contain each of tin and zinc`: none of them, or not all of them together."""
    for at, run in ((i, run) for i in range(len(said)) for run in DENYING):
        behind = said[at + len(run) : at + len(run) + 1]
        if said[at : at + len(run)] == run and behind in (["each"], ["every"], ["all"]):
            return (
                f"'{' '.join(run)} {behind[0]}' may deny each of them, or all of them together",
                "Say that none of them is there, or that not all of them are.",
            )
    return None


_COMPARING = frozenset(
    "exceeds exceed exceeding above below more less greater over under larger smaller".split()
)


def _of_a_switch(said: list[str], own: set[str], subjects: Things) -> Why:
    """`the door or the lid is locked`, `is almost open`; `or preferably brass`."""
    listed_ones = [s for s in subjects if isinstance(s.bound, ChoiceDecl | SetDecl)]
    if listed_ones and any(said[i : i + 2] == ["or", "preferably"] for i in range(len(said))):
        return "'or preferably' offers another", "Write the list of all that are meant."
    if listed_ones and any(said[i : i + 3] == ["or", "more", "preferably"] for i in range(len(said))):
        return "'or more preferably' offers another", "Write the list of all that are meant."
    switches = [s for s in subjects if is_switch(s.bound)]
    if not switches:
        return None
    partly = next((w for w in said if w in listed("unheard", "in_part") - own), "")
    if partly:
        return f"'{partly}' says how far or how often it is so", _SAY
    for at, word in enumerate(said[:-1]):
        other = word == "or" and said[at + 1] in ("the", "a", "an") and said[at + 2 : at + 3]
        known = {w for s in subjects for w in s.text.lower().split()} | own
        if other and said[at + 2] not in known and {"is", "are"} & set(said[at + 3 : at + 5]):
            return (
                f"'or {said[at + 1]} {said[at + 2]}' speaks of another thing",
                "Declare it, and write both left.",
            )
    return None


def _with_what_is_left_out(said: list[str], subjects: Things) -> Why:
    """`zinc-free copper`, `pure copper`, `binary copper and zinc`: what else there is, or is not."""
    members = {m.lower() for s in subjects for m in getattr(s.bound, "members", ()) if _is_of_a_list(s)}
    words = {w for m in members for w in m.split()}
    for at, word in enumerate(said[:-1] if members else ()):
        first, hyphen, last = word.rpartition("-")
        told = word in words or not any(m.split()[0] == said[i] for m in members for i in _next_few(at, said))
        says_more = word in listed("unheard", "pureness") or last in listed("unheard", "pureness")
        if not told and (says_more or (hyphen and (last in _FREE or first in words))):
            return (
                f"'{word}' says what else there is, or is not",
                "Say that of the other members, in words of its own.",
            )
    return None


_FREE = ("free", "less")


def _next_few(at: int, said: list[str]) -> range:
    return range(at + 1, min(at + 3, len(said)))


def _is_of_a_list(subject: Subject) -> bool:
    return isinstance(subject.bound, ChoiceDecl | SetDecl) and not is_switch(subject.bound)


def _share_of_itself(tokens: Tokens, said: list[str], subjects: Things) -> Why:
    """`at least 80 % of the wheels`, of how many wheels there are."""
    bound = subjects[0].bound if len(subjects) == 1 else None
    if not isinstance(bound, Typed) or not bound.whole or subjects[0].parts is not None:
        return None
    own = subjects[0].text.lower().split()
    for at in range(1, len(said) - 1):
        behind = said[at + 1 + (said[at + 1] in ("the", "all")) :]
        share = is_bare_share(tokens[at - 1]) or is_fraction(tokens[at - 1])
        share = share or said[at - 1] in ("half", "third", "thirds", "quarter", "quarters")
        if said[at] in ("of", "the") and share and (behind[: len(own)] == own or behind[-len(own) :] == own):
            return f"the share is one of {subjects[0].text} itself", "Say what so many of them are, or have."
    return None


def _part_of_all(tokens: Tokens, said: list[str], subjects: Things, names: Names) -> Why:
    """`30 % or more of the total phosphite`, of the share of phosphite: a part of that."""
    bound = subjects[0].bound if len(subjects) == 1 else None
    if not isinstance(bound, Typed) or bound.whole or not bound.kind or bound.kind.dimension:
        return None
    own, note = subjects[0].text.lower().split(), names.note_of(subjects[0].text).lower()
    share = any(is_bare_share(t) or is_fraction(t) or (t.number and t.number.unit) for t in tokens)
    share |= not _FRACTIONS.isdisjoint(said)
    for at in (i for i in range(1, len(said) - 1) if said[i] == "of" and share and own[0] not in said[:i]):
        all_ = said[at + 1 + (said[at + 1] == "the") :]
        part = is_fraction(tokens[at - 1]) or said[at - 1] in _FRACTIONS
        if part and all_[: len(own)] == own and all_[len(own) :] in (["or", "more"], ["or", "less"]):
            return f"the share is one of {subjects[0].text} itself", "Say of what else it is a part."
        behind = all_[1:]
        if behind[:1] and behind[0] in ("amount", "weight", "mass", "content", "quantity", "volume"):
            behind = behind[1 + (behind[1:2] == ["of"]) :]
        behind = behind[behind[:1] == ["the"] :]
        noted = " ".join(said[at:]) in note or all_[0] in own
        if all_[:1] and all_[0] in _ALL_OF_IT and behind == own and not noted:
            return (
                f"'{' '.join(said[at:])}' makes a part of {subjects[0].text} of it",
                f"What is declared as {subjects[0].text} is all of it. A part of that is another share.",
            )
    return None


_FRACTIONS = frozenset("half third thirds quarter quarters fifth fifths tenth tenths".split())
_ALL_OF_IT = ("total", "whole", "entire", "all", "overall")


def _counted_with(tokens: Tokens, said: list[str]) -> Why:
    """`20 to 30 um exclusive of the primer`: what is measured with it."""
    for at, (word, then) in enumerate(pairwise(said)):
        ends = not {"end", "ends", "endpoints", "points", "limits", "values"}.isdisjoint(said[at:])
        of_it = word in ("exclusive", "inclusive") and then == "of" and not ends
        if of_it and not any(t.number for t in tokens[at:]):
            return f"'{word} of' tells what is measured with it", "It says nothing of the ends."
    return None


def _of_each_group(tokens: Tokens, said: list[str], subjects: Things) -> Why:
    """`one gear for each group of at least eight holes`: how many groups there are is not said."""
    if for_a_limit(tokens, subjects):
        return "'for' does not say for how many of these there are how many of the others", _SAY_SO_MANY
    at = group_counted(tokens, subjects)
    if not at:
        return None
    return f"'{' '.join(said[at - 2 : at + 2])}' does not say how many of these there are", _SAY_SO_MANY


_SAY_SO_MANY = "Say how many there are for so many of the others: one for every eight."


def _other_extreme(said: list[str], subjects: Things, names: Names) -> Why:
    """`a minimum flow of 12 L/min`, of what is noted to be a maximum flow."""
    if len(subjects) != 1:
        return None
    own = f"{subjects[0].text} {names.note_of(subjects[0].text)}".lower().split()
    word = next((w for w in said if w in _EXTREMES), "")
    other = next((w for w in own if word and w in _EXTREMES[word]), "")
    if other and word not in own and other not in said:
        return f"'{word}' of what is declared as a {other}", "They are two things."
    return None


def _always_changed(said: list[str], subjects: Things) -> Why:
    """`is constantly raised to 80 degC`, of a quantity of a step: what always rises is not always there."""
    moments = any(s.moments for s in subjects)
    always = {"always", "constantly", "permanently"} & set(said) or run_in(said, ["at", "all", "times"])
    if not moments or not always or listed("limits", "changing").isdisjoint(said):
        return None
    return "what always changes is not read", "Say where it is at the start, and where at the end."


def run_in(said: list[str], run: list[str]) -> bool:
    """Does a run of words stand in these?"""
    return any(said[i : i + len(run)] == run for i in range(len(said)))


def _beside_what_is_other(said: list[str], subjects: Things) -> Why:
    """`steel and a metal other than steel`, `a vinyl other than epoxy`: the first is asked for, too."""
    bound = subjects[0].bound if len(subjects) == 1 else None
    runs = (["other", "than"], ["different", "from"], ["besides"])
    at = next((i for i in range(1, len(said)) for r in runs if said[i : i + len(r)] == r), 0)
    if not isinstance(bound, SetDecl) or not at:
        return None
    named = [m.lower().split() for m in bound.members if m != OTHERS]
    alone = any(said[at - len(m) : at] == m for m in named)
    if not alone and {"and", "or", "and/or", ","}.isdisjoint(said[:at]):
        return None
    if not alone and not any(run_in(said[:at], m) for m in named):
        return None
    what = " ".join(said[at:])
    return (
        f"'{what}' may be said of what stands before it, or of what it is beside",
        "Write each in a line of its own.",
    )


def _one_of_them(said: list[str], subject: Subject) -> Why:
    """`the first rib has a height of 2 mm`, `every second rib`, of the heights of ribs."""
    field, _, plural = subject.text.lower().partition(" of the ")
    names = {plural.split()[-1], plural.split()[-1].removesuffix("s")} if plural else set[str]()
    for at in (i for i in range(1, len(said) - 1) if said[i] in _WHICH_ONE and said[i + 1] in names):
        if said[at - 1] in ("every", "each") and said[at] != "first" and "than" not in said[:at]:
            return f"the words speak of every {said[at]} one", "Which these are is not said."
        if said[at] != "other" and said[at - 1] in ("the", "a", "said", "than"):
            said_of = f"of the {said[at]} one by itself"
            return (
                f"the words speak {said_of}",
                f"One of them stands left of the colon by its number: {field} of {said[at + 1]} 1.",
            )
    return None


_WHICH_ONE = ("first", "second", "third", "fourth", "last", "final", "other", "third", "alternate")


def _so_many_of_all(tokens: Tokens, said: list[str], subjects: Things) -> Why:
    """`no more than four of the burners`, of the number of burners: it is some of them, and not all.

    What a thing has of them (`has one or two of the fingers`) is their number.
    """
    bound = subjects[0].bound if len(subjects) == 1 else None
    if not isinstance(bound, Typed) or not bound.whole or subjects[0].parts is not None:
        return None
    own = subjects[0].text.lower().split()
    if said[:1] in (["has"], ["having"], ["with"]):
        return None
    for at in range(1, len(said) - len(own) - 1):
        number = tokens[at - 1].number is not None or said[at - 1] in NUMBER_WORDS
        of_all = said[at : at + 2] in (["of", "the"], ["of", "said"], ["of", "these"])
        if number and of_all and said[at + 2 : at + 2 + len(own)] == own:
            return (
                f"'{' '.join(said[at - 1 :])}' is a number of some of them",
                f"'{subjects[0].text}' is the number of all: declare those meant by a name of their own.",
            )
    return None


def _at_once(tokens: Tokens, said: list[str], subjects: Things) -> Why:
    """`the ribs are red and blue`, `ribs 2 mm and 3 mm high`: no one of them is both."""
    if len(subjects) != 1 or not subjects[0].of_parts:
        return None
    bound = subjects[0].bound
    members = [m.lower().split() for m in bound.members] if isinstance(bound, ChoiceDecl) else []
    said_of_two = {"between", "from", "within", "intervals"}.isdisjoint(said)
    for at in (i for i, w in enumerate(said) if w == "and"):
        behind = at + 1 + (said[at + 1 : at + 2] in (["the"], ["a"], ["an"]))
        two = any(said[at - len(m) : at] == m for m in members if at >= len(m)) and any(
            said[behind : behind + len(m)] == m for m in members
        )
        values = said_of_two and 0 < at < len(said) - 1 and isinstance(bound, Typed)
        values = values and tokens[at - 1].number is not None and tokens[at + 1].number is not None
        if two or values:
            return (
                "nothing tells whether both are of the same one, or of one each",
                f"Left of the colon stands {subjects[0].text}, which every one of them has.",
            )
    return None


def _of_parts(said: list[str], subjects: Things, names: Names) -> Why:
    """`the ribs have different widths`, of their heights; `a mean height of at least twice the width`."""
    of_parts = [s for s in subjects if s.parts is not None and s.parts.sort == "parts"]
    if not of_parts:
        return None
    if len(subjects) > 1 and not {"mean", "average", "median"}.isdisjoint(said):
        return "a mean beside another field of the parts is not read", _SAY
    if "remaining" in said and not any("remaining" in s.text.lower() for s in of_parts):
        return "the words speak of the remaining ones", "Which these are is not said."
    if one := _one_of_them(said, of_parts[0]):
        return one
    found = [f for s in of_parts if (f := names.field_of(s.text))]
    fields = {own for _, own in found}
    others = {o.lower() for parts, _ in found for part in parts for o in part.fields} - fields
    text = f" {' '.join(w.removesuffix('s') for w in said)} "
    other = next((o for o in sorted(others) if f" {o} " in text), "")
    alone = len(subjects) == 1 and not any(f" {f} " in text for f in fields)
    if other and alone and not any(isinstance(names.declared(o), NumberDecl) for o in others):
        return f"the words speak of the {other}", f"Left of the colon stands {subjects[0].text}."
    return None
