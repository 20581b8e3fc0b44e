"""What is told first, and what is told together.

Findings are ordered by section: what is wrong on every reading, then on the usual one, before what takes
another. In these two a listed thing that comes out wrong stands before a dependent claim that nothing meets,
and that before one that adds nothing. Below them what is wrong with a claim of its own stands before what is
wrong with a dependent claim alone, a listed thing before one thought up beside what was meant, that by far
before that at the border, and last what takes a wide stretch. Then by the weakest standing they lean on, by
the number of phrases re-read, by position. Findings of one question and class that turn on the same kinds
of ambiguity are one decision, and so is what one line lets in and leaves out at the border of what was meant.
"""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from scopecheck.answers.about import Met, OneReading, Reread
from scopecheck.answers.findings import EMPTY_CLAIM, QUESTIONS, Finding, lines_of, partly_of, unmet_by
from scopecheck.answers.held import Held
from scopecheck.core.construction import base_construction, names_in, nodes
from scopecheck.core.formula import Compare, Const, Read, Rounded
from scopecheck.core.model import STANDINGS, Group, Sheet
from scopecheck.core.ranges import lying
from scopecheck.foundations.record import record
from scopecheck.foundations.regex import regex
from scopecheck.report.describe import case_named, limitation_labelled, lineage, turning_limitations
from scopecheck.report.unread import left_unread
from scopecheck.solving.evaluate import evaluate

SILENCE = "silence alone keeps out"
STRAINED = STANDINGS.index("strained")


def departures(finding: Finding) -> tuple[Reread, ...]:
    """The readings a finding leans on beside the usual ones, departures first.

    Of a reading that is asked about without a construction of its own, that reading.
    """
    if isinstance(finding.about, OneReading) and not finding.rereads:
        return (Reread(*finding.about.step),)
    return (*finding.rereads, *finding.read_as)


def standing_rank(sheet: Sheet, finding: Finding) -> int:
    """0 if the finding leans on presumed readings only, 1 with an arguable one, 2 with a strained one."""
    standings = (sheet.groups[d.group].readings[d.reading].standing for d in departures(finding))
    return max((STANDINGS.index(s) for s in standings), default=0)


SIDED = ("outside met", "inside lost", "document met")
BESIDE_MEANT = ("unmeant met", "meant lost")
FAR = "far"
UNREAD = "unread"
"""What is wrong on every reading listed of a line of which words were read past."""
SECTIONS = (
    "1", UNREAD, "usual", "2", "3", "empty", "ends", "silence", "close", "meant", "4", "border", "reread",
    FAR, "5", "6",
)  # fmt: skip
FIRST = ("1", "usual", UNREAD)
"""Sections of what is wrong with all words as they are, in which dependents stand below listed things."""
FAR_SHARE = Fraction(1, 5)
"""A stretch by more than this part of the written number is told last: a choice, no authority gives one."""
HEDGES = (("approximation", "from the context"), ("equality", "near enough"))
"""What a reading of words with a hedge settles."""
ONLY_THEN = tuple(
    (usual, "then and only then")
    for usual in ("whenever it holds", "wherever it holds", "only the steps that must happen")
)
"""Readings of what is said under a condition, the second that it is so nowhere else."""
_HOLDS = ("every", "base", "some")
_WRITTEN = regex(r"(\d+(?:\.\d+)?)(\s*%)?")


def order_key(sheet: Sheet, finding: Finding) -> tuple[int, ...]:
    """Least first: section, whether it hangs on what a case leaves unsaid, or concerns a dependent claim
    alone, or only together with others, standing, distance, position.

    Of what is wrong with dependents and single lines first what holds on every reading, then as presumed.
    """
    question = QUESTIONS.index(finding.question)
    standing, distance = standing_rank(sheet, finding), len(finding.rereads)
    unsaid = finding.question == "inside lost" and bool(partly_of(finding))
    found = section(sheet, finding)
    holds = _HOLDS.index(finding.quantifier) if found == "4" and finding.quantifier in _HOLDS else 0
    if found in FIRST:
        holds = _kind(finding)
    if finding.question == "no reading suits all claims":
        holds = len(_HOLDS)  # it sums up what is told of each claim
    stretched = any(reread.breaks for reread in departures(finding))
    below = finding.stakes < 5 and any(c.number == finding.claim and c.parents for c in sheet.claims)
    with_others = isinstance(finding.about, OneReading) and finding.about.change == "with others"
    return (
        SECTIONS.index(found), holds, unsaid, below, with_others, standing, stretched, distance,
        finding.span.start, question,
    )  # fmt: skip


