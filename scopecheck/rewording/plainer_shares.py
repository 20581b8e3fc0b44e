"""Ways of saying what share there is of something, said more plainly."""

from __future__ import annotations

from scopecheck.exact.bare_shares import PERCENT
from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.record import replace
from scopecheck.language.number_words import ONE_OR_MORE
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.everyday import with_fractions
from scopecheck.matching.said_once import BY_WHAT
from scopecheck.matching.shared_limits import says_limit
from scopecheck.matching.subjects import Subject, is_bare_share, is_fraction
from scopecheck.rewording.forms import words_at
from scopecheck.rewording.plainer_amounts import OPEN_WORDS
from scopecheck.vocabulary.names import Typed

Tokens = tuple[Token, ...]
Things = tuple[Subject, ...]
_ARTICLES = ("the", "a", "an", "said")
_PER = (
    ["with", "respect", "to"], ["relative", "to"], ["based", "on"], ["per"], ["for"], ["to"], ["in"],
)  # fmt: skip
_VERBS = ("is", "are", "being", "has", "have", "having", "exceeds", "exceed", "and", "or", "to")
_WHOLES = ("composition", "mixture", "formulation", "total composition", "whole composition")


def shares_plainly(tokens: Tokens, subjects: Things) -> Tokens:
    """What is said of shares of a whole in plainer words; else as it is."""
    bounds = [s.bound for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
    kinds = {b.kind.split[0] for b in bounds if b.kind is not None and not b.kind.dimension}
    if len(bounds) < len(subjects) or len(kinds) != 1 or not kinds <= set(BY_WHAT.values()):
        return tokens
    tokens = _without_measure_of(
        _without_whole_before(_without_marks(tokens, subjects)), subjects, min(kinds)
    )
    tokens = _without_basis_behind(_with_basis_of_noun(tokens, min(kinds)), min(kinds))
    return _per_hundred_parts(_beside_one_part(tokens, subjects, min(kinds)), subjects, min(kinds))


def with_part_of_the_other(tokens: Tokens, subjects: Things) -> Tokens:
    """`less than a tenth of which is glucose`, `of which less than 10 % is glucose`, of glucose and sugars,
    as the glucose being less than that of the sugars."""
    said = with_fractions(tokens)
    words = [word_of(t) for t in said]
    if len(subjects) != 2 or any(s.parts is not None for s in subjects):
        return tokens
    if words[:2] == ["of", "which"]:
        at = next((i for i in range(2, len(words)) if words[i] in _IS), 0)
        limit, whole = said[2:at], "which"
    else:
        of = next((i for i in range(1, len(words) - 3) if words[i] == "of"), 0)
        at = next((i for i in range(of, len(words)) if words[i] in _IS), 0) if of else 0
        limit, whole = said[:of], " ".join(w for w in words[of + 1 : at] if w not in _ARTICLES)
    part = " ".join(w for w in words[at + 1 :] if w not in _ARTICLES)
    names = [s.text.lower() for s in subjects]
    if not at or part not in names or whole not in ("which", *names) or whole == part:
        return tokens
    shares = [t for t in limit if t.number]
    if not shares or not all(is_bare_share(t) or is_fraction(t) for t in shares):
        return tokens
    other = names[1 - names.index(part)]
    lead = words_at(said[0], f"the {part} is", understood=True)
    return (*lead, *limit, *words_at(said[-1], f"of the {other}"))


_IS = ("is", "are", "being")
_WHOLE = 100


def with_range_of_the_other(tokens: Tokens) -> Tokens:
    """`within 80 % to 125 % of the height`, about the whole of it, as from the one to the other of it.

    Where both ends are below 100 %, or above, they may as well be how far the one is from the other.
    """
    words = [word_of(t) for t in tokens]
    for at in (i for i, w in enumerate(words[:-4]) if w == "within"):
        low, high = tokens[at + 1].number, tokens[at + 3].number
        between = words[at + 2] in ("to", "and", "-") and words[at + 4] == "of"
        if not between or low is None or high is None or not is_bare_share(tokens[at + 3]):
            continue
        if (is_bare_share(tokens[at + 1]) or low.unit is None) and low.value < _WHOLE < high.value:
            to = words_at(tokens[at + 2], "to")
            return (
                *tokens[:at],
                *words_at(tokens[at], "from"),
                *tokens[at + 1 : at + 2],
                *to,
                *tokens[at + 3 :],
            )
    return tokens


def _without_basis_behind(tokens: Tokens, basis: str) -> Tokens:
    """`as much oil as gum by weight`, of shares by weight, without how they are counted."""
    words = [word_of(t) for t in tokens]
    counted = words[-2:-1] == ["by"] and BY_WHAT.get(words[-1]) == basis and not any(t.number for t in tokens)
    return tokens[: -2 - (words[-3] == ",")] if counted and "much" in words[:-3] else tokens


def _beside_one_part(tokens: Tokens, subjects: Things, basis: str) -> Tokens:
    """`1 part by weight of oil and 2 to 4 parts by weight of wax` as the wax being 2 to 4 times the oil.

    So `for each part of oil, 0.1 to 0.5 parts of wax`.
    """
    words = [word_of(t) for t in tokens]
    parts = [i for i, w in enumerate(words) if w in ("part", "parts")]
    if len(subjects) != 2 or len(parts) != 2:
        return tokens
    if words[parts[1] - 2 : parts[1]] in (["for", "each"], ["for", "every"]):
        at = parts[1] - 2
        turned = (*tokens[at:], *words_at(tokens[-1], ","), *tokens[:at])
        return _beside_one_part(turned, subjects, basis)
    if parts[0] > 2 or not parts[0]:
        return tokens
    one = tokens[parts[0] - 1].number
    each = words[: parts[0]] in (["for", "each"], ["for", "every"], ["per"])
    (first, by), (second, also_by) = (_behind_parts(words, at - 1) for at in parts)
    joined = next((i for i in range(first, parts[1]) if words[i] in ("and", ",", "to", "per", "for")), 0)
    named = [
        [w for w in part if w not in _ARTICLES] for part in (words[first + 1 : joined], words[second + 1 :])
    ]
    own = [s.text.lower().split() for s in subjects]
    single = words[0] in ("one", "1") or (one is not None and one.value == 1 and not one.unit)
    if not joined or not (each or (single and parts[0] == 1)) or {by, also_by} - {"", basis}:
        return tokens
    if (
        words[first : first + 1] != ["of"]
        or words[second : second + 1] != ["of"]
        or sorted(named) != sorted(own)
    ):
        return tokens
    limit = tokens[joined + 1 : parts[1]]
    if not limit or any(t.number and t.number.unit for t in limit):
        return tokens
    last = tokens[-1]
    lead = words_at(tokens[0], f"the {' '.join(named[1])} is", understood=True)
    return (*lead, *limit, *words_at(last, f"times the {' '.join(named[0])}"))


def _without_whole_before(tokens: Tokens) -> Tokens:
    """`the composition comprises 5 wt% of oil and 1 wt% of wax` without what holds all of it."""
    words = [word_of(t) for t in tokens]
    start = int(words[0] in _ARTICLES)
    holds = len(words) > start + 2 and words[start] in _WHOLES and words[start + 1] in OPEN_WORDS
    return tokens[start + 1 :] if holds else tokens


def _without_measure_of(tokens: Tokens, subjects: Things, own: str) -> Tokens:
    """`the weight of the oil divided by the weight of the wax`, of shares by weight, without 'weight'."""
    words = [word_of(t) for t in tokens]
    names = [s.text.lower().split() for s in subjects]
    for at in range(len(words) - 3) if "divided" in words else ():
        behind = at + 2 + (words[at + 2] in _ARTICLES)
        measured = words[at + 1] == "of" and (BY_WHAT.get(words[at]) == own or words[at] in _OF_SHARES)
        if measured and any(words[behind : behind + len(n)] == n for n in names):
            start = at - (words[at - 1] in _ARTICLES if at else 0)
            return _without_measure_of((*tokens[:start], *tokens[at + 2 :]), subjects, own)
    return tokens


def _with_basis_of_noun(tokens: Tokens, own: str) -> Tokens:
    """`a proportion by weight of 1 to 5 %`, `a weight fraction of`, as a proportion of 1 to 5 % by weight.

    `Based on the weight of the oil`, of such shares, as based on the oil.
    """
    words = [word_of(t) for t in tokens]
    for at in range(1, len(words) - 4):
        measured = words[at : at + 3] == ["based", "on", "the"] and words[at + 4] == "of"
        if measured and (BY_WHAT.get(words[at + 3]) == own or words[at + 3] in _OF_SHARES):
            return _with_basis_of_noun((*tokens[: at + 2], *tokens[at + 5 :]), own)
    for at in range(1, len(words) - 2):
        behind = words[at] == "by" and words[at - 1] in _OF_SHARES and BY_WHAT.get(words[at + 1])
        basis = behind or (BY_WHAT.get(words[at]) if words[at + 1] in _OF_SHARES else None)
        if not basis or (basis != own and not any(map(is_bare_share, tokens))):
            continue  # 'the same amount by weight', of shares by volume, is another
        unit = find_unit(PERCENT[basis])
        rest = (*tokens[:at], *tokens[at + (2 if behind else 1) :])
        return tuple(
            replace(t, number=replace(t.number, unit=unit)) if t.number and is_bare_share(t) else t
            for t in rest
        )
    return tokens


_OF_SHARES = ("proportion", "share", "percentage", "amount", "content", "concentration", "quantity")


def _without_marks(tokens: Tokens, subjects: Things) -> Tokens:
    """`5 wt% of oil; and 1 wt% of wax` with a comma, `oil: 5 wt%` without a colon, `oil-to-wax` in words."""
    last = {s.text.lower().split()[-1] for s in subjects}
    compound = {f"{a.text}-to-{b.text}".lower() for a in subjects for b in subjects}
    found = list[Token]()
    for token in tokens:
        if word_of(token) in compound:
            found += words_at(token, " to ".join(token.text.split("-to-")))
        elif token.text != ":" or not found or word_of(found[-1]) not in last:
            found.append(replace(token, text=",") if token.text == ";" else token)
    return tuple(found)


def with_amount_elided(tokens: Tokens, subjects: Things) -> Tokens:
    """`at least one of oil and wax ... at most 5 wt%` with `in an amount of` for what is left out.

    What is left out there joins an amount to things; the words alone say that one has a value.
    """
    gap = next((i for i, t in enumerate(tokens) if t.sort == "gap"), 0)
    words = [word_of(t) for t in tokens]
    kinds = [s.bound.kind for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
    shares = len(kinds) == len(subjects) > 1 and not any(kind.dimension for kind in kinds)
    last = {s.text.lower().split()[-1] for s in subjects}
    chosen = words[:3] in ONE_OR_MORE or "or" in words[:gap]
    behind = tokens[gap + 1] if gap + 1 < len(tokens) else None
    if not (shares and gap and chosen and words[gap - 1] in last) or behind is None:
        return tokens
    if words[gap + 1] in _VERBS or not (behind.number or says_limit((behind,))):
        return tokens
    return (*tokens[:gap], *words_at(behind, "in an amount of", understood=True), *tokens[gap + 1 :])


def _per_hundred_parts(tokens: Tokens, subjects: Things, basis: str) -> Tokens:
    """`20 to 30 parts by mass with respect to 100 parts by mass of oil` as 20 to 30 % of the oil.

    Of 100 parts of the composition it is a share of the whole.
    """
    words = [word_of(t) for t in tokens]
    hundred = next((i for i, t in enumerate(tokens) if _is_hundred_parts(tokens, words, i)), None)
    run = next((r for r in _PER if hundred and words[hundred - len(r) : hundred] == r), []) if hundred else []
    if hundred is None or not run:
        return tokens
    behind, by = _behind_parts(words, hundred)
    whole = [w for w in words[behind + 1 :] if w not in _ARTICLES]
    parts = [i for i, t in enumerate(tokens[:hundred]) if t.number and words[i + 1 : i + 2] == ["parts"]]
    told = {by, *(_behind_parts(words, i)[1] for i in parts)} - {""}
    if words[behind : behind + 1] != ["of"] or not parts or not whole or told - {basis}:
        return tokens
    of_all = " ".join(whole) in _WHOLES
    limited = subjects[0] if len(subjects) == 1 else _other_than(whole, subjects)
    if limited is None:
        return tokens
    end = hundred - len(run)
    end -= words[end - 1] == ","  # 'of sugar, based on 100 parts of oil'
    said = _without_parts(tokens[:end], "wt%" if of_all and basis == "by mass" else "%")
    said = _without_own(said, limited)
    if of_all:
        return said if basis == "by mass" and len(subjects) == 1 else tokens
    is_so = words_at(tokens[0], f"the {limited.text} is", understood=True) if len(subjects) == 2 else ()
    return (*is_so, *said, *words_at(tokens[-1], f"of the {' '.join(whole)}", understood=True))


def _is_hundred_parts(tokens: Tokens, words: list[str], at: int) -> bool:
    number = tokens[at].number
    hundred = number is not None and number.value == 100 and number.unit is None
    hundred |= words[at] == "hundred" and words[at - 1] != "one"
    return hundred and words[at + 1 : at + 2] == ["parts"]


def _behind_parts(words: list[str], at: int) -> tuple[int, str]:
    """Where the words behind `100 parts by mass` begin, and by what the parts are; '' if that is not said."""
    by = words[at + 2 : at + 3] == ["by"] and words[at + 3 : at + 4] != []
    return (at + 4, BY_WHAT.get(words[at + 3], "?")) if by else (at + 2, "")


def _other_than(whole: list[str], subjects: Things) -> Subject | None:
    others = [s for s in subjects if s.text.lower().split() != whole]
    return others[0] if len(subjects) == 2 and len(others) == 1 else None


def _without_parts(tokens: Tokens, symbol: str) -> Tokens:
    words, unit = [word_of(t) for t in tokens], find_unit(symbol)
    found, at = list[Token](), 0
    while at < len(tokens):
        number = tokens[at].number
        found.append(replace(tokens[at], number=replace(number, unit=unit)) if number else tokens[at])
        at = _behind_parts(words, at)[0] if number and words[at + 1 : at + 2] == ["parts"] else at + 1
    return tuple(found)


def _without_own(tokens: Tokens, subject: Subject) -> Tokens:
    """Without `of the wax` behind, or `wax in an amount of` before."""
    words, own = [word_of(t) for t in tokens], subject.text.lower().split()
    for article in ([], ["the"], ["a"]):
        behind = ["of", *article, *own]
        if words[-len(behind) :] == behind:
            return tokens[: -len(behind)]
    return tokens
