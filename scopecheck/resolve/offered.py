"""The form of what to write in symbols for words that nothing reads, with dots for what is to be filled in.

What fills the dots in as the words say must mean what they mean: a form that would turn them round, or drop a
condition, an end or an exclusion, is not offered. Where nothing tells the form there is none.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise
from re import escape

from scopecheck.core.declared import ChoiceDecl, NumberDecl, Step
from scopecheck.core.formula import OTHERS
from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.record import record
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import words as word_list
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.matching.lifting import ends_said
from scopecheck.vocabulary.names import Names

FILLED_IN = "7919"
"""A number that no claim has, in place of which dots are shown."""


@record
class Form:
    """Facts that are tried in the claim, and what is shown of them."""

    tried: str
    shown: str


def forms(names: Names, things: tuple[str, ...], words: str) -> Iterator[Form]:
    """Forms of the things left of the colon, of which the first that reads is shown."""
    made: dict[str, object] = {}
    part = ""
    for thing in things:
        if field := names.field_of(thing):
            (first, *_), own = field
            part = first.name
            made[own] = names.declarations[first.slot(1, own)]
        elif moment := names.moment_of(thing):
            highest = f"highest {moment[1]} of {moment[0].name}"
            made[highest] = names.declared(highest)
        else:
            made[thing] = names.step(thing) or names.declared(thing) or names.mixture(thing)
    every = part and not _EVERY.isdisjoint(_texts(words))
    agreed = False
    for one in _Offered(names, words).of_things(made):
        agrees = (every or not part) and _agrees(one, made, words)
        if not agrees and not agreed:
            return  # What the words call for first is none that agrees: the next ones are worse.
        agreed = True
        if not agrees:
            continue
        yield Form(f"EVERY {part} ({one.tried})", f"EVERY {part} ({one.shown})") if part else one


def _dotted(facts: str) -> Form:
    return Form(facts, facts.replace(FILLED_IN, "..."))


def _agrees(form: Form, things: Mapping[str, object], words: str) -> bool:
    """Does a form have as many limits as the words, on as many sides, of all that is spoken of?

    `less than the radius of the disc` has none of a number, `50 to 80 g/L` of a quotient has no four.
    """
    facts = _OPERANDS.sub("", form.shown)
    dots = len(_FILLED.findall(facts)) + len(_EQUALS.findall(form.tried))
    if not dots:
        return True
    left_out = [t for t in things if t not in facts]
    if left_out and "THEN" not in facts and not any(_is_share(w) for t, w in things.items() if t in facts):
        return False  # '50 to 80 g/L' is no limit of either of two alone
    lower = f" {' '.join(words.lower().split())} "
    if _SELECTED.search(lower) or (_ALTERNATIVE.search(lower) and "OR" not in facts):
        return False
    for name in sorted({t.partition(" of ")[0] for t in things} | set(things), key=len, reverse=True):
        lower = lower.replace(f" {name.lower()} ", " it ")
    either_side = _EITHER_SIDE.search(lower)
    numbers = dots if either_side else len(_A_NUMBER.findall(lower))
    ends = {end for end, _ in ends_said(list(_texts(words)))}
    if _CHAIN.search(facts) and not (either_side or _RANGED_SAID.search(lower) or ends >= {"most", "least"}):
        return False
    of_each = facts.count(",") + 1 if not _OF_ALL.isdisjoint(lower.split()) else 1
    return dots == numbers * of_each


def _only_form(form: Form) -> Form:
    """That something holds under something else, with nothing said of what is which."""
    return Form(form.tried, "IF ... THEN ...")


class _Offered:
    """What is offered for some words."""

    def __init__(self, names: Names, words: str) -> None:
        self.names, self.words = names, words
        self.texts = _texts(words)
        self.said = frozenset(self.texts)

    def of_things(self, made: Mapping[str, object], within_condition: bool = False) -> Iterator[Form]:
        """Forms of facts on these things, by what they are."""
        steps = {thing: what for thing, what in made.items() if isinstance(what, Step)}
        others = {thing: what for thing, what in made.items() if thing not in steps}
        listed = next((t for t, what in others.items() if getattr(what, "members", ())), "")
        switched = set(getattr(made.get(listed), "members", ())) - {OTHERS} == {"yes", "no"}
        if len(steps) > 1:
            yield from self._of_steps(steps)
        elif steps and others:
            done = _dotted(f"DONE({next(iter(steps))})")
            yield from self._under_conditions(Form(done.tried, "..."), others)
        elif steps:
            yield from self._of_a_step(*next(iter(steps.items())))
        elif listed:
            rest = {thing: what for thing, what in others.items() if thing != listed}
            if switched and rest:
                so = Form(f"{listed} = yes", f"{listed} = ...")
                yield from self._under_conditions(so, rest)
            if switched:
                yield Form(f"{listed} = yes", f"{listed} = ...")
            else:
                yield from self._of_members(listed, made[listed])
        elif others and not within_condition and self._has_condition(others):
            yield from self._numbers_under_conditions(others)
        elif others and (within_condition or not self._denied()):
            yield from self._of_numbers(others)
        elif len(others) == 1 and not _RANGED.isdisjoint(self.said):
            ((thing, what),) = others.items()
            limit = f"{FILLED_IN}{_unit(what)}"
            yield _dotted(f"NOT ({limit} <= {thing} <= {limit})")

    # ---- members of lists

    def _of_members(self, name: str, made: object) -> Iterator[Form]:
        members: tuple[str, ...] = getattr(made, "members", ())
        named = [m for m in members if f" {m.lower()} " in f" {' '.join(self.texts)} "]
        member = (named or list(members))[0]
        tried = f"{name} = {member}" if isinstance(made, ChoiceDecl) else f"{member} IN {name}"
        one = f"{name} = ..." if isinstance(made, ChoiceDecl) else f"... IN {name}"
        several = len(named) > 1
        some = f"{one} OR {one}" if several and not {"or", "nor"}.isdisjoint(self.said) else one
        at = self._denied_from()
        if at is None:
            return
        if at < 0:
            yield Form(tried, some)
            return
        before = f" {' '.join(self.texts[:at])} "
        if several and some == one:
            some = f"{one} AND {one}" if "both" in self.said else "..."
        out = f"NOT ({some})"
        if any(f" {m.lower()} " in before for m in named):
            out = f"{one} AND NOT ({one})"
        yield Form(f"NOT ({tried})", out)

    def _denied_from(self) -> int | None:
        """Where words begin that leave members out; -1 if none do, None where they are denied in turn."""
        at, found, kinds = 0, -1, set[bool]()
        for end, run in ends_said(list(self.texts)):
            if not end and (run[0] in _EXCLUDING or run[0] in _PLAIN_NO):
                found = at if found < 0 else found
                kinds.add(run[0] in _EXCLUDING)
            at += len(run)
        return None if len(kinds) > 1 else found

    # ---- steps

    def _of_a_step(self, name: str, step: object) -> Iterator[Form]:
        assert isinstance(step, Step)
        unit = self._unit_of_time(step)
        started = self._own_moment(name)
        other = next((s.name for s in self.names.steps.values() if s.name != name), "")
        if "for" in self.said or not _LASTING.isdisjoint(self.said):
            yield _dotted(_limited(self.words, f"DURATION({name})", f"{FILLED_IN}{unit}"))
        if other and not _AFTER.isdisjoint(self.said):
            apart = self._span(started, self._moment_of(other), unit)
            shown = apart.shown.replace(f"({other})", "(...)")
            timed = any(c.isdigit() for c in self.words) or not _AT_ONCE.isdisjoint(self.said)
            yield Form(apart.tried, shown) if timed else Form(f"ORDER({name}, {other})", "ORDER(..., ...)")
        if not any(c.isdigit() for c in self.words) or not _AFTER.isdisjoint(self.said):
            return
        for so in (f"DONE({name}), ", ""):
            yield _dotted(so + _limited(self.words, started, f"{FILLED_IN}{unit}"))
        yield _dotted(_limited(self.words, f"DURATION({name})", f"{FILLED_IN}{unit}"))

    def _of_steps(self, steps: Mapping[str, object]) -> Iterator[Form]:
        one, *rest = steps
        on_condition = bool(self._conditions(_SURE) or (self._conditions(_PERHAPS) and not self._of_time()))
        if on_condition:
            yield Form(f"IF START({one}) > 7919 min THEN START({rest[0]}) > 7919 min", "IF ... THEN ...")
            return
        if not self.said.isdisjoint(_AS_A_QUOTIENT) or _PERCENT.search(self.words.lower()):
            yield from self._of_durations(list(steps))
            return
        numbered = any(c.isdigit() for c in self.words)
        if numbered and not _WHILE_ANOTHER.isdisjoint(self.said):
            return  # 'over the first 10 minutes of the mixing' is no time from the one to the other
        if len(steps) == 2 and numbered:
            first = steps[one]
            assert isinstance(first, Step)
            yield self._span(self._own_moment(one), self._moment_of(rest[0]), self._unit_of_time(first))
        yield Form(f"ORDER({', '.join(steps)})", f"ORDER({', '.join('...' for _ in steps)})")

    def _of_durations(self, steps: list[str]) -> Iterator[Form]:
        """`a ratio of the filtration period to the backwash period`, `20 % of the filtration period`."""
        words = self.words.lower()
        places = {s: words.find(s.lower()[:_STEM]) for s in steps}
        if len(steps) > 2 or any(w in self.said for w in ("start", "begins", "end", "after", "before")):
            return
        first, second = sorted(steps, key=lambda s: places[s])
        if "ratio" in self.said and min(places.values()) >= 0:
            yield _dotted(_limited(self.words, f"DURATION({first}) / DURATION({second})", FILLED_IN))
        elif "ratio" not in self.said and places[steps[1]] >= 0 and places[steps[0]] < places[steps[1]]:
            over = _TIMES.sub(" ", self.words)
            yield _dotted(_limited(over, f"DURATION({steps[0]}) / DURATION({steps[1]})", FILLED_IN))

    def _of_time(self) -> bool:
        return not (_ENDING | _AFTER | _STARTING).isdisjoint(self.said)

    def _own_moment(self, name: str) -> str:
        return f"START({name})" if _ENDING.isdisjoint(self.texts[:2]) else f"END({name})"

    def _moment_of(self, other: str) -> str:
        """Which moment of the other step is spoken of: its end, where nothing tells its start."""
        behind = frozenset(self.texts[2:])
        ended = "end" in behind if "before" in behind else {"start", "beginning"}.isdisjoint(behind)
        return f"END({other})" if ended else f"START({other})"

    def _span(self, own: str, its: str, unit: str) -> Form:
        """How long it is from a step to another."""
        both = {"before", "after"} <= self.said
        span = f"{its} - {own}" if "before" in self.said and not both else f"{own} - {its}"
        limit = f"{FILLED_IN}{unit}"
        limited = _limited(self.words, span, limit)
        if not _AT_ONCE.isdisjoint(self.said):
            limited = f"{span} <= {limit}"
        if limited.startswith(f"{span} <") and not both and _LATEST.isdisjoint(self.said):
            sign = limited[len(span) + 1 :].partition(" ")[0]
            limited = f"0{unit} <= {span} {sign} {limit}"
        elif both:
            limited = f"-{limit} <= {span} <= {limit}"
        return _dotted(limited)

    def _unit_of_time(self, step: Step) -> str:
        """The words' own unit of time, or that of the step."""
        said = (find_unit(w) for before, w in pairwise(self.texts) if before[-1:].isdigit())
        own = self.names.declarations[step.start]
        assert isinstance(own, NumberDecl)
        unit = next((u for u in said if u is not None and u.kind == own.kind), own.unit)
        return f" {unit.symbol}"

    # ---- conditions

    def _conditions(self, opening: frozenset[str]) -> list[int]:
        """Where conditions begin: 'if any' and 'when wet' are none of these."""
        return [
            i
            for i, w in enumerate(self.texts)
            if w in opening
            and (i + 1 < len(self.texts) and self.texts[i + 1] not in _NO_CONDITION)
            and not (w == "provided" and self.texts[i + 1] not in ("that", "the"))
        ]

    def _under_conditions(self, so: Form, rest: Mapping[str, object]) -> Iterator[Form]:
        """What is so where a condition holds; which is under which the words may leave open."""
        conditional = bool(self._conditions(_SURE | _PERHAPS))
        plain = conditional and self.said.isdisjoint(_TURNING | _LIFTING)
        other = so.tried.replace("= yes", "= no")
        for one in self.of_things(rest, within_condition=True):
            tried, shown = (x.replace(", ", " AND ") for x in (one.tried, one.shown))
            if not self.said.isdisjoint(_OTHERWISE) and other != so.tried:
                how = f"{shown} THEN {so.shown} OTHERWISE {so.shown}"
                yield Form(f"IF {tried} THEN {so.tried} OTHERWISE {other}", f"IF {how}")
            form = Form(f"IF {tried} THEN {so.tried}", f"IF {shown} THEN {so.shown}")
            yield form if plain and self.said.isdisjoint(_OTHERWISE) else _only_form(form)

    def _has_condition(self, made: Mapping[str, object]) -> bool:
        return bool(self._conditions(_SURE) or (len(made) > 1 and self._conditions(_PERHAPS)))

    def _numbers_under_conditions(self, made: Mapping[str, object]) -> Iterator[Form]:
        """A limit under a condition on another number; with one thing the other is still to be named."""
        things = list(made)
        limits = {t: _limited(self.words, t, f"{FILLED_IN}{_unit(what)}") for t, what in made.items()}
        whole = Form(f"IF {limits[things[0]]} THEN {limits[things[-1]]}", "IF ... THEN ...")
        at = self._conditions(_SURE | _PERHAPS)
        parts = self._parted(at[0]) if len(at) == 1 and self.said.isdisjoint(_CONDITION_TURNED) else None
        if parts is None or len(things) != 2:
            yield whole
            return
        under, so = parts
        named = [t for t in things if _named(under, t)]
        if len(named) != 1 or (_named(so, named[0]) and not all(_named(so, t) for t in things)):
            named = [t for t in things if not _named(so, t)]
        if len(named) == 1:
            condition, then = named[0], next(t for t in things if t not in named)
            limited = _limited(under, condition, f"{FILLED_IN}{_unit(made[condition])}")
            what = _limited(so, then, f"{FILLED_IN}{_unit(made[then])}")
            numbered = any(c.isdigit() for c in so)
            tried = f"IF {limited} THEN {what}"
            yield _dotted(tried) if numbered else Form(tried, _dotted(f"IF {limited} THEN ...").shown)
        yield whole

    def _parted(self, at: int) -> tuple[str, str] | None:
        """The words of the condition, and those of what holds on it."""
        raw = self.words.split()
        end = len(raw)
        if at == 0 or raw[at - 1].endswith(","):
            end = next((i + 1 for i in range(at, len(raw)) if raw[i].endswith(",")), len(raw))
        so = raw[:at] + raw[end:]
        return (" ".join(raw[at:end]), " ".join(so)) if so else None

    # ---- numbers

    def _of_numbers(self, made: Mapping[str, object]) -> Iterator[Form]:
        things = list(made)
        if self._another_shape(len(things)) or self._of_some_of_many(made):
            return
        limits = {t: _limited(self.words, t, f"{FILLED_IN}{_unit(what)}") for t, what in made.items()}
        if len(things) > 1:
            shares = all(isinstance(w, NumberDecl) and bool(w.kind.basis) for w in made.values())
            if shares and self._leaves_a_rest():
                yield self._with_the_rest(made)
            quotient = self._quotient(things, shares)
            if self._summed(made):
                yield from self._of_a_sum(made)
                return
            added = any(regex(rf"\b{escape(t)}\s*[+\-−]\s*\d").search(self.words) for t in things[1:])
            if len(things) == 2 and (quotient or added or self.said & _BESIDE):
                yield from map(_dotted, self._beside(made, quotient))
            if quotient:
                share = [t for t in things if _is_share(made[t])]
                yield from (_dotted(limits[t]) for t in share if len(share) == 1 and len(things) == 2)
            if quotient is None or quotient:
                return
        yield from map(_dotted, (", ".join(limits.values()), *limits.values()))

    def _another_shape(self, things: int) -> bool:
        """`varies by less than 5 %`, `in particular about 32 mm`: no limit of the thing, or none to keep.

        Of several `less than the sum of the reaches`, with no number, and `at most one grade lower`.
        """
        words = f" {' '.join(self.texts)} "
        where_there = any(f" if {w} " in words for w in ("present", "any"))
        if where_there and {end for end, _ in ends_said(list(self.texts))} - {""} != {"most"}:
            return True  # a lower end, and only where there is some
        changing = " by " in words and not self.said.isdisjoint(_CHANGING)
        if changing or not self.said.isdisjoint(_PREFERRED | _STEADY | _MULTIPLES):
            return True
        numbered = any(c.isdigit() for c in self.words) or not self.said.isdisjoint(NUMBER_WORDS)
        compared = self.texts[-1] in _COMPARED
        return things > 1 and (compared or (not numbered and "sum" in self.said))

    def _of_some_of_many(self, made: Mapping[str, object]) -> bool:
        """`at least 95 % of the pores have a diameter of less than 0.1 µm`: of so many of them."""
        words = self.words.lower()
        found = _PERCENT.search(words)
        if found is None or any(_is_share(what) for what in made.values()) or len(made) > 1:
            return False
        return words[found.end() :].startswith(" of ") and bool(_DIGIT.search(words[found.end() :]))

    def _denied(self) -> bool:
        """Is what is limited denied, otherwise than in 'not more than'?"""
        if not _OUTSIDE.isdisjoint(self.said):
            return False
        at, said = 0, self.texts
        ends = any(end for end, _ in ends_said(list(said)))
        for end, run in ends_said(list(said)):
            compared = "than" in said[at : at + 3] or (ends and run[0] in ("neither", "nor"))
            if not end and run[0] in _PLAIN_NO and not compared:
                return True
            at += len(run)
        return False

    def _leaves_a_rest(self) -> bool:
        return not word_list("asides", "what_is_left").isdisjoint(self.said) or "rest" in self.said

    def _with_the_rest(self, made: Mapping[str, object]) -> Form:
        """`at least 60 % cotton, the remainder being polyester`: what is left makes up the whole."""
        left = word_list("asides", "what_is_left") | {"rest"}
        at = next(i for i, w in enumerate(self.texts) if w in left)
        behind = " ".join(self.texts[at:])
        limited = [t for t in made if not _named(behind, t)] or list(made)[:-1]
        limits = (_limited(self.words, t, f"{FILLED_IN}{_unit(made[t])}") for t in limited)
        return _dotted(f"{', '.join(limits)}, {' + '.join(made)} = 100{_unit(next(iter(made.values())))}")

    def _summed(self, made: Mapping[str, object]) -> bool:
        named = {w for t in made for w in t.lower().split()}
        kinds = {(what.kind if isinstance(what, NumberDecl) else None) for what in made.values()}
        together = bool(self.said & _TOGETHER - named) or " as a whole" in self.words
        of_one = _PERCENT.split(self.words.lower())[-1] if _PERCENT.search(self.words.lower()) else ""
        if len(made) == 2 and any(_named(of_one, t) for t in made) and "and" not in of_one.split():
            return False  # '10 to 25 % of the total thickness of the interlayer'
        return together and len(kinds - {None}) < len(made)

    def _of_a_sum(self, made: Mapping[str, object]) -> Iterator[Form]:
        """`the combined weight of the wax and the oil is at most 60 % of the coat`."""
        things = list(made)
        if not _PERCENT.search(self.words.lower()):
            sum_ = " + ".join(things)
            yield _dotted(_limited(self.words, sum_, f"{FILLED_IN}{_unit(made[things[0]])}"))
            return
        behind = self.words.lower().rpartition(" of ")[2]
        whole = next((t for t in things if _named(behind, t)), "") if len(things) > 2 else ""
        sum_ = " + ".join(t for t in things if t != whole)
        if whole:
            yield _dotted(_limited(self.words, sum_, f"{FILLED_IN} * {whole}"))
            return
        what = made[things[0]]
        if isinstance(what, NumberDecl) and what.kind.basis:
            yield _dotted(_limited(self.words, sum_, f"{FILLED_IN}{_unit(what)}"))
            return
        tried = _limited(self.words, sum_, f"{FILLED_IN} * {FILLED_IN}{_unit(what)}")
        yield Form(tried, tried.replace(f"{FILLED_IN}{_unit(what)}", "...").replace(FILLED_IN, "..."))

    def _quotient(self, things: list[str], shares: bool) -> bool | None:
        """Are the things set beside each other? None where so much is of something that is none of them."""
        words = self.words.lower()
        if self.said & _AS_A_QUOTIENT or _RATIO.search(words):
            return True
        if not _PERCENT.search(words):
            return False
        behind = words[max(m.end() for m in _PERCENT.finditer(words)) :]
        behind = behind if " of " in behind or _LIKE_IT.search(behind) else ""
        named = _LIKE_IT.search(behind) or any(
            regex(rf"\b{w}s?\b").search(behind) for t in things for w in _plain_words(t)
        )
        if behind and named:
            return True
        return False if shares else None

    def _beside(self, made: Mapping[str, object], quotient: bool | None) -> Iterator[str]:
        """Two things set beside each other by a quotient or a difference."""
        things, texts = list(made), list(self.texts)
        if quotient is None:
            return
        first = min(things, key=lambda t: (f" {self.words} ".lower().find(f" {t.lower()} "), t != things[0]))
        both = all(_named(self.words, thing) for thing in things)
        over, under = (first, *(t for t in things if t != first)) if both else things
        before = self.words.lower().partition(first.lower())[0]
        if both and over != things[0] and _SO_MUCH_OF.search(before):
            over, under = under, over  # '4 to 6 times its original length'
        behind = " ".join(texts[texts.index("by") + 1 :]) if "by" in texts else "turned not round"
        if "by" in texts and not _LESS.isdisjoint(texts[: texts.index("by")]):
            over, under = under, over
        apart = [f"{FILLED_IN}{unit}" for unit in (_unit(made[over]), " K", " dB")]
        either_way = not self.said.isdisjoint(_EITHER_WAY) and self.said.isdisjoint(_COMPARED)
        difference = f"ABS({over} - {under})" if either_way else f"{over} - {under}"
        differences = [_limited(behind, difference, limit) for limit in apart]
        # 'at most three times' and 'less than a tenth of' are on one side of a quotient.
        of_both = behind if "by" in texts else _TIMES.sub(" ", self.words)
        ways = [_limited(of_both, f"{over} / {under}", FILLED_IN)]
        if "majority" in texts:
            ways = [f"{over} / {under} > {FILLED_IN}"]
        yield from (*ways, *differences) if quotient else (*differences, *ways)
        yield f"{things[0]} <= {FILLED_IN} * {things[1]}"


