"""Ways of saying of how many like parts a limit holds, said more plainly. Used by `plainer.py` alone."""

from __future__ import annotations

from scopecheck.foundations.record import replace
from scopecheck.language.number_words import NUMBER_WORDS, WORDS_OF_NUMBERS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import has_number, word_of
from scopecheck.matching.subjects import Subject
from scopecheck.rewording.forms import with_runs, words_at
from scopecheck.vocabulary.parts import plural_of

Tokens = tuple[Token, ...]
MOST_ROUNDS = 3
"""How often words for parts are said more plainly: what one row gives may be another's."""
_NO_MORE = (["no", "more", "than"], ["not", "more", "than"], ["up", "to"])
_MIDDLES = ("mean", "average", "median")
_EXTREMES = {"maximum": "greatest", "largest": "greatest", "greatest": "greatest", "highest": "greatest"}
_EXTREMES |= {"minimum": "least", "smallest": "least", "least": "least", "lowest": "least"}


def parts_plainly(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """What is said of one field of like parts in plainer words; else as it is."""
    parts = subjects[0].parts
    if len(subjects) != 1 or parts is None or parts.sort != "parts" or not tokens:
        return tokens
    field, _, whole = subjects[0].text.lower().partition(" of the ")
    one = whole.removesuffix("s")
    tokens = _by_their_names(tokens, field, whole)
    tokens = _of_one_more(_of_so_many(tokens))
    tokens = _than_the_one_before(_not_every(tokens, one), one)
    return _of_the_field(_do_not(tokens, whole), field, whole)


def _by_their_names(tokens: Tokens, field: str, whole: str) -> Tokens:
    """`all ribs but one` as all of them but one: what is listed for parts and their field by any name."""
    called = [(field, "%field"), (plural_of(field), "%fields"), (whole, "%parts")]
    called += [(one, "%part") for one in (whole.removesuffix("es"), whole.removesuffix("s")) if one != whole]
    shown = {sign: name for name, sign in reversed(called)}
    found, at = list[Token](), 0
    words = [word_of(t) for t in tokens]
    while at < len(tokens):
        name, sign = next((c for c in called if words[at : at + len(c[0].split())] == c[0].split()), ("", ""))
        last = tokens[at + len(name.split()) - 1] if name else tokens[at]
        found.append(replace(tokens[at], text=sign, end=last.end) if name else tokens[at])
        at += len(name.split()) or 1
    said = tuple(found)
    for _ in range(MOST_ROUNDS):
        said = with_runs(said, "part_runs")
    if [t.text for t in said] == [t.text for t in found]:
        return tokens
    return tuple(w for t in said for w in (words_at(t, shown[t.text]) if t.text in shown else (t,)))


def _of_so_many(tokens: Tokens) -> Tokens:
    """`no more than two of the ribs` as at most two of them."""
    words = [word_of(t) for t in tokens]
    run = next((run for run in _NO_MORE if words[: len(run)] == run), [])
    counted = run and words[len(run) + 1 : len(run) + 2] == ["of"] and has_number(tokens[len(run)])
    return (*words_at(tokens[0], "at most"), *tokens[len(run) :]) if counted else tokens


def _of_one_more(tokens: Tokens) -> Tokens:
    """`more than one of the ribs` as at least two of them, `fewer than three` as at most two."""
    words = [word_of(t) for t in tokens]
    side = {"more": 1, "fewer": -1}.get(words[0], 0)
    number = NUMBER_WORDS.get(words[2], -1) if side and words[1:2] == ["than"] and len(words) > 4 else -1
    other = WORDS_OF_NUMBERS.get(number + side, "") if number > 0 and words[3] == "of" else ""
    limit = "at least" if side > 0 else "at most"
    return (*words_at(tokens[0], f"{limit} {other}"), *tokens[3:]) if other else tokens


def _not_every(tokens: Tokens, one: str) -> Tokens:
    """`not every rib has` as not all of them having."""
    words, own = [word_of(t) for t in tokens], one.split()
    every = words[:2] in (["not", "every"], ["not", "each"]) and words[2 : 2 + len(own)] == own
    return (*words_at(tokens[0], "not all of them"), *tokens[2 + len(own) :]) if every else tokens


def _than_the_one_before(tokens: Tokens, one: str) -> Tokens:
    """`each rib is higher than the preceding rib` as each higher than the preceding one."""
    words, own = [word_of(t) for t in tokens], one.split()
    end = 1 + len(own)
    behind = words[-len(own) - 1 :] in (["preceding", *own], ["previous", *own])
    before = words[-2:] in (["preceding", "one"], ["previous", "one"]) or behind
    if words[:1] not in (["each"], ["every"]) or words[1:end] != own or words[end] != "is" or not before:
        return tokens
    rest = (*tokens[end + 1 : -len(own)], *words_at(tokens[-1], "one")) if behind else tokens[end + 1 :]
    return (replace(tokens[0], text="each"), *rest)


def _do_not(tokens: Tokens, whole: str) -> Tokens:
    """`the ribs do not have a height of more than 3 mm` as none of them having it."""
    words, own = [word_of(t) for t in tokens], whole.split()
    start = int(words[:1] == ["the"])
    end = start + len(own)
    denied = words[start:end] == own and words[end : end + 3] in (["do", "not", "have"], ["are", "not", "of"])
    return (*words_at(tokens[0], "none of them having"), *tokens[end + 3 :]) if denied else tokens


def _of_the_field(tokens: Tokens, field: str, whole: str) -> Tokens:
    """`the mean height of the ribs is 3 mm` as the ribs having a mean height of 3 mm.

    `The maximum height of the ribs` is the greatest of them.
    """
    words = [word_of(t) for t in tokens]
    start = int(words[:1] == ["the"])
    run = [*field.split(), "of", "the", *whole.split()]
    end = start + 1 + len(run)
    word = words[start] if start < len(words) else ""
    verb = words[end : end + 1] and words[end] in ("is", "being", "of")
    if words[start + 1 : end] != run or not verb or end + 1 >= len(tokens):
        return tokens
    if word in _MIDDLES:
        return (*words_at(tokens[0], f"the {whole} have a {word} {field} of"), *tokens[end + 1 :])
    extreme = _EXTREMES.get(word)
    return (*words_at(tokens[0], f"the {extreme} of them is"), *tokens[end + 1 :]) if extreme else tokens
