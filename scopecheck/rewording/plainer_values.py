"""Limits by a threshold, by a nominal value, by so much per unit of another thing, said more plainly.

Used by `plainer.py`; the noun of a list behind its members is left out before anything is read.
"""

from __future__ import annotations

from scopecheck.core.declared import ChoiceDecl, SetDecl
from scopecheck.foundations.quantity import PLAIN_KIND, Kind, kind_word
from scopecheck.foundations.record import replace
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.scan import Token
from scopecheck.matching.chart import word_of
from scopecheck.matching.everyday import PARTS_PER
from scopecheck.matching.subjects import Subject, is_bare_share
from scopecheck.rewording.forms import words_at
from scopecheck.vocabulary.names import Names, Typed

Tokens = tuple[Token, ...]
_ARTICLES = frozenset(("a", "an", "the", "its", "said"))
_COMPARING = frozenset(
    "below above under over reaches reach reaching exceeds exceed exceeding than least most to from".split()
)
_WHICH_ONE = listed("measures", "which_threshold")
_THRESHOLDS = frozenset("threshold limit setpoint setting value level".split())


def without_threshold(tokens: Tokens) -> Tokens:
    """`falls below a lower threshold of 18 %` as falls below 18 %."""
    words = [word_of(t) for t in tokens]
    for at in (i for i in range(1, len(words) - 3) if words[i] in _ARTICLES and words[i - 1] in _COMPARING):
        of = next((i for i in range(at + 2, min(at + 6, len(words) - 1)) if words[i] == "of"), 0)
        named = of and words[of - 1] in _THRESHOLDS and _WHICH_ONE.issuperset(words[at + 1 : of - 1])
        plain = named and (words[of - 1] in ("threshold", "limit", "setpoint") or of - at > 2)
        if plain and tokens[of + 1].number and words[of + 2 : of + 3] not in (["to"], ["-"], ["–"]):
            return without_threshold((*tokens[:at], *tokens[of + 1 :]))
    return tokens