def _kind(finding: Finding) -> int:
    """Least first: listed things and claims of their own, what was meant, dependents that nothing meets, and
    those that add nothing."""
    kinds = (BESIDE_MEANT, ("dependent cannot be met",), ("adds nothing",))
    return next((i for i, own in enumerate(kinds, start=1) if finding.question in own), 0)


def section(sheet: Sheet, finding: Finding) -> str:
    """Under which heading a finding stands: by its stakes, but before the re-readings what needs none.

    Of a line not all of whose words are read, nothing is said to be so on every reading without saying that.
    """
    found = _section(sheet, finding)
    return UNREAD if found == "1" and left_unread(sheet, finding) else found


def _section(sheet: Sheet, finding: Finding) -> str:
    """The heading, all words being read. A hedge whose stretch is stated nowhere is no presumption."""
    if finding.stakes > 4:
        return str(finding.stakes)
    if only_by_far(sheet, finding):
        return "1"
    several = finding.stakes == 4 and phrases_moved(finding) > 1
    if several or _is_far(sheet, finding) or barred_by(sheet, finding):
        return FAR
    if finding.question in ("dependent cannot be met", "adds nothing"):
        return _of_dependent(sheet, finding)
    if finding.question == SILENCE:
        return "silence"
    if finding.question == "document close by":
        return "close"
    if only_at_an_end(sheet, finding):
        return "ends"
    undone = undone_as_presumed(sheet, finding)
    if finding.question in EMPTY_CLAIM and finding.quantifier == "base":
        return str(finding.stakes) if undone else "usual"
    kept_by = () if isinstance(finding.about, Met) else finding.otherwise.least
    own = (reread for reread in kept_by if reread.reading == sheet.groups[reread.group].base)
    stretched = any(reread.breaks for reread in own) or _is_hedged(sheet, finding)
    usual = finding.quantifier == "base" and not (finding.rereads or finding.read_as or partly_of(finding))
    if (
        finding.question in (*SIDED, *BESIDE_MEANT)
        and finding.stakes in (2, 3)
        and usual
        and not (stretched or undone or _usual_is_untried(sheet, finding))
    ):
        return "usual"
    if finding.question in BESIDE_MEANT and finding.stakes > 1:
        return "meant" if finding.thing.grade == "plain" else "border"
    return "reread" if finding.stakes == 4 and finding.quantifier == "some" else str(finding.stakes)


def _usual_is_untried(sheet: Sheet, finding: Finding) -> bool:
    """Is what is presumed of a phrase of its lines not computed, so that another reading stands for it?

    What is met rests on every line of the claim, what is lost on those that fail.
    """
    claims = (sheet.claim(number) for number in lineage(sheet, finding.claim))
    lines = {*finding.failing} or {line.label for claim in claims for line in claim.limitations}
    return any(
        any(place.where in lines for place in group.places)
        and any(standing == "presumed" for _, standing in group.untried)
        and not any(reading.standing == "presumed" for reading in group.readings)
        for group in sheet.groups
    )


def _of_dependent(sheet: Sheet, finding: Finding) -> str:
    """The section of a dependent claim that nothing meets or that adds nothing, by how far that holds.

    By way of some parents only it does nothing there and may do elsewhere.
    """
    empty = finding.question in EMPTY_CLAIM
    if finding.quantifier == "some":
        # A reading that leaves its own line nothing is far from what it says.
        return FAR if empty and len(lines_of(finding)) == 1 else "reread"
    if finding.ways:
        return "4"
    if finding.quantifier == "every":
        return "1"
    return "usual" if empty and not undone_as_presumed(sheet, finding) else "empty"


def undone_as_presumed(sheet: Sheet, finding: Finding) -> bool:
    """Does it not hold where phrases are taken by a reading that is presumed as much as the usual one?

    So it is where no presumption is known: the usual one is then the first listed.
    """
    return any(all(_counts_as_much(sheet, r) for r in way) for way in finding.otherwise.ways)


def _counts_as_much(sheet: Sheet, reread: Reread) -> bool:
    group = sheet.groups[reread.group]
    presumed = group.readings[reread.reading].standing == "presumed"
    return presumed and reread.reading != group.base and not reread.breaks


def presumed_too(sheet: Sheet, reread: Reread) -> bool:
    """Is the reading presumed as much as the one that the phrase has as presumed?"""
    group = sheet.groups[reread.group]
    presumed = group.readings[reread.reading].standing == "presumed"
    return presumed and bool(group.presumed) and reread.reading != group.base and not reread.breaks


