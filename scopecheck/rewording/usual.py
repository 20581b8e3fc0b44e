"""What others usually say instead: of `chosen from`, `A together with B`, `1 h 30 min`, half of a share."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from itertools import accumulate
from re import Pattern

from scopecheck.core.declared import ChoiceDecl, Declaration, NumberDecl, SetDecl, Step
from scopecheck.exact.bare_shares import PERCENT
from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.quantity import PLAIN_KIND, Unit, as_turns, find_unit, number_text
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import run_at, word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS, ONE_OR_MORE
from scopecheck.language.scan import CALENDAR, Number, Token
from scopecheck.matching.chart import CONDITION_WORDS, has_number, word_of
from scopecheck.matching.everyday import with_fractions
from scopecheck.matching.said_once import BY_WHAT
from scopecheck.matching.shared_limits import OF_LIMITS
from scopecheck.matching.spelled import shared_scale
from scopecheck.matching.subjects import Subject, is_bare_share, is_fraction
from scopecheck.vocabulary.names import Bound, Names, Typed

_BESIDE_MEMBER = (
    (["with", "or", "without"], ["and", "optionally"]),
    *(
        ([",", "optionally", *with_], ["and", "optionally"])
        for with_ in (["with"], ["together", "with"], ["combined", "with"], ["in", "combination", "with"])
    ),
    *(
        (f"{apart}{either}{alone} or {joined} with".split(), ["and", "optionally"])
        for apart in (", ", "")
        for either in ("either ", "")
        for alone in ("alone", "by itself")
        for joined in ("in combination", "together", "mixed", "combined")
    ),
    (["together", "with"], ["and"]),
    (["in", "combination", "with"], ["and"]),
    (["combined", "with"], ["and"]),
    (["alloyed", "with"], ["and"]),
    (["without"], ["but", "not"]),
)
_DENYING = frozenset("not no never neither none without free devoid void except excluding lacking".split())
_COMPARED = "less more greater fewer lower higher thinner thicker longer shorter larger smaller wider".split()
_THAN = tuple([word, "than"] for word in _COMPARED)
_ENDS = (["inclusive", ")"], ["exclusive", ")"], ["inclusive"], ["exclusive"])


_BEFORE_THAT = frozenset("than half twice exceeding exceeds exceed below above as from to".split())
"""What stands before 'that of the rim' where the rim itself is meant."""


def _between_numbers(tokens: tuple[Token, ...], at: int) -> bool:
    return 0 < at < len(tokens) - 1 and bool(tokens[at - 1].number and tokens[at + 1].number)


def words_at(at: Token, text: str, understood: bool = False) -> Iterator[Token]:
    """Words that stand for a token, all at its place; `understood` ones stand before it, where nothing is."""
    end = at.start if understood else at.end
    return (replace(at, sort="word", text=w, number=None, end=end) for w in text.split())


def with_runs(tokens: tuple[Token, ...], table: str = "usual_runs") -> tuple[Token, ...]:
    """The words with what a table lists for runs of them; their places are those of the first of them.

    Words at the front that stay as they are keep their own.
    """
    texts = [t.text.lower() for t in tokens]
    said = _runs_of(table)
    if said.keys().isdisjoint(texts):
        return tokens
    found, at = list[Token](), 0
    while at < len(tokens):
        run = next((r for r in said.get(texts[at], ()) if tuple(texts[at : at + len(r[0])]) == r[0]), None)
        if run is None:
            found.append(tokens[at])
            at += 1
            continue
        words, instead = run
        last, kept = tokens[at + len(words) - 1], 0
        while kept < min(len(words), len(instead)) - 1 and words[kept] == instead[kept]:
            kept += 1
        found += tokens[at : at + kept]
        first, instead = tokens[at + kept], instead[kept:]
        ends = [*(first.start for _ in instead[1:]), last.end][-len(instead) :] if instead else []
        for word, end in zip(instead, ends, strict=True):
            found.append(replace(first, sort="mark" if word == "," else "word", text=word, end=end))
        at += len(words)
    return tuple(found)


def without_proviso(tokens: tuple[Token, ...], subjects: tuple[Subject, ...]) -> tuple[Token, ...]:
    """`provided that, when the metal is zinc, the rim is at least 3 mm` without its first two words.

    So are they left out of a limit on one thing alone, or on quantities in a clause without a comma. Else a
    proviso on several things is a condition itself: 'provided that the metal is zinc, the rim is 3 mm'.
    """
    said = [word_of(t) for t in tokens]
    width = run_at(said, 0, "conditional", "opening_provisos") if subjects else 0
    start = width + (said[width : width + 1] == [","])
    conditional = not listed("limits", "governing").isdisjoint(said[start:])
    numbers = all(isinstance(s.bound, Typed) for s in subjects) and {",", "then"}.isdisjoint(said[start:])
    single = numbers or (len(subjects) == 1 and not isinstance(subjects[0].bound, Step))
    return tokens[start:] if width and start < len(tokens) and (conditional or single) else tokens


_NUMBERS = tuple(word for word, number in NUMBER_WORDS.items() if number > 1)


@cache
def _runs_of(table: str) -> dict[str, list[tuple[tuple[str, ...], tuple[str, ...]]]]:
    """What is read in place of runs of words, by their first word, the longest first."""
    found: dict[str, list[tuple[tuple[str, ...], tuple[str, ...]]]] = {}
    for row in word_lists()[table].items():
        for many in _NUMBERS if "%many" in row[0] else ("",):
            said, instead = (tuple(side.replace("%many", many).split()) for side in row)
            found.setdefault(said[0], []).append((said, instead))
    return {first: sorted(of, key=lambda r: -len(r[0])) for first, of in found.items()}


def with_forms(tokens: tuple[Token, ...], table: str) -> tuple[Token, ...]:
    """The words put as the first form of a table that they have, `reduced by {limit} relative to {thing}`.

    A `{limit}` has a number, a `{part}` is a fraction, a `{thing}` has none, `{words}` are any;
    `<this/that>` is either, and `[this/that]` may be left out.
    """
    said = with_fractions(tokens)
    words = [_word_in_form(t) for t in said]
    text = " ".join(words) + " "
    starts = {at: i for i, at in enumerate(accumulate((len(w) + 1 for w in words), initial=0))}
    there = frozenset(text.split())
    for needed, form, instead in _forms_of(table):
        if all(any(there >= option for option in options) for options in needed) and (
            found := form.fullmatch(text)
        ):
            ends = {name: found.span(name) for name in found.groupdict()}
            if not starts.keys() >= {at for span in ends.values() for at in span}:
                continue  # within a name of several words
            slots = {name: said[starts[first] : starts[last]] for name, (first, last) in ends.items()}
            return _in_that_form(said, slots, instead)
    return tokens


def _word_in_form(token: Token) -> str:
    """How a form has a token: numbers all alike, but for fractions and the whole of something."""
    if is_bare_share(token) and token.text.removesuffix("%").strip() == "100":
        return "100%"
    return "~" if is_fraction(token) else "#" if token.number else word_of(token)


_COUNTED = rf"(?:#|100%|~|{'|'.join(sorted(NUMBER_WORDS, key=len, reverse=True))})"
_OF_A_LIMIT = rf"(?:{'|'.join(OF_LIMITS)}|{_COUNTED})"
_SLOTS = {
    "lead": r"(?:[^ #~]+ )*?",
    "words": r"(?:[^ ]+ )+?",
    "part": "(?:~|(?:one |a )?half) ",
    "limit": rf"(?:{_OF_A_LIMIT} )*?{_COUNTED} (?:{_OF_A_LIMIT} )*?",
    "thing": rf"(?:(?!(?:is|are|being|than|as|by|and|or|but|not|,|at|from|to|{_COUNTED}) )[^ ]+ ){{1,7}}?",
}
"""What stands in a slot of a form: words without a number, any words, a fraction, a limit, a name."""


def _in_that_form(
    tokens: tuple[Token, ...], slots: dict[str, tuple[Token, ...]], instead: tuple[str, ...]
) -> tuple[Token, ...]:
    """The words of a form, with what stands in its slots; those before all slots from where they are said."""
    found = list[Token]()
    in_slots = {t.start for slot in slots.values() for t in slot}
    said = {word_of(t): t for t in tokens if t.start not in in_slots}
    for word in instead:
        if word.startswith("{"):
            found += slots[word[1:-1]]
        elif not found and word in said:
            found.append(said[word])
        else:
            found += words_at(found[-1] if found else tokens[0], word, understood=not found)
    return tuple(found)


_Needed = tuple[tuple[frozenset[str], ...], ...]


@cache
def _forms_of(table: str) -> list[tuple[_Needed, Pattern[str], tuple[str, ...]]]:
    """The forms of a table, each behind the words without which it is not there: most are never compiled."""
    rows = word_lists()[table].items()
    return [(_needed_in(form), regex(_pattern_of(form)), tuple(said.split())) for form, said in rows]


def _needed_in(form: str) -> _Needed:
    """Of each element of a form that is not left open, the words of each way to say it."""
    fixed = (element.strip("<>") for element in _ELEMENTS.findall(form) if element[0] not in "[{")
    return tuple(tuple(frozenset(option.split()) for option in element.split("/")) for element in fixed)


def _pattern_of(form: str) -> str:
    """A form as a pattern of words with a blank behind each; a slot named again has the same words."""
    found, named = "", set[str]()
    for element in _ELEMENTS.findall(form):
        name = element[1:-1]
        options = "|".join(f"{re.escape(option)} " for option in name.split("/"))
        if element[0] == "{":
            found += f"(?P={name})" if name in named else rf"(?P<{name}>{_SLOTS[name.rstrip('23')]})"
            named.add(name)
        else:
            said = options if element[0] in "<[" else re.escape(element) + " "
            found += f"(?:{said})?" if element[0] == "[" else f"(?:{said})"
    return found


_ELEMENTS = regex(r"<[^>]+>|\[[^\]]+\]|\{\w+\}|[^\s<\[{]+")


def _steps_named(texts: list[str]) -> int:
    """How many words name steps by their letters, before how often they are repeated: `steps (c) and (d)`."""
    count = 0
    while count < len(texts) and (texts[count] in _OF_STEPS or len(texts[count]) == 1):
        count += 1
    return count if "step" in texts[:count] or "steps" in texts[:count] else 0


_OF_STEPS = ("the", "step", "steps", "and", "to", "all", "said", "ii", "iii", "iv", "vi", "vii")


def with_usual_words(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`chosen from` as selected from, `A as well as B` as A and B, `ratio between A and B` as of A to B."""
    tokens = with_runs(tokens)
    texts = [t.text.lower() for t in tokens]
    if texts[-2:] == ["in", "number"] and len(texts) > 2:
        tokens = tokens[:-2]
    found, at = list[Token](), 0
    while at < len(tokens):
        token, between = tokens[at], texts[max(at - 1, 0) : at + 1] == ["ratio", "between"]
        if texts[at : at + 2] == ["chosen", "from"]:
            found.append(replace(token, text="selected"))
        elif texts[at] == "lasting" and texts[:1] == ["each"]:
            found.append(replace(token, text="having"))
        elif texts[at] == "through" and "exclusive" in texts[at:] and _between_numbers(tokens, at):
            found.append(replace(token, text="to"))
        elif texts[at : at + 2] == ["without", "exceeding"] and any(t.number for t in tokens[:at]):
            found += (replace(token, text="and", end=token.start), replace(token, text="not"))
        elif texts[at : at + 3] == ["period", "of", "time"]:
            found.append(token)
            at += 2
        elif texts[at] == "ranging" and at and texts[at - 1] in listed("measures", "nouns"):
            found.append(replace(token, text="of"))
        elif texts[at] == "repeating":
            found.append(replace(token, text="repeated"))
            at += _steps_named(texts[at + 1 :])
        elif texts[at : at + 3] == ["as", "well", "as"]:
            found.append(replace(token, text="and", end=tokens[at + 2].end))
            at += 2
        elif between and "and" in texts[at:] and not any(t.number for t in tokens[at : at + 3]):
            found.append(replace(token, text="of"))
            last = texts.index("and", at)
            tokens = (*tokens[:last], replace(tokens[last], text="to"), *tokens[last + 1 :])
        elif texts[at] == "neither" and texts[at + 1 : at + 3] in _THAN:
            found.append(replace(token, text="not"))
        elif (
            token.text == "(" and texts[at + 1 : at + 2] in (["preferably"], ["ideally"]) and texts[-1] == ")"
        ):
            found.append(replace(token, sort="mark", text=","))
            tokens, texts = tokens[:-1], texts[:-1]
        elif texts[at] == "nor" and texts[at + 1 : at + 3] in _THAN:
            found += (replace(token, text="and"), replace(token, text="not"))
        elif token.text == "(" and texts[at + 1 : at + 3] in _ENDS:
            found.append(tokens[at + 1])
            at += 2
        elif texts[at : at + 3] in (["only", "a", "single"], ["only", "one", "single"]):
            found += (
                replace(token, text="exactly"),
                replace(tokens[at + 1], text="one", end=tokens[at + 2].end),
            )
            at += 2
        elif (dozens := _dozens(tokens[at:])) is not None:
            found = shared_scale(found, 12)
            found.append(dozens[0])
            at += dozens[1] - 1
        elif (unit := _basis_behind(tokens[at:])) is not None:
            assert token.number
            found += (replace(token, number=replace(token.number, unit=unit)), *tokens[at + 1 : at + 3])
            at += 4
        else:
            found.append(token)
        at += 1
    return tuple(found)


