"""Amounts, ingredients and members of lists said more plainly; used by `plainer.py`, and of presence before
anything is read."""

from __future__ import annotations

from scopecheck.core.declared import ChoiceDecl, SetDecl
from scopecheck.exact.bare_shares import PERCENT
from scopecheck.foundations.kinds import WHOLE_OF, Kind
from scopecheck.foundations.quantity import PLAIN_KIND, find_unit
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import runs_in_order
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS, ONE_OR_MORE
from scopecheck.language.scan import Token
from scopecheck.matching.chart import said_instead, word_of
from scopecheck.matching.said_once import BY_WHAT
from scopecheck.matching.subjects import Subject, is_bare_share
from scopecheck.rewording.forms import words_at
from scopecheck.rewording.members_beside import with_any_mixture
from scopecheck.rewording.parts_per_part import of_it
from scopecheck.vocabulary.names import Bound, Typed

Tokens = tuple[Token, ...]
_DETERMINERS = frozenset(("the", "a", "an"))
OPEN_WORDS = listed("transitions", "open")
NO_NAME = frozenset("from by and or not if when than".split())


def with_basis_in_commas(tokens: Tokens) -> Tokens:
    """`5 percent, by weight, of salt` as 5 percent by weight of salt."""
    found, at = list[Token](), 0
    while at < len(tokens):
        token, said = tokens[at], [word_of(t) for t in tokens[at + 1 : at + 5]]
        of = (
            BY_WHAT.get(said[2])
            if is_bare_share(token) and said[:2] == [",", "by"] and len(said) > 2
            else None
        )
        if of is None:
            found.append(token)
            at += 1
            continue
        assert token.number
        found.append(replace(token, number=replace(token.number, unit=find_unit(PERCENT[of]))))
        at += 4 + (said[3:] == [","])
    return tuple(found)


def without_body_weight(tokens: Tokens) -> Tokens:
    """`5 mg/kg of body weight` without what the kilogram is of, which such doses are always of."""
    words = [word_of(t) for t in tokens]
    for at, token in enumerate(tokens):
        width = 3 if words[at + 1 : at + 4] == ["of", "body", "weight"] else 2
        said = width == 3 or words[at + 1 : at + 3] == ["body", "weight"]
        unit = token.number.unit if token.number else None
        if said and unit is not None and unit.symbol.endswith("/kg"):
            return (*tokens[: at + 1], *tokens[at + 1 + width :])
    return tokens


