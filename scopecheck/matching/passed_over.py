"""Words beside a name that say which thing it is: 'at least two metering notches', 'angular intervals of'.

They are read past only beside the name of what stands left of the colon, only where nothing else reads the
line, and only if no phrase, no limit and no other name has them; a warning tells of each that the note of the
declaration has not.
"""

from __future__ import annotations

from collections.abc import Iterator

from scopecheck.core.declared import ChoiceDecl, NumberDecl, Part, SetDecl, Step
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.kinds import TIME
from scopecheck.foundations.quantity import PLAIN_KIND, Kind, find_unit, kind_word
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import run_at, unusual_forms, word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS, ONE_OR_MORE
from scopecheck.language.scan import Token
from scopecheck.matching.chart import FILLERS, word_of
from scopecheck.matching.lifting import in_symbols
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.states import side_words
from scopecheck.matching.subjects import Subject, is_bare_share
from scopecheck.matching.surroundings import describes, names_another_dimension, noted_so, only_calls
from scopecheck.vocabulary.names import Typed, counted_unit
from scopecheck.vocabulary.parts import plural_of

_ENDING = frozenset(("", *"having has have with of carrying carries lasting being is are each".split()))
MOST_PASSED = 3
"""More words in a row than these are no adjectives."""
Tokens = tuple[Token, ...]


def without_qualifiers(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """The words without those beside a name of what stands left of the colon, and the words left out."""
    names_own = {form for s in job.subjects for form in _forms(s.text)}
    own = names_own | _of_notes(job)
    names = (set(name.lower().split()) for name in job.place.names.all())
    spoken = {word_of(t) for t in tokens}
    others = {word for words in names if own.isdisjoint(words) and words <= spoken for word in words}
    named = [i for i, t in enumerate(tokens) if word_of(t) in own]
    if not named:
        return
    never = (others | names_own | job.place.phrases.words()) - {"constant"}  # that is told
    never -= listed("names", "describing") if len(job.subjects) == 1 and not job.sort else set()
    # 'Planet wheels' are planets; an oil phase is no oil.
    counted = job.sort == "parts" or all(isinstance(s.bound, Typed) and s.bound.whole for s in job.subjects)
    # Graphite particles are graphite, in a form.
    forms = listed("mention", "forms")
    passed = {i + 1 for i in named if i + 1 < len(tokens) and word_of(tokens[i + 1]) in forms - names_own}
    for at in named:
        for step in (-1, 1) if counted else (-1,):
            run, beside = set[int](), at + step
            if counted and step < 0 and beside > 0 and kind_word(word_of(tokens[beside])) is not None:
                run, beside = {beside}, beside - 1  # 'temperature sensors'
            if counted and step < 0 and beside > 0 and word_of(tokens[beside]) in others:
                run, beside = {beside}, beside - 1  # 'steam nozzles', where a steam is declared
            while 0 <= beside < len(tokens) and len(run) < MOST_PASSED:
                if not _says_which(tokens[beside], never):
                    break
                run.add(beside)
                beside += step
            # Behind a name a noun ends the words, or a verb follows; between two names a verb may stand.
            next_to = word_of(tokens[beside]) if 0 <= beside < len(tokens) else ""
            ended = next_to in _ENDING if step > 0 else next_to not in names_own
            passed |= run if ended else set()
    if passed:
        kept = tuple(t for i, t in enumerate(tokens) if i not in passed)
        yield kept, tuple(tokens[i] for i in sorted(passed))


def without_qualifiers_of_members(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, ...]]:
    """`a desired start time`, of a list with a start time: without what says which; and each such run.

    An article before them goes too: a member is known by all that stands between its first and last word.
    """
    members = [m.lower().split() for m in getattr(job.first, "members", ())]
    if job.sort not in ("", "parts") or not isinstance(job.first, SetDecl | ChoiceDecl):
        return
    said = [word_of(t) for t in tokens]
    never = {w for m in members for w in m} | job.place.phrases.words()
    passed, runs = set[int](), list[Tokens]()
    for at in range(1, len(tokens)):
        if any(said[at : at + len(m)] == m for m in members):
            start = at
            while start and at - start < MOST_PASSED and _may_say_which(tokens[start - 1], never):
                start -= 1
            runs += [tokens[start:at]] if start < at else []
            passed |= {*range(start, at), *([start - 1] if said[start - 1] in _ARTICLES else [])}
    if runs:
        yield tuple(t for i, t in enumerate(tokens) if i not in passed), *runs


def without_words_round_members(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens, Tokens]]:
    """`stabilised by lens shift or sensor shift` of a list: what names members, the words before and behind.

    These are a description alone, which counts, compares and denies nothing and is no member.
    """
    members = [m.lower().split() for m in getattr(job.first, "members", ())]
    if len(job.subjects) != 1 or job.sort or not isinstance(job.first, SetDecl | ChoiceDecl):
        return
    said = [word_of(t) for t in tokens]
    named = {i for i in range(len(said)) for m in members if said[i : i + len(m)] == m}
    if not named:
        return
    own = job.tests().own_words
    others = {w for name in job.place.names.all() for w in name.lower().split()} - own
    of_members, known = {w for m in members for w in m}, job.place.phrases.words()

    def describing(at: int) -> bool:
        word = said[at]
        if tokens[at].sort != "word" or at in named or word in NUMBER_WORDS:
            return False
        if word in own | FILLERS and word not in listed("conditional", "drops"):
            return True
        if word in _LEADING_TO_MEMBERS:
            return at > 0 and said[at - 1].endswith(("ed", "ing", "ion", "ment"))
        if word == "from":
            return at > 0 and said[at - 1] in _MADE
        never = others | of_members | known | listed("asides", "no_lead")
        return word not in never and describes(word)

    start = next(i for i in range(len(said)) if not describing(i))
    last = max(named)
    end = last + max(len(m) for m in members if said[last : last + len(m)] == m)
    behind = next((i for i in range(end, len(said)) if not describing(i)), len(said))
    verb = start > 0 and start == min(named) and said[start - 1] not in own | FILLERS | {*_LEADING_TO_MEMBERS}
    lead = said[:start]
    if not {"is", "are"}.isdisjoint(lead) and own.isdisjoint(lead):
        return  # 'the solder is made of zinc' is said of the solder
    if start > min(named) or behind < len(said) or (verb and said[start - 1] not in ("from", *_MADE)):
        return
    if not own.union(FILLERS).issuperset((*said[:start], *said[end:])) and job.readable(tokens[start:end]):
        yield tokens[start:end], tokens[:start], tokens[end:]