def with_that_of(tokens: tuple[Token, ...], subject: Bound, name: str, names: Names) -> tuple[Token, ...]:
    """`less than that of the lid`, of a wall height, with the lid height; of a rod, with the bore itself.

    Left as it is, and so refused, where what is called so may be another measure of it, or a number.
    """
    texts = [t.text.lower() for t in tokens]
    for at in range(1, len(tokens) - 2):
        if texts[at : at + 2] != ["that", "of"] or texts[at - 1] not in _BEFORE_THAT:
            continue
        start = at + 2 + (texts[at + 2] in ("the", "a", "an"))
        for end in range(min(start + 4, len(tokens)), start, -1):
            meant = _meant_by_that(" ".join(texts[start:end]), subject, name, names)
            if meant:
                first = tokens[start]
                said = (replace(first, text=word, end=tokens[end - 1].end) for word in meant.split())
                return (*tokens[:at], *tokens[at + 2 : start], *said, *tokens[end:])
    return tokens


def _meant_by_that(of: str, subject: Bound, name: str, names: Names) -> str:
    """The name of what is meant by `that of` this, of a thing of such a name; '' where that is not told."""
    own, measures = name.lower().split(), listed("measures", "nouns")
    measure = next((w for w in reversed(own) if w in measures), "")
    for called in (f"{of} {measure}", f"{measure} of {of}", f"{measure} of the {of}") if measure else ():
        if _is_like(names.declared(called), subject):
            return called
    itself = names.declared(of)
    if not isinstance(itself, NumberDecl) or not _is_like(itself, subject):
        return ""
    told = measures.intersection(f"{itself.name} {itself.note}".lower().split())
    other = (bool(measure) and bool(told) and measure not in told) or (measure and len(own) > 1 and not told)
    return "" if other else of