_WHILE_ANOTHER = frozenset("first last into during throughout for over while".split())
_SO_MUCH_OF = regex(r"\d.*\b(?:times|of|than)\s+(?:the |its |their |said |an? )?$")


def _texts(words: str) -> tuple[str, ...]:
    return tuple(w.strip(",;") or w for w in words.lower().split())


def _plain_words(thing: str) -> list[str]:
    return [w for w in thing.lower().split() if w.isalpha() and len(w) > 1]


def _named(words: str, thing: str) -> bool:
    return f" {thing.lower()} " in f" {' '.join(_texts(words))} "


def _limited(words: str, thing: str, limit: str) -> str:
    """The thing within a limit on the side that the words tell; within two, where they tell none or both."""
    texts = [w.strip(",;") or w for w in words.lower().split()]
    within = f"{limit} <= {thing} <= {limit}"
    if (at := next((i for i, w in enumerate(texts) if w in _OUT), -1)) >= 0 and _DENYING.isdisjoint(texts):
        before = " ".join(texts[:at])
        so = f"{_limited(before, thing, limit)} AND " if any(c.isdigit() for c in before) else ""
        left_out = _limited(" ".join(texts[at + 1 :]), thing, limit)
        one = left_out == within and len(_A_NUMBER.findall(" ".join(texts[at + 1 :]))) == 1
        return f"{so}NOT ({f'{thing} = {limit}' if one else left_out})"
    said = set[str]()
    for end, run in ends_said(texts):
        if end:
            strictly = "" if _STRICT.isdisjoint(run) or not _MILD.isdisjoint(run) else "strictly "
            said.add(strictly + end)
        elif run[0] in _TURNING:
            said.add("turned round")
    if not _OUTSIDE.isdisjoint(texts) and _DENYING.isdisjoint(texts):
        return f"({thing} < {limit} OR {thing} > {limit})"
    sign = _SIGNS.get(said.pop()) if len(said) == 1 and not _TWO_ENDS.search(words.lower()) else None
    return f"{thing} {sign} {limit}" if sign else within