def without_nominal_of_name(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`more than 20 % above a nominal flow of 12 L/min`, of the flow, without the word and the name."""
    words = [word_of(t) for t in tokens]
    own = {w for s in subjects for w in s.text.lower().split()}
    for at in (i for i, w in enumerate(words) if w in ("nominal", "rated") and i > 1):
        of = next((i for i in range(at + 1, min(at + 4, len(words) - 1)) if words[i] == "of"), 0)
        named = of and own.issuperset(words[at + 1 : of]) and tokens[of + 1].number
        ranged = words[of + 2 : of + 3] in (["to"], ["-"], ["–"])
        if named and not ranged and words[at - 1] in _ARTICLES and words[at - 2] in _COMPARING:
            return (*tokens[: at - 1], *tokens[of + 1 :])
    return tokens


def with_measure_unsaid(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`the difference in length of A and B`, `the mean length of A and B`, without the measure of both."""
    if len(subjects) != 2 or not all(isinstance(s.bound, Typed) and s.parts is None for s in subjects):
        return tokens
    words = [word_of(t) for t in tokens]
    for at in range(len(words) - 3):
        width = 3 if words[at : at + 2] == ["difference", "in"] and words[at + 3] in ("of", "between") else 0
        width = 2 if words[at] in ("average", "mean") and words[at + 2] == "of" else width
        if not width or words[at + width - 1] not in _MEASURES:
            continue
        behind = f" {' '.join(w for w in words[at + width + 1 :] if w != 'the')} "
        names = [s.text.lower() for s in subjects]
        if any(behind.startswith(f" {a} and {b} ") for a, b in (names, names[::-1])):
            joined = replace(tokens[at + width], text="between" if width > 2 else "of")
            return (*tokens[: at + 1], joined, *tokens[at + width + 1 :])
    return tokens


_MEASURES = listed("measures", "of_the_same")


def with_doubled(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`the timeout is doubled`, of the next one and the timeout, as twice the timeout."""
    words = [word_of(t) for t in tokens]
    said = words[1:] if words[:1] == ["the"] else words
    if len(subjects) != 2 or said[:-2] != subjects[1].text.lower().split() or said[-2:-1] != ["is"]:
        return tokens
    later = not _LATER.isdisjoint(subjects[0].text.lower().split())
    times = _TIMES.get(said[-1], "") if later else ""
    first = tokens[0]
    run = [replace(first, sort="word", text=w, end=first.start) for w in times.split()]
    return (*run, *tokens[:-2]) if times else tokens


_LATER = listed("names", "later")
_TIMES = {"doubled": "twice", "halved": "half of", "tripled": "three times"}


def with_amount_per(tokens: Tokens, subjects: tuple[Subject, ...], notes: tuple[str, ...]) -> Tokens:
    """`0.5 to 4 mg per kg of body weight`, of the dose and the weight, as so many times the weight."""
    if len(subjects) != 2 or not all(isinstance(s.bound, Typed) and s.parts is None for s in subjects):
        return tokens
    words = [word_of(t) for t in tokens]
    number = max((i for i, t in enumerate(tokens) if t.number), default=-1)
    of = number + 1
    known = {*subjects[1].text.lower().split(), *notes[1].lower().split()}
    known |= set() if known.isdisjoint(("weight", "mass")) else {"body"}
    behind = [w for w in words[of + (words[of : of + 1] == ["of"]) :] if w not in _ARTICLES]
    if number < 0 or not behind or not known.issuperset(behind):
        return tokens
    last = tokens[number].number
    one, other = (s.bound.kind for s in subjects if isinstance(s.bound, Typed))
    if last is None or last.unit is None or one is None or other is None:
        return tokens
    per = "per" in last.unit.symbol.replace("/", " per ").split()
    if one != other or last.unit.kind.dimension or not per:
        return tokens
    plain = replace(last.unit, kind=PLAIN_KIND)  # a mass per mass is a number here, and no share of it
    tokens = tuple(
        replace(t, number=replace(t.number, unit=plain))
        if t.number and (t.number.unit is None or t.number.unit == last.unit)
        else t
        for t in tokens
    )
    end = tokens[of]
    said = f"times the {subjects[1].text}".split()
    return (*tokens[:of], *(replace(end, sort="word", text=w, end=end.start) for w in said))


def with_extreme_as_named(tokens: Tokens, subjects: tuple[Subject, ...], names: Names) -> Tokens:
    """`the peak temperature`, of what is called the highest temperature, by its own name."""
    for subject in subjects:
        own, words = subject.text.lower().split(), [word_of(t) for t in tokens]
        for alike in _EXTREMES:
            named = next((w for w in own if w in alike), "")
            others = {w for n in names.all() if n.lower() not in own for w in n.lower().split()}
            if not named or named in words:
                continue
            at = next((i for i in range(len(words) - 1) if words[i] in alike), len(words))
            nouns = listed("measures", "nouns") | set(own)
            if at < len(words) and words[at] not in others and words[at + 1] in nouns - {"of"}:
                tokens = (*tokens[:at], replace(tokens[at], text=named), *tokens[at + 1 :])
    return tokens


_EXTREMES = (listed("measures", "highest"), listed("measures", "lowest"))
"""Words for the same end of what values something has."""


def with_numbers_alone(tokens: Tokens, subject: Subject) -> Tokens:
    """`excluding a solids content of 36 %`, `between latitudes 30 and 45 degrees`, without what it is of."""
    kind = subject.bound.kind if isinstance(subject.bound, Typed) else None
    words = [word_of(t) for t in tokens]
    found, at = list[Token](), 0
    while at < len(tokens):
        found.append(tokens[at])
        joined = words[at] in ("and", "to") and "between" in words[:at]
        start = at + 1 + (words[at] == "except" and words[at + 1 : at + 2] == ["for"])
        number = next((i for i in range(start, len(words)) if tokens[i].number or words[i] == "between"), 0)
        before = words[at] in _BEFORE_NUMBERS or joined
        if (
            before
            and kind is not None
            and number > start
            and _only_measures(words[start:number], subject, kind)
        ):
            found += tokens[at + 1 : start]
            at = number
        else:
            at += 1
    return tuple(found)


def _only_measures(words: list[str], subject: Subject, kind: Kind) -> bool:
    """`a solids content of`, `latitudes`: do the words name what is limited, and nothing else?"""
    shares = listed("asides", "of_shares") if not kind.dimension else frozenset[str]()
    own = {form for w in subject.text.lower().split() for form in (w, f"{w}s")}
    own |= _ARTICLES | shares | {"value", "values", "of"}
    known = (kind_word(w) or kind_word(w.removesuffix("s")) for w in words if w not in own)
    return all(k is not None and k.accepts(kind) for k in known)


_BEFORE_NUMBERS = ("excluding", "excludes", "except", "excepting", "between")


def without_only(tokens: Tokens, subject: Subject) -> Tokens:
    """`only between 30 and 45 degrees`, of one value, without the word, and of like parts as all of them."""
    words = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(words[:-1]) if w == "only" and words[i + 1] in _WITHIN), -1)
    if at < 0 or not isinstance(subject.bound, Typed) or any(t.number for t in tokens[:at]):
        return tokens
    all_ = "all of them".split() if subject.parts is not None else []
    said = (replace(tokens[at], text=w, end=tokens[at].start) for w in all_)
    return (*said, *tokens[at + 1 :]) if not at or all_ else (*tokens[:at], *tokens[at + 1 :])


_WITHIN = ("between", "within", "from", "in")


def in_the_state(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`in a fasted state`, of what is fasted or not, as fasted."""
    words = [word_of(t) for t in tokens]
    for one in subjects:
        own = one.text.lower().split()
        if not isinstance(one.bound, ChoiceDecl):
            continue
        for at in range(2, len(words) - len(own)):
            end = at + len(own)
            state = words[at:end] == own and words[end] in ("state", "condition") and words[at - 2] == "in"
            if state and words[at - 1] in _ARTICLES:
                start = at - 2 - (words[at - 3 : at - 2] in (["administered"], ["taken"], ["used"]))
                is_so = replace(tokens[start], text="is", end=tokens[start].start)
                return (*tokens[:start], is_so, *tokens[at:end], *tokens[end + 1 :])
    return tokens


def without_own_noun(tokens: Tokens, subject: Subject, notes: tuple[str, ...]) -> Tokens:
    """`either a block code or a fountain code`, of what is block or fountain; `a fluting of type E`."""
    if not isinstance(subject.bound, SetDecl | ChoiceDecl):
        return tokens
    words = [word_of(t) for t in tokens]
    members = {tuple(m.lower().split()) for m in subject.bound.members}
    nouns = {*subject.text.lower().split(), *(n.lower().split()[-1] for n in notes if n)}
    nouns |= {f"{noun}s" for noun in nouns}
    found = list[Token]()
    for at, token in enumerate(tokens):
        behind = any(
            tuple(words[at - len(m) : at]) == m and (*m, words[at]) not in members
            for m in members
            if at >= len(m)
        )
        if not (behind and words[at] in nouns and (words[at],) not in members):
            found.append(token)
    said = [word_of(t) for t in found]
    name = subject.text.lower().split()
    for at in range(1, len(said) - len(name)):
        named = said[at : at + len(name)] == name and said[at + len(name)] in ("selected", "chosen")
        if named and len(name) > 1 and said[at - 1] in ("one", "more"):
            found, said = [*found[:at], *found[at + len(name) :]], [*said[:at], *said[at + len(name) :]]
            break
    of = next((i for i in range(5) if said[i : i + 2] == ["of", "type"]), -1)
    typed = of == 0 or (of > 0 and said[0] in _ARTICLES and all(t.sort == "word" for t in found[1:of]))
    return (
        tuple(found[of + 2 :])
        if typed and any(tuple(said[of + 2 : of + 2 + len(m)]) == m for m in members)
        else tuple(found)
    )


def without_noted_noun_before_inclusive(tokens: Tokens, subject: Subject, notes: tuple[str, ...]) -> Tokens:
    """`between 2 and 64 segments, inclusive`, of what the note says is in segments, without them."""
    words = [word_of(t) for t in tokens]
    whole = isinstance(subject.bound, Typed) and subject.bound.whole
    noted = {w.strip(",;()") for note in notes for w in note.lower().split()}
    if not whole or words[-1:] not in (["inclusive"], ["exclusive"]) or words[-2:-1] != [","]:
        return tokens
    return (*tokens[:-3], *tokens[-2:]) if words[-3] in noted and not tokens[-3].number else tokens


def without_noted_behind(tokens: Tokens, notes: tuple[str, ...]) -> Tokens:
    """`not more than 30 % of compound A is dissolved after 1 hour` without what the note says as well."""
    number = next((i for i, t in enumerate(tokens) if t.number), len(tokens))
    behind = [t.text.lower() for t in tokens[number + 1 :]]
    noted = " ".join(n for note in notes for n in note.lower().replace(",", " ").split())
    kept = [w for w in behind if w not in _VERBS]
    begins = [n.lower().replace(",", " ").split()[:1] for note in notes for n in note.split(";")]
    if len(kept) in (2, 3) and kept[0] == "of" and kept[1:-1] in ([], ["a"], ["an"]) and kept[-1:] in begins:
        return tokens[: number + 1]  # `25 mg of a powder`, noted as 'powder in the chamber'
    if not kept or kept[0] != "of" or len(kept) < 3 or f" {' '.join(kept)} " not in f" {noted} ":
        return tokens
    return tokens[: number + 1]


_VERBS = frozenset("is are was were has have had been being be the".split())


def without_by(tokens: Tokens) -> Tokens:
    """`by 15 mm ± 2 mm` without the first word."""
    tolerance = any(t.text in ("±", "+/-") for t in tokens)
    return tokens[1:] if tolerance and word_of(tokens[0]) == "by" and tokens[1].number else tokens


def with_size_of_deviation(tokens: Tokens, subjects: tuple[Subject, ...], names: Names) -> Tokens:
    """`within 5 % of the nominal load`, of the error of a load, as at most ± so much: it is near no load."""
    if len(subjects) != 2 or not is_off(subjects, tokens, names):
        return tokens
    words = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(words) if w in ("within", "±", "+/-")), len(words))
    own = subjects[0].text.lower().split()
    if words[at : at + 1] != ["within"] and words[max(at - len(own), 0) : at] != own:
        return tokens
    start = at + 1 + next((len(run) for run in _EITHER if words[at + 1 : at + 1 + len(run)] == run), 0)
    if start + 2 < len(words) and is_bare_share(tokens[start]) and words[start + 1] == "of":
        most = (replace(tokens[at], text=text, end=tokens[at].start) for text in ("at", "most", "±"))
        return (*tokens[:at], *most, *tokens[start:])
    return tokens


