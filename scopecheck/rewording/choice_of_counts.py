"""A choice of numbers of things, `a set of one or two fingers`: the numbers alone, in words of one phrase.

And a choice of things by their numbers, `at least one of a bore and a pin`: that there are some of them.
"""

from __future__ import annotations

from fractions import Fraction

from scopecheck.core.declared import NumberDecl
from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.quantity import PLAIN_KIND
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.language.syntax import Words
from scopecheck.matching.chart import FILLERS, said_instead, word_of
from scopecheck.matching.subjects import Subject
from scopecheck.vocabulary.names import Bound, Names, Typed

_LEADING = (
    FILLERS
    | listed("transitions", "open")
    | {"set", "group", "total", "number", "numbering", "array", "series", "either"}
)
_BETWEEN = ("or", ",", "either")
_MOST = 3


def with_choice_of_counts(
    tokens: tuple[Token, ...], subject: Bound, name: str, note: str
) -> tuple[Token, ...]:
    """`comprising one finger or two fingers`, of a number of fingers, as one or two.

    The words as they are where they say anything besides, as in 'at least one or two'.
    """
    numbers = [i for i, t in enumerate(tokens) if _is_number(t)]
    if not isinstance(subject, Typed) or not subject.whole or not 1 < len(numbers) <= _MOST:
        return tokens
    called = f"{name} {note}".lower().replace(",", " ").split()
    own = {form for w in called for form in (w, f"{w}s", w.removesuffix("s"))} - set(NUMBER_WORDS)
    said = [word_of(t) for t in tokens]
    first, last = numbers[0], numbers[-1]
    lead, between, behind = said[:first], said[first:last], said[last + 1 :]
    joined = [w for i, w in enumerate(between, first) if i not in numbers and w not in own]
    choice = joined[-1:] == ["or"] or joined[-2:] == ["or", "either"]
    plain = choice and "or" not in joined[:-1] and set(joined) <= set(_BETWEEN)
    if not plain or not set(lead) <= _LEADING | own or not set(behind) <= own:
        return tokens
    if {"number", "of"} <= set(lead) and {"is", "being", "amounts"} & set(lead):
        return tokens  # 'the number of fingers is' has a phrase of its own
    return tuple(
        t for i, t in enumerate(tokens[: last + 1]) if i in numbers or (i > first and said[i] in ("or", ","))
    )


def with_things_chosen(tokens: tuple[Token, ...], subjects: tuple[Subject, ...]) -> tuple[Token, ...]:
    """`at least one of a bore and a pin`, of two or three numbers, as that one of them is at least 1.

    'At least two of the bores and pins' may be said of all together, and stays as it is; so does two of two.
    """
    numbers = all(isinstance(s.bound, Typed) and s.bound.whole and s.mixture is None for s in subjects)
    if not 1 < len(subjects) <= _MOST or not numbers:
        return tokens
    said = [w for w in map(word_of, tokens) if w != ","]
    start = int(said[:1] != [] and said[0] in _HOLDING)
    end = len(said) - 2 * (said[-2:] == ["is", "present"])
    how = next((h for h in _CHOICES if " ".join(said[start:end]).startswith(f"{h} ")), "")
    things, plural = _things_called(said[start + len(how.split()) : end], subjects)
    if not how or not things or ("two" in how and (plural or len(subjects) == 2)):
        return tokens
    *others, joiner, last = things
    so_many = _CHOICES[how]
    one, of_all = (f"{' , '.join(others)} {word} {last}" for word in ("or", "and"))
    chosen = of_all if joiner == "and" else one
    instead = f"{so_many} is at least one".format_map({"things": chosen, "or": one, "and": of_all}).split()
    return said_instead(tokens, instead)


def _things_called(said: list[str], subjects: tuple[Subject, ...]) -> tuple[list[str], bool]:
    """The names that `a bore and a pin` stands for, with what joins them before the last; none for others.

    And whether one of them is said of several: `the bores`.
    """
    left, found, plural = list(subjects), list[str](), False
    while said:
        one = said[0] in ("a", "an")
        said = said[said[0] in _ARTICLES :]
        forms = ((s, own) for s in left for own in _forms(s.text.lower()))
        called = next(((s, own) for s, own in forms if said[: len(own.split())] == own.split()), None)
        if called is None:
            return [], False
        left.remove(called[0])
        plural = plural or (called[1].endswith("s") and not one)
        said = said[len(called[1].split()) :]
        if len(left) == 0:
            return ([*found, called[0].text], plural) if not said else ([], False)
        found.append(called[0].text)
        if said[:1] in (["and"], ["or"]) and len(left) == 1:
            found.append(said.pop(0))
    return [], False