def of_any_of_them(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`2 to 5 wt% of at least one wax`, `one or more waxes in a total amount of 2 to 5 wt%`, of a share, as
    so much of a wax."""
    words = [word_of(t) for t in tokens]
    if len(subjects) != 1 or not _is_share(subjects[0]):
        return tokens
    several = (i for i in range(1, len(words) - 4) if words[i + 1 : i + 4] in ONE_OR_MORE)
    at = next((i for i in several if words[i] == "of"), 0)
    behind = tokens[at + 4 :]
    alone = all(t.sort == "word" and word_of(t) not in ("and", "or", "of") for t in behind)
    if at and alone and tokens[at - 1].number:
        return (*tokens[: at + 1], replace(tokens[at + 1], text="a", end=tokens[at + 3].end), *behind)
    start = int(words[0] in OPEN_WORDS)
    own = subjects[0].text.lower().split()[-1]
    end = next((i for i in range(start + 4, len(words)) if words[i] in ("in", "at")), 0)
    end -= end > 0 and words[end - 1] == ","
    counted = words[start : start + 3] in ONE_OR_MORE and start + 3 < end <= start + 6
    if counted and own in (
        words[end - 1],
        words[end - 1].removesuffix("s"),
        words[end - 1].removesuffix("es"),
    ):
        called, behind = replace(tokens[end - 1], text=own), tokens[end + (words[end] == ",") :]
        return (replace(tokens[start], text="a"), *tokens[start + 3 : end - 1], called, *behind)
    return tokens


def without_own_basis(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`1 to 5 times the amount of palladium by weight`, of two shares by weight, without what both are by."""
    words = [word_of(t) for t in tokens]
    compared = not {"times", "equal", "same"}.isdisjoint(words)
    of = BY_WHAT.get(words[-1]) if len(words) > 4 and words[-2] == "by" and compared else None
    kinds = [s.bound.kind for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
    same = of is not None and len(kinds) == 2 and all(map(_is_share, subjects))
    return tokens[:-2] if same and all(k.split[0] == of for k in kinds) else tokens


def with_same_amount(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`at least the same amount by weight as the oil`, of two shares by weight, as at least as much."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(len(words) - 5) if words[i : i + 4] == ["the", "same", "amount", "by"]), None)
    of = BY_WHAT.get(words[at + 4]) if at is not None and words[at + 5] == "as" else None
    kinds = [s.bound.kind for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
    if at is None or of is None or len(kinds) != 2 or not all(is_by(kind, of) for kind in kinds):
        return tokens
    said = (replace(tokens[at], text=w, end=tokens[at].start) for w in ("as", "much"))
    return (*tokens[:at], *said, *tokens[at + 5 :])


def without_comprising(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`comprising more oil than water`, `containing 2 % of salt` of amounts, without the verb."""
    words = [word_of(t) for t in tokens]
    verb = words[:1] != [] and words[0] in listed("asides", "holding") | OPEN_WORDS
    amounts = all(isinstance(s.bound, Typed) and not (s.parts or s.mixture or s.moments) for s in subjects)
    told = any(t.number or word_of(t) in NUMBER_WORDS for t in tokens) or not _COMPARING.isdisjoint(words)
    told = told and "only" not in words
    return tokens[1:] if verb and subjects and amounts and told and len(tokens) > 1 else tokens


_COMPARING = frozenset("more less fewer much many equal".split())


def without_both_before(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`both loadings together amount to less than 0.35 mg`, of two things, without what both are."""
    words = [word_of(t) for t in tokens]
    at = words.index("together") if "together" in words[:5] else 0
    both = (
        len(subjects) == 2
        and at > 1
        and words[0] in ("both", "the")
        and words[at + 1 : at + 2] != ["with"]
        and all(isinstance(s.bound, Typed) for s in subjects)
        and all(t.sort == "word" for t in tokens[:at])
    )
    return tokens[at:] if both else tokens


def with_excess(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`a molar excess of 10 to 50 % of acid over base` as acid exceeding base by 10 to 50 %."""
    words = [word_of(t) for t in tokens]
    over = next((i for i, w in enumerate(words) if w in ("over", "beyond")), 0)
    at = words.index("excess") if "excess" in words[:3] else 0
    by = {"molar": "by mole", "weight": "by mass", "mass": "by mass"}.get(words[at - 1] if at else "", "")
    bounds = [s.bound for s in subjects if isinstance(s.bound, Typed)]
    if len(subjects) != 2 or len(bounds) != 2 or not over or not at or words[at + 1 : at + 2] != ["of"]:
        return tokens
    if by and not all(b.kind and is_by(b.kind, by) for b in bounds):
        return tokens
    first, second = (s.text.lower().split() for s in subjects)
    inside, behind = words[at + 2 : over], [w for w in words[over + 1 :] if w not in _DETERMINERS]
    limit = tokens[at + 2 : over]
    for article in ([], ["the"]):
        named = [*article, *first]
        if inside[-len(named) - 1 :] == ["of", *named] and behind == second:
            limit = limit[: -len(named) - 1]
        elif inside[: len(named) + 1] == [*named, "of"] and behind == second:
            limit = limit[len(named) + 1 :]
        else:
            continue
        said = words_at(tokens[0], f"{subjects[0].text} exceeds {subjects[1].text} by", understood=True)
        return (*said, *limit) if any(t.number for t in limit) else tokens
    return tokens


def with_change_from(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`the volume of the dough increasing by 50 %`, of a volume after and one before, as one exceeding the
    other by 50 %; decreasing, as the one lower than the other by so much."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(words) - 1) if words[i] in _GROWS | _SHRINKS), 0)
    names = [s.text.lower().split() for s in subjects]
    if len(subjects) != 2 or not at or words[at + 1] != "by":
        return tokens
    shared = set(names[0]) & set(names[1]) - _DETERMINERS
    which = [({*n} & _AT_LAST != set(), {*n} & _AT_FIRST != set()) for n in names]
    if sorted(which) != [(False, True), (True, False)] or shared.isdisjoint(words[:at]):
        return tokens
    last, first = subjects if which[0][0] else subjects[::-1]
    led = words[1 if words[0] in _DETERMINERS else 0 : at]
    verb = led[-1:] in (["is"], ["being"])
    if led[0] not in shared or not (len(led) - verb == 1 or led[1] == "of"):
        return tokens
    beside = "exceeds" if words[at] in _GROWS else "is lower than"
    said = words_at(tokens[0], f"{last.text} {beside} {first.text}", understood=True)
    return (*said, *tokens[at + 1 :])


_GROWS = frozenset("increasing increases increased growing grows rising rises".split())
_SHRINKS = frozenset("decreasing decreases decreased shrinking shrinks falling falls reduced".split())
_AT_LAST = frozenset("after final end last second".split())
_AT_FIRST = frozenset("before initial start starting first".split())


def with_parts_of_a_hundred(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`5 to 30 parts by weight per 100 parts by weight of the resin`, of two amounts, as per cent of that.

    Of one plain number it is so many.
    """
    tokens = _with_hundred_behind(tokens, subjects[1].text) if len(subjects) == 2 else tokens
    found = _of_a_hundred(tokens, subjects)
    if found is None and len(subjects) == 2:
        found = _of_a_hundred(_grams_as_parts(tokens), subjects)
    return tokens if found is None else found


def _with_hundred_behind(tokens: Tokens, name: str) -> Tokens:
    """`per 100 parts by weight of flour, 50 parts of water` with what they are counted by at the end.

    Without a comma before it, and without `a total amount of` before so many parts.
    """
    words = [word_of(t) for t in tokens]
    if len(words) > 3 and words[0] in _DETERMINERS and words[1:3] == ["sum", "of"] and tokens[3].number:
        tokens, words = tokens[3:], words[3:]
    per = next((len(run) for run in _PER if words[: len(run)] == run), 0)
    comma, own = words.index(",") if "," in words else 0, name.lower().split()
    if per and words[per : per + 2] in (["100", "parts"], ["hundred", "parts"]):
        named = (i + len(own) for i in range(len(words)) if words[i : i + len(own)] == own)
        end = comma or next(named, 0)
        behind = tuple(replace(t, start=tokens[-1].start, end=tokens[-1].end) for t in tokens[:end])
        return (*tokens[end + bool(comma) :], *behind) if end else tokens
    runs = (run for run in _PER if comma and words[comma + 1 : comma + 1 + len(run)] == run)
    return (*tokens[:comma], *tokens[comma + 1 :]) if next(runs, None) else tokens


def _of_a_hundred(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens | None:
    words = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(words) if w in ("part", "parts")), 0)
    first, bases = _basis_behind(words[at + 1 :])
    open_ = tokens[at + 1 + first : at + 3 + first]
    open_ = open_ if [word_of(t) for t in open_] in (["or", "less"], ["or", "more"]) else ()
    first += len(open_)
    other = subjects[1].text if len(subjects) == 2 else ""
    first += _named_behind(words[at + 1 + first :], subjects[0].text, other)
    behind = words[at + 1 + first :]
    per = next((len(run) for run in _PER if behind[: len(run)] == run), 0)
    hundred = tokens[at + 1 + first + per :]
    if len(hundred) < 3:
        return None
    number = hundred[0].number
    whole = number.unit is None and number.value == 100 if number else word_of(hundred[0]) == "hundred"
    if not (at and per and whole) or word_of(hundred[1]) not in ("part", "parts"):
        return None
    second, more = _basis_behind([word_of(t) for t in hundred[2:]])
    kinds = [s.bound.kind for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
    last = hundred[2 + second :]
    if not last or len(kinds) != len(subjects) or any(t.number and t.number.unit for t in tokens[:at]):
        return None
    if len(kinds) == 1 and kinds[0] == PLAIN_KIND and word_of(last[0]) == "of":
        return (*tokens[:at], *open_) if all(t.sort == "word" for t in last) else None
    plain = all(kind == PLAIN_KIND for kind in kinds)
    if len(kinds) != 2 or not (plain or all(is_by(k, b) for k in kinds for b in (*bases, *more))):
        return None
    percent = find_unit("%")
    said = (replace(t, number=replace(t.number, unit=percent)) if t.number else t for t in tokens[:at])
    if len(subjects) == 2 and of_it([word_of(t) for t in last], subjects[1].text, [], subjects[0].text) == []:
        last = said_instead(last, ["of", "the", *subjects[1].text.split()])
    of = () if word_of(last[0]) == "of" else (replace(last[0], sort="word", text="of", end=last[0].start),)
    return (*said, *open_, *of, *last)


def _named_behind(words: list[str], name: str, other: str) -> int:
    """How many words say of what the parts are, if that is the thing itself: `of the filler`."""
    if words[:1] != ["of"]:
        return 0
    behind = of_it(words, name, [], other)
    return len(words) - len(behind) if behind is not None else 0


def _grams_as_parts(tokens: Tokens) -> Tokens:
    """`20 to 30 g of sand per 100 g of cement` as 20 to 30 parts by mass of that per 100 parts."""
    numbers = [i for i, t in enumerate(tokens) if t.number]
    units = [number.unit for i in numbers if (number := tokens[i].number)]
    last = tokens[numbers[-1]].number if len(numbers) > 1 else None
    if last is None or last.unit is None or last.value != 100:
        return tokens
    of = next((b for b in WHOLE_OF if last.unit.kind.dimension == WHOLE_OF[b]), "")
    if not of or any(u not in (None, last.unit) for u in units):
        return tokens
    found = list[Token]()
    for i, token in enumerate(tokens):
        if token.number:
            token = replace(token, number=replace(token.number, unit=None))
        found.append(token)
        if i in numbers[-2:]:
            said = ("parts", "by", _NAMED_BY[of])
            found += (replace(token, sort="word", text=w, start=token.end, number=None) for w in said)
    return tuple(found)


_NAMED_BY = {of: word for word, of in BY_WHAT.items()}


def _basis_behind(words: list[str]) -> tuple[int, tuple[str, ...]]:
    """How many words say by what, `by weight`, and by what that is."""
    of = BY_WHAT.get(words[1]) if len(words) > 1 and words[0] == "by" else None
    return (2, (of,)) if of else (0, ())


def is_by(kind: Kind, basis: str) -> bool:
    """Is it an amount, or a share, by that?"""
    return kind.dimension == WHOLE_OF[basis] if kind.dimension else kind.split[0] == basis


_PER = [
    ["per", "each"], ["per", "every"], ["per"], ["based", "on"], ["relative", "to"],
    ["with", "respect", "to"], ["in", "relation", "to"], ["for", "each"], ["for", "every"], ["for"], ["to"],
]  # fmt: skip


def without_content(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`at most half of the gum content`, `3 % of at least one oil`, of shares, by their names alone."""
    shares = (s for s in subjects if _is_share(replace(s, mixture=None)))
    names = {s.text.lower().split()[-1]: s.text.lower().split() for s in shares}
    measures = listed("asides", "of_shares")
    found = list[Token]()
    for token in tokens:
        last = [word_of(t) for t in found]
        if word_of(token) in measures and last[-1:] and last[-1] in names and word_of(token) not in names:
            continue
        several = 3 * (last[-3:] in ONE_OR_MORE)
        if several and last[-4:-3] == ["of"] and any(word_of(token) == name[0] for name in names.values()):
            del found[-several:]
        found.append(token)
    return tuple(found)


def with_free_of(tokens: Tokens, name: str) -> Tokens:
    """`essentially salt-free` of salt as essentially free of salt."""
    found = list[Token]()
    for token in tokens:
        if word_of(token) == f"{name.lower()}-free":
            found += (replace(token, text=w, end=token.start) for w in ("free", "of"))
            found.append(replace(token, text=name))
        else:
            found.append(token)
    return tuple(found)


def with_presence(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`contains salt or sugar`, `salt and/or sugar`, of two shares, as that they are present."""
    if len(subjects) != 2 or not all(map(_is_share, subjects)):
        return tokens
    words = [word_of(t) for t in tokens]
    verb = int(words[:1] != [] and words[0] in listed("asides", "holding"))
    said = [w for w in words[verb:] if w not in _DETERMINERS and w != ","]
    one, other = (s.text.lower().split() for s in subjects)
    for between, text in _PRESENT.items():
        before, joiner, behind = (part.split() for part in between.split("|"))
        if said == [*before, *one, *joiner, *other, *behind] and (verb or between != "|and|"):
            instead = text.format(" ".join(one), " ".join(other)).split()
            return said_instead(tokens, instead)
    return tokens


_PRESENT = {
    "|or|": "{} or {} is present",
    "|and|": "each of {} and {} is present",
    "both|and|": "each of {} and {} is present",
    "either|or|": "either {} or {} is present",
    "|or|or both": "{} or {} or both is present",
    "||or both": "{} or {} or both is present",
    "|and / or|": "at least one of {} and {} is present",
    "at least one of|and|": "at least one of {} and {} is present",
    "neither|nor|": "neither {} nor {} is present",
}


def _is_share(subject: Subject) -> bool:
    kind = subject.bound.kind if isinstance(subject.bound, Typed) else None
    measured = kind is not None and not kind.dimension and kind != PLAIN_KIND
    return measured and subject.parts is None and subject.mixture is None


def with_mixtures_alone(tokens: Tokens) -> Tokens:
    """`consists of A, B or a mixture thereof` as what is A, B or a mixture thereof, and so nothing else."""
    tokens = with_any_mixture(tokens)
    words = [word_of(t) for t in tokens]
    width = next((n for n in (2, 3) if " ".join(words[:n]) in _CONSISTING), 0)
    mixed = words[-1:] == ["thereof"] and words[-2:-1] and words[-2].startswith(("mixture", "combination"))
    if not width or not mixed:
        return tokens
    return (replace(tokens[0], text="is", end=tokens[width - 1].end), *tokens[width:])


_CONSISTING = (
    "consists of",
    "consisting of",
    "consist of",
    "is made of",
    "made of",
    "formed of",
    "is formed of",
)


def of_what_holds_it(tokens: Tokens, name: str) -> Tokens:
    """`the water phase contains up to 10 % of glycerol`, of glycerol, as up to 10 % of the water phase."""
    words = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(words[:6]) if w in OPEN_WORDS), 0)
    limit, own = tokens[at + 1 :], name.lower().split()
    nouns = listed("names", "never").isdisjoint(words[:at]) and all(t.sort == "word" for t in tokens[:at])
    if not 0 < at <= MOST_OF_A_NOUN + 1 or not nouns:
        return tokens
    if not any(is_bare_share(t) or (t.number and t.number.unit) for t in limit) or own == words[:at]:
        return tokens
    for behind in (["of", *own], ["of", "the", *own], ["of", "a", *own], ["of", "an", *own], own):
        if [word_of(t) for t in limit[-len(behind) :]] == behind:
            limit = limit[: -len(behind)]
            break
    end = tokens[-1].end
    whole = (replace(t, start=end, end=end) for t in tokens[words[0] in ("the", "said", "a", "an") : at])
    of_the = (replace(tokens[0], text=w, start=end, end=end) for w in ("of", "the"))
    return (*limit, *of_the, *whole) if limit else tokens


def with_only_behind(tokens: Tokens, subject: Bound) -> Tokens:
    """`contains sucrose as the only sweetener`, of a set, as sucrose only."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(words) - 2) if words[i : i + 2] == ["as", "the"]), 0)
    few = 0 < len(words) - at - 3 <= MOST_OF_A_NOUN
    if not (isinstance(subject, SetDecl) and at and few and words[at + 2] in ("only", "sole", "single")):
        return tokens
    start = int(words[0] in OPEN_WORDS | {"having", "has", "have", "with"})
    only = replace(tokens[at], sort="word", text="only", end=tokens[-1].end)
    return (*tokens[start:at], only) if start < at else tokens


def selected_from(tokens: Tokens, subject: Bound) -> Tokens:
    """`comprising a substance selected from ...`, of a set, without what the members are.

    Open words leave others beside them, `consisting of` does not.
    """
    words = [word_of(t) for t in tokens]
    told = next((i for i, w in enumerate(words[:6]) if w in OPEN_WORDS), 0)
    if told and words[0] == "each":  # said of each of several parts
        return (*tokens[:told], *selected_from(tokens[told:], subject))
    open_words = 1 if words and words[0] in OPEN_WORDS else 0
    closed = 2 if words[:2] in (["consisting", "of"], ["consists", "of"]) else 0
    start = open_words or closed
    many = next((n for n in _SO_MANY if words[start : start + len(n)] == n), [])
    noun = start + len(many)
    at = next((i for i, w in enumerate(words) if words[i : i + 2] in _FROM), 0)
    behind = at + 2
    if closed and many[-1:] in (["one"], ["more"]) and words[noun : noun + 1] == ["of"]:
        at, behind = noun, noun + 1  # consisting of at least one of these
    named = bool(at) and 0 <= at - noun < MOST_OF_A_NOUN
    if not isinstance(subject, SetDecl | ChoiceDecl) or not (start and named):
        return tokens
    if any(t.sort != "word" for t in tokens[:at]) or not NO_NAME.isdisjoint(words[noun:at]):
        return tokens
    group = next((len(g) for g in _GROUP if words[behind : behind + len(g)] == g), 0)
    single = (closed and many in (["a"], ["an"], ["one"])) or isinstance(subject, ChoiceDecl)
    mixed = words[-1:] == ["thereof"]  # mixtures are of several
    one_of_group = open_words and group and many in (["a"], ["an"], ["one"]) and not (single or mixed)
    said = [words[0], "one"] if one_of_group else [] if single else ["one", "or", "more"]
    said += ["selected", "from", *(_GROUP[0] if closed or single or one_of_group else ())]
    return (*(replace(tokens[0], text=w) for w in said), *tokens[behind + group :])


_FROM = (["selected", "from"], ["chosen", "from"])
_GROUP = (["the", "group", "consisting", "of"], ["a", "group", "consisting", "of"], ["among"])


_SO_MANY = (*ONE_OR_MORE, ["a"], ["an"], ["one"])


MOST_OF_A_NOUN = 4


_CONTAINING = frozenset("contains containing comprises comprising includes including".split())
_PRESENT_SAID = frozenset("present contained included comprised incorporated dissolved dispersed".split())
_AMOUNTS = frozenset("amount quantity proportion concentration content level share fraction".split())
_BEFORE_AMOUNT = frozenset(("a", "an", "amounts", *_AMOUNTS))
_IN_NUMBER = frozenset(("number", "numbers"))


def with_presence_said(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`is present in an amount of at most 2 wt%`, `contains salt in an amount of at most 2 wt%`, of one
    amount with no other end, as present in some amount, but at most 2 wt%."""
    words = [word_of(t) for t in tokens]
    bound = subjects[0].bound if len(subjects) == 1 else None
    if not isinstance(bound, Typed) or subjects[0].parts is not None or subjects[0].moments:
        return tokens
    own = subjects[0].text.lower().split()
    own = own[: len(own) - (own[-1] in _AMOUNTS)]
    if sum(t.number is not None for t in tokens) != 1 or not own or own[-1] in listed("measures", "nouns"):
        return tokens
    for at, word in enumerate(words):
        start = at + 1
        if word in _CONTAINING:
            start += words[start : start + 1] in (["the"], ["a"], ["an"])
            if words[start : start + len(own)] != own:
                continue
            start += len(own)
            start += words[start : start + 1] == [","]
        elif word not in _PRESENT_SAID:
            continue
        limit = _behind_amount(words, start, _BEFORE_AMOUNT | _IN_NUMBER if bound.whole else _BEFORE_AMOUNT)
        if limit and _NOT_THERE.isdisjoint(words[:limit]) and _is_upper(words[limit:]):
            said = f"present in some {'number' if bound.whole else 'amount'} but".split()
            ends = [*(tokens[0].start for _ in said[1:]), tokens[limit - 1].end]
            put = zip(said, ends, strict=True)
            there = (replace(tokens[0], sort="word", text=w, number=None, end=e) for w, e in put)
            return (*there, *tokens[limit:])
    return tokens


def said_to_be_there(tokens: Tokens, names: tuple[str, ...]) -> tuple[int, list[str]]:
    """Where `contains salt and sugar in a total amount of`, `are each present in amounts of`, says that these
    are there, and of which of them no more is told than an upper limit; none for other words."""
    words = [word_of(t) for t in tokens]
    own = [name.lower().split() for name in names]
    named, there, verb, at = list[int](), list[str](), -1, 0
    while at < len(words):
        first, here = at, list[int]()
        while at < len(words):
            found = next((i for i, n in enumerate(own) if words[at : at + len(n)] == n), None)
            if found is None and words[at] not in _BEFORE_LIMIT:
                break
            verb = at if words[at] in _CONTAINING | _PRESENT_SAID and first == 0 else verb
            here += [found] if found is not None else []
            at += len(own[found]) if found is not None else 1
        limit = _behind_amount(words, at, _BEFORE_AMOUNT | _TOTAL) or at * (at == first)
        end = next((i for i in range(limit, len(words)) if words[i] in ("and", ",")), len(words))
        bare = first > 0 and end == limit + 1 and tokens[limit].number is not None
        sure = words[limit + 1 : end] in _OR_LESS or _NOT_SURE.isdisjoint(words[limit + 1 : end])
        if verb < 0 or not limit or not sure or not (bare or _is_limit(words[limit:end])):
            return -1, []
        of_last = here[-1:] if words[verb] in _CONTAINING and _OF_ALL.isdisjoint(words[first:limit]) else here
        there += [names[i] for i in of_last or range(len(names))] if _is_upper(words[limit:end]) else []
        named += here
        at = end + 1
        at += words[at : at + 1] == ["and"]
        at = len(words) if words[at:] == ["respectively"] else at
    unnamed = not named and len(names) > 1 and verb >= 0 and words[verb] in _PRESENT_SAID
    return (verb, there) if unnamed or sorted(named) == list(range(len(own))) else (-1, [])


def _is_limit(words: list[str]) -> bool:
    return _is_upper(words) or any(words[: len(run)] == run for run in _LOWER)


_TOTAL = frozenset("total combined overall aggregate respective".split())
_OF_ALL = _TOTAL | frozenset("amounts each both".split())
_BEFORE_LIMIT = frozenset(", and both each the a an is are being".split()) | _CONTAINING | _PRESENT_SAID
_LOWER = [
    r.split() for r in ("at least", "more than", "not less than", "no less than", "above", "over", "from")
]
_NOT_SURE = frozenset(
    "neither nor optionally may can could if when where while without or unless but".split()
)


def _behind_amount(words: list[str], start: int, amounts: frozenset[str] = _BEFORE_AMOUNT) -> int:
    """Where the limit begins behind `in an amount of`, `at a level of`, `at`, `of`; 0 where none does."""
    if words[start : start + 1] == ["of"]:
        return start + 1
    if words[start : start + 1] not in (["in"], ["at"]) or words[start + 1 : start + 2] in _ENDS:
        return 0
    end = next((i for i in range(start + 1, len(words)) if words[i] not in amounts), len(words))
    return end + (words[end : end + 1] == ["of"])


def _is_upper(words: list[str]) -> bool:
    if words[1:] in _OR_LESS:
        return True
    run = next((r for r in _UPPER if words[: len(r)] == r), [])
    return bool(run) and _ANOTHER_END.isdisjoint(words[len(run) :])


_NOT_THERE = frozenset("not no never neither nor optionally may can could if when where without or".split())
_ANOTHER_END = frozenset("and or between above over from minimum if when where".split())
_ENDS = (["least"], ["most"])
_OR_LESS = (["or", "less"], ["or", "lower"], ["or", "below"], ["at", "most"], ["maximum"])
_UPPER = runs_in_order("limits", "uppermost")