_EITHER = (["plus", "or", "minus"], ["±"], ["+/-"])
_MAY_BE_LONG = frozenset("offset difference swing accuracy runout run-out skew".split())
_WHAT_IS_WANTED = listed("names", "wanted")


def is_off(subjects: tuple[Subject, ...], tokens: Tokens, names: Names) -> bool:
    """Does the first tell how far something lies from the second, and is itself no value like it?

    An offset of one length may be as long as another; it is none of a nominal one, nor of so many parts per
    million.
    """
    called = _called_so(subjects[0], names) & listed("measures", "deviations")
    other = {*subjects[1].text.lower().split(), *names.note_of(subjects[1].text).lower().split()[:1]}
    kinds = [s.bound.kind for s in subjects if isinstance(s.bound, Typed) and s.bound.kind]
    alike = len(kinds) == 2 and kinds[0].dimension == kinds[1].dimension != ()
    if not alike or not called or not other.isdisjoint(listed("measures", "deviations")):
        return False
    tiny = any(t.text.lower().endswith(PARTS_PER) for t in tokens)
    return bool(tiny or called - _MAY_BE_LONG or other & _WHAT_IS_WANTED)


def _called_so(one: Subject, names: Names) -> set[str]:
    noted = [w.strip(",;") for w in names.note_of(one.text).lower().split() if w not in _ARTICLES]
    return {*one.text.lower().split(), *noted[:1]}