def _is_like(declared: object, subject: Bound) -> bool:
    if not isinstance(declared, NumberDecl) or not isinstance(subject, Typed):
        return False
    return declared.kind == subject.kind and declared.whole == subject.whole


def _dozens(tokens: tuple[Token, ...]) -> tuple[Token, int] | None:
    """`a dozen`, `half a dozen`, `two dozen` as one number, and how many words it stands for."""
    texts = [t.text.lower() for t in tokens[:3]]
    many, width = (6, 3) if texts == ["half", "a", "dozen"] else (0, 2)
    if texts[1:2] in (["dozen"], ["dozens"]):
        many = 12 * (1 if texts[0] == "a" else NUMBER_WORDS.get(texts[0], 0))
    if not many:
        return None
    said = tokens[:width]
    number = Number(str(many), Fraction(many), 0, None)
    text = " ".join(t.text for t in said)
    return Token("number", text, said[0].start, said[-1].end, number), width


def _basis_behind(tokens: tuple[Token, ...]) -> Unit | None:
    """The unit of `5 % or more by weight`, where what the share is by stands behind its limit."""
    texts = [t.text.lower() for t in tokens[:5]]
    if len(texts) < 5 or not is_bare_share(tokens[0]) or texts[1] != "or" or texts[3] != "by":
        return None
    compared = texts[2] in ("more", "less", "greater", "higher", "lower", "above", "below")
    of = BY_WHAT.get(texts[4])
    return find_unit(PERCENT[of]) if compared and of else None