_LEADING_TO_MEMBERS = ("by", "to", "for", "on")
_MADE = (
    "made",
    "formed",
    "produced",
    "obtained",
    "cast",
    "moulded",
    "molded",
    "cut",
    "built",
    "manufactured",
    "selected",
)


def _may_say_which(token: Token, never: set[str]) -> bool:
    return _says_which(token, never) or word_of(token) in ("desired", "preferred", "target")


_ARTICLES = ("the", "a", "an")


def without_description(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`a median particle size (D50) of 5 um` of D50 without the words that the short name stands for; and
    these words."""
    if len(job.subjects) != 1 or not _is_short(job.subjects[0].text):
        return
    name = word_of_name(job)
    at = next((i for i, t in enumerate(tokens) if word_of(t) == name), 0)
    bracketed = 0 < at < len(tokens) - 1 and (tokens[at - 1].text, tokens[at + 1].text) == ("(", ")")
    first = at - bracketed
    start = first
    while start and _describes(tokens[start - 1]):
        start -= 1
    if start < first:
        yield (*tokens[:start], tokens[at], *tokens[at + 1 + bracketed :]), tokens[start:first]


def without_noted(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`a median particle size (D50) of 5 um` without what the note of the declaration says as well."""
    if len(job.subjects) != 1 or not isinstance(job.first, Typed) or job.sort not in _OF_ONE_VALUE:
        return
    ends = (
        i for i, t in enumerate(tokens) if i and (t.number or word_of(t) in ("of", "is", "being", "having"))
    )
    for end in ends:
        said = [word_of(t) for t in tokens[:end]]
        if any(t.number for t in tokens[:end]):
            return
        if not FILLERS.issuperset(said) and noted_so(job, said):
            yield tokens[end:], ()
        of = next((i for i in range(1, end) if said[i : i + 2] in (["of", "the"], ["of", "a"])), 0)
        bearer = tokens[of + 2 : end] if of else ()
        another = job.place.names.declared(" ".join(said[of + 2 :])) is not None
        if bearer and not another and noted_so(job, said[:of]) and all(map(_describes, bearer)):
            yield tokens[end:], tokens[of:end]


_OF_ONE_VALUE = ("", "parts", "moments")


def without_name_and_more(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`a hole expansion ratio λ of 60 % or more`, of the hole expansion, without what stands before the
    limit; and what of that says more than the name and the note."""
    if len(job.subjects) != 1 or not isinstance(job.first, Typed) or job.sort:
        return
    name = word_of_name(job).split()
    own = {*name, *_of_notes(job)}
    others = [n.lower() for n in job.place.names.all() if n.lower() != " ".join(name)]
    limits = listed("limits", "inside") - {*_NO_LIMITS, *_CALLED_SO}
    end = next((i for i, t in enumerate(tokens) if t.number or word_of(t) in limits), 0)
    at = next((i for i in range(end - 1, 0, -1) if word_of(tokens[i]) in ("of", "is", "being")), 0)
    stems = {
        w: own
        for w in map(word_of, tokens[:at])
        for own in name
        if len(own) >= MOST_OF_A_STEM and w.startswith(own)
    }
    said = [stems.get(word_of(t), word_of(t)) for t in tokens[:at]]
    spoken = {w for w in name if w not in said} <= listed("mention", "ordinals") and name[-1] in said
    more = tuple(
        t for t in tokens[:at] if word_of(t) not in {*own, *FILLERS, *stems} and not _is_kind_of(t, job)
    )
    another = any(f" {n} " in f" {' '.join(said)} " for n in others)
    drops = not listed("conditional", "drops").isdisjoint(said)  # an oven drop is no oven
    if at and spoken and not (another or drops) and all(_may_stand_beside(t, said, name) for t in more):
        yield tokens[at + 1 :], more


def without_verb_and_object(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`overlaps a side panel by 10 to 15 cm`, of an overlap, without the verb; and what is overlapped.

    `the damper is opened by 20 %` too, of a share noted "by which the damper is opened".
    """
    said = [word_of(t) for t in tokens]
    by = next((i for i in range(1, min(7, len(said) - 1)) if said[i] == "by"), 0)
    if len(job.subjects) != 1 or not by or job.sort:
        return
    note = job.place.names.note_of(job.subjects[0].text).lower().split()
    if note[:2] == ["by", "which"] and {*said[:by]} <= FILLERS | {w.strip(",;") for w in note}:
        yield tokens[by + 1 :], ()
    itself = FILLERS | job.tests().own_words | {w.strip(",;") for w in note}
    verbs = (i for i in range(by) if len(said[i]) >= MOST_OF_A_STEM)
    stems = {w[:MOST_OF_A_STEM] for w in word_of_name(job).split()}
    start = next((i for i in verbs if said[i][:MOST_OF_A_STEM] in stems), by)
    if (
        start < by
        and itself.issuperset(said[:start])
        and all(_describes(t) or word_of(t) in _ARTICLES for t in tokens[start + 1 : by])
    ):
        yield tokens[by + 1 :], tokens[start + 1 : by]


def without_object(tokens: Tokens, subjects: tuple[Subject, ...]) -> Iterator[tuple[Tokens, Tokens]]:
    """`heating the powder to 350 °C`, of the heating or of a temperature, without the powder, and that.

    Without a 'comprising' before one step; of what `it` is nothing is said.
    """
    heat = len(subjects) == 1 and isinstance(subjects[0].bound, Typed) and subjects[0].bound.kind
    done = listed("steps", "treating") if heat and heat.dimension == _HEAT else frozenset[str]()
    done |= {s.text.lower().rpartition(" of ")[2] for s in subjects if isinstance(s.bound, Step) or s.moments}
    said = [word_of(t) for t in tokens]
    start = int(said[:1] == ["comprising"] and said[1:2] != [] and said[1] in done and len(subjects) == 1)
    kept, passed, at = list[Token](), tokens[:0], start
    while at < len(tokens):
        kept.append(tokens[at])
        at += 1
        end = _end_of_object(tokens, at) if said[at - 1] in done else at
        if end > at and done.isdisjoint(said[at:end]):
            passed += tokens[at:end] if said[at] not in _PRONOUNS else ()
            at = end
    if len(kept) < len(tokens):
        yield tuple(kept), passed


def _end_of_object(tokens: Tokens, at: int) -> int:
    """Where the words go on behind `it`, behind `the glass powder`, at this place; the place for neither."""
    said = [word_of(t) for t in tokens]
    end = at + 1
    if said[at : at + 1] and said[at] in _ARTICLES:
        while end < len(said) and said[end] not in _BEHIND_OBJECT and end - at <= MOST_PASSED:
            end += 1
        if end == at + 1 or not all(t.sort == "word" and _describes(t) for t in tokens[at + 1 : end]):
            return at
    elif not said[at : at + 1] or said[at] not in _PRONOUNS:
        return at
    return end if end == len(said) or said[end] in _BEHIND_OBJECT else at


_HEAT = (("temperature", 1),)
_PRONOUNS = ("it", "them")
_BEHIND_OBJECT = frozenset("to at for within over until from under in during carried omitted , and".split())


def without_purpose(tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`the valve is configured to open when ...` without what it is made for, and these words.

    `the controller is configured to open the valve when ...` without the controller too.
    """
    said = [word_of(t) for t in tokens]
    to = next((i for i in range(1, min(len(said) - 1, 9)) if said[i] == "to" and said[i - 1] in _PURPOSE), 0)
    if not to:
        return
    start = to - 1 - (said[to - 2 : to - 1] in (["is"], ["are"], ["being"]))
    if said[to + 1] == ",":
        yield (*tokens[:start], *tokens[to + 2 :]), tokens[to - 1 : to + 1]
        return
    yield (*tokens[:start], *tokens[to + 1 :]), tokens[to - 1 : to + 1]
    behind = said[to + 2 : to + 4]
    end = next((i for i, w in enumerate(behind) if w in listed("limits", "governing")), len(behind))
    if start and any(w in _ARTICLES for w in behind[:end]) and said[0] in _ARTICLES:
        yield tokens[to + 1 :], tokens[to - 1 : to + 1]


_PURPOSE = frozenset("configured adapted arranged designed operable programmed constructed intended".split())


def without_what_a_sign_stands_for(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`an outer diameter of at least 4 mm`, of `d  length in mm`: a sign does not say what it stands for."""
    name, said = word_of_name(job) if len(job.subjects) == 1 else "", [word_of(t) for t in tokens]
    sign = job.subjects[0].text if name else ""
    if not sign or not isinstance(job.first, Typed) or job.sort or not (len(sign) <= 2 or _is_short(sign)):
        return
    limits = listed("limits", "inside") - _NO_LIMITS
    end = next((i for i, t in enumerate(tokens) if t.number or said[i] in limits), 0)
    at = next((i for i in range(end - 1, 1, -1) if said[i] in ("of", "is", "being")), 0)
    kind = kind_word(said[at - 1]) if at else None
    point = at and said[at - 2 : at] in (["melting", "point"], ["boiling", "point"], ["softening", "point"])
    own = job.first.kind
    length = at and said[at - 1] in listed("measures", "lengths") and own == Kind((("length", 1),))
    measured = bool(point or length) or (kind is not None and own is not None and kind.accepts(own))
    sized = bool(at) and said[at - 1] in ("diameter", "size")
    middle = _is_median(name) and sized
    measured |= middle and own == Kind((("length", 1),))
    if (_is_median(name) and {"radius", "thickness"} & {*said[:at]}) or names_another_dimension(
        job, said[:at]
    ):
        return
    others = [n.lower() for n in job.place.names.all() if n.lower() != name]
    another = any(f" {n} " in f" {' '.join(said[:at])} " for n in others)
    noted, called = _of_notes(job), {w for w in said[: at - 1] if w not in FILLERS} if at else set[str]()
    another |= bool(at) and said[at - 1] in noted and not called <= noted  # noted is another diameter
    if (
        measured
        and not another
        and all(
            describes(w) or w in FILLERS or w in _WHICH_SIDE or (middle and (w == "median" or w in noted))
            for w in said[: at - 1 - bool(point)]
        )
    ):
        yield tokens[at + 1 :], tokens[:at]


def _is_median(name: str) -> bool:
    """`d50`, `dv50`, `d(0.5)`: the size below which half of the particles lie."""
    return name[:1] in ("d", "x") and name.strip("()").endswith(("50", "0.5", ".5"))


MOST_OF_A_STEM = 5


def _is_kind_of(token: Token, job: Job) -> bool:
    """`a prestressing force`, of a prestress that is a force."""
    kind, own = kind_word(word_of(token)), job.first.kind if isinstance(job.first, Typed) else None
    return kind is not None and own is not None and own != PLAIN_KIND and kind.accepts(own)


def _may_stand_beside(token: Token, said: list[str], name: list[str]) -> bool:
    """Beside its name a thing may be described, be called a ratio or a rate, and have a sign of its own."""
    word = word_of(token)
    behind = name[-1] in said[: said.index(word)]
    at = said.index(word)
    if said[at : at + 2] == ["to", "be"] or said[max(0, at - 2) : at] == ["to", "be"]:
        return True  # the branch to be cut
    sign = (len(token.text) <= MOST_OF_A_SIGN and not token.text.islower()) or not token.text.isascii()
    middle = word == "median" and any(w.endswith("50") for w in said)  # D50 is the median size
    of_a_sign = any(c.isdigit() for c in name[-1]) and _describes(token)  # 'a particle size D50', of D50
    # Behind its name another noun makes another thing of it: the oil phase.
    before = not behind and (describes(word) or middle or of_a_sign)
    return before or sign or (behind and word in _CALLED_SO)


MOST_OF_A_SIGN = 3
_WHICH_SIDE = ("inner", "outer", "overall", "upper", "lower")
_CALLED_SO = ("ratio", "rate", "value", "index", "coefficient", "degree", "level", "amount", "factor")


def without_what_is_counted(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`two to eight power converters` of a number of phases: the number, and what is counted there."""
    if len(job.subjects) != 1 or not isinstance(job.first, Typed) or not job.first.whole or job.sort:
        return
    start = len(tokens)
    names = {w for n in job.place.names.all() for w in n.lower().split()}
    never = names | {f"{w}s" for w in names} | job.place.phrases.words() | listed("measures", "not_called")
    noted = {w.strip(",;()") for w in job.place.names.note_of(job.subjects[0].text).lower().split()}
    while start > 1 and tokens[start - 1].sort == "word" and len(tokens) - start < MOST_PASSED:
        word = word_of(tokens[start - 1])
        measured = word in listed("measures", "nouns") and start < len(tokens)  # 'power converters'
        which = describes(word) or measured or (word == "individual" and start < len(tokens))
        if (
            word in NUMBER_WORDS
            or find_unit(word)
            or (word not in noted and (word in never or not which))
            or word in FILLERS
        ):
            break
        start -= 1
    counted = tokens[start - 1].number or word_of(tokens[start - 1]) in NUMBER_WORDS
    counted = counted or [word_of(t) for t in tokens[max(0, start - 3) : start]] in ONE_OR_MORE
    if counted and start < len(tokens) and word_of(tokens[-1]).endswith("s"):
        yield tokens[:start], tokens[start:]


def without_number_behind_name(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`a version number larger than 7`, of a count called version, without the number; and that."""
    if len(job.subjects) != 1 or not isinstance(job.first, Typed) or not job.first.whole or job.sort:
        return
    said, own = [word_of(t) for t in tokens], set(_forms(job.subjects[0].text))
    at = next((i for i in range(1, len(said)) if said[i] in ("number", "count") and said[i - 1] in own), 0)
    if at and said[at] not in own and said[at + 1 : at + 2] not in ([], ["of"]):
        yield (*tokens[:at], *tokens[at + 1 :]), tokens[at : at + 1]


def word_of_name(job: Job) -> str:
    return job.subjects[0].text.lower()


def _is_short(name: str) -> bool:
    return (
        len(name) <= MOST_OF_A_SHORT_NAME
        and " " not in name
        and any(c.isupper() or c.isdigit() for c in name)
    )


def _describes(token: Token) -> bool:
    """May the word stand in what a short name is short for? No limit, no number, nothing denied."""
    word = word_of(token)
    ends = word.endswith("est") or word in listed("limits", "inside") | listed("short", "ends")
    return (
        token.sort == "word"
        and not ends
        and word not in NUMBER_WORDS
        and word not in listed("names", "never")
        and word not in listed("nouns", "determiners")
        and word not in FILLERS
        and word not in _ENDING
    )


MOST_OF_A_SHORT_NAME = 5


def without_reference(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`at 30 to 60 degrees relative to the axis` of an angle, without what it is measured from; and that."""
    kind = job.first.kind if isinstance(job.first, Typed) else None
    if len(job.subjects) != 1 or kind is None or kind.dimension != _ANGLE:
        return
    said = [word_of(t) for t in tokens]
    limits = [i for i, t in enumerate(tokens) if t.number or said[i] in _DIRECTIONS]
    start = limits[-1] + 1 if limits else len(tokens)
    names = {word for name in job.place.names.all() for word in name.lower().split()} - _DETERMINERS
    for at in range(start, len(tokens) - 1) if names.isdisjoint(said[start:]) else ():
        width = run_at(said, at, "asides", "measured_from")
        behind = tokens[at + width :]
        if width and behind and word_of(behind[0]) in _DETERMINERS and all(map(_is_plain, behind)):
            yield tokens[:at], tokens[at:]


def _is_plain(token: Token) -> bool:
    word = word_of(token)
    never = listed("nouns", "stops") | listed("limits", "inside")
    return token.sort == "word" and word not in NUMBER_WORDS and (word in _DETERMINERS or word not in never)


_DIRECTIONS = ("perpendicular", "parallel", "orthogonal", "angle", "angles")
_DETERMINERS = frozenset("the a an said its of".split())
_ANGLE = (("angle", 1),)


def without_circumstance(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`at most 2 mm, as measured according to ISO 4287`, `at most 2 mm at the rim` without how or where it is
    measured; and these words. They hold no limit, no number but that of a standard and no other name.

    `Measured at 190 °C under a load of 2.16 kg` holds numbers of what nothing declared is measured in.
    """
    if len(job.subjects) != 1 or not isinstance(job.first, Typed) or job.sort:
        return
    said = [word_of(t) for t in tokens]
    counted_in = counted_unit(job.place.names.note_of(job.subjects[0].text))
    if job.first.whole and not counted_in:
        return
    timed = job.first.kind is not None and job.first.kind.dimension == TIME
    own = _CONDITIONS_OF.get(job.first.kind.dimension) if job.first.kind is not None else None
    names = {word for name in job.place.names.all() for word in name.lower().split()} - FILLERS
    names -= set(job.subjects[0].text.lower().split())
    for at in range(1, len(tokens) - 1):
        usual = run_at(said, at, "asides", "usual_conditions")
        if usual and (own is None or said[at + usual - 1] not in (own, "conditions")):
            yield (*tokens[:at], *tokens[at + usual :]), tokens[at : at + usual]
        width = run_at(said, at, "asides", "measured_how") or (
            said[at] == "at" and tokens[at + 1].number is not None and _is_of_a_condition(job, tokens, at + 1)
        )
        placed = 0 if timed else run_at(said, at, "asides", "measured_where")
        placed = int(said[at] == "after") if counted_in else placed
        end = _end_of_aside(said, at)
        behind = range(at + (width or placed), end)
        if not (width or placed) or not behind or not names.isdisjoint(said[i] for i in behind):
            continue
        along = said[at] in ("along", "over", "across", "throughout")
        if all(
            _is_no_limit(tokens, i, along) or (width and _is_of_a_condition(job, tokens, i)) for i in behind
        ):
            start = at - (said[at - 1] in (",", "("))
            yield (*tokens[:start], *tokens[end + (end < len(tokens)) :]), tokens[at:end]
    at = next((i for i, w in enumerate(said) if w == "("), 0)
    inside = range(at + 1, _end_of_aside(said, at + 1) if at else 0)
    if inside and all(_is_of_a_condition(job, tokens, i) or said[i] in (",", ";", "/") for i in inside):
        yield (*tokens[:at], *tokens[inside.stop + 1 :]), tokens[at : inside.stop + 1]


_CONDITIONS_OF = {
    (("temperature", 1),): "temperature",
    (("length", -1), ("mass", 1), ("time", -2)): "pressure",
}
"""Of a temperature no other is a condition of measuring, nor of a pressure."""


def _end_of_aside(said: list[str], at: int) -> int:
    """Where what is said from here on ends: at the bracket it stands in, at the comma before the limit."""
    if said[at - 1] == "(":
        return said.index(")", at) if ")" in said[at:] else len(said)
    if said[at - 1] != ",":
        return len(said)
    limits = ("of", "is", "being", "in")
    return next((i for i in range(at, len(said) - 1) if said[i] == "," and said[i + 1] in limits), len(said))


def _is_of_a_condition(job: Job, tokens: Tokens, at: int) -> bool:
    """In `at 190 °C under a load of 2.16 kg`: a number of what nothing declared is measured in, or what leads
    to it. So is a humidity, of what is no share."""
    word, then = word_of(tokens[at]), tokens[at + 1 : at + 2]
    if word in listed("asides", "of_conditions"):
        return True
    if word in ("under", "with"):
        return bool(then) and word_of(then[0]) in _ARTICLES
    number, kind = tokens[at].number, job.first.kind if isinstance(job.first, Typed) else None
    if number is None or number.unit is None or kind is None:
        return False
    if is_bare_share(tokens[at]):
        return bool(kind.dimension and then) and word_of(then[0]) in ("relative", "humidity", "rh")
    declared = {d.kind.dimension for d in job.place.names.declarations.values() if isinstance(d, NumberDecl)}
    return number.unit.kind.dimension not in declared | {kind.dimension, ()}


def without_condition(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`at most 5 Pa.s at 20 degC` without the condition of measuring, where no quantity of its kind is known
    that it could be about; and the condition."""
    declared = [d.kind.dimension for d in job.place.names.declarations.values() if isinstance(d, NumberDecl)]
    for aside in job.asides(tokens):
        units = (t.number.unit for t in aside.words if t.number)
        if aside.unstated and all(unit and unit.kind.dimension not in declared for unit in units):
            yield aside.rest, aside.words


def without_treatment(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`at least 15 MPa after 28 days at 20 degC` of what is no time, without what goes before; and that."""
    kind = job.first.kind if isinstance(job.first, Typed) else None
    if len(job.subjects) != 1 or kind is None or kind.dimension == TIME or job.sort:
        return
    said = [word_of(t) for t in tokens]
    whole = isinstance(job.first, Typed) and job.first.whole
    for at in (i for i, w in enumerate(said) if i and _goes_before(w, tokens[i + 1 : i + 3], whole)):
        end = at + 3 * (said[at] == "within" and tokens[at + 1].number is None)
        while end + 1 < len(tokens) and said[end] in _DURING:
            number = tokens[end + 1].number
            if number is None or number.unit is None or number.unit.kind.dimension in ((), kind.dimension):
                break
            end += 2
        start = at - (said[at - 1] == ",")
        behind = tokens[end + (said[end : end + 1] == [","]) :]
        if end == at:
            continue
        if not behind:
            yield tokens[:start], tokens[at:end]
        elif said[len(said) - len(behind)] in ("of", "is", "being") and not any(
            t.number for t in tokens[:at]
        ):
            yield (*tokens[:start], *behind), tokens[at:end]


def _goes_before(word: str, behind: Tokens, counted: bool) -> bool:
    """`after` something, `within` so long; a number of things within so long is one per time."""
    unit = behind[0].number.unit if behind and behind[0].number else None
    spelled = (
        word_of(behind[0]) in NUMBER_WORDS and find_unit(word_of(behind[1])) if len(behind) > 1 else None
    )
    unit = unit or spelled or None
    timed = unit is not None and unit.kind.dimension == TIME
    return bool(behind) and (word == "after" or (word == "within" and timed and not counted))


_DURING = ("after", "within", "at", "and", "under")


def without_what_units_are_of(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, ...]]:
    """`2 to 5 mg of the nutrient per gram of tablet`, of what is declared in mg/g: the words with that unit,
    and what each of its units is of."""
    kind = job.first.kind if isinstance(job.first, Typed) else None
    number = max((i for i, t in enumerate(tokens) if t.number and t.number.unit), default=len(tokens))
    if len(job.subjects) != 1 or kind is None or number + 1 >= len(tokens):
        return
    first = tokens[number].number
    unit = first.unit if first else None
    at, end, passed = number + 1, tokens[number].end, [list[Token]()]
    while unit is not None and at < len(tokens):
        piece, behind = _unit_in_words(tokens, at)
        if piece:
            unit, end, at = find_unit(f"{unit.symbol}/{piece}"), tokens[behind - 1].end, behind
            passed.append([])
            continue
        width = 2 if _of_a_body(list(tokens[at : at + 2])) else 1
        word = word_of(tokens[at])
        if width == 1 and word not in ("of", "product", *_ARTICLES) and not describes(word):
            return
        passed[-1] += tokens[at : at + width]
        at += width
    own = first.unit if first else None
    divided = len(passed) > 1 or (own is not None and "/" in own.symbol)
    if unit is None or unit.kind != kind or not divided:
        return
    said = (
        replace(t, number=replace(t.number, unit=unit), end=end if i == number else t.end)
        if t.number and t.number.unit == own
        else t
        for i, t in enumerate(tokens[: number + 1])
    )
    name = {form for w in job.subjects[0].text.lower().split() for form in (w, f"{w}s", w.removesuffix("s"))}
    noted = f" {job.place.names.note_of(job.subjects[0].text).lower()} "
    untold = (run for run in passed if run and not _of_a_body(run) and f" {_text(run)} " not in noted)
    yield tuple(said), *(tuple(t for t in run if word_of(t) not in name) for run in untold)


def _text(tokens: list[Token]) -> str:
    return " ".join(word_of(t) for t in tokens)


def _of_a_body(run: list[Token]) -> bool:
    """Doses per kilogram are always of body weight."""
    return [word_of(t) for t in run if word_of(t) != "of"] == ["body", "weight"]


def _unit_in_words(tokens: Tokens, at: int) -> tuple[str, int]:
    """The unit that `per square metre`, `and hour`, `daily` divide by, and where it ends; '' for none."""
    word = word_of(tokens[at])
    if word in _ADVERBS:
        return _ADVERBS[word], at + 1
    for end in (at + 3, at + 2) if word in ("per", "and", "a", "each", "every") else ():
        unit = find_unit(" ".join(word_of(t) for t in tokens[at + 1 : end])) if end <= len(tokens) else None
        if unit is not None:
            return unit.symbol, end
    return "", at


_ADVERBS = {"daily": "d", "hourly": "h"}


def without_whole(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`the salt and the soda together are at most 30 % of the liquor`, of shares of no named whole, without
    the whole that is named behind the limit; and that. What is measured is named before the limit."""
    kinds = [s.bound.kind for s in job.subjects if isinstance(s.bound, Typed)]
    said = [word_of(t) for t in tokens]
    number = max((i for i, t in enumerate(tokens) if t.number), default=0)
    named = all(f" {s.text.lower()} " in f" {' '.join(said[:number])} " for s in job.subjects)
    shares = len(kinds) == len(job.subjects) and all(k and not k.dimension and not k.split[1] for k in kinds)
    whole = said[number + 1 :]
    plain = whole[:2] in (["of", "the"], ["of", "said"]) and 2 < len(whole) <= 2 + MOST_PASSED
    if named and shares and number and plain and all(map(describes, whole[2:])):
        yield tokens[: number + 1], tokens[number + 1 :]


def without_occasion(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`at least twice a day`, `at most three at a time` of a count without what the times are counted in, or
    when; `at most 30 degC at all times` of what is no quantity of a step; and these words."""
    if len(job.subjects) != 1 or not isinstance(job.first, Typed) or job.sort:
        return
    said = [word_of(t) for t in tokens]
    when = "at_once" if job.first.whole else "at_all_times"
    for start in range(max(len(said) - 4, 1), len(said)):
        if run_at(said, start, "asides", when) == len(said) - start:
            yield tokens[:start], tokens[start:]
    if not job.first.whole:
        return
    at = len(tokens) - 2
    unit = find_unit(word_of(tokens[-1])) if at > 0 and word_of(tokens[at]) in IN_EACH else None
    name = job.subjects[0].text
    note = job.place.names.note_of(name)
    periods = listed("measures", "periods").intersection(f"{name} {note}".lower().split())
    if unit is None or unit.kind.dimension != TIME or periods - {said[-1], f"{said[-1]}s"}:
        return
    often = SO_OFTEN.get(word_of(tokens[at - 1]))
    times = word_of(tokens[at - 1]) == "times"
    last = (replace(tokens[at - 1], text=often),) if often else ()
    if not often and not times:
        return  # so many per hour are no number of them
    yield (*tokens[: at - 1], *last), tokens[at:]


IN_EACH = ("a", "an", "per", "each", "every")
SO_MANY_PER = (("time", -1),)
"""What is declared in so many per day."""
SO_OFTEN = {"once": "one", "twice": "two", "thrice": "three"}


def _is_no_limit(tokens: Tokens, at: int, measures: bool) -> bool:
    """Does the word at this place limit nothing? With `measures` it may be a length or the like."""
    word, before = word_of(tokens[at]), tokens[at - 1].text
    if tokens[at].number or tokens[at].sort not in ("word", "number"):
        number = tokens[at].number
        standard = before[:1].isupper() or before[-1:].isdigit() or before in ("-", "/", ":")
        return standard and (tokens[at].text in "-/:" or (number is not None and number.unit is None))
    counted = word in NUMBER_WORDS and word != "one"
    measured = word in listed("measures", "nouns") and not measures and word != "gauge"
    limits = word in listed("limits", "inside") - _HARMLESS
    never = counted or measured or limits or word in listed("limits", "conditions") or word.endswith("est")
    return not never and word not in listed("mention", "universal") | _QUANTIFIED


_HARMLESS = frozenset("in the a of from within on at by as to".split())
_QUANTIFIED = frozenset(
    "case event mean average median total combined overall sum majority minority all any both either some"
    " none neither not no without except other only per respectively".split()
)


def of_each_bearer(tokens: Tokens) -> tuple[Tokens, Tokens]:
    """`each flange having from 14 to 18 holes`, of the holes of two flanges, as each, and what has them."""
    said = [word_of(t) for t in tokens]
    if said[:1] not in (["each"], ["both"]):
        return (), ()
    at = next((i for i in range(1, min(len(said), 6)) if said[i] in _HAVING), 0)
    each = replace(tokens[0], text="each")
    return ((each, *tokens[at + 1 :]), tokens[1:at]) if at > 1 else ((), ())


def of_each_part(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`each of the converters delivering at least 15 A`, `each handle has a grip with 8 to 16 ribs`, of what
    each of like parts has, as each; and what is said of that."""
    said = [word_of(t) for t in tokens]
    limits = listed("limits", "inside") - _NO_LIMITS
    limits |= {*NUMBER_WORDS, *_MULTIPLES}
    end = next((i for i, t in enumerate(tokens) if t.number or said[i] in limits), 0)
    end -= said[end] in _MULTIPLES and said[end - 1] in _ARTICLES
    if job.sort != "parts" or said[:1] not in (["each"], ["every"]) or not 2 <= end <= MOST_OF_A_BEARER:
        return
    verbs = {*_HAVING, *_HOLDING}
    verb = next((i for i in range(1, end) if said[i] in verbs or said[i].endswith("ing")), 0)
    others = [n.lower() for n in job.place.names.all() if n.lower() not in job.subjects[0].text.lower()]
    between = f" {' '.join(said[1:end])} "
    several = listed("measures", "not_called") | {"together", "jointly", "average", "mean", "total", "group"}
    if names_another_dimension(job, said[1:end]) or (said[verb] == "with" and said[verb - 1].endswith("ed")):
        return  # hardened to a depth of 3 mm, coated with 3 mm, of a width
    plain = several.isdisjoint(said[:end]) and all(
        describes(w) or w in listed("measures", "nouns") or w in (*verbs, "of", "the", "a", "an")
        for w in said[1:end]
    )
    if verb and plain and not any(f" {n} " in between for n in others):
        each = replace(tokens[0], text="each")
        having = replace(tokens[verb], text="having")
        yield (each, having, *tokens[end:]), tokens[1:end]


def without_owner_of_part(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`each request of a user has two zones`, of what each request has, without whose it is; and that."""
    said = [word_of(t) for t in tokens]
    names = [n.lower().split() for part in _parts_of(job) for n in (part.name, part.plural)]
    others = {n.lower() for n in job.place.names.all()}
    for at in range(1, min(len(said), MOST_OF_A_BEARER)):
        start = at + max((len(n) for n in names if said[at : at + len(n)] == n), default=0)
        verb = next((i for i in range(start, min(len(said), start + 5)) if said[i] in _VERBS), 0)
        owner = said[start + 2 : verb]
        owned = (
            said[start : start + 1] == ["of"] and said[start + 1 : start + 2] and said[start + 1] in _OWNED
        )
        if start > at and owned and owner and all(map(describes, owner)) and " ".join(owner) not in others:
            yield (*tokens[:start], *tokens[verb:]), tokens[start:verb]
            return


def _parts_of(job: Job) -> tuple[Part, ...]:
    field = job.place.names.field_of(job.subjects[0].text)
    return field[0] if field else ()


_HOLDING = "holds hold carries carry bears bear delivers deliver provides provide receives receive".split()
_MULTIPLES = ("even", "odd", "multiple")
_OWNED = ("a", "an", "the", "said", "its", "each")
_VERBS = frozenset(
    "is are being has have having corresponds correspond comprises comprise contains contain lies lie".split()
)
MOST_OF_A_BEARER = 10
_HAVING = ("having", "has", "have", "with")


def _of_notes(job: Job, alone: bool = False) -> set[str]:
    """The words of the notes of what stands left of the colon; `alone`: of a name it begins with."""
    found = set[str]()
    for subject in job.subjects:
        note = job.place.names.note_of(subject.text).lower()
        words = [word.strip(",;()") for word in note.split()]
        ends = (i for i, word in enumerate(words) if word in listed("nouns", "stops"))
        found |= set(_forms(" ".join(words[: next(ends, None)] if alone else words)))
    return found


def names_another(job: Job, tokens: Tokens) -> Diagnostic | None:
    """`rim : the gap is at least 5 mm`: that the words name another quantity of the kind, and not this."""
    first, said = job.subjects[0], [word_of(t) for t in tokens]
    declared = job.place.names.declarations
    if len(job.subjects) != 1 or job.sort or first.text not in declared or not isinstance(first.bound, Typed):
        return None
    if not {*first.text.lower().split(), *_forms(first.text), *_of_notes(job)}.isdisjoint(said):
        return None
    limits = listed("limits", "inside") - _NO_LIMITS
    end = next(
        (i for i, t in enumerate(tokens) if t.number or said[i] in limits or said[i] in NUMBER_WORDS), 0
    )
    apart = next((i for i in range(end) if said[i] in ("from", "than")), end)
    before = f" {' '.join(said[:apart])} "  # 'differing from the rim' is said of what stands left
    for name, other in declared.items():
        if isinstance(other, NumberDecl) and other.kind == first.bound.kind and f" {name.lower()} " in before:
            return Diagnostic(
                "warning", job.span(tokens[:end]),
                f"these words name '{name}', and '{first.text}' stands left",
                "Left of the colon stands what the words limit.",
                f"if they limit {name}, write: {name} : {job.text(tokens)}",
            )  # fmt: skip
    return None


_NO_LIMITS = frozenset("of the a an in and but or from within on to".split())


def told_of_circumstance(job: Job, words: Tokens) -> Diagnostic:
    """That how or where it is measured was read past, and where it is said."""
    said, name = job.text(words), job.subjects[0].text
    if [word_of(t) for t in words] == ["a", "day"]:
        said = said.rpartition(" ")[2]  # of 'twice daily' the number is read
    return Diagnostic(
        "warning", job.span(words), f"'{said}' is read past",
        f"How, where or in which state {name} is measured is no part of the limit that is read.",
        f'say it where it is declared: {name}  ...  "{said}"',
    )  # fmt: skip


def told(job: Job, words: Tokens) -> Diagnostic | None:
    """That the words were read past, and what to do if they matter; None if the notes have them."""
    called, name = _of_notes(job, len(job.subjects) == 1) | _of_part(job), job.subjects[0].text
    words = tuple(t for t in words if word_of(t) not in called)
    if FILLERS.issuperset(map(word_of, words)) or only_calls(job, [word_of(t) for t in words]):
        return None
    if _calls_it(job.subjects[0], [word_of(t) for t in words]):
        return None
    which = FILLERS.isdisjoint(map(word_of, words))
    return _read_past(
        job, words, name, _BY_A_NAME if which else f"if it changes what is limited, {in_symbols(job)}"
    )


_OF_PLAIN_NUMBERS = {"ratio", "number", "value"}


def _calls_it(subject: Subject, said: list[str]) -> bool:
    """`the inlet pressure is`, of an inlet: its name, with what is measured of it."""
    name = set(subject.text.lower().split())
    kind = subject.bound.kind if isinstance(subject.bound, Typed) else None
    rest = {w for w in said if w not in FILLERS} - name
    rest -= _OF_PLAIN_NUMBERS if kind == PLAIN_KIND else set()
    kinds = [kind_word(w) for w in rest]
    measured = all(k is not None and kind is not None and k.accepts(kind) for k in kinds)
    drops = not listed("conditional", "drops").isdisjoint(said)  # an oven drop is no oven
    plain = bool(said) and kind == PLAIN_KIND and _OF_PLAIN_NUMBERS.issuperset(said)
    return plain or (name <= set(said) and measured and not drops)


def _read_past(job: Job, words: Tokens, name: str, help: str) -> Diagnostic:
    words = tuple(t for t in words if t.start < t.end or word_of(t) not in ("a", "having")) or words
    runs = list(_runs_of_line(job, words, name.lower().split()))
    said = "' and '".join(runs)
    past, stand = ("are read past", "They stand") if len(runs) > 1 else ("is read past", "It stands")
    them = "them" if len(runs) > 1 else "it"
    return Diagnostic(
        "warning", job.span(words[:1]), f"'{said}' {past}",
        f"{stand} beside the name '{name}', and no phrase has {them}.", help,
    )  # fmt: skip


def _runs_of_line(job: Job, words: Tokens, name: list[str]) -> Iterator[str]:
    """The words as they stand in the line, in as many runs; what only leads up to others is left out.

    So is the name itself, and a verb or a preposition that leads on to the limit.
    """
    claimed, line = job.words.text.lower(), job.words.span.source.text
    if not all(word_of(t) in claimed for t in words):
        yield job.text(words)
        return
    run = list[Token]()
    for token in (*words, None):
        between = line[run[-1].end : token.start].lower().split() if run and token is not None else []
        if token is not None and FILLERS.issuperset(between):
            run.append(token)
            continue
        if len(run) == len(words) or not FILLERS.issuperset(map(word_of, run)):
            told = list(_without_name(run, name))
            alone = len(run) == len(words)
            for part in told or ([run] if alone else []):
                yield " ".join(line[part[0].start : part[-1].end].split())
        run = [token] if token is not None else []


def _without_name(run: list[Token], name: list[str]) -> Iterator[list[Token]]:
    """The words on either side of the name, without what leads up to it or on to the limit."""
    said = [word_of(t) for t in run]
    at = next((i for i in range(len(said)) if said[i : i + len(name)] == name), None)
    sides = [(0, len(run))] if at is None else [(0, at), (at + len(name), len(run))]
    idle = {"is", "are", "being", "that", "which"} if at is None else FILLERS | {"that", "which"}
    for start, end in sides:
        while at is not None and start < end and said[start] in ("a", "an", "the"):
            start += 1
        while start < end and said[end - 1] in idle:
            end -= 1
        if start < end:
            yield run[start:end]


_BY_A_NAME = "if it says which of several are limited, declare these by a name of their own"


def told_before_names(job: Job, tokens: Tokens) -> Iterator[Diagnostic]:
    """Of words on several things: what stands before the name of one and may make another of it, as in `when
    the differential voltage exceeds 4 V` of a voltage."""
    names = job.place.names
    noted = (w.strip(",;()") for s in job.subjects for w in names.note_of(s.text).lower().split())
    never = {w for name in names.all() for w in _forms(name)}.union(noted)
    said = [word_of(t) for t in tokens]
    for subject in job.subjects if len(job.subjects) > 1 and job.sort != "steps" else ():
        name = subject.text.lower().split()
        for at in (i for i in range(1, len(said)) if said[i : i + len(name)] == name):
            start = at
            while start and _says_which(tokens[start - 1], never):
                start -= 1
            # The words of all phrases are asked for only where there may be something to tell.
            known = job.place.phrases.words() if start < at else frozenset[str]()
            known |= side_words(subject.bound, subject.text)  # 'injecting steam' is what is done with it
            if isinstance(subject.bound, ChoiceDecl | SetDecl):
                known |= {w for m in subject.bound.members for w in m.lower().split()}  # 'in the idle mode'
            start = next((i for i in range(at, start, -1) if said[i - 1] in known), start)
            if words := tokens[start:at]:
                yield _read_past(job, words, subject.text, _BY_A_NAME)


def _of_part(job: Job) -> set[str]:
    """What like parts are called, by their note too, with the field of them that is limited."""
    field = job.place.names.field_of(job.subjects[0].text)
    if not field:
        return set()
    called = (n for part in field[0] for n in (part.name, part.plural, job.place.names.note_of(part.count)))
    return {form for text in (*called, field[1]) for form in _forms(text)} | {"has", "have", "having", "from"}


def told_before_member(job: Job, words: Tokens) -> Diagnostic:
    """That what stands before a member of a list was read past, and what to do if it is another member."""
    said, name = " ".join(t.text for t in words), job.subjects[0].text
    return Diagnostic(
        "warning", job.span(words), f"'{said}' is read past",
        f"It stands before a member of {name}, and no phrase has it.",
        f"if that is another member, add it to the list of {name}, with all its words",
    )  # fmt: skip


def _says_which(token: Token, never: set[str]) -> bool:
    word = word_of(token)
    if token.sort != "word" or len(word) < 4 or word in never or word in FILLERS | _ENDING:
        return False
    if (
        word in NUMBER_WORDS
        or word.endswith(("est", "fold"))
        or word in listed("asides", "never_past")
        or (word.startswith(("non-", "un")) and word not in listed("names", "describing"))
        or word in word_lists()["fractions"]
    ):
        return False
    ordinal = word in listed("mention", "ordinals") | listed("mention", "new")
    return not (ordinal or word in listed("nouns", "stops"))


def _forms(name: str) -> Iterator[str]:
    """The words of a name, each in the singular and the plural."""
    for word in name.lower().split():
        if len(word) > 2 and word not in FILLERS | listed("nouns", "stops"):
            yield from (word, plural_of(word), word.removesuffix("s"), word.removesuffix("es"))
            yield from unusual_forms(word)