def only_at_an_end(sheet: Sheet, finding: Finding) -> bool:
    """Does a document's range meet a claim at an end alone, where ends are not taken for stated values?

    Atofina v. Great Lakes, 441 F.3d 991 (Fed. Cir. 2006), as MPEP 2131.03 II reports it; but EPO T 240/95.
    """
    at_end = isinstance(finding.about, Met) and finding.about.at_end
    return at_end and sheet.profile == "US" and finding.question == "document met"


def barred_by(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """The other lines of the claim that keep out what a line lets in unmeant, by what is shown of it."""
    k = finding.construction
    if finding.question != "unmeant met" or finding.witness is None or k is None:
        return ()
    claims = [c for c in sheet.claims if c.number in lineage(sheet, finding.claim)]
    if any(len(c.parents) > 1 for c in claims):
        return ()
    lines = (x for c in claims for x in c.limitations if x.label != finding.label)
    told = (x for x in lines if names_in(x.formula) <= set(finding.thing.names))
    return tuple(x.label for x in told if evaluate(x.formula, finding.witness.article, k) is not True)


def _is_hedged(sheet: Sheet, finding: Finding) -> bool:
    """Is what was meant lost by words whose presumed reading stretches, as far as nobody states?"""
    limitation = limitation_labelled(sheet, finding.label)
    if finding.question != "meant lost" or limitation is None:
        return False
    usual = {(g, sheet.groups[g].base) for g in limitation.groups}
    return any((p.group, p.reading) in usual for p in sheet.parameters)


def _is_far(sheet: Sheet, finding: Finding) -> bool:
    """Does it take a stretch of a phrase, by a large part of the number it has, or of none by any amount?"""
    moved = departures(finding)
    stretched = {(p.group, p.reading) for p in sheet.parameters}
    # Where it was not found how little does, a stretch may have to be of any size.
    unmeasured = not finding.best and any((d.group, d.reading) in stretched and not d.breaks for d in moved)
    rounded = len(moved) == 1 and _rounds_far(sheet, finding, moved[0])
    return unmeasured or rounded or any(_far(sheet, d, _words_that_measure(sheet, d)) for d in moved)


def _rounds_far(sheet: Sheet, finding: Finding, reread: Reread) -> bool:
    """Does the reading round to limits of which half a unit is a large part, as `less than 1 %`?"""
    if reread.reading == sheet.groups[reread.group].base:
        return False
    shares = []
    for limitation in turning_limitations(sheet, finding):
        read = (n for n in nodes(limitation.formula) if isinstance(n, Read) and n.group == reread.group)
        for node in (below for one in read for below in nodes(one.options[reread.reading])):
            match node:
                case Compare(_, Rounded(_, step, _, origin), Const(limit)) if limit != origin:
                    shares.append(step / 2 / abs(limit - origin))
                case _:
                    pass
    return bool(shares) and min(shares) > FAR_SHARE


def _words_that_measure(sheet: Sheet, reread: Reread) -> list[str]:
    """The words whose number says what a large stretch is: of a hedge at its places, else its wording."""
    group = sheet.groups[reread.group]
    hedged = any(axis in HEDGES for reading in group.readings for axis in reading.axes)
    return [p.words for p in group.places] if hedged else [group.wording]


def only_by_far(sheet: Sheet, finding: Finding) -> bool:
    """Does nothing but a stretch of a large part keep a thing out that is met, or in that is lost?"""
    return only_far_out(sheet, finding) or _only_far_in(sheet, finding)


def _only_far_in(sheet: Sheet, finding: Finding) -> bool:
    """Is a thing lost as presumed on every other reading too, stretches of a large part left aside?"""
    lost = finding.question == "inside lost" and finding.quantifier == "base" and not partly_of(finding)
    if not lost or departures(finding) or not finding.otherwise.rereads or not finding.failing:
        return False
    return all(any(_beyond_its_number(sheet, r) for r in way) for way in finding.otherwise.ways)


def _beyond_its_number(sheet: Sheet, reread: Reread) -> bool:
    """Is the stretch a large part of each number that the words have? Of words without one it never is."""
    words = [p.words for p in sheet.groups[reread.group].places]
    return all(_WRITTEN.search(text) for text in words) and _far(sheet, reread, words)


def only_far_out(sheet: Sheet, finding: Finding) -> bool:
    """Is a thing met as presumed on every other reading too, stretches of a large part left aside?

    Large beside each number that the words have: which of several lines turns is not asked.
    """
    sided = finding.question in SIDED and finding.quantifier == "base" and not departures(finding)
    unmet = unmet_by(finding)
    words = [[p.words for p in sheet.groups[r.group].places] for r in unmet]
    far = (_far(sheet, r, [t]) for r, texts in zip(unmet, words, strict=True) for t in texts)
    return sided and bool(words) and all(far)


def _far(sheet: Sheet, reread: Reread, texts: Iterable[str]) -> bool:
    """Is the stretch more than a large part of the least number in the texts; of none, any stretch at all?"""
    for point in reread.breaks:
        parameter = next(p for p in sheet.parameters if p.key == point.parameter)
        if parameter.unknown or (not point.upward and point.end.value >= parameter.presumed):
            continue  # as far as it may go where it does as presumed
        bare = not parameter.unit.symbol
        numbers = [
            Fraction(n) / (100 if bare and share else 1) for t in texts for n, share in _WRITTEN.findall(t)
        ]
        least = min((n for n in numbers if n), default=None)
        wide = abs(point.end.value if parameter.shared else parameter.unit.from_base(point.end.value))
        if wide > FAR_SHARE * (1 if parameter.shared else least or wide):
            return True
    return False


def is_measured_by_no_number(sheet: Sheet, finding: Finding) -> bool:
    """Have the words re-read no number beside which a stretch is far: `essentially free of lactose`?"""
    words = [p.words for d in departures(finding) for p in sheet.groups[d.group].places]
    return bool(words) and not any(map(_WRITTEN.search, words))


def is_open(finding: Finding) -> bool:
    """Was the question left undecided?"""
    return finding.outcome == "undecided"


# ---- decisions


def axes(sheet: Sheet, reread: Reread) -> tuple[str, ...]:
    """The kinds of ambiguity on which a reading differs from the usual one, such as `ends`."""
    group = sheet.groups[reread.group]
    if reread.reading == group.base:
        return ("stretch",)
    taken, usual = dict(group.readings[reread.reading].axes), dict(group.readings[group.base].axes)
    names = tuple(n for n in usual if n in taken and taken[n] != usual[n])
    # 'opens above 18 °C' and 'closes below 15 °C' are phrases of their own, and one question.
    ways = tuple(group.readings[i].label for i in (group.base, reread.reading))
    return names or ("converse" if ways in ONLY_THEN else f"other {group.index}",)


@record
class Cluster:
    """Findings that one decision settles, best first.

    `follows` tells their consequences, `absorbed` are the findings of these. `places` counts the places of
    the claims where the decision arises, `matters` those where it changes what is met.
    """

    findings: tuple[Finding, ...]
    axes: tuple[str, ...] = ()
    places: int = 0
    matters: int = 0
    follows: tuple[str, ...] = ()
    absorbed: tuple[Finding, ...] = ()

    @property
    def first(self) -> Finding:
        return self.findings[0]


def clusters(sheet: Sheet, findings: Iterable[Finding]) -> tuple[Cluster, ...]:
    """The findings, given in order, drawn together by decision; a cluster stands where its first one does."""
    gathered: dict[object, list[Finding]] = {}
    for index, finding in enumerate(findings):
        turns_on = tuple(sorted({axis for d in departures(finding) for axis in axes(sheet, d)}))
        alone: object = None if turns_on else _lost_alike(sheet, finding) or index
        if phrases_moved(finding) > 1:
            alone = frozenset(d.group for d in departures(finding))
        if finding.question == "document range":
            turns_on, alone = (), index  # what the document's own words leave open is asked of no claim
        if finding.question == SILENCE:
            alone = finding.case
        if finding.question == "number not described" and isinstance(finding.about, Held):
            alone = finding.about.name  # what the description may be asked to state of one thing
        if finding.question == "end not reached" and not turns_on:
            # One line that states both ends is one thing to mend, and so are ranges that do not add up.
            claim = next(c for c in sheet.claims if c.number == finding.claim)
            alone = finding.label if claim.parents else claim.number
        gathered.setdefault((finding.question, section(sheet, finding), turns_on, alone), []).append(finding)
    gathered = _of_one_line(sheet, gathered)
    opened = [(group, open_axes(sheet, group)) for group in sheet.groups] if gathered else []
    found = []
    for group in gathered.values():
        of_claims = group[0].question != "document range"
        turning = {axis for d in departures(group[0]) for axis in axes(sheet, d) if of_claims}
        labels = {label for finding in group for label in moved_labels(sheet, finding, turning)}
        places = labels | set(places_of(sheet, opened, turning))
        found.append(Cluster(tuple(group), tuple(sorted(turning)), len(places), len(labels)))
    return tuple(found)


def _of_one_line(sheet: Sheet, gathered: dict[object, list[Finding]]) -> dict[object, list[Finding]]:
    """What one line lets in and leaves out at the border of what was meant by it, as one."""
    found: dict[object, list[Finding]] = {}
    lines: dict[str, object] = {}
    for key, group in gathered.items():
        first = group[0]
        of_line = first.question in BESIDE_MEANT and section(sheet, first) == "border"
        into = lines.setdefault(first.label, key) if of_line else key
        found.setdefault(into, []).extend(group)
    return found


def _lost_alike(sheet: Sheet, finding: Finding) -> object:
    """What cases share that lines alike lose as presumed and the same re-readings keep; else None.

    Of what a case is lost in part by, the same case alone is alike. Things that must stay out and are met as
    presumed are alike where the same re-readings keep them out.
    """
    if finding.question == "outside met" and finding.quantifier == "base" and finding.otherwise.rereads:
        undone = tuple((r.group, r.reading, r.breaks) for r in finding.otherwise.rereads)
        return finding.claim, finding.label, undone, finding.otherwise.together
    if finding.question != "inside lost" or not finding.failing:
        return None
    kept = tuple((r.group, r.reading) for r in finding.otherwise.least)
    lines = tuple(x.formula for label in finding.failing if (x := limitation_labelled(sheet, label)))
    one_case = (finding.case, partly_of(finding)) if partly_of(finding) else ()
    return lines, kept, finding.quantifier, one_case


def phrases_moved(finding: Finding) -> int:
    """How many phrases and nouns have to be taken otherwise than usual for it."""
    return len({d.group for d in departures(finding)})


def turning_labels(sheet: Sheet, finding: Finding) -> tuple[str, ...]:
    """The labels of the limitations at which the finding's re-readings change something."""
    turning = turning_limitations(sheet, finding)
    if turning:
        return tuple(limitation.label for limitation in turning)
    if limitation_labelled(sheet, finding.label):
        return (finding.label,)
    moved = [sheet.groups[d.group] for d in departures(finding)]
    labels = {place.where for group in moved for place in group.places}
    claims = lineage(sheet, finding.claim) or tuple(c.number for c in sheet.claims)
    inside = (item.label for c in sheet.claims if c.number in claims for item in c.limitations)
    found = tuple(label for label in inside if label in labels)
    return _left_by_range(sheet, finding, found) or found


def _left_by_range(sheet: Sheet, finding: Finding, labels: tuple[str, ...]) -> tuple[str, ...]:
    """Of these lines those that a document's range, as they are usually read, does not lie within."""
    case = case_named(sheet, finding.case) if finding.question == "document range" else None
    if case is None:
        return ()
    base = base_construction(sheet)
    lines = [x for label in labels if (x := limitation_labelled(sheet, label))]
    inside = ("within", "point inside", "the same")
    lies = {x.label: lying(sheet, case.facts, x.formula, base) for x in lines}
    return tuple(label for label, owns in lies.items() if any(own.relation not in inside for own in owns))


def moved_labels(sheet: Sheet, finding: Finding, wanted: set[str]) -> tuple[str, ...]:
    """Where it turns on phrases re-read as to these kinds of ambiguity; not known, all their places.

    What is said of one line, such as that it is idle, may turn on words that stand in another.
    """
    turning = turning_labels(sheet, finding)
    moved = [d.group for d in departures(finding) if wanted & set(axes(sheet, d))]
    if not moved:
        return turning
    places = {p.where for g in moved for p in sheet.groups[g].places}
    claims = lineage(sheet, finding.claim) or tuple(c.number for c in sheet.claims)
    inside = (x.label for c in sheet.claims if c.number in claims for x in c.limitations)
    return tuple(x for x in turning if x in places) or tuple(x for x in inside if x in places)


def places_of(
    sheet: Sheet, opened: Iterable[tuple[Group, frozenset[str]]], wanted: set[str]
) -> tuple[str, ...]:
    """The labels of the limitations whose words leave one of these kinds of ambiguity open.

    `opened`: the groups with the kinds of ambiguity that each leaves open.
    """
    labels = [p.where for group, names in opened if names & wanted for p in group.places]
    return tuple(dict.fromkeys(label for label in labels if limitation_labelled(sheet, label)))


def open_axes(sheet: Sheet, group: Group) -> frozenset[str]:
    """The kinds of ambiguity on which the group's readings, strained ones left out, differ."""
    others = [i for i, r in enumerate(group.readings) if r.standing != "strained" and i != group.base]
    found = {axis for i in others for axis in axes(sheet, Reread(group.index, i))}
    if any(p.group == group.index and p.reading == group.base for p in sheet.parameters):
        found.add("stretch")
    return frozenset(found)