def of_the_greatest(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`the tallest rib being at most 8 mm high`, of the heights of ribs, as the greatest of them."""
    parts = subjects[0].parts if len(subjects) == 1 else None
    words = [word_of(t) for t in tokens]
    if parts is None or parts.sort != "parts" or words[:1] != ["the"] or len(words) < 4:
        return tokens
    most = next((m for m, by in MOST.items() if words[1] in by), "")
    field = subjects[0].text.lower().split(" of the ")[0]
    plural = parts.called.lower()
    called = (plural, plural.removesuffix("s"), plural.removesuffix("es"), "of them", f"of the {plural}")
    fields = (field, f"{field} of the {plural}", f"{field} of them", f"of the {field}s", f"of the {field}es")
    runs = [n.split() for n in (*called, *fields)]
    run = max((r for r in runs if words[2 : 2 + len(r)] == r), key=len, default=None)
    measure = MOST[most].get(words[1], "") if most else ""
    fits = run is not None and (
        field in measure.split() or run in [f.split() for f in fields] or (not measure and field in words)
    )
    if run is None or not most or not fits:
        return tokens
    first = tokens[1]
    lead = (replace(first, text=w, end=first.start) for w in ("the", most, "of", "them"))
    return (*lead, *tokens[2 + len(run) :])


MOST = {
    "greatest": {
        "tallest": "height", "highest": "height", "longest": "length", "widest": "width",
        "thickest": "thickness",
        "deepest": "depth", "heaviest": "mass", "greatest": "", "largest": "", "biggest": "",
    },
    "least": {
        "lowest": "height", "shortest": "length height", "narrowest": "width", "thinnest": "thickness",
        "shallowest": "depth", "lightest": "mass", "least": "", "smallest": "",
    },
}  # fmt: skip


def with_limits_before(tokens: Tokens) -> Tokens:
    """`the radius is 10 m or less or the load is less than 20 t` with 'at most 10 m'."""
    words = [word_of(t) for t in tokens]
    behind = {i for i in range(1, len(words) - 1) if words[i] == "or" and words[i + 1] in _OR_SO}
    if not behind or not any(w == "or" and i not in behind for i, w in enumerate(words)):
        return tokens
    found = list[Token]()
    for at, token in enumerate(tokens):
        if at in behind and found and found[-1].number:
            first = found[-1]
            limit = ("at", _OR_SO[words[at + 1]])
            found[-1:] = [
                *(replace(first, sort="word", text=w, number=None, end=first.start) for w in limit),
                first,
            ]
        elif not (at - 1 in behind and at > 1 and tokens[at - 2].number):
            found.append(token)
    return tuple(found)


_OR_SO = {
    **dict.fromkeys(("less", "fewer", "lower", "smaller", "below"), "most"),
    **dict.fromkeys(("more", "greater", "higher", "larger", "above"), "least"),
}


def with_variation(tokens: Tokens, subjects: tuple[Subject, ...], notes: tuple[str, ...]) -> Tokens:
    """`is kept constant to within 0.005 mm`, of what is called a variation, as a variation so constant."""
    words = [word_of(t) for t in tokens]
    called = {w for s, note in zip(subjects, notes, strict=True) for w in f"{s.text} {note}".lower().split()}
    at = next((i for i, w in enumerate(words[:-2]) if w in _CONSTANT), None)
    if len(subjects) != 1 or at is None or called.isdisjoint(_VARIATIONS):
        return tokens
    within = at + 1 + (words[at + 1] == "to")
    if words[within] != "within" or not all(t.sort == "word" for t in tokens[:at]):
        return tokens
    said = "a variation constant to within"
    return (*words_at(tokens[0], said, understood=True), *tokens[within + 1 :])


_CONSTANT = ("constant", "uniform", "steady", "stable")
_VARIATIONS = frozenset("variation variations fluctuation spread deviation change difference".split())


MOST_OF_A_BEARER = 4
"""Words of what is changed, with its article."""


def with_change_named(tokens: Tokens, subjects: tuple[Subject, ...]) -> Tokens:
    """`is lowered by 3 to 5 degC`, of what is called lowering, as the lowering is 3 to 5 degC."""
    words = [word_of(t) for t in tokens]
    for at in range(len(words) - 3):
        stem = words[at + 1].removesuffix("ed").removesuffix("en")
        named = [s.text.lower() for s in subjects if s.text.lower() in (f"{stem}ing", f"{stem}ening")]
        if words[at] in ("is", "are") and words[at + 2] == "by" and len(named) == 1:
            name = words_at(tokens[at], f"the {named[0]} is", understood=True)
            begin = next((i + 1 for i in range(at - 1, -1, -1) if words[i] in (",", "and", "when")), 0)
            plain = words[begin : begin + 1] in ([], ["the"], ["a"], ["its"]) or begin == at
            what = tokens[begin:at]
            if plain and len(what) <= MOST_OF_A_BEARER and all(t.sort == "word" for t in what):
                return (*tokens[:begin], *name, *tokens[at + 3 :])
    return tokens