def with_members(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`A together with B` as A and B, `A without B` as A but not B, of what has a list.

    'A with or without B' is A and optionally B, 'A, B and optionally C' is A and B and optionally C,
    'A, B or both' is A or B or both, and 'not A together with B' not both of them.
    """
    if not isinstance(subject, SetDecl | ChoiceDecl):
        return tokens
    tokens = _with_what_is_contained(tokens, subject) if isinstance(subject, SetDecl) else tokens
    texts = [t.text.lower() for t in tokens]
    for said, instead in _BESIDE_MEMBER if "with" in texts or "without" in texts else ():
        for at in range(len(texts) - len(said) - 1, 0, -1):
            if texts[at : at + len(said)] == said and texts[at - 1] not in (",", "and", "or", "but"):
                if "optionally" in instead and not _DENYING.isdisjoint(texts[:at]):
                    return tokens  # what is denied of 'A alone or together with B' is A, whatever B is
                # Behind a list of several, 'together with B' says that B is there whichever of them is.
                apart = instead[0] == "and" and not {"and", "or"}.isdisjoint(texts[:at])
                added = [",", *instead] if apart else instead
                words = [replace(tokens[at], text=word, end=tokens[at + len(said) - 1].end) for word in added]
                tokens = (*tokens[:at], *words, *tokens[at + len(said) :])
                texts[at : at + len(said)] = added
                denied = next((i for i in range(at) if texts[i] == "not"), at)
                if instead[0] == "and" and denied + 1 < at and texts[denied + 1] != "both":
                    # What is denied of 'A together with B' is that both are there.
                    both = replace(tokens[denied], text="both", start=tokens[denied].end)
                    tokens = (*tokens[: denied + 1], both, *tokens[denied + 1 :])
                    texts.insert(denied + 1, "both")
    optional = _run_of(texts, ["and", "optionally"])
    if texts[-2:] == ["or", "both"]:
        # 'A, B or both', of two.
        optional = len(texts) - 2 - (texts[-3] == ",")
    commas = [i for i in range(optional) if texts[i] == ","]
    if commas and not {"and", "or"} & set(texts[:optional]):
        tokens = (
            *tokens[: commas[-1]],
            replace(tokens[commas[-1]], sort="word", text="or" if texts[-1] == "both" else "and"),
            *tokens[commas[-1] + 1 :],
        )
    return tokens


def _with_what_is_contained(tokens: tuple[Token, ...], subject: SetDecl) -> tuple[Token, ...]:
    """`carbon black is contained`, `no talc is present`, of a list, as contains carbon black, no talc."""
    texts = [t.text.lower() for t in tokens]
    verb = len(texts) - 2 - (texts[-2:-1] == ["not"])
    if verb < 1 or texts[verb] not in ("is", "are", "being") or texts[-1] not in _CONTAINED:
        return tokens
    named = f" {' '.join(texts[:verb])} "
    alone = any(f" {member.lower()} " == named for member in subject.members)
    if not CONDITION_WORDS.isdisjoint(texts) or (alone and texts[verb:] == ["is", "present"]):
        return tokens  # the condition has it, or it is read so
    if not any(f" {member.lower()} " in named for member in subject.members):
        return tokens
    denied = texts[-2] == "not"
    if denied and not _DENYING.isdisjoint(texts[:verb]):
        return tokens
    said = words_at(tokens[0], "does not contain" if denied else "contains", understood=True)
    return (*said, *tokens[:verb])


_CONTAINED = ("contained", "present", "included", "comprised", "used", "employed", "added")


def _run_of(texts: list[str], run: list[str]) -> int:
    """Where these words stand, the first time; 0 if nowhere."""
    places = range(len(texts) - len(run) + 1)
    return next((at for at in places if texts[at : at + len(run)] == run), 0)


def with_signs_in_words(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`a thickness of ≤ 5 mm` as at most: a sign before a number is a limit like its words."""
    found: list[Token] = []
    for at, token in enumerate(tokens):
        before_number = at + 1 < len(tokens) and tokens[at + 1].number is not None
        said = _SIGNS.get(token.text, ()) if token.sort == "sign" and before_number else ()
        if (
            token.text.lower() == "plus"
            and before_number
            and at
            and tokens[at - 1].text.lower() in _ENDS_BEFORE
        ):
            continue  # 'from minus 5 °C to plus 20 °C'
        found += [replace(token, sort="word", text=word) for word in said] or [token]
    return tuple(found)


def with_compared(tokens: tuple[Token, ...], names: tuple[str, ...], others: Names) -> tuple[Token, ...]:
    """`0.5 ≤ x < 2`, `x ≥ 0.5`, `1 < a/b < 2` of what stands left of the colon, in words; else as they are.

    A single name may be one that the sheet does not have: the claim's own letter for it. What brings letters
    in, `a gap g, where 1 mm < g < 2 mm`, `the height H and the rim R satisfy H/R > 2`, is left out.
    """
    start = _formula_at(tokens)
    brought = _brought_in(tokens[:start], names, others) if start else {}
    if brought is None:
        return tokens
    formula = tuple(replace(t, text=brought.get(t.text, t.text)) for t in tokens[start:])
    signs = [i for i, t in enumerate(formula) if t.sort == "sign" and t.text in _SIGNS]
    first = signs[:1] == [1] and formula[0].number is not None
    last = bool(signs) and signs[-1] == len(formula) - 2 and formula[-1].number is not None
    if len(signs) == 1 and len(names) == 2 and (of_names := _names_compared(formula, signs[0], names)):
        return of_names
    if not signs or len(signs) != first + last or len(signs) > 2:
        return tokens
    named = formula[2 if first else 0 : signs[-1] if last else len(formula)]
    said = " ".join(t.text for t in named).lower()
    alone = len(names) == 1 and (
        (said == names[0].lower() and not others.noted_letter(" ".join(t.text for t in named), names[0]))
        or (len(named) == 1 and _is_strange(named[0], others))
    )
    parted = [i for i, t in enumerate(named) if t.text in ("/", ":")]
    sides = said.split(f" {named[parted[0]].text} ") if len(parted) == 1 else []
    both = len(names) == 2 and sorted(sides) == sorted(n.lower() for n in names)
    if not (alone or both):
        return tokens
    limits: list[Token] = list(named) if both else []
    if both and sides[0] != names[0].lower():
        limits = list(_as_ratio(named, parted[0]))
    for at in signs:
        before = first and at == signs[0]
        sign = _MIRRORED[formula[at].text] if before else formula[at].text
        if first and not before:
            limits.append(replace(formula[at], sort="word", text="and", end=formula[at].start))
        limits += [replace(formula[at], sort="word", text=word) for word in _SIGNS[sign]]
        limits.append(formula[0] if before else formula[-1])
    return tuple(limits)


def _names_compared(formula: tuple[Token, ...], at: int, names: tuple[str, ...]) -> tuple[Token, ...]:
    """`height > rim` as the height more than the rim, of these two; nothing for others."""
    sides = (" ".join(t.text for t in side).lower() for side in (formula[:at], formula[at + 1 :]))
    if sorted(sides) != sorted(n.lower() for n in names):
        return ()
    words = (replace(formula[at], sort="word", text=word) for word in _SIGNS[formula[at].text])
    return (*formula[:at], *words, *formula[at + 1 :])


def _as_ratio(named: tuple[Token, ...], at: int) -> Iterator[Token]:
    """`height / rim` as the ratio of height to rim, whichever stands first left of the colon."""
    for word in ("ratio", "of"):
        yield replace(named[0], sort="word", text=word, end=named[0].start)
    yield from named[:at]
    yield replace(named[at], sort="word", text="to")
    yield from named[at + 1 :]


def _formula_at(tokens: tuple[Token, ...]) -> int:
    """Where a formula begins behind words that bring it in; 0 where none do."""
    signs = [i for i, t in enumerate(tokens) if t.sort == "sign"]
    before = [t.text.lower() for t in tokens[: signs[0]]] if signs else []
    start = max((i + 1 for i, word in enumerate(before) if word in _BRINGING_IN), default=0)
    while 0 < start < len(before) and before[start] in _CALLED:
        start += 1
    return start


def _brought_in(lead: tuple[Token, ...], names: tuple[str, ...], others: Names) -> dict[str, str] | None:
    """The letters behind the names, or notes, in these words, with the names; None if they say more."""
    texts = [t.text.lower() for t in lead]
    letters: dict[str, str] = {}
    known = set[int]()
    for name, called in ((n, text) for n in names for text in (n, others.note_of(n))):
        own = called.lower().split()
        places = [i for i in range(len(texts)) if own and texts[i : i + len(own)] == own]
        for at in places[:1]:
            known |= set(range(at, at + len(own)))
            behind = at + len(own)
            if behind < len(lead) and _is_letter(lead[behind]):
                letters[lead[behind].text] = name
                known.add(behind)
    said = all(i in known or texts[i] in _BESIDE_NAMES for i in range(len(texts)))
    return letters if said else None


def _is_letter(token: Token) -> bool:
    short = token.sort == "word" and len(token.text) <= MOST_LETTERS
    return short and token.text.lower() not in _BESIDE_NAMES


MOST_LETTERS = 2
_BRINGING_IN = frozenset(
    "where wherein satisfying satisfies satisfy fulfilling fulfils fulfills fulfil fulfill meeting meets meet"
    " with that satisfied fulfilled met".split()
)
_CALLED = frozenset(
    "a the following conditional relation relationship formula condition inequality expression equation"
    " :".split()
)
"""What a formula is called where it is brought in: 'satisfying the relation'."""
_BESIDE_NAMES = frozenset("a an the having has have of and is are being in which such ratio / , : (".split())
_BESIDE_NAMES |= _CALLED
_BESIDE_NAMES |= _BRINGING_IN


def _is_strange(token: Token, names: Names) -> bool:
    short = token.sort == "word" and names.declared(token.text) is None and len(token.text) < 6
    return short and not names.noted_letter(token.text)


_MIRRORED = {"<": ">", ">": "<", "<=": ">=", ">=": "<=", "≤": "≥", "≥": "≤"}
_ENDS_BEFORE = frozenset("to and from between of than least most or above below about approximately".split())
_SIGNS = {
    **dict.fromkeys(("≤", "<="), ("at", "most")), **dict.fromkeys(("≥", ">="), ("at", "least")),
    "<": ("less", "than"), ">": ("more", "than"),
}  # fmt: skip


def with_shares(tokens: tuple[Token, ...], subject: Bound, names: Names) -> tuple[Token, ...]:
    """`at least half`, of what is declared as a share in per cent, with 50 of its hundredths.

    Half of something else that is declared is a multiple of that.
    """
    unit = subject.unit if isinstance(subject, Typed) else None
    if unit is None or unit.kind.dimension or not unit.symbol or unit.factor != Fraction(1, 100):
        return tokens
    said = [t.text.lower() for t in tokens]
    if any(names.declared(" ".join(said[i:])) for i in range(1, len(said)) if said[i - 1] in ("of", "the")):
        return tokens
    return tuple(
        replace(t, number=replace(t.number, value=t.number.value * 100, unit=unit))
        if t.number and t.number.unit is None and "/" in t.number.text
        else t
        for t in with_fractions(tokens)
    )


def _is_of_whole_numbers(tokens: tuple[Token, ...], texts: list[str], at: int) -> bool:
    """Does an `even number`, a `positive integer`, a `multiple of 4` or a `power of two` end here?"""
    parity = texts[at] in ("number", "integer") and texts[at - 1] in _SORTS_OF_NUMBERS
    power = texts[max(0, at - 2) : at] == ["power", "of"] and texts[at] in ("two", "2", "ten", "10")
    return parity or power or (texts[max(0, at - 2) : at] == ["multiple", "of"] and has_number(tokens[at]))


def with_parity(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`an even number of cups, not fewer than four`, `a multiple of 4 not exceeding 96`, with an 'and'."""
    texts = [t.text.lower() for t in tokens]
    number = next((i for i in range(1, len(texts)) if _is_of_whole_numbers(tokens, texts, i)), 0)
    for at in range(number + 1, len(texts)) if number else ():
        if texts[at : at + 2] == ["but", "by"] and texts[at + 2 : at + 3] and texts[at + 2] in _LIMITS:
            return (*tokens[:at], replace(tokens[at], text="and"), *tokens[at + 2 :])
        valued = tokens[at].number and number + 1 < at and texts[at - 1] == "of"
        if texts[at] == "," or texts[at] in _LIMITS or valued:
            joined = replace(tokens[at], sort="word", text="and", number=None)
            rest = tokens[at + (texts[at] == ",") :]
            by = texts[at : at + 3] == [",", "but", "by"]
            of = texts[number + 1 : at] == ["of"]
            return (*tokens[: at - of], joined, *(rest[2:] if by else rest))
        if texts[at] == "and":
            break
    return tokens


_SORTS_OF_NUMBERS = ("even", "odd", "positive", "negative", "non-negative")
_LIMITS = frozenset(
    "not no exceeding between from at less more fewer up greater larger over above below under"
    " smaller lower".split()
)


def with_divisible(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`divisible by 4 and by 6`, `by 4 and 6` with what both numbers share; a 'not' may deny one or both."""
    texts = [t.text.lower() for t in tokens]
    if "divisible" not in texts:
        return tokens
    evenly = next((r for r in _NO_REMAINDER if texts[-len(r) :] == r), [])
    tokens, texts = tokens[: len(tokens) - len(evenly)], texts[: len(texts) - len(evenly)]
    if not {"not", "neither"}.isdisjoint(texts):
        return tokens
    found: list[Token] = []
    for at, token in enumerate(tokens):
        joined = at > 2 and texts[at - 1] in ("or", "and", ",")
        both = texts[at - 1 : at] == ["and"] and texts[at - 3 : at - 2] in (["by"], ["both"])
        if both and "or" not in texts and token.number and "by" in texts[max(at - 4, 0) : at]:
            found += words_at(token, "divisible by", understood=True)
        elif token.text.lower() == "by" and joined and "divisible" in texts[:at]:
            found.append(replace(token, text="divisible", end=token.start))
        found.append(token)
    return tuple(found)


_NO_REMAINDER = [
    [*before, *which, "remainder"]
    for before in (["without"], ["with", "no"], ["leaving", "no"], ["and", "leaves", "no"])
    for which in ([], ["a"], ["any"])
]


def with_so_many(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`3 g to 4 g per 100 ml` with that unit at both numbers."""
    units = [t.number.unit for t in tokens if t.number and t.number.unit]
    whole = {u.symbol.partition("/")[0]: u for u in units if _SO_MANY.search(u.symbol)}
    return tuple(
        replace(t, number=replace(t.number, unit=whole[t.number.unit.symbol]))
        if t.number and t.number.unit and t.number.unit.symbol in whole
        else t
        for t in tokens
    )


_SO_MANY = regex(r"/10+ ")


def with_calendar_units(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`at least 9 and up to 18 months` with the months behind both, which are no unit of one length."""
    words = [word_of(t) for t in tokens]
    unit = words[-1] if words else ""
    numbers = [i for i, t in enumerate(tokens) if t.number or words[i] in NUMBER_WORDS]
    if unit not in ("months", "years") or len(numbers) != 2 or numbers[1] != len(tokens) - 2:
        return tokens
    first, number = numbers[0], tokens[numbers[0]].number
    joined = words[first + 1 : first + 2] in (["and"], ["but"], [","])
    bare = number is None or number.unit is None
    limited = words[first - 1 : first] in (["least"], ["than"], ["of"]) and words[:1] != ["between"]
    again = not {"most", "to", "than", "less"}.isdisjoint(words[first + 2 : -2])
    if not (joined and bare and limited and again):
        return tokens
    return (*tokens[: first + 1], *words_at(tokens[first], unit, True), *tokens[first + 1 :])


def with_unit_behind_or(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`0.4 g or more per 100 ml` as 0.4 g per 100 ml or more."""
    words = [word_of(t) for t in tokens]
    for at in range(len(words) - 3):
        if words[at + 1 : at + 2] != ["or"] or words[at + 2] not in _OR_SO or words[at + 3] != "per":
            continue
        number = tokens[at].number
        behind = tokens[at + 4 : at + 5]
        whole = behind[0].text if behind else ""
        unit = number and number.unit and find_unit(f"{number.unit.symbol}/{whole}")
        if number and unit:
            made = replace(tokens[at], number=replace(number, unit=unit))
            return (*tokens[:at], made, *tokens[at + 1 : at + 3], *tokens[at + 5 :])
    return tokens


_OR_SO = frozenset("more less greater higher lower above below over under".split())


def with_turns(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`300 1/min` of a rotational speed as so many turns a minute."""
    rpm = find_unit("rpm")
    if not isinstance(subject, Typed) or rpm is None or subject.kind != rpm.kind:
        return tokens
    return tuple(
        replace(t, number=replace(t.number, unit=as_turns(t.number.unit)))
        if t.number and t.number.unit
        else t
        for t in tokens
    )


def with_gauge(tokens: tuple[Token, ...], subject: Bound, name: str) -> tuple[Token, ...]:
    """`-0.4 bar relative to ambient`, `the gauge pressure exceeds 2 bar`, of such a pressure, with that."""
    texts = [t.text.lower() for t in tokens]
    own = any(run == name.lower().split() for run in _SAID_BEFORE)
    said_so = (
        i for i in range(len(texts) - 2) if texts[i : i + 2] in _SAID_BEFORE and (own or texts[i + 2] != "of")
    )
    told = next((texts[i] for i in said_so), "")
    tokens = (_on(tokens, subject, told) if told else ()) or tokens
    bases = {t.number.unit.kind.basis for t in tokens if t.number and t.number.unit} - {""}
    if len(bases) == 1 and len(tokens) > 2:  # '8 bar to 10 bar gauge'
        tokens = _on(tokens, subject, bases.pop()) or tokens
    said = next((n for n in (4, 3) if tuple(texts[-n:]) in _FROM_AMBIENT), 0)
    return _on(tokens[:-said], subject, "gauge") or tokens if said else tokens


def with_pressure_told(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`a gauge pressure of 30 psi`, of a pressure declared as that, with its unit."""
    texts = [t.text.lower() for t in tokens]
    at = next((i for i in range(min(4, len(texts) - 2)) if texts[i : i + 2] in _SAID_BEFORE), -1)
    if at < 0:
        return tokens
    rest = at + 2 + (texts[at + 2] == "of")
    return _on((*tokens[:at], *tokens[rest:]), subject, texts[at]) or tokens


def _on(tokens: tuple[Token, ...], subject: Bound, basis: str) -> tuple[Token, ...]:
    """Pressures without a basis as on that one, of what is declared on it; of other things nothing."""
    kind = subject.kind if isinstance(subject, Typed) else None
    if kind is None or kind.basis != basis:
        return ()
    found: list[Token] = []
    for token in tokens:
        unit = token.number.unit if token.number else None
        marked = find_unit(f"{unit.symbol}({basis[0]})") if unit and not unit.kind.basis else None
        number = replace(token.number, unit=marked) if token.number and marked else token.number
        found.append(replace(token, number=number))
    return tuple(found)


_SAID_BEFORE = (["gauge", "pressure"], ["absolute", "pressure"])
_FROM_AMBIENT = (
    ("relative", "to", "ambient"), ("relative", "to", "atmosphere"),
    ("relative", "to", "ambient", "pressure"),
    ("relative", "to", "atmospheric", "pressure"), ("above", "atmospheric", "pressure"),
)  # fmt: skip


def _of_a_clock(token: Token) -> Token:
    """`1:30 h`, of hours and their sixtieths."""
    number = token.number
    timed = number and number.unit and number.unit.kind.dimension == TIME
    if not number or not timed or not (said := _CLOCK.fullmatch(number.text)):
        return token
    value = int(said[1]) + Fraction(int(said[2]), 60)
    return replace(token, number=replace(number, text=number_text(value), value=value))


_CLOCK = regex(r"(\d+):([0-5]\d)")


def without_every(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`once every two to four weeks`, of the time in between, as two to four weeks.

    Whether one number is a fixed spacing a phrase asks.
    """
    kind = subject.kind if isinstance(subject, Typed) else None
    texts = [t.text.lower() for t in tokens]
    start = 2 if texts[:2] == ["once", "every"] else texts[:1] == ["every"]
    several = start and any(w in ("to", "-", "and", "or") for w in texts[start:])
    return tokens[start:] if several and kind is not None and kind.dimension == TIME else tokens


def without_combinations(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`one or more selected from A, B and combinations thereof` as of A and B: 'or more' says so already."""
    tokens = with_any_mixture(tokens)
    texts = [t.text.lower() for t in tokens]
    several = texts[:3] in ONE_OR_MORE
    mixed = len(texts) > 3 and texts[-1] == "thereof" and f"{texts[-2].removesuffix('s')}s" in _MIXTURES[:3]
    width = 3 if texts[-3:-2] in (["and"], ["or"]) else 4 if texts[-4:-2] in _AND_ANY else 0
    if not several or not mixed or "selected" not in texts or not width:
        return tokens
    end = len(tokens) - width - (texts[-width - 1] == ",")
    kept, commas = tokens[:end], [i for i in range(end) if texts[i] == ","]
    if not commas or {"and", "or"}.intersection(texts[commas[-1] : end]):
        return kept
    joined = replace(tokens[commas[-1]], sort="word", text="and")
    return (*kept[: commas[-1]], joined, *kept[commas[-1] + 1 :])


_MIXTURES = ("mixtures", "combinations", "blends", "alloys")
_AND_ANY = (["and", "any"], ["or", "any"], ["and", "a"], ["or", "a"])


def with_any_mixture(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`a combination of at least two of these` as any mixture thereof: it need not be of all of them."""
    texts = [t.text.lower() for t in tokens]
    for at, word in enumerate(texts):
        mixed = word in _MIXTURES or f"{word}s" in _MIXTURES
        start = at - (texts[at - 1 : at] in (["a"], ["an"], ["any"]))
        several = (texts[at + 1 : at + n] for n in (4, 5, 6)) if mixed else ()
        for run in several:
            behind = at + 1 + len(run)
            ends = texts[behind : behind + 1] == ["thereof"] or texts[behind:] in _OF_THESE
            if run[:1] == ["of"] and " ".join(run[1:]) in _TWO_OR_MORE and ends:
                any_, thereof = replace(tokens[start], text="any"), replace(tokens[-1], text="thereof")
                more = tokens[behind + 1 :] if texts[behind] == "thereof" else ()
                return (*tokens[:start], any_, replace(tokens[at], text="mixture"), thereof, *more)
    return tokens


_TWO_OR_MORE = ("two or more", "at least two", "any two or more")
_OF_THESE = (["of", "these"], ["of", "them"], ["of", "the", "foregoing"], ["of", "any", "of", "these"])


def with_hyphened_members(tokens: tuple[Token, ...], subject: Bound) -> tuple[Token, ...]:
    """`mono- and diglycerides` as the one member that is declared as mono-and-diglycerides."""
    members = subject.members if isinstance(subject, SetDecl | ChoiceDecl) else ()
    for member in members:
        first, joiner, last = member.partition("-and-") if "-and-" in member else member.partition("-or-")
        run = [first.lower(), "-", joiner.strip("-"), *last.lower().split()]
        texts = [t.text.lower() for t in tokens]
        at = next((i for i in range(len(texts)) if joiner and texts[i : i + len(run)] == run), None)
        if at is not None:
            last_of = tokens[at + len(run) - 1]
            one = replace(tokens[at], sort="word", text=member, end=last_of.end)
            tokens = (*tokens[:at], one, *tokens[at + len(run) :])
    return tokens


def with_ends_upward(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`from 5 mm down to 3 mm` as from 3 mm to 5 mm."""
    for at in range(1, len(tokens) - 2):
        down = [t.text.lower() for t in tokens[at : at + 2]] == ["down", "to"]
        upper, lower = tokens[at - 1].number, tokens[at + 2].number
        if not down or upper is None or lower is None:
            continue
        upper = replace(upper, unit=upper.unit or lower.unit)
        units = (upper.unit, lower.unit)
        high, low = (n.unit.to_base(n.value) if n.unit else n.value for n in (upper, lower))
        if high > low and len({u.kind if u else None for u in units}) == 1:
            first, last = tokens[at + 2], replace(tokens[at - 1], number=upper)
            return (*tokens[: at - 1], first, tokens[at + 1], last, *tokens[at + 3 :])
    return tokens


def with_shares_of_a_value(
    tokens: tuple[Token, ...], subject: Bound, own_name: str, names: Names
) -> tuple[Token, ...]:
    """`80 to 100 % of a rated speed of 3000 rpm` as 2400 to 3000 rpm; not `within 10 % of 200 mm`."""
    kind = subject.kind if isinstance(subject, Typed) and not subject.whole else None
    texts = [t.text.lower() for t in tokens]
    for at in (i for i, t in enumerate(tokens[:-2]) if is_bare_share(t) and texts[i + 1] == "of"):
        end = next((i for i in range(at + 2, len(tokens)) if tokens[i].number), 0)
        value = tokens[end].number
        called = texts[at + 2 : end]
        plain = not called or (called[-1] == "of" and called[0] in ("a", "an", "the", "its"))
        own = value is not None and value.unit is not None and value.unit.kind == kind
        others = (name.lower() for name in names.all() if name.lower() != own_name.lower())
        declared = any(f" {name} " in f" {' '.join(called)} " for name in others)
        joined = (
            texts[at - 1 : at] in (["to"], ["-"], ["and"]) and at > 1 and tokens[at - 2].number is not None
        )
        alone = not joined and texts[at - 1 : at] in (["within"], ["±"], ["by"])
        limits = not (listed("limits", "inside") - _SAYS_WHICH).isdisjoint(called)
        if not (end and plain and own) or declared or alone or limits or value is None:
            continue
        last = replace(_share_of(tokens[at], tokens[at], tokens[end]), end=tokens[end].end)
        before = tokens[: at - 2] if joined else tokens[:at]
        first = (_share_of(tokens[at - 2], tokens[at], tokens[end]), tokens[at - 1]) if joined else ()
        return (*before, *first, last, *tokens[end + 1 :])
    return tokens


_SAYS_WHICH = frozenset("of a an the its nominal rated".split())


def _share_of(share: Token, percent: Token, whole: Token) -> Token:
    """The number that so many per cent of another number are; a share without its sign is in per cent too."""
    assert share.number is not None
    assert whole.number is not None
    assert percent.number is not None
    assert percent.number.unit is not None
    part = percent.number.unit.to_base(share.number.value) * whole.number.value
    text = number_text(part)
    decimals = len(text.partition(".")[2])
    number = replace(whole.number, text=text, value=part, decimals=decimals)
    return replace(whole, number=number, start=share.start, end=share.end)


def with_time_within(tokens: tuple[Token, ...], declared: Declaration | None) -> tuple[Token, ...]:
    """`within 25 ms`, of how long something takes, as at most 25 ms: no time is less than nothing."""
    timed = isinstance(declared, NumberDecl) and declared.kind.dimension == TIME
    if not timed or not isinstance(declared, NumberDecl) or declared.lower is None or declared.lower.value:
        return tokens
    texts = [t.text.lower() for t in tokens]
    for at in (i for i, word in enumerate(texts) if word == "within" and texts[i - 1 : i] != ["to"]):
        end = at + 1 + (texts[at + 1 : at + 2] in _HEDGES)
        number = tokens[end].number if end < len(tokens) else None
        own = number is not None and number.unit is not None and number.unit.kind.dimension == TIME
        if own and (end + 1 == len(tokens) or texts[end + 1] in (",", "and", "but", "or")):
            return (*tokens[:at], *words_at(tokens[at], "at most"), *tokens[at + 1 :])
    return tokens


_HEDGES = (["about"], ["approximately"], ["around"], ["roughly"])


def with_hours(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`1 h 30 min`, `1:30 h` as one number, the first in the finer of the two units."""
    found: list[Token] = []
    for token in map(_of_a_clock, tokens):
        before = found[-1].number if found else None
        coarse, fine = before.unit if before else None, token.number.unit if token.number else None
        if before is None or token.number is None or coarse is None or fine is None:
            found.append(token)
        elif coarse.kind == fine.kind and coarse.kind.dimension == TIME and coarse.factor > fine.factor:
            value = before.value * coarse.factor / fine.factor + token.number.value
            first = found.pop()
            number = replace(token.number, text=number_text(value), value=value)
            found.append(replace(token, text=f"{first.text} {token.text}", start=first.start, number=number))
        else:
            found.append(token)
    return tuple(found)


def with_finer(tokens: tuple[Token, ...], name: str, note: str) -> tuple[Token, ...]:
    """`better than 0.5 mm` of a resolution as finer than that, `±0.5 mm or better` as 0.5 mm or finer."""
    own = f"{name} {note}".lower().split()
    at = next((i for i, t in enumerate(tokens) if t.text.lower() == "better"), -1)
    said = at >= 0 and (
        [t.text.lower() for t in tokens[at + 1 : at + 2]] == ["than"]
        or [t.text.lower() for t in tokens[max(at - 1, 0) : at]] == ["or"]
    )
    if not said or listed("measures", "finer").isdisjoint(own):
        return tokens
    finer = (*tokens[:at], replace(tokens[at], text="finer"), *tokens[at + 1 :])
    return tuple(t for t in finer if t.text not in ("±", "+/-"))


def with_years_noted(tokens: tuple[Token, ...], subject: Bound, note: str) -> tuple[Token, ...]:
    """`12 years of age or older`, of a number noted to be in years, as 12 or more."""
    plain = isinstance(subject, Typed) and (subject.kind is None or subject.kind == PLAIN_KIND)
    noted = CALENDAR.intersection(w.strip(",;()") for w in note.lower().split())
    forms = {w.removesuffix("s") for w in noted}
    if not plain or not forms:
        return tokens
    found = list[Token]()
    for at, token in enumerate(tokens):
        word = token.text.lower()
        before = [t.text.lower() for t in tokens[max(0, at - 2) : at]]
        behind = tokens[at + 1].text.lower() if at + 1 < len(tokens) else ""
        of_age = (word == "of" and behind == "age") or (word == "age" and before[-1:] == ["of"])
        counted = word.removesuffix("s") in forms and at and tokens[at - 1].number
        if counted or (of_age and any(t.removesuffix("s") in forms for t in before)):
            continue
        said = _AGES.get(word) if behind == "than" or before[-1:] == ["or"] else None
        found.append(replace(token, text=said) if said else token)
    return tuple(found)


_AGES = {"older": "more", "younger": "less"}


def with_less_or_more(
    tokens: tuple[Token, ...], subjects: tuple[Subject, ...], names: Names
) -> tuple[Token, ...]:
    """`at -18 degC or colder`, of a temperature, as or lower; `faster than 3 s`, of a time, as shorter than.

    What is done faster takes less time, and has the higher rate.
    """
    words = [word_of(t) for t in tokens]
    if _AS_SAID.isdisjoint(words) or not subjects:
        return tokens
    said, *others = (_said_for_less_or_more(s, names.note_of(s.text)) for s in subjects)
    if any(other != said for other in others):
        return tokens
    return tuple(
        replace(t, text=said[word])
        if word in said
        and ((i > 1 and words[i - 1] == "or" and words[i + 1 : i + 2] in ([], [","]))
             or (said == _TAKING and words[i + 1 : i + 2] in (["than"], ["by"])))
        else t
        for i, (t, word) in enumerate(zip(tokens, words, strict=True))
    )  # fmt: skip


def _said_for_less_or_more(subject: Subject, note: str) -> dict[str, str]:
    kind = subject.bound.kind if isinstance(subject.bound, Typed) else None
    if kind is None:
        return {}
    if kind.point:
        return _AS_HIGH
    if kind.dimension == TIME:
        return _TAKING
    if ("time", -1) in kind.dimension:
        return _RUNNING
    called = f"{subject.text} {note}".lower().split()
    return {} if kind.dimension or _SLOPES.isdisjoint(called) else _FALLING


_AS_HIGH = {"colder": "lower", "cooler": "lower", "warmer": "higher", "hotter": "higher"}
_TAKING = {"faster": "shorter", "quicker": "shorter", "slower": "longer"}
_RUNNING = {"faster": "higher", "quicker": "higher", "slower": "lower"}
_FALLING = {"steeper": "higher", "shallower": "lower", "flatter": "lower"}
_AS_SAID = frozenset((*_AS_HIGH, *_TAKING, *_FALLING))
_SLOPES = frozenset("gradient slope incline inclination grade".split())


def with_folds(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """`at least 10-fold`, `2- to 5-fold`, `tenfold` as so many times; `3 × the depth` as 3 times it.

    `A quarter as high as it is long` is so many times as high, `25 % as high` 25 % of it.
    """
    said = with_fractions(tokens)
    words = [word_of(t) for t in said]
    as_high = [i for i in range(1, len(words) - 3) if words[i] == words[i + 2] == "as"]
    for at in (i for i in as_high if words[i + 1] in listed("limits", "sideways")):
        if words[at - 1] == "half":
            return with_folds((*said[: at - 1], *words_at(said[at - 1], "one half times"), *said[at:]))
        if is_fraction(said[at - 1]):
            return with_folds((*said[:at], *words_at(said[at - 1], "times"), *said[at:]))
        if is_bare_share(said[at - 1]):
            return with_folds((*said[:at], *words_at(said[at], "of"), *said[at + 3 :]))
    words = [word_of(t) for t in tokens]
    found = list[Token]()
    for at, token in enumerate(tokens):
        number = found[-1] if found else None
        behind = words[at + 1] if at + 1 < len(words) else ""
        after_number = number is not None and number.number is not None and number.number.unit is None
        if words[at] in ("-", "–") and after_number and behind in ("fold", "to"):
            continue
        if words[at] == "fold" and after_number:
            found.append(replace(token, text="times"))
        elif words[at] in ("*", "×") and after_number and behind in ("the", "that"):
            found.append(replace(token, sort="word", text="times"))
        elif words[at].removesuffix("-fold").removesuffix("fold") in NUMBER_WORDS and "fold" in words[at]:
            found += words_at(token, f"{words[at].removesuffix('fold').removesuffix('-')} times")
        else:
            found.append(token)
    return tuple(found)
