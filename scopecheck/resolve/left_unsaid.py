"""Words that a reading would leave unheard: of which nothing is read, or for which something else would be.

`free of blocked holes` is not free of holes, `50/60 Hz` is no fraction, and a name that stands in the words
and takes no part in what is read is told.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise, takewhile

from scopecheck.core.construction import names_in, nodes
from scopecheck.core.declared import ChoiceDecl, NumberDecl, Step
from scopecheck.core.formula import Compare, Formula
from scopecheck.foundations.diagnostics import Diagnostic, read_past_warning
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import runs_in_order
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.chart import word_of
from scopecheck.matching.nouns import OWN_MEASURES
from scopecheck.matching.shared_limits import reaches_beyond
from scopecheck.matching.subjects import Subject, is_bare_share
from scopecheck.matching.surroundings import describes
from scopecheck.vocabulary.names import Names, Typed

Tokens = tuple[Token, ...]
Things = tuple[Subject, ...]
Why = tuple[str, str] | None
_NONE = tuple(runs_in_order("limits", "none_of"))
_HOW_FREE = frozenset("substantially essentially completely entirely practically virtually is are".split())
_IDLE = frozenset("the a an any all said such at whatsoever therein thereof present of it in".split())
_PUT_IN = frozenset("added adding addition intentionally deliberately purposely".split())
_OF_EACH = frozenset(
    "has have having with contains contain containing holds hold holding carries carry each".split()
)
"""Between like parts and what each of them has: 'no rib has a crack'."""
_AS_IS = frozenset("is being been has having".split())
_STROKE = regex(r"(?<![\d/.^])(?<![^\W\d_])(\d+)\s?/\s?(\d+)(?![\d/])")
_OF_FRACTIONS = frozenset((2, 3, 4, 5, 6, 8, 10, 12, 16, 32, 64))
_BASIS = regex(r" (?:by|per) \w+ ")
"""`by weight` and `per cycle` name no thing that is limited."""
_OF_THESE = regex(r" \w+ (?:thereof|of (?:these|those|them|the foregoing)) ")
"""`a mixture of these` is no mixture that is declared."""
_SEVERAL = frozenset("plurality several multiple pair single number".split())
_RANKED = (["at", "least"], ["at", "most"], ["more", "than"], ["less", "than"], ["higher", "than"])
_LEFT_OUT = frozenset("excluding exclusive except including inclusive besides other".split())
_LEFT_OUT_BEHIND = ("excluded", "included", "disregarded", "omitted", "excepted")
_BESIDE_WHAT_IS_LEFT_OUT = frozenset("the of a an any for than not is are being".split())


def unheard(tokens: Tokens, words: Words, subjects: Things, names: Names) -> Why:
    """What of the words no reading would hear; None where nothing speaks against them."""
    said = [word_of(t) for t in tokens]
    return (
        _of_none(tokens, said, subjects, names)
        or _numbers_with_a_stroke(words, subjects)
        or _of_each_group(said, subjects, names)
        or _of_each_time(said, subjects, names)
        or _of_so_many_groups(said, subjects, names)
        or _mean_of_each(said, subjects, names)
        or _range_of_one_number(tokens, said, subjects, names)
        or _with_something_else(tokens, said, subjects, names)
        or _of_ranked_members(said, subjects)
        or _denied_times(said, subjects)
        or _holds_another(tokens, said, subjects, names)
        or _turned_round(said, subjects, names)
        or _of_one_alone(tokens, said, subjects, names)
        or _of_the_other(tokens, said, subjects, names)
        or _of_each_counted(said, subjects)
        or _of_numbers_in_words(said, subjects)
        or _value_and_limit(tokens, said, subjects)
        or _of_both_together(tokens, said, subjects)
        or _yet_to_be(said, subjects)
        or _that_of_another(said, subjects)
    )


def _of_none(tokens: Tokens, said: list[str], subjects: Things, names: Names) -> Why:
    """`no drop in voltage`, `without closing the gap`: none of something else than what stands left."""
    rest, own = _behind_none(tokens, said, subjects, names)
    extra = _beside_its_name(rest, own)
    at = next((i for i, w in enumerate(rest) if w in own), len(rest))
    before = [w for w in rest[:at] if w not in _IDLE]
    only_which = extra == before and all(describes(w) and not w.endswith("ing") for w in before)
    drops = listed("conditional", "drops") | {"loss", "gain", "change", "different", "odd", "even"}
    another = not {"of", "in"}.isdisjoint(rest[:at]) or not drops.isdisjoint(rest) or at == len(rest)
    if not extra or (only_which and not another):
        return None
    return (
        f"'{' '.join(extra)}' stands behind 'no', 'without' or 'free of'",
        f"That there is none of that does not say how much {subjects[0].text} there is.",
    )


def _behind_none(
    tokens: Tokens, said: list[str], subjects: Things, names: Names
) -> tuple[list[str], set[str]]:
    """What stands behind 'free of' at the beginning, and the words for what stands left of the colon."""
    if len(subjects) != 1:
        return [], set()
    of = subjects[0].parts
    measured = subjects[0].bound if of is None else of.each[0] if of.sort == "parts" else None
    one = isinstance(measured, Typed)
    start = next((i for i, w in enumerate(said) if w not in _HOW_FREE), 0)
    opened = next((r for r in _NONE if said[start : start + len(r)] == r), None)
    if not one or opened is None or any(t.number for t in tokens):
        return [], set()
    rest = said[start + len(opened) :]
    if of and rest[:1] == ["two"]:
        return [], set()  # 'no two ribs are alike'
    if not {"than", "later", "sooner", "or", "and", ",", "if", "when", "without"}.isdisjoint(rest):
        return [], set()
    text = f"{subjects[0].text} {names.note_of(subjects[0].text)}".lower()
    words = [w.strip(",.;()") for part in text.split() for w in (part, *part.split("-"))]
    own = {f for w in words if w not in _IDLE for f in (w, w + "s", w + "es", w.removesuffix("s"))}
    return rest, (own | _OF_EACH if of is not None else own) - {""}


def _beside_its_name(rest: list[str], own: set[str]) -> list[str]:
    """What stands with a name behind 'free of', but for words of what is put in, which a phrase has."""
    put_in = _PUT_IN | _AS_IS if not _PUT_IN.isdisjoint(rest) else frozenset[str]()
    return [w for w in rest if w not in own | _IDLE | put_in]


def none_of_some(tokens: Tokens, words: Words, subjects: Things, names: Names) -> Diagnostic | None:
    """A warning of `free of unreacted oil`, which is read as free of oil."""
    rest, own = _behind_none(tokens, [word_of(t) for t in tokens], subjects, names)
    extra = _beside_its_name(rest, own)
    if not extra or extra in (["detectable"], ["measurable"]):
        return None
    name = subjects[0].text
    return read_past_warning(
        words.span, [" ".join(extra)], f"The words are read of any {name}.",
        f"if other {name} may be there, declare what may not by a name of its own",
    )  # fmt: skip


def _numbers_with_a_stroke(words: Words, subjects: Things) -> Why:
    """`50/60 Hz`, which is no fraction of one."""
    measured = [s for s in subjects if isinstance(s.bound, Typed) and s.bound.kind and s.bound.kind.dimension]
    if not measured:
        return None
    for stroke in _STROKE.finditer(words.text):
        above, below = stroke.groups()
        if int(above) < int(below) and words.text[stroke.end() :].split()[:1] == ["of"]:
            continue  # '1/200 of the rim'
        if int(above) >= int(below) or int(below) not in _OF_FRACTIONS:
            return f"'{above}/{below}' may be two values", "A stroke between numbers is read as a fraction."
    return None


def _of_each_group(said: list[str], subjects: Things, names: Names) -> Why:
    """`a plurality of holes in each row`, `a single hole per row`, of the number of holes."""
    counted = len(subjects) == 1 and isinstance(subjects[0].bound, Typed) and subjects[0].bound.whole
    at = next((i for i, w in enumerate(said) if w in _SEVERAL), None)
    own = f"{subjects[0].text} {names.note_of(subjects[0].text)}".lower().split() if counted else []
    if (
        not counted
        or subjects[0].parts is not None
        or at is None
        or not {"per", "each", "every", "one"}.isdisjoint(own)
    ):
        return None
    behind = said[at + 1 :]
    each = "per" in behind or any(w in ("in", "for", "of") and t == "each" for w, t in pairwise(behind))
    return (
        ("it is said of each of several", f"'{subjects[0].text}' is one number of the whole.")
        if each
        else None
    )


def _of_each_time(said: list[str], subjects: Things, names: Names) -> Why:
    """`three times a week`, `twice daily`, `two doses an hour`, of a number that is said to be in no time."""
    counted = len(subjects) == 1 and isinstance(subjects[0].bound, Typed) and subjects[0].bound.whole
    if not counted or subjects[0].parts is not None:
        return None
    periods = listed("measures", "periods")
    own = f"{subjects[0].text} {names.note_of(subjects[0].text)}".lower().split()
    for at, word in enumerate(said):
        each = word.endswith("ly") or said[at - 1] in ("per", "each", "every")
        each = each or (said[at - 1] in ("a", "an") and at > 1 and said[at - 2] not in _HOW_LONG)
        second = word == "second" and at + 1 < len(said)  # 'every second hole'
        if at > 1 and word in periods and not second and each and periods.isdisjoint(own):
            return (
                f"it is so many in each time, and '{subjects[0].text}' is a number of no time",
                f"If it counts those of one, say so where it is declared: {subjects[0].text}  count  "
                f'"{said[at] if word.endswith("ly") else f"per {word}"}".',
            )
    return None


_HOW_LONG = frozenset(
    "within after for over during in of than least most to by from before until lasting through at about half"
    " quarter and or exceeding exceeds".split()
)


def _of_so_many_groups(said: list[str], subjects: Things, names: Names) -> Why:
    """`a plurality of rows of holes`, of the number of holes: how many there are in a row is not said."""
    counted = len(subjects) == 1 and isinstance(subjects[0].bound, Typed) and subjects[0].bound.whole
    own = f"{subjects[0].text} {names.note_of(subjects[0].text)}".lower().split() if counted else []
    for before, group, of in zip(said, said[1:], said[2:], strict=False) if counted else ():
        if of == "of" and group in _GROUPS and group not in own and before not in NUMBER_WORDS:
            return (
                f"'{group}' are counted, not {subjects[0].text}",
                f"How many {subjects[0].text} there are depends on how many are in each.",
            )
    return None


def _range_of_one_number(tokens: Tokens, said: list[str], subjects: Things, names: Names) -> Why:
    """`within a range of 3 mm`: a range has two ends."""
    own = f"{subjects[0].text} {names.note_of(subjects[0].text)}".lower().split() if subjects else []
    if len(tokens) < 3 or said[-3] not in _RANGES or said[-2] != "of" or said[-3] in own:
        return None
    if not tokens[-1].number or any(t.number for t in tokens[:-1]):
        return None
    return (
        f"'{said[-3]} of' stands before one number",
        f"A {said[-3]} has two ends; so wide, about so much and exactly so much are three different limits.",
    )


def _mean_of_each(said: list[str], subjects: Things, names: Names) -> Why:
    """`each blade is at least 2 mm on average`: of a mean of each, where one value of each is declared."""
    end = next((i for i, w in enumerate(said) if w in ("and", "but", ",", "with")), len(said))
    average = said[max(0, end - 2) : end] == ["on", "average"]
    own = f"{subjects[0].text} {names.note_of(subjects[0].text)}".lower() if subjects else ""
    if not average or said[:1] not in (["each"], ["every"]) or "average" in own or "mean" in own:
        return None
    return (
        "'each' and 'on average' are of two different values",
        f"What is declared is one {subjects[0].text}: the average of each is another value.",
    )


_RANGES = ("range",)
_GROUPS = listed("parts", "in_which_groups")


def _with_something_else(tokens: Tokens, said: list[str], subjects: Things, names: Names) -> Why:
    """`at least 50 mm, excluding the gap`, `the gap excluded`: measured without it, and no value left out."""
    if len(subjects) not in (1, 2) or not isinstance(subjects[0].bound, Typed):
        return None
    one = len(subjects) == 1
    at = next((i for i in range(1, len(said) - 1) if one and said[i] in _LEFT_OUT), 0)
    limited = at and any(t.number for t in tokens[:at]) and not any(t.number for t in tokens[at:])
    rest = said[at + 1 :]
    if not at and said[-1] in _LEFT_OUT_BEHIND and "," in said:
        at, rest = len(said) - 1, said[max(i for i, w in enumerate(said) if w == ",") + 1 : -1]
        limited = any(t.number for t in tokens)
    behind = " ".join(w for w in rest if w not in _BESIDE_WHAT_IS_LEFT_OUT)
    other = names.declared(behind) if limited else None
    if not isinstance(other, NumberDecl):
        return None
    return (
        f"'{said[at]}' {behind} tells how {subjects[0].text} is measured",
        f"It is read as no limit of it; a value of {behind} is not left out or let in.",
    )


def _of_ranked_members(said: list[str], subjects: Things) -> Why:
    """`at least medium`, of a list that has no order."""
    first = subjects[0].bound if len(subjects) == 1 else None
    if not isinstance(first, ChoiceDecl):
        return None
    members = {m.lower() for m in first.members}
    for run in _RANKED:
        for i in range(len(said) - len(run)):
            if said[i : i + len(run)] == run and said[i + len(run)] in members:
                return (
                    f"'{' '.join(run)} {said[i + len(run)]}' asks for an order of {subjects[0].text}",
                    "What is declared is a list, which has none.",
                )
    return None


def _denied_times(said: list[str], subjects: Things) -> Why:
    """`not until rinsing is complete`, `not during rinsing`, of a step."""
    step = any(isinstance(s.bound, Step) for s in subjects)
    denied = next((t for w, t in pairwise(said) if w == "not" and t in ("until", "during", "while")), "")
    if not step or not denied:
        return None
    return f"'not {denied}' is not read", "Say when the step begins: after that one, or before it."


def _holds_another(tokens: Tokens, said: list[str], subjects: Things, names: Names) -> Why:
    """`oil : comprises 5 to 10 wt% of wax`: of the wax, and no share of it."""
    one = len(subjects) == 1 and isinstance(subjects[0].bound, Typed) and said
    opened = one and said[0] in listed("transitions", "open")
    of = max((i for i, w in enumerate(said) if w == "of"), default=0)
    shares = of and (is_bare_share(tokens[of - 1]) or tokens[of - 1].number is not None)
    other = " ".join(w for w in said[of + 1 :] if w not in ("the", "a", "an"))
    made = names.declared(other) if opened and shares else None
    kind = subjects[0].bound.kind if one and isinstance(subjects[0].bound, Typed) else None
    if not isinstance(made, NumberDecl) or made.name == subjects[0].text or made.kind != kind:
        return None
    return (
        f"the words say how much {made.name} there is, and {subjects[0].text} stands left",
        "Left of the colon stands what the words limit.",
    )


def _turned_round(said: list[str], subjects: Things, names: Names) -> Why:
    """`not different`, `a vacuum of at least 0.2 bar`, `a negative offset of at least 5 mm`."""
    if len(subjects) > 1 and ("not", "different") in pairwise(said):
        return (
            "how far they may differ is not said",
            "Two values are hardly ever equal to the last digit, or never.",
        )
    turned = next((w for w in said if w in ("vacuum", "negative")), "")
    sided = turned and any(said[i : i + 2] in _RANKED[:4] for i in range(len(said)))
    own = {w for s in subjects for w in s.text.lower().split()}
    if sided and turned not in own:
        return f"'{turned}' turns the limit round", "Less of it is more on the scale that is declared."
    own |= {w for s in subjects for w in names.note_of(s.text).split()}
    levels = any(isinstance(s.bound, Typed) and s.bound.kind and s.bound.kind.dimension for s in subjects)
    at = said.index("positive") if "positive" in said[:-1] else -1
    behind = said[at + 1 :]
    names_it = bool(own.intersection(behind[:1])) or behind[:1] in (["distance"], ["difference"])
    if at >= 0 and levels and names_it and "positive" not in own:
        return (
            "'positive' is a limit of its own",
            "It asks for more than zero. Say it as one: positive and ..., with the other limit behind 'and'.",
        )
    return None


def _of_one_alone(tokens: Tokens, said: list[str], subjects: Things, names: Names) -> Why:
    """`inner diameter, outer diameter : an outer diameter of at most 30 mm`: of one of the two alone."""
    typed = [s for s in subjects if isinstance(s.bound, Typed) and s.parts is None]
    start = next((i for i, w in enumerate(said) if w not in ("a", "an", "the", "having", "with")), 0)
    if len(subjects) != 2 or len(typed) != 2 or not {"and", "or", "both", ","}.isdisjoint(said):
        return None
    text = f"{' '.join(said[start:])} "
    first = [s for s in subjects if text.startswith(f"{s.text.lower()} ")]
    if len(first) != 1 or sum(1 for t in tokens if t.number) != 1:
        return None
    (other,) = (s for s in subjects if s is not first[0])
    known = {*other.text.lower().split(), *names.note_of(other.text).lower().split()}
    telling = known - set(first[0].text.lower().split()) - _IDLE
    compared = not {"ratio", "sum", "difference", "total", "times", "twice", "half", "other"}.isdisjoint(said)
    around = said[start + len(first[0].text.split()) :][:1] in (["±"], ["+/-"]) and first[0] is subjects[1]
    behind = text.removeprefix(f"{first[0].text.lower()} ")
    named = f" {other.text.lower()} " in f" {behind}"  # 'the cap weight is at most 10 % of the weight'
    apart = compared or around or named
    if apart or not telling.isdisjoint(said) or is_bare_share(tokens[-1]):
        return None
    return (
        f"the words limit {first[0].text} alone, and {other.text} stands left too",
        f"Write: {first[0].text} : ...",
    )


def _of_the_other(tokens: Tokens, said: list[str], subjects: Things, names: Names) -> Why:
    """`coil current : a load current below 5 A`, where both are declared."""
    first = subjects[0] if len(subjects) == 1 else None
    start = next((i for i, w in enumerate(said) if w not in ("a", "an", "the", "having", "with")), 0)
    if first is None or not isinstance(first.bound, Typed) or first.parts is not None:
        return None
    text, numbers = f"{' '.join(said[start:])} ", sum(1 for t in tokens if t.number)
    own = {*first.text.lower().split(), *names.note_of(first.text).lower().split()}
    for name, made in names.declarations.items():
        words = set(name.lower().split())
        other = isinstance(made, NumberDecl) and made.kind == first.bound.kind and name != first.text
        telling = own - words - _IDLE
        if other and numbers == 1 and text.startswith(f"{name.lower()} ") and telling.isdisjoint(said):
            if words.isdisjoint(own) or not telling:
                continue  # what shares no word is told in a warning
            return f"the words limit {name}, and {first.text} stands left", f"Write: {name} : ..."
    return None


def _of_each_counted(said: list[str], subjects: Things) -> Why:
    """`a plurality of ribs of equal height`, of how many ribs there are."""
    counted = len(subjects) == 1 and isinstance(subjects[0].bound, Typed) and subjects[0].bound.whole
    at = max((i for i in range(1, len(said) - 1) if said[i] in ("of", "having", "with")), default=0)
    of_these = counted and at and not _WHOSE.isdisjoint(said[at + 1 : at + 3])
    if not of_these:
        return None
    return (
        f"'{' '.join(said[at:])}' says something of each of them",
        f"'{subjects[0].text}' is how many there are.",
    )


_WHOSE = frozenset("equal identical uniform unequal varying".split())


def _of_numbers_in_words(said: list[str], subjects: Things) -> Why:
    """`one and a half dozen`, `at least half zircon`."""
    half = next((i for i, w in enumerate(said) if w in ("half", "third", "quarter")), None)
    if half is None or len(subjects) != 1:
        return None
    behind = said[half + 1 :]
    if said[max(0, half - 2) : half] == ["and", "a"] and behind[:1] == ["dozen"]:
        return "'and a half dozen' is read as no number", "Write the number in figures."
    members = {m.lower() for m in getattr(subjects[0].mixture, "members", ())}
    if len(behind) == 1 and behind[0] in members:
        return f"'{said[half]} {behind[0]}' may be half of what there is, or half as much", "Say of what."
    return None


def _value_and_limit(tokens: Tokens, said: list[str], subjects: Things) -> Why:
    """`5 wt% and up to 10 wt%`, of one thing, which no value meets."""
    numbers = [i for i, t in enumerate(tokens) if t.number]
    first = numbers[0] if numbers else len(tokens)
    alone = first == 0 or (first == 1 and said[0] in ("of", "is", "being"))
    joined = said[first + 1 : first + 2] == ["and"] and said[first + 2 : first + 4] in (
        *_RANKED[:4], ["up", "to"], ["not", "more"], ["no", "more"]
    )  # fmt: skip
    if len(subjects) != 1 or not alone or not joined or len(numbers) < 2:
        return None
    return (
        "a value and a limit, joined by 'and'",
        "A value that is the first one cannot have the other as well.",
    )


def _of_both_together(tokens: Tokens, said: list[str], subjects: Things) -> Why:
    """`the hardener makes up at most 10 wt% of the resin and the hardener`, of both: a share of their sum."""
    names = [s.text.lower() for s in subjects]
    end = next((i for i in range(1, len(tokens)) if tokens[i].number), 0)
    behind = " ".join(w for w in said[end + 1 :] if w != "the")
    of_both = any(behind == f"of {a} and {b}" for a in names for b in names if a != b)
    named = any(f" {n} " in f" {' '.join(said[:end])} " for n in names)
    if len(subjects) != 2 or not end or not of_both or not named:
        return None
    return (
        "the share is one of both together",
        f"Write: {' + '.join(names)} in symbols, or name the ratio by a name of its own.",
    )


def _yet_to_be(said: list[str], subjects: Things) -> Why:
    """`is to be coated`, of what is coated or not."""
    first = subjects[0].bound if len(subjects) == 1 else None
    if isinstance(first, ChoiceDecl) and said[-3:-1] == ["to", "be"]:
        return f"'to be {said[-1]}' does not say that it is so", "Say what it is."
    return None


def _that_of_another(said: list[str], subjects: Things) -> Why:
    """`tip radius, ball diameter : less than that of the ball`: its radius is not its diameter."""
    measures = [OWN_MEASURES.intersection(s.text.lower().split()) for s in subjects]
    if ("that", "of") not in pairwise(said) or len(subjects) != 2 or not all(measures):
        return None
    if not measures[0].isdisjoint(measures[1]):
        return None
    first = " ".join(measures[0])
    return f"'that of' is the {first} of it, and {subjects[1].text} is another measure", "Say which is meant."


_JOINING = ("and", "or", "but")


def preferred_beyond(words: Words) -> Iterator[Diagnostic]:
    """A warning of a preferred limit wider than the one before it: `5 to 10 mV, preferably 2 to 8 mV`."""
    said = [word_of(t) for t in words.tokens]
    starts = [i for i, w in enumerate(said) if w in ("preferably", "ideally", "advantageously")]
    pieces = [words.tokens[a:b] for a, b in pairwise([0, *starts, len(said)])]
    for main, preferred in pairwise(pieces):
        while main and word_of(main[-1]) in (",", "and", "or", "more", "even", "still", "most"):
            main = main[:-1]  # of 'more preferably'
        ends = (
            i for i, t in enumerate(preferred[:-1]) if t.text == "," and word_of(preferred[i + 1]) in _JOINING
        )
        preferred = preferred[: next(ends, len(preferred))]
        if reaches_beyond(preferred, main):
            yield Diagnostic(
                "warning", words.span, "what is preferred reaches beyond the limit before it",
                "A preference narrows; where it is read as a limit, both limits are asked.",
                "check the numbers, or declare what is preferred in a line of its own",
            )  # fmt: skip
            return


def _whole_of(subject: Subject) -> str:
    """What a share is declared a share of: `ppm(m) of flour`; else ''."""
    bound = subject.bound
    return bound.kind.split[1].lower() if isinstance(bound, Typed) and bound.kind else ""


def without_a_part(words: Words, formula: Formula, subjects: Things, names: Names) -> Iterator[Diagnostic]:
    """A warning of each declared number that the words name and that takes no part in what is read."""
    text = said = f" {' '.join(word_of(t) for t in words.tokens)} "
    for s in subjects if len(subjects) > 1 else ():
        idle = isinstance(s.bound, Typed) and s.parts is None and s.moments is None
        if idle and isinstance(s.bound, Typed) and names_in(s.bound.term).isdisjoint(names_in(formula)):
            yield Diagnostic(
                "warning", words.span, f"'{s.text}' stands left and takes no part in what is read",
                "", f"if the words do not limit it, take {s.text} out",
            )  # fmt: skip
            return
    text = _OF_THESE.sub(" ; ", _BASIS.sub(" ; ", text))
    for member in sorted(
        (m for s in subjects for m in getattr(s.bound, "members", ())), key=len, reverse=True
    ):
        text = text.replace(f" {member.lower()} ", " ; ")  # 'cotton fibre', of a list, names no cotton
    part = names_in(formula)
    own = " ".join(f" {s.text.lower()} {names.note_of(s.text).lower()} {_whole_of(s)} " for s in subjects)
    for name in sorted((n for n in names.declarations if len(n) > 2), key=len, reverse=True):
        made = names.declarations[name]
        if not isinstance(made, NumberDecl):
            continue
        forms = (name.lower(), *([name.lower().removesuffix("s")] if made.whole else ()))
        run = next((f" {form} " for form in forms if f" {form} " in text), "")
        if not run:
            continue
        text = text.replace(run, " ; ")
        if name in part or run in own or names.field_of(name) or any(name in p for p in part):
            continue
        if f" {name.lower().removesuffix('s')} " in own and f" of the{run}" in said:
            continue  # 'the length of the fibres', of a fibre length beside a share of fibres
        yield Diagnostic(
            "warning", words.span, f"'{name}' stands in the words and takes no part in what is read",
            f"They are read of {', '.join(s.text for s in subjects)} alone.",
            f"if they limit {name}, write it left of the colon: {name} : {words.text}",
        )  # fmt: skip


def of_another_member(words: Words, formula: Formula, subjects: Things, names: Names) -> Diagnostic | None:
    """A warning of `Si : at most 5 wt% of Mg`, which is read as a share of the Mg."""
    name = subjects[0].text if len(subjects) == 1 else ""
    made = next((c for c in names.compositions.values() if name in c.members), None)
    said = [word_of(t) for t in words.tokens]
    number = max((i for i, t in enumerate(words.tokens) if t.number), default=-1)
    behind = [w for w in said[number + 1 :] if w not in ("the", "of")]
    others = made.members if made and number >= 0 and said[number + 1 : number + 2] == ["of"] else ()
    other = next((m for m in others if m != name and m.lower().split() == behind), "")
    if not other or other not in names_in(formula):
        return None
    return Diagnostic(
        "warning", words.span, f"read as a share of {other}", "Both are ingredients of one composition.",
        f"if the words say how much {other} there is, write it left of the colon: {other} : {words.text}",
    )  # fmt: skip


def between_two_names(words: Words, names: Names) -> Diagnostic | None:
    """A warning of `between the gap and the rim`, of which nothing says that the first is the smaller one."""
    said = [word_of(t) for t in words.tokens if t.sort != "gap"]
    if "between" not in said or not {"difference", "ratio", "distance", "whichever"}.isdisjoint(said):
        return None
    at = said.index("between") + 1
    joined = next((i for i in range(at + 1, len(said)) if said[i] == "and"), 0)
    ends = [" ".join(w for w in run if w not in _IDLE) for run in (said[at:joined], said[joined + 1 :])]
    made = [names.declared(end) for end in ends] if joined else []
    if not made or not all(isinstance(d, NumberDecl) for d in made):
        return None
    return Diagnostic(
        "warning", words.span, f"{ends[0]} is read as the lower end, and {ends[1]} as the upper one",
        "The words name both, and do not say which is greater.",
        "if it may be the other way round, write it in symbols behind the words: two blanks, exactly, facts",
    )  # fmt: skip


def against_itself(words: Words, formula: Formula, subjects: Things) -> Diagnostic | None:
    """The error for words read of a thing beside itself: `between the gap and the rim`, of the gap."""
    sides = ((n.left, n.right) for n in nodes(formula) if isinstance(n, Compare))
    if not any(left == right and names_in(left) for left, right in sides):
        return None
    name = subjects[0].text if subjects else "a thing"
    return Diagnostic(
        "error", words.span, f"these words hold {name} against itself",
        "What stands left of the colon is held against what the words name.",
        "put left of the colon what is limited alone, or write the meaning in symbols after the words: two"
        " blanks, exactly, facts",
    )  # fmt: skip


def another_basis(words: Words, subjects: Things, names: Names, claimed: str) -> Diagnostic | None:
    """A warning of `based on the core`, of a share noted "of the coating", or of which no whole is named.

    What the claim is for is the whole where the declaration names none.
    """
    first = subjects[0]
    kind = first.bound.kind if isinstance(first.bound, Typed) else None
    note = names.note_of(first.text).lower()
    if kind is None or kind.dimension or kind.split[1]:
        return None
    noted = note.startswith("of ")
    text = " ".join(word_of(t) for t in words.tokens if t.sort != "gap")
    found = _BASED_ON.search(text)
    basis = [w for w in found[1].split() if w not in _IDLE] if found else []
    if noted:
        noun = [w for w in basis if w not in _OF_ALL | {"dry", "sum"}]
        told = bool(noun) and set(noun).isdisjoint(w.strip(",.;()") for w in note.split())
    else:
        known = (
            {w.strip(",.;()") for w in f"{note} {claimed}".lower().split()}
            | _OF_ALL
            | listed("asides", "made")
        )
        told = bool(kind.basis) and not set(basis) <= known
        noun = [w for w in basis if w not in _OF_ALL | {"sum"}] if told else []
    if not told:
        return None
    so = f'is noted "{note}"' if noted else "is declared as a share of no named whole"
    return Diagnostic(
        "warning", words.span, f"the words count on '{' '.join(noun)}', and {first.text} {so}",
        "They are read of it as declared.",
        "if these are two things, declare the share on that basis by a name of its own",
    )  # fmt: skip


_BASED_ON = regex(
    r"\b(?:based (?:up)?on|relative to|with (?:respect|regard|reference) to|in relation to|referred to"
    r"|(?:calculated|expressed|counted) on|on the basis of"
    r"|of (?:the )?(?:total )?(?:weight|mass|volume) of) ([a-z -]+)"
)
_OF_ALL = listed("shares", "of_all")


def another_measure(words: Words, subjects: Things, names: Names) -> Diagnostic | None:
    """A warning of `the film has a length of at most 5 mm`, of a film thickness."""
    if len(subjects) != 1 or not isinstance(subjects[0].bound, Typed):
        return None
    first = next((i for i, t in enumerate(words.tokens) if t.number), len(words.tokens))
    text = f" {' '.join(word_of(t) for t in words.tokens)} "
    others = (n.lower() for n in names.declarations if n != subjects[0].text)
    named = {w for n in others if f" {n} " in text for w in n.split()}
    said = ({word_of(t) for t in words.tokens[:first]} & OWN_MEASURES) - named
    note = names.note_of(subjects[0].text)
    own = {w.strip(",;()") for w in f"{subjects[0].text} {note}".lower().split()} & OWN_MEASURES
    if not said or not own or not said.isdisjoint(own):
        return None
    return Diagnostic(
        "warning", words.span, f"'{sorted(said)[0]}' is read as {subjects[0].text}",
        f"Neither its name nor its note says '{sorted(said)[0]}'.",
        "if they are two things, declare the other by a name of its own",
    )  # fmt: skip


def another_average(words: Words, subjects: Things, names: Names) -> Diagnostic | None:
    """A warning of `a D50 of at most 5 um`, `a mean by volume`, of what is noted as a mean by number."""
    bound = subjects[0].bound if len(subjects) == 1 else None
    if not isinstance(bound, Typed) or bound.kind is None or bound.whole:
        return None
    name, note = subjects[0].text, names.note_of(subjects[0].text)
    own = [w.strip(",;()") for w in f"{name} {note}".lower().replace("-", " ").split()]
    own += [_OF_A_SIGN[w] for w in own if w in _OF_A_SIGN]
    said = [part for t in words.tokens if t.sort != "gap" for part in word_of(t).split("-")]
    alone = subjects[0].parts is None and not subjects[0].moments
    average = "on average" if ("on", "average") in pairwise(said) else ""
    average = average or next((w for w in said if w in ("average", "mean", "averaged")), "")
    weighted = not _WEIGHTED_BY.keys().isdisjoint(said)
    if alone and average and not weighted and _AVERAGES.keys().isdisjoint(own):
        return taken_as_declared(words, average, name, "an average, nor over what", "average")
    for kinds in (_AVERAGES, _WEIGHTED_BY):
        noted = {kinds[w] for w in own if w in kinds}
        if "molecular" in own and {"by", "mean", "average", "median"}.isdisjoint(own):
            noted = set()  # a molecular weight is no mean by weight
        other = next((w for w in said if w in kinds and kinds[w] not in noted), "")
        by = kinds is _AVERAGES or not {"by", "mean", "average", "median"}.isdisjoint(said)
        if noted and other and by:
            return Diagnostic(
                "warning", words.span, f"the words say '{other}', and {name} is noted \"{note or name}\"",
                "They are read of it as declared.",
                f"if these are two values, declare the one by '{other}' by a name of its own",
            )  # fmt: skip
    return None


def another_total(words: Words, subjects: Things, names: Names) -> Diagnostic | None:
    """A warning of `a cumulative power of at least 20 W`, of a power that nothing says is a sum."""
    bound = subjects[0].bound if len(subjects) == 1 and subjects[0].parts is None else None
    if not isinstance(bound, Typed) or bound.whole or bound.kind is None or not bound.kind.dimension:
        return None
    name = subjects[0].text
    own = {w.strip(",;()") for w in f"{name} {names.note_of(name)}".lower().split()}
    said = [word_of(t) for t in takewhile(lambda t: not t.number, words.tokens)]
    total = next((w for w in said if w in listed("limits", "summed_amounts") - {"overall"}), "")
    behind = [word_of(t) for t in words.tokens if t.sort != "gap"][-2:] == ["in", "total"]
    if not (total or behind) or not _TOTALS.isdisjoint(own):
        return None
    return taken_as_declared(words, total or "in total", name, "a sum, nor of what", total or "total")


def taken_as_declared(words: Words, said: str, name: str, what: str, noted: str) -> Diagnostic:
    """A warning that a word which says more of a thing than its declaration is read of it as declared."""
    return Diagnostic(
        "warning", words.span, f"'{said}' is taken as said of {name} as it is declared",
        f"Neither its name nor its note says that {name} is {what}.",
        f'if it is one, say so where it is declared: {name}  ...  "{noted}"',
    )  # fmt: skip


_TOTALS = listed("measures", "totals")
_AVERAGES = {
    "mean": "mean", "average": "mean", "median": "median", "d50": "median", "mode": "mode", "d10": "d10",
    "d90": "d90", "dv50": "median", "dn50": "median",
}  # fmt: skip
_OF_A_SIGN = {"mw": "weight", "mn": "number"}
"""What molar masses called by these are averaged by."""
_WEIGHTED_BY = {
    "number": "number", "counting": "number", "count": "number", "volume": "volume", "mass": "mass",
    "weight": "mass",
}  # fmt: skip