def _forms(name: str) -> tuple[str, ...]:
    one = name.removesuffix("ies") + "y" if name.endswith("ies") else name.removesuffix("s")
    return (name, one, name + "s")


_ARTICLES = frozenset("a an the".split())
_HOLDING = frozenset("having has with comprising comprises including includes containing contains".split())
_CHOICES = {
    "at least one of": "at least one of {things}",
    "one or more of": "at least one of {things}",
    "one or both of": "{or} or both",
    "only one of": "only one of {things}",
    "exactly one of": "only one of {things}",
    "either": "either {or}",
    "at least two of": "at least two of {things}",
    "two or more of": "at least two of {things}",
}
"""How words choose among things, and how the phrase for it says so."""


def with_letter_counted(tokens: tuple[Token, ...], subject: Bound, name: str) -> tuple[Token, ...]:
    """`n is 2`, of a number called n, as the number of n: a letter is the number, and no things."""
    said = [word_of(t) for t in tokens]
    start = int(said[:1] in (["where"], ["wherein"]))
    letter = isinstance(subject, Typed) and subject.whole and len(name) <= _LETTERS
    is_so = said[start : start + 1] == [name.lower()] and said[start + 1 : start + 2] in (["is"], ["being"])
    if not letter or not is_so or len(tokens) != start + 3 or not _is_number(tokens[-1]):
        return tokens
    first = tokens[start]
    lead = (replace(first, sort="word", text=w, end=first.start) for w in ("number", "of"))
    return (*lead, *tokens[start:])


_LETTERS = 2


def powers_named(
    tokens: tuple[Token, ...], words: Words, subjects: tuple[Subject, ...], names: Names
) -> Trouble | None:
    """The error for `a power of two`, whose numbers have no end and may begin with 1; None for others."""
    said = [word_of(t) for t in tokens]
    at = next(
        (i for i in range(len(said) - 2) if said[i : i + 2] in (["power", "of"], ["powers", "of"])), None
    )
    primes = next((i for i in range(len(said)) if said[i] in ("prime", "primes")), None)
    base = {"two": 2, "2": 2, "ten": 10, "10": 10}.get(said[at + 2]) if at is not None else None
    bound = subjects[0].bound if subjects else None
    if (base is None and primes is None) or not isinstance(bound, Typed) or bound.kind != PLAIN_KIND:
        return None
    name = subjects[0].text
    made = names.declared(name)
    upper = made.upper.value if isinstance(made, NumberDecl) and made.upper is not None else None
    if base is None:
        return _as_primes(words, name, upper)
    powers = [base**i for i in range(_POWERS if upper is None else 64)]
    listed = " OR ".join(f"{name} = {n}" for n in powers if upper is None or n <= upper)
    more = "" if upper is not None else " and so on, to the greatest that may be meant"
    return trouble(
        words.span, f"'power of {said[(at or 0) + 2]}' is read as no list of numbers",
        "The numbers have no end, and whether 1 is one of them the words leave open.",
        f"write them behind the words: two blanks, exactly {listed}{more}; without the 1 if it is none",
    )  # fmt: skip


def _as_primes(words: Words, name: str, upper: Fraction | None) -> Trouble:
    """The error for `a prime number of teeth`, with the first of them or all up to the greatest number."""
    most = _MOST_PRIME if upper is None else min(int(upper), _MOST_PRIME)
    primes = [n for n in range(2, most + 1) if all(n % d for d in range(2, n))]
    listed = " OR ".join(f"{name} = {n}" for n in primes)
    ended = upper is not None and upper <= _MOST_PRIME
    more = "" if ended else " and so on, to the greatest that may be meant"
    return trouble(
        words.span, "'prime' is read as no list of numbers", "The prime numbers have no end.",
        f"write them behind the words: two blanks, exactly {listed}{more}",
    )  # fmt: skip


_POWERS = 6
_MOST_PRIME = 50


def _is_number(token: Token) -> bool:
    whole = token.number is not None and token.number.unit is None
    return whole or (
        word_of(token) in NUMBER_WORDS and word_of(token) not in ("once", "twice", "thrice", "dozen")
    )
