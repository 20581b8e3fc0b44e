"""A limit among words that say nothing of limits: 'a gear having at least 20 teeth'."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from difflib import SequenceMatcher
from functools import cache
from itertools import pairwise, takewhile

from scopecheck.core.declared import NumberDecl
from scopecheck.foundations.quantity import kind_word
from scopecheck.foundations.regex import regex
from scopecheck.foundations.word_lists import word_lists
from scopecheck.foundations.word_lists import words as listed
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.language.scan import Token
from scopecheck.matching.chart import FILLERS, word_of
from scopecheck.matching.everyday import placed_at
from scopecheck.matching.phrase_finding import Job
from scopecheck.matching.subjects import is_bare_share, is_fraction
from scopecheck.vocabulary.catalogue import entries
from scopecheck.vocabulary.entry import Entry
from scopecheck.vocabulary.names import Typed

Tokens = tuple[Token, ...]
_DANGLING = ("of", "the", "a", "an", "in")
_OTHER_MEASURES = listed("measures", "other_values")
"""Words that say which value is limited, or what is measured: without them it is another limit."""


def literals_here(job: Job) -> frozenset[str]:
    """The words that tell of limits, as far as phrases have them for as many things as stand here."""
    book, things = job.place.phrases, len(job.subjects)
    own = _literals(book.own, things)
    return own if book.alone else own | _literals_of_catalogue(things)


@cache
def _literals_of_catalogue(things: int) -> frozenset[str]:
    return _literals(entries(), things)


def _literals(phrases: Iterable[Entry], things: int) -> frozenset[str]:
    """The words of the wordings for so many things that tell of limits, not of measures."""
    taking = ((p, {s.kind for s in p.slots}) for e in phrases for p in e.patterns if e.takes(p) == things)
    return frozenset(o for p, slots in taking if "limit" not in slots for need in p.required for o in need)


def longest_read(job: Job, tokens: tuple[Token, ...], literals: frozenset[str]) -> tuple[int, int] | None:
    """Where the longest stretch that is a phrase begins and ends; None if words around it may limit."""
    own = {w for name in job.place.names.all() for w in name.lower().split()} | job.tests().own_words
    members = {w for m in getattr(job.first, "members", ()) for w in m.lower().split()}

    called = _measures_called(job, [word_of(t) for t in tokens])
    lead = [
        word_of(t)
        for t in takewhile(
            lambda t: (
                not (t.number or word_of(t) in NUMBER_WORDS)
                and (word_of(t) not in literals or word_of(t) in called or word_of(t) in FILLERS)
            ),
            tokens,
        )
    ]
    if any(w not in FILLERS and w not in own and w not in called for w in lead):
        called = frozenset()  # 'the cell temperature rises'

    def says_nothing(token: Token) -> bool:
        word = word_of(token)
        if token.sort != "word" or word in NUMBER_WORDS or word in (members - FILLERS) | _OTHER_MEASURES:
            return False
        if word in ("per", "strictly") or _is_fraction_word(word):  # without it it is another limit
            return False
        if word.endswith("est") and word in listed("mention", "ordinals"):  # the tallest rib is one of them
            return False
        known = word in FILLERS or word in own or word in called
        return known or (word not in literals and not _is_like_one_of(word, literals))

    said = [i for i, token in enumerate(tokens) if not says_nothing(token)]
    kind = job.first.kind if isinstance(job.first, Typed) else None
    if kind is not None and kind.dimension and any(map(is_bare_share, tokens)):
        return None  # a share of something else says nothing without that
    if not said or (said[0] == 0 and said[-1] == len(tokens) - 1):
        return None
    for end in range(said[-1] + 1, min(said[-1] + 4, len(tokens)) + 1):
        for start in range(said[0], max(said[0] - 4, -1), -1):
            behind = word_of(tokens[end]) if end < len(tokens) else ""
            if start and word_of(tokens[start - 1]) == "at" and word_of(tokens[start]) in ("most", "least"):
                continue
            of_another = behind == "of" and any(is_part(t) for t in tokens[start:end])
            of_another = of_another or _names_another(job, tokens[:start])
            if not of_another and not dangles(tokens[start:end]) and job.readable(tokens[start:end]):
                while word_of(tokens[end - 1]) in _DANGLING and job.readable(tokens[start : end - 1]):
                    end -= 1
                return start, end
    return None


@cache
def _is_like_one_of(word: str, literals: frozenset[str]) -> bool:
    """May it be one of them misspelled, or another form of it?"""
    return word not in listed("names", "describing") and any(_alike(word, other) for other in literals)


def _alike(word: str, other: str) -> bool:
    """Are at least four of five letters of the two the same, in one order? Counted: readings hang on it."""
    both = len(word) + len(other)
    if 5 * min(len(word), len(other)) < 2 * both:
        return False
    same = sum(block.size for block in SequenceMatcher(None, other, word).get_matching_blocks())
    return 5 * same >= 2 * both


def dangles(tokens: Tokens) -> bool:
    """`at most`, `at least 2 mm and no more than twice`: do the words end where a value should follow?"""
    said = [word_of(t) for t in tokens]
    numbered = any(t.number or w in NUMBER_WORDS for t, w in zip(tokens, said, strict=True))
    at_end = said[-2:] in (["at", "least"], ["at", "most"], ["the", "least"], ["the", "most"])
    return said[-1] in _UNENDED or (at_end and not numbered)


_UNENDED = frozenset("twice half thrice than to by for from with and or based on the a an that".split())


def _is_fraction_word(word: str) -> bool:
    """`third`, `nineteenths`: of what is one, two or more?"""
    stem = word.removesuffix("s").removesuffix("th")
    return word in word_lists()["fractions"] or (
        stem != word and (stem in NUMBER_WORDS or stem.endswith("tie"))
    )


def _names_another(job: Job, tokens: tuple[Token, ...]) -> bool:
    """Do the words name a declared quantity of the same kind that does not stand left of the colon?"""
    said = f" {' '.join(map(word_of, tokens))} "
    own = " ".join(s.text.lower() for s in job.subjects)
    kinds = {s.bound.kind for s in job.subjects if isinstance(s.bound, Typed)}
    declared = job.place.names.declarations.items()
    names = (n.lower() for n, d in declared if isinstance(d, NumberDecl) and d.kind in kinds)
    return any(f" {name} " in said and name not in own for name in names)


def is_part(token: Token) -> bool:
    """Is it a share or a fraction, which may be one of what 'of' names behind it?"""
    unit = token.number.unit if token.number else None
    return is_bare_share(token) or is_fraction(token) or (unit is not None and bool(unit.kind.basis))


def without_surroundings(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens, Tokens]]:
    """The limit among the words, and what stands before and behind it, where that is a description alone.

    It names nothing else that is measured, joins, counts, orders or denies nothing, and sets no condition.
    """
    if len(job.subjects) != 1 or not isinstance(job.first, Typed) or job.sort:
        return
    all_of_it = tokens
    tokens = _of_what_has_so_many(tokens) if job.first.whole else tokens
    found = longest_read(job, tokens, literals_here(job))
    if found is None:
        return
    start, end = found
    before, behind = tokens[:start], tokens[end:]
    own = job.tests().own_words | of_note(job)
    led = not before or _leads(before[-1]) or _leads(tokens[start]) or _behind_its_name(job, before)
    led &= not (before and tokens[start].number and not _leads(before[-1]))
    if placed_at(tokens) or not led or (behind and not _follows(behind[0], own)):
        return  # 'snugly 3 mm', '58 HRC', '3 mm from the rim'
    names = {w for name in job.place.names.all() for w in name.lower().split()}
    names -= job.tests().own_words | FILLERS
    said = [word_of(t) for t in (*before, *behind)]
    measured = _measures_called(job, [word_of(t) for t in before])
    if names.isdisjoint(said) and all(
        w in own or w in measured or (w not in names and describes(w)) for w in said
    ):
        itself = next((i for i, t in enumerate(behind) if word_of(t) not in own), len(behind))
        told = () if noted_so(job, [word_of(t) for t in before]) else before
        last = next((i for i, t in enumerate(all_of_it) if told and t is told[-1]), -1)
        told = all_of_it[: last + 1]
        yield tokens[start:end], told, behind[itself:]


def _behind_its_name(job: Job, before: Tokens) -> bool:
    """`a duty cycle` before 'between 45 % and 55 %': the name and one noun more, of a bare number."""
    said, own = [word_of(t) for t in before], job.tests().own_words
    kind = job.first.kind if isinstance(job.first, Typed) else None
    behind = len(said) > 1 and said[-2] in own and not said[-1].endswith(_NO_NOUN) and describes(said[-1])
    return behind and kind is not None and not (kind.dimension or kind.basis) and said[-1] not in own


def _of_what_has_so_many(tokens: Tokens) -> Tokens:
    """`a linear or branched alkyl group having` so many of something as `a branched alkyl having`: what has
    them is one thing, of whichever sort. A group of several is not."""
    said = [word_of(t) for t in tokens]
    at = next((i for i, w in enumerate(said) if i > 1 and w in _HAVING), 0)
    if not at or said[0] not in ("a", "an", "the", "said"):
        return tokens
    last = at - (said[at - 1] == "group")
    left = {at - 1} if last < at else set[int]()
    for i in (i for i in range(2, last - 1) if said[i] == "or"):
        one, other = said[i - 1], said[i + 1]
        denied = next((w for w in (one, other) if w.removeprefix("un") in (one, other) and w[:2] == "un"), "")
        left |= {i, i + 1 if denied == other else i - 1}
        row = i - 2
        while row > 1 and said[row] == "," and tokens[row - 1].sort == "word" and not denied:
            left |= {row, row - 1}
            row -= 2
    kept = [w for i, w in enumerate(said[:at]) if i not in left]
    plain = len(kept) > 1 and all(describes(w) for w in kept) and kept[-1] not in FILLERS
    return tuple(t for i, t in enumerate(tokens) if i not in left) if left and plain else tokens


_HAVING = ("having", "with", "has", "containing", "comprising")


def without_lead(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens, Tokens]]:
    """The limit behind words that no phrase has and that tell nothing of it: 'tightened to 24 Nm'.

    Left of the colon stands what is limited, so that what the claim calls it may be read past, and is told.
    Not so what compares, counts, joins or denies, nor a word right before a number, which may say how it is
    meant.
    """
    if len(job.subjects) != 1 or not isinstance(job.first, Typed) or job.sort or placed_at(tokens):
        return
    leads_up = _leading_up(job, job.first, tokens)
    if leads_up is None:
        return
    own, others = job.tests().own_words | of_note(job), _of_other_names(job)
    literals = literals_here(job)
    start = next((i for i in range(len(tokens)) if not leads_up(i)), len(tokens))
    said = [word_of(t) for t in tokens[:start]]
    if start == len(tokens):
        return
    tells = not own.union(FILLERS).issuperset(said)
    last = said[-1] if said else "of"
    closely = last not in FILLERS | own | {*_LEADING_UP} | listed("measures", "nouns")
    called = not last.endswith(_NO_NOUN) and not _is_like_one_of(last, literals)
    if closely and (tokens[start].sort != "word" or not called):
        return
    for end in range(len(tokens), start, -1):
        behind = tokens[end:]
        follows = behind and (_follows(behind[0], own) or word_of(behind[0]) in _IN_COURSE)
        if not tells and not (behind and word_of(behind[0]) in _IN_COURSE):
            continue  # what stands before it is no more than its name
        if behind and not (follows and all(_says_no_more(t, own, others) for t in behind)):
            continue
        for at in range(start, max(start - 3, -1), -1):
            limit = tokens[at:end]
            if FILLERS.issuperset(said[at:]) and not dangles(limit) and job.readable(limit):
                yield limit, () if noted_so(job, said[:at]) else tokens[:at], behind
                return


def without_verb_before_limit(job: Job, tokens: Tokens) -> Iterator[tuple[Tokens, Tokens]]:
    """`each blade is ground to 3 mm`, of the blades, or `the vat is stirred to 40 °C at the end`, of a step,
    or `the rim is machined larger than the gap`, of two things, without the words right before the limit that
    no phrase has, a verb among them; and these.

    What stands before them says of which, and is kept, so that a denial before them is one of the limit.
    """
    two = len(job.subjects) == 2 and not job.sort and all(isinstance(s.bound, Typed) for s in job.subjects)
    one = len(job.subjects) == 1 and job.sort in ("parts", "moments")
    if not (one or two) or not isinstance(job.first, Typed):
        return
    leads_up = _leading_up(job, job.first, tokens)
    if leads_up is None or dangles(tokens):
        return
    said = [word_of(t) for t in tokens]
    itself = FILLERS | job.tests().own_words | of_note(job)
    limits = listed("limits", "inside") - FILLERS - {*_LEADING_UP}
    for at in (i for i, t in enumerate(tokens) if i and (t.number or said[i] in limits)):
        at -= said[at - 1 : at + 1] in (["at", "least"], ["at", "most"])
        own = at  # 'at a height of', of a height
        while own and said[own - 1] in itself - _BE and (leads_up(own - 1) or said[own - 1] == "at"):
            own -= 1
        end = own if {*said[own:at]} - FILLERS else at
        start = end - (said[end - 1] in _LEADING_UP or (job.sort == "moments" and said[end - 1] == "at"))
        while start and leads_up(start - 1) and said[start - 1] not in itself:
            start -= 1
        run = said[start:end]
        if names_another_dimension(job, said[start:at]):
            return
        verb = run[0:1] and run[0].endswith("s") and start and not two
        if (any(map(_is_done, run)) and (start or not two)) or verb:
            if job.sort == "moments" and all(map(leads_up, range(start))):
                start = 0
                if run[-1] == "to":
                    yield tokens[at - 1 :], tokens[: at - 1]
            yield (*tokens[:start], *tokens[at:]), tokens[start:end]
            return


_BE = frozenset("is are being be".split())


def names_another_dimension(job: Job, said: list[str]) -> bool:
    """`to a depth of`, of a width: do the words say another measure than the name and the note?"""
    dimensions = listed("measures", "dimensions")
    own = dimensions & (job.tests().own_words | of_note(job))
    return bool(own) and not own.issuperset(dimensions.intersection(said))


def _is_done(word: str) -> bool:
    return word.endswith("ed") or word in listed("beside", "done")


def _of_other_names(job: Job) -> set[str]:
    own = job.tests().own_words | of_note(job)
    return {w for name in job.place.names.all() for w in name.lower().split()} - own - FILLERS


def _leading_up(job: Job, first: Typed, tokens: Tokens) -> Callable[[int], bool] | None:
    """May the word at a place be read past before a limit? None where none may."""
    kind, whole, literals = first.kind, first.whole, literals_here(job)
    own = job.tests().own_words | of_note(job)
    others = _of_other_names(job) | (_OTHER_MEASURES - own) | {"by"}
    shares = (t for before, t in pairwise(tokens) if is_bare_share(t) and before.text not in ("±", "+/-"))
    if kind is None or (kind.dimension and any(shares)):
        return None

    in_units = any(t.number and t.number.unit and not is_bare_share(t) for t in tokens)

    def leads_up(at: int) -> bool:
        word = word_of(tokens[at])
        if tokens[at].sort != "word" or word in NUMBER_WORDS or word in others:
            return False
        if word in own | FILLERS and word not in listed("conditional", "drops"):
            return True
        if word in _LEADING_UP:
            before = word_of(tokens[at - 1]) if at else ""
            holds = word == "for" and whole  # 'a crate for 12 bottles'
            return before in own or ((before.endswith(("ed", "ing")) or holds) and describes(before))
        measured = kind_word(word)
        behind_name = at > 0 and word_of(tokens[at - 1]) in job.tests().own_words
        if word.endswith(("able", "ible")) or (behind_name and word not in listed("measures", "nouns")):
            return False  # what is adjustable has no one value, and an oil phase is no oil
        fits = measured is None or measured.accepts(kind) or (in_units and word in _OF_SEVERAL_KINDS)
        called = fits and word in listed("measures", "nouns") and not _says_more_than_a_measure(word)
        called = called and word not in listed("measures", "deviations") | {"noise"}
        describing = describes(word) and word not in listed("asides", "no_lead")
        return called or (describing and word not in literals and not _is_fraction_word(word))

    return leads_up


def _says_more_than_a_measure(word: str) -> bool:
    measures = (("measures", "nouns"), ("conditional", "no_noun"))
    return any(word in listed(*name) for name in _NEVER if name not in measures)


_OF_SEVERAL_KINDS = ("strength", "load", "capacity", "rate", "resistance", "weight")
"""What is called so may be a stress or a force, a mass or one per area; the unit of the limit tells."""
_NO_NOUN = ("s", "ing", "ed", "ly", "er", "to")
"""A verb or an adverb ends so that says more right before a limit: 'loses at least 5 mm'."""
_IN_COURSE = ("throughout", "during", "upon", "after")
_LEADING_UP = ("to", "for", "on")
"""Behind a participle or a name these lead up to its value: 'whipped to', 'aged for'."""


def _says_no_more(token: Token, own: frozenset[str], others: set[str]) -> bool:
    word = word_of(token)
    if word in _IN_COURSE:
        return True
    return token.sort == "word" and word not in others and (word in own or describes(word))


def _measures_called(job: Job, said: list[str]) -> frozenset[str]:
    """`a capacity of at least 64 kB` of a memory: the measures that words before the limit may call it by.

    None where the declaration names a measure itself, which may be another one.
    """
    measures = listed("measures", "calling")
    named = measures.intersection(f"{job.subjects[0].text.lower()}".split()) | measures & of_note(job)
    kind = job.first.kind if isinstance(job.first, Typed) else None
    data = kind_word("data")
    of_data = kind is not None and data is not None and kind == data.kind  # a key length is one in bits
    words = {w: data if of_data and w == "length" else kind_word(w) for w in measures.intersection(said)}
    other = {w for w, k in words.items() if k is not None and kind is not None and not k.accepts(kind)}
    return frozenset() if named or other else frozenset(words)


def of_note(job: Job) -> frozenset[str]:
    """The words of the note behind the declaration of what is limited."""
    note = job.place.names.note_of(job.subjects[0].text)
    return frozenset(w.strip(",;()") for w in note.lower().split())


def noted_so(job: Job, said: list[str], which: int = 0) -> bool:
    """Are the words what the name of the thing says, or what its note begins with: 'median size (D50)'?

    A note that goes on with 'less', 'over' or 'to' says what several of such make together.
    """
    name = job.subjects[which].text
    note = job.place.names.note_of(name).lower()
    words = [w for w in said if w not in FILLERS and w not in _BRACKETS]
    noted = [w for w in _PLAIN.sub(" ", note.replace("/", " / ")).split() if w not in FILLERS]
    words = words[:-1] if words[-1:] == ["value"] and "value" not in noted else words
    begins = bool(words) and noted[: len(words)] == words
    goes_on = noted[len(words) : len(words) + 1]
    if not listed("conditional", "drops").isdisjoint(said):
        return False  # an oven drop is no oven
    itself = set(name.lower().split())
    called = bool(words) and set(words) <= itself and itself - set(words) <= listed("measures", "calling")
    return called or (begins and not (listed("measures", "of_two") | {"/"}) & {*goes_on})


def only_calls(job: Job, said: list[str], which: int = 0) -> bool:
    """Are the words a measure of the kind beside the sign that the thing is called by: `the thickness T1`?

    A name in words, or a note, may say which measure it is, and so that it is another one.
    """
    name = job.subjects[which].text
    sign = len(name) <= _LONGEST_SIGN and not name.islower() and name in job.words.text.split()
    rest = {w for w in said if w not in FILLERS and w != name.lower()}
    measures = listed("measures", "nouns")
    noted = measures.intersection(job.place.names.note_of(name).lower().split())
    bound = job.subjects[which].bound
    kind = bound.kind if isinstance(bound, Typed) else None
    kinds = [kind_word(w) for w in rest]
    fits = kind is not None and all(k is None or k.accepts(kind) for k in kinds)
    return sign and fits and bool(rest) and rest <= measures and not noted


_LONGEST_SIGN = 3
_BRACKETS = ("(", ")", ",")
_PLAIN = regex(r"[(),]")


def _leads(word: Token) -> bool:
    """`a gear having` before a limit; a word without its noun or verb may say how the limit is meant."""
    return word_of(word) in FILLERS


def _follows(word: Token, own: frozenset[str]) -> bool:
    """`in standby mode` behind a limit; a word alone may be its unit."""
    return word_of(word) in own | FILLERS | listed("nouns", "stops")


def describes(word: str) -> bool:
    if word in FILLERS and word not in listed("conditional", "drops"):
        return word not in ("that", "which")
    never = word in NUMBER_WORDS or word.endswith(("est", "fold")) or word.startswith(("non-", "un", "self-"))
    return not never and not any(word in listed(*name) for name in _NEVER)


_NEVER = (
    ("names", "never"), ("names", "of_several"), ("measures", "nouns"), ("limits", "properties"),
    ("limits", "changes"), ("limits", "turning"), ("limits", "stopping"), ("limits", "conditions"),
    ("limits", "governing"), ("limits", "surpassing"), ("limits", "summed_behind"),
    ("limits", "summed_amounts"), ("limits", "leaving_free"), ("asides", "worked_out"),
    ("asides", "together"), ("asides", "each"), ("asides", "never_past"), ("conditional", "drops"),
    ("conditional", "in_time"), ("mention", "universal"), ("mention", "several"), ("mention", "ordinals"),
    ("conditional", "no_noun"),
)  # fmt: skip
"""Words that say more than a description does."""
