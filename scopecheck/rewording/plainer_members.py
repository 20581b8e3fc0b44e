"""Ways of naming members of a list, said more plainly. Used by `plainer.py`.

What members of a kind are called, `alloys thereof`, is looked at before anything is read.
"""

from __future__ import annotations

from itertools import pairwise

from scopecheck.core.declared import ChoiceDecl, Composition, SetDecl
from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS, ONE_OR_MORE
from scopecheck.language.scan import Token
from scopecheck.matching.chart import CONDITION_WORDS, PREFERENCES, split_list, word_of
from scopecheck.matching.said_once import BY_WHAT
from scopecheck.matching.subjects import Subject
from scopecheck.rewording.forms import with_runs, words_at

Tokens = tuple[Token, ...]
_DETERMINERS = frozenset("a an the said".split())
_MIXED = frozenset("combination mixture blend alloy".split())


def members_plainly(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """What is said of a list of which members are named, in plainer words; else as it is."""
    bound = subjects[0].listing
    of_class = isinstance(bound, Composition)
    listed_so = of_class or (isinstance(bound, SetDecl | ChoiceDecl) and subjects[0].parts is None)
    if len(subjects) != 1 or not listed_so or (of_class and any(t.number for t in tokens)):
        return tokens
    members = [m.lower() for m in getattr(bound, "members", ())]
    tokens = _without_all_of(_without_both(tokens) if of_class else tokens)
    if isinstance(bound, Composition):
        tokens = _without_its_basis(tokens, bound)
    for said in (
        _without_choosing,
        _with_such_as,
        _of_members,
        _without_mixture_before_so_many,
        _with_blend_thereof,
    ):
        tokens = said(tokens) if tokens else tokens
    if isinstance(bound, SetDecl):
        tokens = _with_left_out(_with_either_selected(tokens), frozenset(members))
    tokens = _with_derived(_with_combination_thereof(tokens), members)
    if isinstance(bound, SetDecl):
        tokens = _with_both_comprised(tokens, subjects[0].text, frozenset(members))
    return _without_class_before_preferred(tokens, subjects[0].text)


def _without_choosing(tokens: Tokens) -> Tokens:
    """`zinc is selected`, `zinc and tin are present`, without what is done with them."""
    words = [word_of(t) for t in tokens]
    done = len(words) > 2 and words[-2] in ("is", "are", "being") and words[-1] in _CHOSEN
    return tokens[:-2] if done and CONDITION_WORDS.isdisjoint(words) else tokens


_CHOSEN = frozenset("selected chosen employed present contained included".split())


def _without_both(tokens: Tokens) -> Tokens:
    """`comprises both barium sulphate and zirconia` of ingredients as comprising the two."""
    words = [word_of(t) for t in tokens[:2]]
    both = words[1:] == ["both"] and words[0] in listed("transitions", "open")
    return (tokens[0], *tokens[2:]) if both else tokens


def _without_all_of(tokens: Tokens) -> Tokens:
    """`comprises each of oil, gum and wax` as comprising the three; `not all of them` stays."""
    words = [word_of(t) for t in tokens]
    verb = words[:1] and words[0] in listed("transitions", "open")
    run = next(
        (r for r in (["each", "of"], ["each", "one", "of"], ["all", "of"]) if words[1 : len(r) + 1] == r), []
    )
    return (tokens[0], *tokens[1 + len(run) :]) if verb else tokens


def _without_its_basis(tokens: Tokens, made: Composition) -> Tokens:
    """`consisting of, in weight percent`, `comprising, by weight`, of shares by weight, without that."""
    words = [word_of(t) for t in tokens]
    start = 2 if words[1:2] == ["essentially"] else 1
    start += words[start : start + 1] == ["of"]
    transitions = listed("transitions", "open") | listed("transitions", "closing")
    rest = [w for w in words[start:] if w != ","]
    behind = rest[-1:] == ["of"] and words[start - 1] != "of"
    based = " ".join(rest[:-1] if behind else rest).replace("per cent", "percent").replace(" %", " percent")
    found = _BY.fullmatch(based)
    basis = BY_WHAT.get(found["before"] or found["behind"] or found["by"]) if found else None
    if words[:1] == [] or words[0] not in transitions or basis != made.unit.kind.split[0]:
        return tokens
    return (*tokens[:start], tokens[-1]) if behind else tokens[:start]


_BY = regex(
    r"in (?P<before>\w+) percent(?:ages?)?|in (?:percent|parts) by (?P<behind>\w+)"
    r"|by (?P<by>\w+)(?: percent)?"
)


def _of_members(tokens: Tokens) -> Tokens:
    return with_runs(tokens, "member_runs")


def _with_such_as(tokens: Tokens) -> Tokens:
    """`a metal, e.g. copper` as a metal such as copper."""
    words = [word_of(t) for t in tokens]
    for run in (["e", ".", "g", "."], ["e.g", "."], ["e.g."], ["for", "example"], ["for", "instance"]):
        at = next((i for i in range(1, len(words)) if words[i : i + len(run)] == run), 0)
        if at:
            comma, behind = words[at - 1] == ",", at + len(run)
            behind += words[behind : behind + 1] == [","]
            return (*tokens[: at - comma], *words_at(tokens[at], "such as"), *tokens[behind:])
    return tokens


def _without_mixture_before_so_many(tokens: Tokens) -> Tokens:
    """`a mixture of at least two of copper, zinc and tin` as at least two of them."""
    words = [word_of(t) for t in tokens]
    start = int(words[:1] != [] and words[0] in _DETERMINERS)
    mixed = words[start : start + 1] and words[start] in _MIXED
    many = words[start + 1 : start + 4] in (["of", "at", "least"], ["of", "two", "or"], ["of", "any", "two"])
    return tokens[start + 2 :] if mixed and many else tokens


def _with_blend_thereof(tokens: Tokens) -> Tokens:
    """`cotton, viscose or a blend of both` as a blend thereof."""
    words = [word_of(t) for t in tokens]
    mixed = len(words) > 5 and words[-3] in _MIXED and words[-2:] == ["of", "both"]
    two = sum(w == "or" or (w == "," and then != "or") for w, then in pairwise(words)) == 2
    return (
        (*tokens[:-2], replace(tokens[-2], text="thereof", end=tokens[-1].end)) if mixed and two else tokens
    )


def _with_either_selected(tokens: Tokens) -> Tokens:
    """`selected from copper and/or zinc` as from copper, zinc and mixtures thereof."""
    words = [word_of(t) for t in tokens]
    start = next((i for i in range(len(words) - 1) if words[i : i + 2] == ["selected", "from"]), -1)
    at = next((i for i in range(len(words) - 3) if words[i : i + 3] == ["and", "/", "or"]), 0)
    joined = {"and", "or", ",", "not", "/"} & {*words[:at], *words[at + 3 :]}
    if start < 0 or at < start + 3 or joined:
        return tokens
    comma = replace(tokens[at], sort="mark", text=",")
    return (*tokens[:at], comma, *tokens[at + 3 :], *words_at(tokens[-1], "and mixtures thereof"))


def _with_left_out(tokens: Tokens, members: frozenset[str]) -> Tokens:
    """`the shoe is omitted`, `the shoe and the clip are absent` as without the one, as neither of them."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(1, len(words)) if words[i] in ("is", "are", "being")), 0)
    if not at or words[at + 1 :] not in _LEFT_OUT or "not" in words[:at]:
        return tokens
    named = split_list(tokens[:at], "and") or (tokens[:at],)
    plain = [" ".join(w for w in map(word_of, one) if w not in ("the", "a", "an", "said")) for one in named]
    if not members.issuperset(plain) or len(plain) > 2:
        return tokens
    first, rest = ("neither", words_at(tokens[at], "nor")) if len(named) > 1 else ("without", iter(()))
    second = (*rest, *named[1]) if len(named) > 1 else ()
    return (*words_at(tokens[0], first, understood=True), *named[0], *second)


_LEFT_OUT = (
    ["omitted"], ["absent"], ["left", "out"], ["dispensed", "with"], ["not", "present"], ["missing"],
    ["not", "provided"], ["not", "included"],
)  # fmt: skip


def _with_combination_thereof(tokens: Tokens) -> Tokens:
    """`copper, zinc, or a combination of copper and zinc`, of the same ones, as a combination thereof."""
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(2, len(words) - 3) if words[i] in _MIXED and words[i + 1] == "of"), 0)
    start = at - 1 if at and words[at - 1] in _DETERMINERS else at
    if not at or words[start - 1] != "or":
        return tokens
    behind = {tuple(map(word_of, m)) for m in split_list(tokens[at + 2 :], "and")}
    before = tokens[: start - 1 - (words[start - 2] == ",")]
    named = {tuple(map(word_of, m)) for m in split_list(before, "comma") or split_list(before, "or")}
    alike = len(behind) > 1 and behind == named
    return (*tokens[: at + 1], *words_at(tokens[at], "thereof")) if alike else tokens


def _with_derived(tokens: Tokens, members: list[str]) -> Tokens:
    """`an acid, a salt or an ester thereof`, of a list with these, without the last word."""
    words = [word_of(t) for t in tokens]
    end = len(words) - next((len(run) for run in (["thereof"], ["of", "it"]) if words[-len(run) :] == run), 0)
    if end == len(words) or end < 3 or words[end - 1].removesuffix("s") in _MIXED:
        return tokens
    base = any(f" {m} " in f" {' '.join(words[: end - 2])} " for m in members)
    ones = {m.split()[-1] for m in members}
    one_of = {form: one for one in ones for form in (one, f"{one}s", f"{one}es")}
    if not base or words[end - 1] not in one_of:
        return tokens
    kept = (t for i, t in enumerate(tokens) if i < end and not (words[i] == "thereof" and i))
    said = tuple(replace(t, text=one_of.get(word_of(t), t.text)) for t in kept)
    ors = [i for i, t in enumerate(said) if word_of(t) == "or" and "and" not in words]
    commas = {i: replace(said[i], sort="mark", text=",") for i in ors[:-1]}
    twice = {i - 1 for i in ors if word_of(said[i - 1]) == ","}
    return tuple(commas.get(i, t) for i, t in enumerate(said) if i not in twice)


def _with_both_comprised(tokens: Tokens, name: str, members: frozenset[str]) -> Tokens:
    """`zinc if copper is present`, `if copper is present, zinc is also present` as what it comprises then."""
    words = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(words) if w in ("if", "when", "where")), None)
    comma = words.index(",") if "," in words else None
    if at is None or (at == 0) != (comma is not None):
        return tokens
    sides = (tokens[1:comma], tokens[(comma or 0) + 1 :]) if at == 0 else (tokens[:at], tokens[at + 1 :])
    if not all(sides):
        return tokens
    named = [_present(side) for side in sides]
    condition = sides[0] if at == 0 else sides[1]
    if word_of(condition[-1]) != "present" or not all(
        " ".join(map(word_of, side)) in members for side in named
    ):
        return tokens
    one, other = ((*words_at(side[0], f"the {name} comprises", understood=True), *side) for side in named)
    return (
        (tokens[0], *one, *tokens[comma : (comma or 0) + 1], *other)
        if at == 0
        else (*one, tokens[at], *other)
    )


def _present(tokens: Tokens) -> Tokens:
    """What is said to be present, or stands alone."""
    words = [word_of(t) for t in tokens]
    runs = (["is", "present"], ["is", "also", "present"], ["is", "present", "too"])
    run = next((run for run in runs if words[-len(run) :] == run), [])
    return tokens[: len(tokens) - len(run)]


def _without_class_before_preferred(tokens: Tokens, name: str) -> Tokens:
    """`a metal, in particular copper or zinc`, of the metal, without what it is."""
    words = [word_of(t) for t in tokens]
    start = int(words[:1] != [] and words[0] in _DETERMINERS)
    own = name.lower().split()
    end = start + len(own)
    behind = [" ".join(words[end + 1 : end + n]) for n in (2, 3)]
    named = words[start:end] == own and words[end : end + 1] == [","]
    return tokens[end + 1 :] if named and not _PREFERRED.isdisjoint(behind) else tokens


_PREFERRED = frozenset(("in particular", "especially", "particularly", "preferably", "notably"))


def with_list_of_both(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`at least one, preferably at least two of copper and zinc`: the first number is of that list, too."""
    bound = subjects[0].bound if len(subjects) == 1 else None
    words = [word_of(t) for t in tokens]
    at = 2 if words[:2] == ["at", "least"] else 3 if words[:3] == ["no", "fewer", "than"] else 0
    counted = words[at : at + 1] != [] and (tokens[at].number is not None or words[at] in NUMBER_WORDS)
    if not isinstance(bound, SetDecl | ChoiceDecl) or not counted:
        return tokens
    end = at + 1 + 2 * (words[at + 1 : at + 3] == ["or", "more"])
    of = words.index("of", end) if "of" in words[end:] else end
    between = (w for w, t in zip(words[end:of], tokens[end:of], strict=True) if not t.number)
    if not _BETWEEN_NUMBERS.issuperset(between):
        return tokens
    second = tokens[end : of - 1] if words[of - 1] == "," else tokens[end:of]
    preferred = not PREFERENCES.isdisjoint(words[end:of])
    return (*tokens[:end], *(tokens[of:] if preferred else ()), *second, *tokens[of:])


_BETWEEN_NUMBERS = (
    PREFERENCES
    | NUMBER_WORDS.keys()
    | frozenset(
        ", and but or more most even still at least all no not fewer less than exactly only both each".split()
    )
)


def with_others_named(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`silicone and a polymer other than polycarbonate`, of a list with polycarbonate and other polymer."""
    bound = subjects[0].bound if len(subjects) == 1 else None
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(3, len(words) - 1) if words[i : i + 2] == ["other", "than"]), 0)
    if not isinstance(bound, SetDecl) or not at:
        return tokens
    members = [m.lower().split() for m in bound.members]
    start = at - 1 - (words[at - 2] in _DETERMINERS)
    kind = ["other", words[at - 1]]
    other = next((m for m in (kind, [*kind[:1], kind[1].removesuffix("s")]) if m in members), [])
    end = next((at + 2 + len(m) for m in members if words[at + 2 : at + 2 + len(m)] == m), 0)
    alone = words[end : end + 1] in ([], [","], ["and"])
    if not other or not end or not alone or words[start - 1] not in ("and", "or", "and/or", ","):
        return tokens
    return (*tokens[:start], *words_at(tokens[start], " ".join(other), understood=True), *tokens[end:])


def without_class_selected(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`at least one wax selected from A and B`, of a class of ingredients called wax, without its name."""
    own = subjects[0].text.lower().split() if len(subjects) == 1 and subjects[0].mixture is not None else []
    words = [word_of(t) for t in tokens]
    named = [own, [*own[:-1], f"{own[-1]}s"], [*own[:-1], f"{own[-1]}es"]] if own else []
    for at in range(3, len(words) - len(own)):
        if words[at - 3 : at] in ONE_OR_MORE and words[at : at + len(own)] in named:
            behind = at + len(own)
            behind += words[behind : behind + 1] in (["which"], ["being"])
            behind += words[behind : behind + 1] in (["is"], ["are"])
            if words[behind : behind + 1] in (["selected"], ["chosen"]):
                return (*tokens[:at], *tokens[behind:])
    return tokens


def with_kinds_named(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`aluminium, zinc and alloys thereof`, of a list with aluminium alloy, with that before the alloys.

    `Or salts thereof`, of a list with salts, as these.
    """
    bound = subjects[0].bound if len(subjects) == 1 else None
    words = [word_of(t) for t in tokens]
    at = next((i for i in range(2, len(words)) if words[i] == "thereof"), 0)
    if not isinstance(bound, SetDecl) or not at:
        return tokens
    kind = words[at - 1]
    members = [m.lower() for m in bound.members]
    start = at - 2 if words[at - 2] in _DETERMINERS else at - 1
    if words[start - 1] not in ("and", "or"):
        return tokens
    if kind in ("alloy", "alloys"):
        made = [m for m in members if m.endswith((" alloy", " alloys")) and m.rpartition(" ")[0] in members]
        said = f" {' '.join(words[: start - 1])} "
        named = [m for m in made if f" {m.rpartition(' ')[0]} " in said and f" {m} " not in said]
        behind = start - 1 - (words[start - 2] == ",")
        comma = replace(tokens[start - 1], sort="mark", text=",", end=tokens[start - 1].start)
        more = (t for m in named for t in (comma, *words_at(tokens[start - 1], m, understood=True)))
        return (*tokens[:behind], *more, *((comma,) if named else ()), *tokens[start - 1 :])
    chosen = words[start - 1] == "or" or "selected" in words[:start] or words[:3] == ["at", "least", "one"]
    named = [m for m in (kind, f"{kind}s") if m in members]
    if not named or not chosen:
        return tokens
    return (*tokens[:start], *words_at(tokens[at - 1], named[0], understood=True), *tokens[at + 1 :])