def _is_share(what: object) -> bool:
    return isinstance(what, NumberDecl) and (bool(what.kind.basis) or what.unit.symbol == "%")


def _unit(what: object) -> str:
    """The unit of a number that is not counted, with a blank before it."""
    return f" {what.unit.symbol}".rstrip() if isinstance(what, NumberDecl) and not what.whole else ""


_EVERY = frozenset("each every all individually".split())
_OF_ALL = frozenset("each both all".split())
_OPERANDS = regex(r"\([A-Z]*\.\.\.(?:, \.\.\.)*\)| \* \.\.\.")
_UNIT = r"(?: [^\s<>=.,()]+)?"
_FILLED = regex(rf"[<>]=? -?\.\.\.|\.\.\.{_UNIT} <=?")
_CHAIN = regex(rf"\.\.\.{_UNIT} <=? [^,]*? <=? \.\.\.")
_EQUALS = regex(rf"(?<![<>])= {FILLED_IN}")
_SELECTED = regex(
    r" (?:selected|chosen|taken|picked) from | (?:of|or more|or several|or both) (?:the )?group "
    r"| one or more | at least one "
    rf"| (?:{'|'.join(NUMBER_WORDS)}|\d+)(?: or (?:more|fewer|less))? of "
)
"""With these so many of several are spoken of, which no limit of an amount keeps."""
_ALTERNATIVE = regex(
    r"(?<!equal to)(?<! at)(?<! of) or "
    r"(?!(?:more|less|fewer|greater|higher|longer|about|so|below|above|equal|over|after|before)\b(?! than))"
)
_A_NUMBER = regex(
    r"(?<![\w.,^])[+-]?\d(?:[\d.,]*\d)?(?: \d{3}(?!\d))*(?: ?: ?\d[\d.,]*)?"
    rf"|\b(?:{'|'.join(NUMBER_WORDS)}|once|twice|thrice|double|triple|half|majority"
    r"|thirds?|quarters?|fifths?|tenths?|hundredths?|thousandths?|predetermined|preset|threshold|immediately"
    r"|directly|promptly|shortly)\b"
)
_EITHER_SIDE = regex(r"±|\+/-|\bplus or minus\b| before or after | after or before ")
_RANGED_SAID = regex(
    r" between | from | to |±|\+/-| plus or minus | before or after |\d ?[-–—] ?\d| through | range "
)
_STEM = 4
_DIGIT = regex(r"\d")
_AS_A_QUOTIENT = frozenset("ratio proportion times twice half majority per".split())
_PERCENT = regex(r"%|\b(?:percent|ppm|ppb)\b|\bper cent\b")
_LIKE_IT = regex(r"\b(?:that|those|it|its|as)\b")
_RATIO = regex(
    r"\d ?: ?\d|\b(?:half|thirds?|quarters?|fifths?|sixths?|sevenths?|eighths?|ninths?|tenths?|hundredths?"
    r"|thousandths?|millionths?) (?:of|that|the|this|its)\b"
)
_TIMES = regex(r"\b(?:once|twice|times)\b")
_NUMBER = r"[+-]?\d[\d.,]*(?: ?[^\s\d,;.–-]{1,6})?"
_TWO_ENDS = regex(
    rf"±|\+/-|\bplus or minus\b|{_NUMBER} ?(?:-|–|—) ?\d|{_NUMBER} (?:to|through|and|or) (?:\w+ )?[+-]?\d"
    r"|\bfrom .*\bto\b|\bneither\b"
)
_BESIDE = _AS_A_QUOTIENT | frozenset(
    "by than difference differ differs from exceeds exceed exceeding".split()
)
_EITHER_WAY = frozenset("differ differs differing deviate deviates deviating apart".split())
_CHANGING = word_list("limits", "varying")
_PREFERRED = frozenset("preferably particular particularly especially ideally advantageously".split())
_STEADY = word_list("limits", "steady")
_MULTIPLES = frozenset("multiple multiples divisible even odd".split())
_COMPARED = word_list("limits", "compared")
_SIGNS = {"most": "<=", "least": ">=", "strictly most": "<", "strictly least": ">"}
_STRICT = frozenset("than below under above over exceeding exceeds excess".split())
_MILD = frozenset("or not no".split())
_TURNING = frozenset(
    "not no never nor neither hardly scarcely barely without unless except excepting other different by"
    " once twice times every".split()
)
"""With these the side is another, or nothing tells it: at least once an hour is within an hour."""
_OUT = frozenset("except excepting exception excluding disclaiming excluded other".split())
_EXCLUDING = word_list("limits", "shutting_out")
_PLAIN_NO = frozenset("not no never neither nor none cannot".split())
_RANGED = frozenset("between from within inside range".split())
_OUTSIDE = frozenset("outside beyond".split())
_DENYING = frozenset("not no never".split())
_ENDING = word_list("steps", "ending")
_STARTING = word_list("steps", "starting")
_AFTER = frozenset("after before following of from since".split())
_AT_ONCE = frozenset("immediately directly right straight shortly soon promptly".split())
_LESS = word_list("limits", "less")
_LATEST = frozenset("later latest late".split())
_LASTING = frozenset("lasts lasting last takes taking long duration".split())
_SURE = frozenset("if whenever unless provided".split())
_PERHAPS = frozenset("when where while once upon".split())
_NO_CONDITION = frozenset("any necessary desired needed required present appropriate".split())
_CONDITION_TURNED = frozenset("unless only until till otherwise else either whether".split())
_OTHERWISE = frozenset("otherwise else".split())
_TOGETHER = word_list("limits", "together")
_LIFTING = frozenset(
    "only until till may can could might need needs partly prevents prevent prevented preventing inhibits"
    " avoids otherwise either whether stops allowed permitted".split()
)
