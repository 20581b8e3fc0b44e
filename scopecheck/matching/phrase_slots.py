"""What fills the slots of a phrase: numbers, limits, lists, steps, and what stands left of the colon."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction
from os.path import basename

from scopecheck.core.construction import names_in
from scopecheck.core.declared import Assembly, Composition, SetDecl, Step
from scopecheck.core.formula import (
    Add,
    All,
    Const,
    Divide,
    ExactlyOne,
    Formula,
    Measured,
    Negate,
    Truth,
    all_of,
)
from scopecheck.core.model import OwnPhrase, called
from scopecheck.foundations.diagnostics import Trouble, trouble
from scopecheck.foundations.quantity import PLAIN, PLAIN_KIND, difference_kind
from scopecheck.foundations.record import record, replace
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import run_at
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import FILLERS, Fill, Match, has_number, word_of
from scopecheck.matching.entries_for import prefers
from scopecheck.matching.made_of_several import sum_of_all
from scopecheck.matching.nouns import order_of_nouns
from scopecheck.matching.phrase_advice import no_phrase, note_of_each
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.phrase_numbers import number, number_text
from scopecheck.matching.shared_limits import PREFERRING
from scopecheck.matching.subjects import LISTS, OfParts, Subject, is_bare_share, is_fraction
from scopecheck.occurrences.limit_texts import of_limit
from scopecheck.occurrences.occurrence import Occurrence
from scopecheck.occurrences.readings import condition_holds
from scopecheck.vocabulary.classes import has, not_within_another
from scopecheck.vocabulary.entry import OF_PAUSES, RECITED, Entry
from scopecheck.vocabulary.names import (
    ONLY_OF_CLASSES,
    ONLY_WITH_PAUSES,
    Bound,
    Listed,
    Names,
    Steps,
    Typed,
    member_of,
)
from scopecheck.vocabulary.steps import active, without_gap

CALLED = {
    "total": "total", "mean": "mean", "middle": "median", "heavy": "weight-average", "coarse": "volume-mean",
    "least": "least", "greatest": "greatest",
}  # fmt: skip
"""What one value for all parts is called before what it is of."""

_NEVER_PASSED = frozenset("maximum max minimum min never nowhere".split())
"""Words of an end that holds of a value whenever it is looked at."""

_BETWEEN = {"spread": "spread", "lowest": "least of them", "highest": "greatest of them"}

Whole = Callable[[Job, tuple[Token, ...]], Formula]
"""What reads words within a phrase, such as a limit, as a phrase of their own."""


def occurrence(job: Job, match: Match, tokens: tuple[Token, ...], whole: Whole) -> Occurrence:
    """The phrase that the words are, with what fills its slots. Raises Trouble where that does not fit."""
    slots, shown = named_subjects(job, match, tokens)
    filling = _Filling(job, match, whole, slots, shown)
    filling.fills()
    filling.like_parts()
    if len(job.subjects) == 1:
        shown.setdefault("x", job.subjects[0].text)
    filling.mixture(tokens)
    filling.steps()
    entry = match.entry
    _ratios_in_order(entry, slots, shown, job.place.names)
    if entry.where and condition_holds(entry.where, slots, job.place.names) is False:
        raise _where_fails(job, entry, shown, tokens)
    return Occurrence(
        job.place.document, job.place.where, job.text(tokens), match.wording.lower(), slots, shown,
        job.span(tokens), own_phrase(match),
    )  # fmt: skip


def _not_of_itself(job: Job, fill: Fill, value: Bound) -> None:
    """Refuses a limit that is worked out of what it limits: `at most the rim plus 2 mm`, of the rim.

    So of a quotient that 'so many times the ribs' made, which no other thing limits.
    """
    first = job.first
    plain = len(job.subjects) == 1 and job.of_parts is None and not job.subjects[0].moments
    if not plain or not isinstance(first, Typed) or not isinstance(value, Typed):
        return
    named = names_in(value.term)
    own = isinstance(first.term, Measured) and first.term.name in named
    made = isinstance(first.term, Divide) and bool(named) and _QUOTIENTS.isdisjoint(job.words.text.split())
    if own or made:
        raise trouble(
            job.words.span,
            f"'{job.text(fill.tokens)}' would be a limit of '{job.subjects[0].text}'",
            "Nothing is limited by what is worked out of it alone, and no quotient by one of two things.",
            "write each limit in a line of its own, with what it limits left of the colon",
        )


_QUOTIENTS = listed("measures", "quotients")


@record
class _Filling:
    """The slots of one phrase while they are filled, and how what fills them is shown."""

    job: Job
    match: Match
    whole: Whole
    slots: dict[str, Bound]
    shown: dict[str, str]

    def fills(self) -> None:
        """Puts what the words themselves say in the place of a slot."""
        job, slots, shown = self.job, self.slots, self.shown
        limits = 0
        for fill in self.as_many_as_before():
            if fill.slot.kind == "list":
                slots[fill.slot.name] = self.listed(fill)
                slots[f"single_{fill.slot.name}"] = self.one_of_each_class(fill)
                beside = f" (beside {', '.join(job.also)})" if job.also else ""
                shown[fill.slot.name] = job.text(fill.tokens) + beside
                shown[f"single_{fill.slot.name}"] = f"one only of each of {job.text(fill.tokens)}"
            elif fill.slot.kind == "limit" and job.of_parts is not None:
                self.limited_parts(fill, job.of_parts)
            elif fill.slot.kind == "limit" and job.of_one_kind:
                self.limited_one_by_one(fill, job.subjects[limits])
                limits += 1
            elif fill.slot.kind == "limit":
                self.limited(fill, _called(self.match))
            elif fill.slot.kind in ("step", "moment"):
                slots[fill.slot.name], shown[fill.slot.name] = _in_time(job, fill)
            elif fill.slot.kind != "noun":
                value = number(job, fill.slot, fill.tokens, bool(shown.get("x")))
                _not_of_itself(job, fill, value)
                slots[fill.slot.name], shown[fill.slot.name] = value, number_text(job, fill, value)

    def as_many_as_before(self) -> Iterator[Fill]:
        """What fills the slots; what is preferred among `20, 24 or 28 teeth` is so many, as each of these."""
        subject, before = self.job.first, list[Token]()
        whole = isinstance(subject, Typed) and subject.whole and prefers(self.match.entry)
        for fill in self.match.fills:
            closed = sum(map(has_number, before)) > 1 and _OPEN.isdisjoint(map(word_of, before))
            if whole and closed and fill.slot.kind == "limit":
                yield replace(fill, tokens=_each_exactly(fill.tokens, self.job.tests().own_words))
            else:
                yield fill
            before += fill.tokens

    def like_parts(self) -> None:
        """Puts how many parts there are, what lies between them, and facts about all of them."""
        job = self.job
        if job.of_one_kind:
            self.slots["parts"] = job.of_one_kind[0].count
            self.shown["parts"] = job.of_one_kind[0].called
            self.recited(job.of_one_kind[0].called)
        if (of_parts := job.of_parts) is not None:
            self.slots.update({of_parts.sort: of_parts.count, **of_parts.gaps})
            self.recited(of_parts.called)
            self.shown.update({n: _BETWEEN.get(n, f"{n} gap") for n in of_parts.gaps})
            for name, fact in of_parts.facts.items():
                self.slots[name] = Listed((fact,), (), f"{job.subjects[0].text} {name}")

    def recited(self, called: str) -> None:
        """Puts how many of the parts the lines of the claim ask for, where one does."""
        if least := self.job.place.names.recited.get(called.lower()):
            self.slots[RECITED] = Typed(Const(Fraction(least)), PLAIN_KIND, unit=PLAIN, whole=True)
            self.shown[RECITED] = str(least)

    def mixture(self, tokens: tuple[Token, ...]) -> None:
        """Puts what else the claim recites of a composition or an assembly, where the phrase asks for it."""
        job = self.job
        if isinstance(job.first, Composition | Assembly) and "RECITED" in _said(self.match.entry):
            recited = job.place.names.recital(job.first, job.span(tokens))
            self.shown["RECITED"] = ", ".join(recited) or "what is recited"
            self.slots["RECITED"] = Listed((), recited, self.shown["RECITED"])
        if isinstance(job.first, Assembly):
            self.shown["unrelated"] = "things unrelated to the invention"

    def steps(self) -> None:
        """Puts whether a method is claimed, the pauses of a step, and the steps in their order."""
        job, slots, shown = self.job, self.slots, self.shown
        steps = tuple(s.bound for s in job.subjects if isinstance(s.bound, Step))
        if job.sort == "steps":
            slots["method"] = Listed((Truth(job.place.method),), (), "a method is claimed")
            shown["method"] = "a method is claimed"
            for name, pause in zip(OF_PAUSES, steps[0].pauses, strict=False):
                slots[name], shown[name] = job.place.names.terms[pause.lower()], pause
        if job.sort == "moments":
            self.spread_in_time()
        if job.sort == "sequences" and "sequences" in self.match.entry.only_for:
            slots["steps"], shown["steps"] = Steps(steps), ", ".join(step.name for step in steps)

    def spread_in_time(self) -> None:
        """Puts how far a quantity of a step lies at its highest above its lowest."""
        (_, least), (_, most) = (self.job.subjects[0].moments[m] for m in ("lowest", "highest"))
        if least.kind is not None:
            kind = difference_kind(least.kind, least.kind)
            between = Add((most.term, Negate(least.term)))
            self.slots["spread"] = Typed(between, kind)
            self.shown["spread"] = f"highest less lowest {self.job.subjects[0].text}"

    def limited(self, fill: Fill, names: tuple[str, ...]) -> None:
        """Binds a limit c: `c` is that on everything left of the colon, `a_c` that on `a` alone."""
        name, text = fill.slot.name, self.job.text(fill.tokens)
        limits = tuple(self.whole(job, fill.tokens) for job in self.job.each())
        if self.job.sort == "moments":
            names = tuple(self.job.subjects[0].moments)
            told = tuple(thing for thing, _ in self.job.subjects[0].moments.values())
        elif self.job.sort == "steps":
            names = names[1:2] or names
            beside = self.job.subjects[1].text if len(self.job.subjects) > 1 else ""
            told = (beside or f"duration of {self.job.subjects[0].text}",)
            self.slots[f"net_{name}"] = self.without_pauses(fill.tokens)
            self.shown[f"net_{name}"] = f"duration of {self.job.subjects[0].text} without its pauses {text}"
        else:
            told = tuple(subject.text for subject in self.job.subjects)
        if self.job.sort == "moments":
            at = dict(zip(names, limits, strict=True))
            self.slots[f"all_{name}"] = _at_all_times((at["lowest"], at["highest"]), text)
            at_all = self.said_of(self.job.subjects[0].text, text, at["lowest"])
            self.shown[f"all_{name}"] = f"{at_all} throughout"
        ruled_out = self.moments_ruled_out(fill)
        for one, thing, limit in zip(names, told, limits, strict=True):
            said = f"'{text}' is said of more than one moment"
            told_of = self.said_of(thing, text, limit)
            kept = Listed((), (), said) if one in ruled_out else Listed((limit,), (), told_of)
            self.slots[f"{one}_{name}"], self.shown[f"{one}_{name}"] = kept, told_of
        if "total" not in names and f"total_{name}" in _said(self.match.entry):
            self.limited_together(fill, told)
        of_all = ", ".join(told)
        self.shown[name] = self.said_of(f"{{{of_all}}}" if len(told) > 1 else of_all, text, all_of(limits))
        self.slots[name] = Listed(limits, (), self.shown[name])

    def said_of(self, thing: str, text: str, limit: Formula) -> str:
        """A limit with what it is a limit of."""
        called = self.job.subjects[0].text if self.job.sort == "moments" else ""
        return of_limit(thing, text, limit, self.job.place.groups, called)

    def moments_ruled_out(self, fill: Fill) -> frozenset[str]:
        """Of a quantity of a step, the moments at which words of an end that is never passed are not read.

        'A maximum of 60 degC' says nothing of the start alone, nor 'a minimum of 60 degC' of the peak.
        """
        words = {token.text.lower() for token in fill.tokens}
        key = fill.slot.name
        any_moment = all(f"{at}_{key}" in _said(self.match.entry) for at in ("start", "end", "highest"))
        if self.job.sort != "moments" or not any_moment or words.isdisjoint(_NEVER_PASSED):
            return frozenset()
        return frozenset(("start", "end", "average", *(() if words & {"maximum", "max"} else ("highest",))))

    def limited_together(self, fill: Fill, told: tuple[str, ...]) -> None:
        """Binds a limit c on several things: `total_c` is that on their sum."""
        key, text = f"total_{fill.slot.name}", self.job.text(fill.tokens)
        together = sum_of_all(self.job)
        self.slots[key], self.shown[key] = Listed((), (), "only of amounts that have a total"), ""
        if together:
            limit = self.whole(self.job.of(together), fill.tokens)
            self.shown[key] = self.said_of(" + ".join(told), text, limit)
            self.slots[key] = Listed((limit,), (), self.shown[key])

    def without_pauses(self, tokens: tuple[Token, ...]) -> Listed:
        """A limit on how long a step takes, its pauses left out."""
        step = self.job.first
        assert isinstance(step, Step)
        if not step.pausing or len(self.job.subjects) > 1:
            return Listed((), (), ONLY_WITH_PAUSES)
        net = replace(self.job.place.names.terms[step.duration.lower()], term=active(step))
        return Listed((self.whole(self.job.on(net), tokens),), (), self.job.text(tokens))

    def limited_parts(self, fill: Fill, of_parts: OfParts) -> None:
        """Binds a limit c on like parts: `c` of each that is there, `mean_c` on their mean."""
        name, text = fill.slot.name, self.job.text(_without_own(self.job, fill.tokens))
        thing = self.job.subjects[0].text
        limits = tuple(self.whole(job, fill.tokens) for job in self.job.each())
        self.shown[name] = self.said_of(thing, text, all_of(limits))
        none = None
        if of_parts.sort == "classes":
            none = self.whole(self.job.on(of_parts.together["total"]), fill.tokens)
        self.slots[name] = Listed(limits, (), self.shown[name], of_parts.there, of_none=none)
        asked = _said(self.match.entry)
        for together, value in of_parts.together.items():
            key = f"{together}_{name}"
            if key in asked:
                limit = self.whole(self.job.on(value), fill.tokens)
                self.shown[key] = self.said_of(f"{CALLED[together]} {thing}", text, limit)
                self.slots[key] = Listed((limit,), (), self.shown[key])

    def limited_one_by_one(self, fill: Fill, subject: Subject) -> None:
        """Binds a limit on one of several things of the same parts: the first limit is on the first thing."""
        assert subject.parts is not None
        jobs = [self.job.on(bound, subject.text) for bound in subject.parts.each]
        if not jobs[0].readable(fill.tokens):
            raise no_phrase(self.job, fill.tokens)
        limits = tuple(self.whole(job, fill.tokens) for job in jobs)
        said = self.said_of(subject.text, self.job.text(fill.tokens), all_of(limits))
        self.shown[fill.slot.name] = said
        self.slots[fill.slot.name] = Listed(limits, (), self.shown[fill.slot.name], subject.parts.there)

    def listed(self, fill: Fill) -> Listed:
        """Members of a list, kinds of part, or whole phrases that a word joins."""
        subject = self.job.first
        text = self.job.text(fill.tokens).replace(" nor ", " or ")
        if isinstance(subject, Assembly):
            return self.listed_parts(subject, fill, text)
        if isinstance(subject, LISTS):
            members = [member_of(subject, self.job.text(m)) or "" for m in fill.members]
            for member in members:
                self.job.place.names.speak(member)
            once = tuple(has(subject, m) for m in not_within_another(subject, members))
            open_to = tuple(dict.fromkeys((*members, *self.job.also)))
            return Listed(tuple(has(subject, m) for m in members), open_to, text, once=once)
        whole = isinstance(subject, Typed) and subject.whole
        own = self.job.tests().own_words
        said = [_exactly(m, own) if whole and len(fill.members) > 1 else m for m in fill.members]
        return Listed(tuple(self.whole(self.job.of_named(m) or self.job, m) for m in said), (), text)

    def one_of_each_class(self, fill: Fill) -> Listed:
        """Of `a salt`, where the salts are a class, exactly one; of other members that they are there.

        Norian Corp. v. Stryker Corp., 432 F.3d 1356 (Fed. Cir. 2005).
        """
        subject = self.job.first
        nothing = Listed((), (), ONLY_OF_CLASSES)
        if not isinstance(subject, SetDecl | Composition):
            return nothing
        classes, asked, single = dict(subject.classes), list[Formula](), False
        for words in fill.members:
            member = member_of(subject, self.job.text(words)) or ""
            if member in classes and word_of(words[0]) in ("a", "an", "one"):
                single = True
                asked.append(ExactlyOne(tuple(has(subject, m) for m in classes[member])))
            else:
                asked.append(has(subject, member))
        return Listed((All(tuple(asked)),), (), "one only of each class") if single else nothing

    def listed_parts(self, made: Assembly, fill: Fill, text: str) -> Listed:
        """Kinds of part, each with how many of it the words ask for: `two plates and a spring`."""
        named: list[str] = []
        said: list[Formula] = []
        for words in fill.members:
            found = self.job.counted(made, words)
            assert found
            self.job.place.names.speak(found[0])
            named.append(found[0])
            said.append(self.whole(found[1], words) if found[1] else has(made, found[0]))
        open_to = tuple(dict.fromkeys((*named, *self.job.also)))
        return Listed(tuple(said), open_to, text, once=tuple(said))


def _exactly(member: tuple[Token, ...], own: frozenset[str]) -> tuple[Token, ...]:
    """A number of a list of numbers, `four, six or eight panes`: so many, and not at least so many."""
    at = len(member) - 1
    while at and word_of(member[at]) in own | {"of", "the"}:
        at -= 1
    number = member[at]
    if not has_number(number):
        return member  # 'even', of 'even or at least 6'
    if not (own | FILLERS | _BEFORE_NUMBERS).issuperset(map(word_of, member[:at])):
        return member
    before = max(0, number.start - 1)  # what is read is known by where it begins and ends
    return replace(number, sort="word", text="exactly", number=None, start=before, end=before), *member[at:]


def _each_exactly(tokens: tuple[Token, ...], own: frozenset[str]) -> tuple[Token, ...]:
    """`24, most preferably 28`: so many each."""
    found, start = list[Token](), 0
    for end in (*(i for i, t in enumerate(tokens) if t.text == ","), len(tokens)):
        while start < end and (tokens[start].text == "," or word_of(tokens[start]) in PREFERRING):
            found.append(tokens[start])
            start += 1
        found += _exactly(tokens[start:end], own) if start < end else ()
        start = end
    return tuple(found)


_OPEN = frozenset("least more greater higher larger over above exceeding not no about".split())
_BEFORE_NUMBERS = frozenset("where wherein set group total number array series".split())


def named_subjects(
    job: Job, match: Match, tokens: tuple[Token, ...]
) -> tuple[dict[str, Bound], dict[str, str]]:
    """What stands left of the colon, as the phrase names it. Raises Trouble where it names more or fewer."""
    if "sequences" in match.entry.only_for:
        return {"x": job.first}, {}
    of_own_limits = all(f.members and job.of_named(f.members[0]) for f in match.fills)
    if len(job.subjects) > 1 and match.fills and of_own_limits:
        return {"x": job.first}, {"x": " and ".join(s.text for s in job.subjects)}
    names = _called(match)
    if len(names) != len(job.subjects):
        title = called(match.wording, job.text(tokens))
        if len(job.subjects) == 1 and (ratio := _HYPHENED.search(job.text(tokens))):
            own = job.subjects[0].text
            raise trouble(
                job.span(tokens),
                f"no phrase reads '{job.text(tokens)}'",
                f"'{ratio[0]}' is one name, and {own} is not called so.",
                f'if {own} is the {ratio[0]}, say so in the note behind it: "{ratio[0]}"',
            )
        raise trouble(
            job.span(tokens),
            f"'{title}' takes {_things(len(names))}, not {len(job.subjects)}",
            "Left of the colon stands one thing for each noun, in the order of the words.",
            _other_subjects(job, match, names, tokens),
        )
    of_parts = next((s for s in job.subjects if s.of_parts), None)
    if len(names) > 1 and of_parts is not None and "parts" not in match.entry.only_for:
        raise trouble(
            job.span(tokens), f"'{called(match.wording, job.text(tokens))}' takes one value of each thing",
            f"There is a {of_parts.text} for each part.",
            "write in symbols of which of them it is said: two blanks, exactly EVERY ... (...), or SUM",
        )  # fmt: skip
    slots: dict[str, Bound] = {"x": job.first}
    shown = {"x": job.subjects[0].text} if names == ("x",) else {}
    order = order_of_nouns(match, job.subjects, job.place.names)
    for name, place in zip(names, order or range(len(names)), strict=True):
        slots[name], shown[name] = job.subjects[place].bound, job.subjects[place].text
    if len(job.subjects) == 1:
        slots |= job.subjects[0].asked
        shown |= job.subjects[0].asked_shown
    return slots, shown


def _other_subjects(job: Job, match: Match, names: tuple[str, ...], tokens: tuple[Token, ...]) -> str:
    """What to write where another number of things stands left of the colon than the phrase takes."""
    if len(names) > 1:
        if noted := note_of_each(job, tokens):
            return noted
        if not _OF_A_CHOICE.isdisjoint(map(word_of, tokens)):
            return "write the meaning in symbols after the words: two blanks, exactly, facts"
        listing, more = _with_nouns(job, match, len(names))
        declared = f"declare {listed_names(more)} too, and " if more else ""
        told = f"{declared}write them with commas: {listing} : {job.text(tokens)}"
        return f"{told}; or write the meaning in symbols" if "..." in listing else told
    named = [d.name.lower() for f in match.fills if (d := job.declared(f.tokens))]
    left = [s for s in job.subjects if s.text.lower() not in named]
    for subject in job.subjects:
        if subject.text.lower() in named and left:
            instead = f"{left[0].text} : {job.text(tokens)}"
            return f"{subject.text} stands in the words already: write {instead}"
    units = [t.number.unit for t in tokens if t.number and t.number.unit]
    kinds = {s.bound.kind for s in job.subjects if isinstance(s.bound, Typed)}
    if units and "/" in units[0].symbol and units[0].kind not in kinds:
        symbol, name = units[0].symbol, " per ".join(s.text for s in job.subjects)
        return f"declare it, as in: {name}  in {symbol}; and write: {name} : {job.text(tokens)}"
    if len(job.subjects) == 2 and any(t.number and ":" in t.number.text for t in tokens):
        quotient = " / ".join(s.text for s in job.subjects)
        return f"write their quotient left of the colon: {quotient} : {job.text(tokens)}"
    if any(is_bare_share(t) or is_fraction(t) for t in tokens):
        return "write the meaning in symbols after the words: two blanks, exactly, facts"
    return "write a line for each, or their sum"


_OF_A_CHOICE = frozenset(("selected", "chosen", "consisting"))
_HYPHENED = regex(r"\b\w+-to-\w+(?: \w+)? ratio\b")


def listed_names(names: Sequence[str]) -> str:
    return " and ".join(", ".join(names).rsplit(", ", 1))


def _with_nouns(job: Job, match: Match, count: int) -> tuple[str, list[str]]:
    """What would stand left of the colon for so many things, and which of them are not declared yet.

    What stands there already is the noun that shares a word with it, else the first.
    """
    nouns = [[word_of(t) for t in f.tokens if word_of(t) not in FILLERS] for f in match.fills
             if f.slot.kind == "noun"]  # fmt: skip
    own = [s.text for s in job.subjects]
    if len(own) != 1 or len(nouns) != count or not all(nouns):
        left = [*own, *["..."] * (count - len(own))][:count]
        return ", ".join(left), []
    words = {form for w in own[0].lower().split() for form in (w, w.removesuffix("s"))}
    alike = (i for i, noun in enumerate(nouns) if words & {*noun, *(w.removesuffix("s") for w in noun)})
    if (at := next(alike, None)) is None:
        return ", ".join([*own, *["..."] * (count - 1)]), []
    called = [own[0] if i == at else " ".join(noun) for i, noun in enumerate(nouns)]
    return ", ".join(called), [n for n in called if n != own[0] and job.place.names.declared(n) is None]


def _ratios_in_order(entry: Entry, slots: dict[str, Bound], shown: dict[str, str], names: Names) -> None:
    """`1:2 to 1:4`, `-0.4 to -0.8 bar`: ends of a range of ratios, or below zero, stand in either order."""
    if not entry.where or not {"L", "U"} <= slots.keys():
        return
    ends = [b.number for b in (slots["L"], slots["U"]) if isinstance(b, Typed) and b.number]
    if len(ends) < 2 or not (all(":" in n.text for n in ends) or all(n.value < 0 for n in ends)):
        return
    if condition_holds(entry.where, slots, names) is False:
        slots["L"], slots["U"] = slots["U"], slots["L"]
        shown["L"], shown["U"] = shown["U"], shown["L"]


def _where_fails(job: Job, entry: Entry, shown: Mapping[str, str], tokens: tuple[Token, ...]) -> Trouble:
    assert entry.where
    text = " ".join(entry.where.text.split())
    filled = ", ".join(f"{name} is {value}" for name, value in shown.items() if name != "x")
    return trouble(
        job.span(tokens),
        "the numbers of this phrase do not go together",
        f"It needs {text}; here {filled}.",
        "check their order and units" + _perhaps_a_change(tokens),
    )


def _perhaps_a_change(tokens: tuple[Token, ...]) -> str:
    """What to do with `falls from 60 °C to 20 °C`, which tells a change and no range; else ''."""
    said = [word_of(t) for t in tokens]
    lengths = (
        (i, run_at(said, i, "beside", "moving") or w in listed("limits", "changes"))
        for i, w in enumerate(said)
    )
    change = next((" ".join(said[i : i + length]) for i, length in lengths if length), "")
    help = f"; or, if '{change}' tells a change, declare both ends of it by names of their own"
    return help if change else ""


def _at_all_times(limits: tuple[Formula, Formula], text: str) -> Listed:
    """The limit at every moment: on the lowest and the highest value, if what lies between is within."""
    lowest, highest = map(names_in, limits)
    if not all(without_gap(limit, lowest ^ highest) for limit in limits):
        return Listed((), (), f"'{text}' may leave a gap, so it cannot be told from the ends")
    return Listed((All(limits),), (), text)


def _in_time(job: Job, fill: Fill) -> tuple[Bound, str]:
    """The step, or the start or end of one, that stands in a slot."""
    words = " ".join(t.text for t in fill.tokens)
    names = job.place.names
    if fill.slot.kind == "step":
        step = names.step(words)
        assert step is not None
        if step is job.first:
            raise trouble(
                job.span(fill.tokens), f"{step.name} beside itself",
                f"The words say how what stands left of the colon lies to {step.name}.",
                f"put the other step left of the colon: ... : {job.words.text}",
            )  # fmt: skip
        return step, step.name
    moment = names.time_of(words)
    assert moment is not None
    return moment, words


def _without_own(job: Job, tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """The limit without the words before it that name what is limited: 'rod having a length of'."""
    own = job.tests().own_words | FILLERS
    after = next((i for i, t in enumerate(tokens) if word_of(t) not in own), 0)
    starts = (i for i in range(after, 0, -1) if job.each()[0].readable(tokens[i:]))
    return tokens[next(starts, 0) :]


def _said(entry: Entry) -> str:
    """The formulas of all readings of an entry."""
    return " ".join(reading.formula_text for reading in entry.readings)


def own_phrase(match: Match) -> OwnPhrase | None:
    """Where a phrase of the sheet or the practice stands, and whose place it takes; None for the others."""
    if not match.entry.own:
        return None
    built_in = match.instead_of
    instead_of = f"{built_in.id} {built_in.title}" if built_in else ""
    return OwnPhrase(match.entry.title, basename(match.entry.file), match.entry.span.line, instead_of)


def _called(match: Match) -> tuple[str, ...]:
    """What the things left of the colon are called in a phrase's formulas, in their order."""
    nouns = tuple(f.slot.name for f in match.fills if f.slot.kind == "noun")
    return match.entry.subjects or nouns or ("x",)


def _things(count: int) -> str:
    return "1 thing" if count == 1 else f"{count} things"
