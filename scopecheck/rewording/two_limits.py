"""Two limits in one line that are of different things, one of them what several come to, or a mean.

The other is of one of them, of all together, or of each: `the sum of oil and gum is at most 8 wt% and the gum
is at least 2 wt%`, `on average more than 3 mm but in no case more than 5 mm`. Each half is a line of its own,
and neither may be read of what the other is of.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from scopecheck.core.declared import Step
from scopecheck.foundations.diagnostics import Diagnostic, Trouble, trouble
from scopecheck.foundations.record import record
from scopecheck.foundations.spans import Span
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import CONDITION_WORDS, word_of
from scopecheck.matching.shared_limits import OF_LIMITS, is_bare_limit
from scopecheck.matching.subjects import Subject, is_bare_share
from scopecheck.rewording.forms import words_at
from scopecheck.vocabulary.names import Names, Typed

Tokens = tuple[Token, ...]
Things = tuple[Subject, ...]


@record
class Apart:
    """A way to part words: what each half says, and of which things; no words for a half that is not read."""

    halves: tuple[tuple[Tokens, Things], ...]
    of_every_one: Tokens = ()
    """What is read of every one of them, where it may be meant of some of them only."""
    either: bool = False
    """Whether the one half or the other is enough."""

    @property
    def of_another(self) -> bool:
        """Is the second half of what the first one is not about?"""
        (_, first), (_, second) = self.halves if len(self.halves) > 1 else (((), ()), ((), ()))
        return not {s.text for s in second} <= {s.text for s in first}


def limits_apart(tokens: Tokens, subjects: Things, names: Names) -> Iterator[Apart]:
    """The ways to part words that limit different things; nothing for words that may all be of one."""
    words = [word_of(t) for t in tokens]
    cuts = [i for i in range(1, len(words) - 1) if words[i] in _JOINTS or words[i] == "or"]
    beside = any(w == "at" and then not in ("least", "most", "all", "no") for w, then in pairwise(words))
    under = not _CONDITIONS.isdisjoint(words) or (beside and len(subjects) > _TWO)
    if not cuts or under or sum(map(_may_limit, tokens)) < _TWO:
        return
    of_what = _of_what(subjects, names)
    if of_what is None:
        return
    for at in cuts:
        end, start = at, at + 1
        while end > 1 and words[end - 1] in _JOINTS:
            end -= 1
        while start < len(words) - 1 and words[start] in _JOINTS:
            start += 1
        if end == at and words[at - 1] != "or" and any(map(_may_limit, tokens[:end])):
            apart = of_what.halves(tokens[:end], tokens[start:])
            # What is said 'with' another thing may be a condition.
            if apart is not None and not ("with" in words[end:start] and apart.of_another):
                yield Apart(apart.halves, apart.of_every_one, words[at] == "or")


_TWO = 2
_JOINTS = frozenset(", and but whereas with wherein whereby yet".split())
_CONDITIONS = CONDITION_WORDS | {"until"}
_COMPARED = frozenset("than exceeds exceed equal equals half twice".split())
_BEGINS_A_LIMIT = (
    (OF_LIMITS - frozenset("of to from and or about".split())) | _COMPARED | {"by", "does", "up"}
)


def _may_limit(token: Token) -> bool:
    word = word_of(token)
    return token.number is not None or word in NUMBER_WORDS or word in _COMPARED | {"most", "least"}


def _has_limit(tokens: Tokens) -> bool:
    """Do the words limit something, and not only count, as `at least one of` does?"""
    words = [word_of(t) for t in tokens]
    counting = {i for i in range(1, len(words)) if words[i - 1] == "the" and words[i] in NUMBER_WORDS}
    for i in (i for i in range(1, len(words)) if words[i] in ("of", "selected", "chosen")):
        at = i - 3 if words[max(0, i - 2) : i] in (["or", "more"], ["or", "fewer"], ["or", "less"]) else i - 1
        if at >= 0 and (words[at] in NUMBER_WORDS or _is_count(tokens[at])):
            counting |= {*range(at - 2, i)}
    return any(_may_limit(t) for i, t in enumerate(tokens) if i not in counting)


def _is_count(token: Token) -> bool:
    return token.number is not None and token.number.unit is None


def _front(half: Tokens) -> Tokens:
    """The words before the first limit."""
    end = next(
        (i for i, t in enumerate(half) if t.number or word_of(t) in _BEGINS_A_LIMIT | NUMBER_WORDS.keys()),
        len(half),
    )
    return half[:end]


def _back(half: Tokens) -> Tokens:
    """The words behind the last number."""
    last = max((i for i, t in enumerate(half) if t.number or word_of(t) in NUMBER_WORDS), default=-1)
    return half[last + 1 :] if last >= 0 else ()


def _of_what(subjects: Things, names: Names) -> _Several | _OfParts | _InTime | _Alone | None:
    plain = all(s.parts is None and s.mixture is None and not s.moments for s in subjects)
    if len(subjects) > 1:
        whole = plain and all(isinstance(s.bound, Typed | Step) for s in subjects)
        return _Several(subjects) if whole else None
    (first,) = subjects or (None,)
    if first is not None and first.moments:
        return _InTime(first)
    if first is not None and plain and isinstance(first.bound, Typed):
        return _Alone(first)
    field = names.field_of(first.text) if first is not None and first.parts is not None else None
    if first is None or first.parts is None or first.parts.sort != "parts" or field is None:
        return None
    part = field[0][0]
    return _OfParts(
        first, field[1].lower().split(), {*part.name.lower().split(), *part.plural.lower().split()}
    )


_OF_SEVERAL_AND_OF_ONE = (
    "One is of a mean or of what several come to, the other of one of them, of all or of each."
)
DENIED_WITH_THEM = "The amount at their end may be of what stands before it as well, or be denied with it."


def which_is_of_what(span: Span, cause: str = _OF_SEVERAL_AND_OF_ONE) -> Trouble:
    """The error for two limits of different things of which one is not read."""
    return trouble(
        span, "these words do not tell what each of the two limits is of", cause,
        "put each limit on a line of its own, in all its words",
    )  # fmt: skip


def of_every_one(span: Span, said: str) -> Diagnostic:
    """The warning that a limit is read of all of them, and not only of those that the line counts."""
    return Diagnostic(
        "warning", span, f"'{said}' is read of every one of them",
        "It may be meant of those alone that the words before it are about.",
        "if it is, write both limits in symbols",
    )  # fmt: skip


# ---- several things


_DIFFERENCE = frozenset("difference differ differs differing minus".split())
_PLUS = frozenset(("plus",))
_RATIO = frozenset("ratio product quotient".split())
_MADE_OF_SEVERAL = _DIFFERENCE | _RATIO | {"between", "each", "both", "sum", "total", "combined", "of"}
_JOINED_WITH = frozenset("and plus minus to from".split())
_EACH = frozenset("each individually".split())
_ANY = (["one", "of"], ["either"], ["any", "of"], ["neither"], ["none", "of"])
_OF_WHAT_WAS_SAID = frozenset("thereof it them these this that".split())
_ALL_OF_IT = frozenset("total sum both mixture whole".split())


def _without_basis(behind: Tokens) -> Tokens:
    """`of gum, based on the total weight`, `of the total composition`, without what a share is one of."""
    words = [word_of(t) for t in behind]
    start = next((i for i, w in enumerate(words) if w in ("based", "relative", "calculated")), len(words))
    whole = next((i for i in range(len(words)) if words[i : i + 3] == ["of", "the", "total"]), len(words))
    return behind[: min(start, whole)]


def _is_of_what_was_said(behind: Tokens) -> bool:
    words = [w for w in map(word_of, behind) if w not in ("amount", "content")]
    return not _OF_WHAT_WAS_SAID.isdisjoint(words) or not _ALL_OF_IT.isdisjoint(words[-1:])


@record
class _Several:
    """Several things left of the colon."""

    things: Things

    def halves(self, left: Tokens, right: Tokens) -> Apart | None:
        of_first, of_second = self._named(left), self._named(right)
        own = "own" if of_first and any(map(_may_limit, left)) else ""
        first, second = self._kind(left) or own, self._kind_of_later(right)
        if not first or not second or self._goes_on(left):
            return None
        if (first == "own") != (len(of_first) == 1 or not self._kind(left)):
            return None
        if first == "own" and second not in ("sum", "difference", "ratio"):
            return None
        if first == second and (not of_second or of_first == of_second):
            return None
        if second != "one" and len(of_second) == 1:
            return None
        stated = second != "one" and not {"is", "are", "being"}.isdisjoint(map(word_of, left))
        if not _has_limit(left) and not stated:
            return None  # 'at least one of oil, wax and gum': all of it is counted
        if second == "one" and not self._named(_back(right)) and _is_of_what_was_said(_back(right)):
            return Apart((((), ()),))  # '30 to 50 % thereof' is a share of what both come to
        named = {s.text for s in (*of_first, *of_second)}
        if of_first and len(named) < len(self.things):
            return None
        return Apart(((left, of_first or self.things), (right, of_second or self.things)))

    def _goes_on(self, left: Tokens) -> bool:
        """`and the sum of the oil`, of which `and the gum is at most 6 wt%` is the rest."""
        back = _back(left)
        at = max((i for i, t in enumerate(back) if word_of(t) in _MADE_OF_SEVERAL), default=-1)
        rest = back[at + 1 :] if at >= 0 else ()
        return bool(self._named(rest)) and _JOINED_WITH.isdisjoint(map(word_of, rest))

    def _kind(self, half: Tokens) -> str:
        words = [word_of(t) for t in half]
        said = set(words)
        if said & _DIFFERENCE:
            return "difference"
        if said & _RATIO:
            return "ratio"
        if said & (listed("asides", "together") | _PLUS):
            return "sum"
        if said & _EACH or words[:1] == ["both"]:
            return "each"
        some = any(words[i : i + len(run)] == run for i in range(len(words)) for run in _ANY)
        return "some" if some else ""

    def _kind_of_later(self, half: Tokens) -> str:
        """What a half that begins anew is of; '' where it may go on with what the half before it is of."""
        front, back = _front(half), _back(half)
        if not any(map(_may_limit, half)):
            return ""
        if "which" in map(word_of, half) and not self._named(front):
            return ""  # 'the sum of which' is one of those that are counted before it
        behind = _without_basis(back)
        ends = self._kind(front) or (self._kind(behind) if not self._named(front) else "")
        if ends:
            return "" if ends == "some" else ends
        if len(self._named(front)) == 1:
            return "one"
        alone = len(self._named(back)) == 1 and len(self._named(half)) == 1 and word_of(back[0]) == "of"
        shares = any(map(is_bare_share, half)) and not self._are_shares
        return "one" if alone and not shares and _COMPARED.isdisjoint(map(word_of, half)) else ""

    @property
    def _are_shares(self) -> bool:
        bounds = [s.bound for s in self.things if isinstance(s.bound, Typed)]
        return all(b.kind is not None and not b.kind.dimension for b in bounds)

    def _named(self, half: Tokens) -> Things:
        """The things that the words name, in their order left of the colon."""
        text = f" {' '.join(map(word_of, half))} "
        found = list[Subject]()
        for thing in sorted(self.things, key=lambda s: -len(s.text)):
            name = f" {thing.text.lower()} "
            if name in text:
                found.append(thing)
                text = text.replace(name, " ; ")
        return tuple(s for s in self.things if s in found)


# ---- like parts


_MEAN = {"mean": ("average", "mean", "averaged"), "median": ("median",)}
_NEVER = (
    ["never"], ["nowhere"], ["in", "no", "case"], ["in", "no", "event"], ["in", "no", "instance"],
    ["at", "no", "point"], ["at", "no", "place"], ["at", "no", "time"], ["at", "no", "moment"],
)  # fmt: skip
_ALWAYS = (
    ["always"], ["everywhere"], ["throughout"], ["in", "all", "cases"], ["in", "every", "case"],
    ["in", "any", "case"], ["in", "any", "event"], ["at", "all", "points"], ["at", "every", "point"],
)  # fmt: skip
_MOST = frozenset("maximum max maximal greatest largest highest".split())
_LEAST = frozenset("minimum min minimal least smallest lowest".split())
_ALL_OF_THEM = frozenset("each every all".split())
_NONE_OF_THEM = frozenset("no none neither".split())
_OF_SEVERAL = ("mean", "median", "sum")
_OF_EACH = ("each", "none", "outer", "least", "most")


def _outer(words: list[str]) -> tuple[int, int]:
    """Where `in no case`, `never`, `in all cases` stands at the start, the last left out of a limit that
    is read of each; two places alike if none does, or if it is part of the limit."""
    start = next((i for i, w in enumerate(words) if w not in ("is", "are", "being")), 0)
    for run in (*_NEVER, *_ALWAYS):
        if words[start : start + len(run)] == run:
            return start, start + len(run) * (run in _ALWAYS)
    return -1, -1


def _mean(words: list[str]) -> str:
    return next((kind for kind, said in _MEAN.items() if not set(said).isdisjoint(words)), "")


@record
class _OfParts:
    """The lengths, or what else is measured, of like parts."""

    thing: Subject
    own: list[str]
    called: set[str]

    def halves(self, left: Tokens, right: Tokens) -> Apart | None:
        first, second = self._kind(left), self._kind_of_later(right)
        of_another = {
            "some": (*_OF_SEVERAL, "outer", "least", "most"),
            "none": (*_OF_SEVERAL, "outer", "least", "most"),
            **dict.fromkeys(_OF_SEVERAL, (*_OF_SEVERAL, *_OF_EACH)),
            **{kind: _OF_SEVERAL for kind in _OF_EACH if kind != "none"},
        }
        if first == second or second not in of_another.get(first, ()):
            return None
        if first == "some" and second in _OF_SEVERAL and word_of(right[0]) != "the":
            return Apart((((), ()),))  # a total of those that the line counts, or of all of them
        halves = tuple((self._of_each(h, k), (self.thing,)) for h, k in ((left, first), (right, second)))
        told = right if first == "some" and second in _OF_EACH else ()
        return Apart(halves, told)

    def _kind(self, half: Tokens) -> str:
        words = [word_of(t) for t in half]
        if kind := _mean(words):
            return kind
        if not listed("asides", "together").isdisjoint(words):
            return "sum"
        if not _ALL_OF_THEM.isdisjoint((words[0], words[-1])):
            return "each"
        if words[0] in _NONE_OF_THEM:
            return "none"
        number = next((i for i, t in enumerate(half) if t.number), len(half))
        counted = not self.called.isdisjoint(words[:number]) and "not" not in words
        return "some" if counted else self._kind_of_later(half)

    def _kind_of_later(self, half: Tokens) -> str:
        words, ends = [word_of(t) for t in half], [word_of(t) for t in (*_front(half), *_back(half))]
        if not any(map(_may_limit, half)):
            return ""
        if kind := _mean(ends):
            return kind
        if not listed("asides", "together").isdisjoint(ends):
            return "sum"
        if _outer(words)[0] >= 0:
            return "outer"
        if not _ALL_OF_THEM.isdisjoint((words[0], words[-1])):
            return "each"
        return self._extreme(half)[0]

    def _extreme(self, half: Tokens) -> tuple[str, Tokens]:
        """Of `a minimum height of 2 mm` which end it is of, and the limit; '' for other words."""
        words = [word_of(t) for t in half]
        start = int(words[0] in ("a", "an", "the"))
        behind = start + 1 + len(self.own)
        if words[start + 1 : behind] != self.own or not words[behind:]:
            return "", ()
        limit = half[behind + (words[behind] in ("of", "is", "being", "are")) :]
        for kind, said in (("least", _LEAST), ("most", _MOST)):
            if words[start] in said and limit:
                return kind, limit
        return "", ()

    def _of_each(self, half: Tokens, kind: str) -> Tokens:
        """The words so that they can be of every one of them alone."""
        if kind == "outer":
            start, end = _outer([word_of(t) for t in half])
            return (*words_at(half[0], "each", understood=True), *half[:start], *half[end:])
        return self._of_extremes(half) if kind in ("least", "most") else half

    def _of_extremes(self, half: Tokens) -> Tokens:
        """`A minimum height of 2 mm and a maximum height of 5 mm` as what each is; nothing for more words."""
        joint = next((i for i, t in enumerate(half) if word_of(t) == "and"), len(half))
        said = list[Token]()
        for extreme in filter(None, (half[:joint], half[joint + 1 :])):
            kind, limit = self._extreme(extreme)
            if len(limit) != 1 or limit[0].number is None:
                break
            lead = "and" if said else "each"
            at = f"{lead} at least" if kind == "least" else f"{lead} at most"
            said += (*words_at(extreme[0], at, understood=True), *limit)
        else:
            return tuple(said)
        kind, limit = self._extreme(half)
        of_them = "the least of them is" if kind == "least" else "the greatest of them is"
        alone = is_bare_limit(limit) and _JOINED.isdisjoint(map(word_of, limit))
        return (*words_at(half[0], of_them, understood=True), *limit) if alone else ()


_JOINED = frozenset(("and", "or"))


@record
class _Alone:
    """A quantity with one value, which is no mean where a cap on every value is stated beside one."""

    thing: Subject

    def halves(self, left: Tokens, right: Tokens) -> Apart | None:
        own = self.thing.text.lower().split()
        words, front = [word_of(t) for t in right], {word_of(t) for t in _front(right)} - set(own)
        first = _mean([word_of(t) for t in left])
        of_single = not (_MOST | _LEAST | {"peak"}).isdisjoint(front) and any(map(_may_limit, right))
        capped = _outer(words)[0] >= 0 and not _mean(own)
        return Apart((((), ()),)) if first and (of_single or capped) else None


# ---- what is measured of a step


_AT_ONE_TIME = {
    "peak": ("peak", "highest", "maximum", "max"), "lowest": ("lowest", "minimum", "min"),
    "start": ("initial", "starting", "start", "beginning"), "end": ("final", "end"),
}  # fmt: skip


@record
class _InTime:
    """A quantity of a step, at some time or on average."""

    thing: Subject

    def halves(self, left: Tokens, right: Tokens) -> Apart | None:
        first, second = self._kind(left), self._kind_of_later(right)
        if not first or not second or first == second:
            return None
        return Apart(((left, (self.thing,)), (right, (self.thing,))))

    def _kind(self, half: Tokens) -> str:
        words = [word_of(t) for t in half]
        at_all = "outer" if _always(words) else ""
        return (
            _mean(words)
            or at_all
            or next((k for k, said in _AT_ONE_TIME.items() if set(said) & set(words)), "")
        )

    def _kind_of_later(self, half: Tokens) -> str:
        back = [word_of(t) for t in _back(half)]
        at_all = _always([word_of(t) for t in half])
        if not any(map(_may_limit, half)):
            return ""
        if at_all:
            return "outer"
        words = half[: len(half) - len(back)]
        lead = next((i for i, t in enumerate(words) if t.number), len(words))
        said = [*map(word_of, words[:lead]), *back]
        return _mean(said) or next((k for k, named in _AT_ONE_TIME.items() if self._begins(said, named)), "")

    def _begins(self, said: list[str], named: tuple[str, ...]) -> bool:
        """`a maximum temperature of`, `the final temperature is`, and no `maximum of`."""
        own = self.thing.text.lower().partition(" of ")[0].split()
        return any(w in named and then == own[0] for w, then in pairwise(said))


def _always(words: list[str]) -> bool:
    return _outer(words)[0] >= 0 or any(run_at(words, i, "asides", "at_all_times") for i in range(len(words)))
