"""The map of a claim set as a report: an outline of which claim lies within which, and what is apart."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from scopecheck.answers.findings import Answers
from scopecheck.answers.order import Apart, Equal, ScopeMap, Step
from scopecheck.core.construction import base_construction, names_in
from scopecheck.core.formula import Article
from scopecheck.core.model import Sheet
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.report.blocks import Banner, Block, Heading, Listing, Outline, Paragraph, Report
from scopecheck.report.describe import lineage, settings_text
from scopecheck.report.frame import ground, head
from scopecheck.report.page import told_below, warned
from scopecheck.report.wording import claims_text, flat, listed, sentence, upper_first
from scopecheck.solving.evaluate import meets

MOST_FAILING = 8
"""Names in the lines that a thing fails, which tell why; of more, those that set it apart."""
MOST_APART = 12
"""Pairs of claims apart that are told unless everything is asked for."""


def map_report(
    sheet: Sheet, found: ScopeMap, diagnostics: Sequence[Diagnostic] = (), everything: bool = False
) -> Report:
    """The report on the order of the claims."""
    drawing = _Drawing(sheet, found)
    blocks: list[Block] = [*_head(sheet), *(told_below(diagnostics) if diagnostics else ())]
    blocks += [Heading(sentence("map", "tree")), Outline(tuple(drawing.lines()))]
    blocks += [*drawing.left_out(), *drawing.apart(everything), *drawing.undecided()]
    blocks += warned(diagnostics)
    answers = Answers((), (), sheet.groups, sheet.policies)
    blocks.append(Heading(sentence("section", "foot")))
    blocks += ground(sheet, answers, False, everything)
    return Report(tuple(blocks), sheet, answers, (), diagnostics=tuple(diagnostics))


def _head(sheet: Sheet) -> Iterator[Block]:
    title = flat(sheet.title) or sentence("head", "no_title")
    for block in head(sheet):
        if isinstance(block, Banner):
            yield block
        elif isinstance(block, Heading):
            yield Heading(sentence("map", "title", title=title), 1)
        elif isinstance(block, Paragraph):
            yield block
            break
    yield Paragraph(sentence("map", "how"))


def _them(claims: Sequence[int]) -> str:
    return "it" if len(claims) == 1 else "them"


class _Drawing:
    """The outline: every class of claims once, under the first of the claims that it lies within."""

    def __init__(self, sheet: Sheet, found: ScopeMap) -> None:
        self.sheet, self.found = sheet, found
        self.equal = {e.claims[0]: e for e in found.equals}
        self.above: dict[int, list[Step]] = {n: [] for n in self.equal}
        self.below: dict[int, list[Step]] = {n: [] for n in self.equal}
        for step in found.steps:
            self.above[step.narrower].append(step)
        for steps in self.above.values():
            if steps:
                # A step that the claim's own text makes comes first: there a reader looks for the claim.
                first = min(steps, key=lambda s: (not s.own, s.wider))
                self.below[first.wider].append(first)

    def lines(self) -> Iterator[tuple[int, str]]:
        sorts = dict(self.found.sorts)
        waiting = [(0, n) for n, steps in reversed(self.above.items()) if not steps]
        told = {step.narrower: step for steps in self.below.values() for step in steps}
        while waiting:
            depth, number = waiting.pop()
            claims = class_text(self.sheet, self.equal[number])
            if number in told:
                yield depth, sentence("map", "within", claims=claims, step=self._steps(told[number]))
            elif sorts[number]:
                yield depth, sentence("map", "root", claims=claims, sort=flat(sorts[number]))
            else:
                yield depth, sentence("map", "root_bare", claims=claims)
            waiting += [(depth + 1, s.narrower) for s in reversed(self.below[number])]

    def _steps(self, first: Step) -> str:
        others = [s for s in self.above[first.narrower] if s is not first]
        also = (
            sentence("map", "also_within", claim=claims_text((s.wider,)), step=self._step(s)) for s in others
        )
        return "".join([self._step(first), *also])

    def _step(self, step: Step) -> str:
        failing = set(failing_names(self.sheet, step.article, step.narrower))
        failing -= self.sheet.absent(step.article)
        told = failing if len(failing) <= MOST_FAILING else step.departs
        values = settings_text(self.sheet, step.article, told)
        how = ""
        if not step.own:
            keys = {True: "beside_every", False: "beside_base", None: "beside_unknown"}
            how = sentence("map", keys[step.every])
        return sentence("map", "step", values=values, how=how)

    # ---- beside the outline

    def left_out(self) -> Iterator[Block]:
        sorts = dict.fromkeys(flat(sort) for _, sort in self.found.sorts if sort)
        if len(sorts) > 1:
            yield Paragraph(sentence("map", "sorts", sorts=listed(sorts)))
        doubted = {a for a, b, _ in self.found.doubts if a == b}
        empty = [n for n in self.found.empty if n not in doubted]
        if empty:
            yield Paragraph(sentence("map", "empty", claims=claims_text(empty), them=_them(empty)))
        if self.found.on_threshold:
            unsure = self.found.on_threshold
            claims = claims_text(unsure)
            yield Paragraph(sentence("map", "on_threshold", claims=claims, them=_them(unsure)))

    def apart(self, everything: bool) -> Iterator[Block]:
        pairs = self.found.apart
        if not pairs:
            return
        told = pairs if everything else pairs[:MOST_APART]
        yield Heading(sentence("map", "apart"))
        yield Listing(tuple(map(self._apart_line, told)))
        if len(told) < len(pairs):
            yield Paragraph(sentence("map", "apart_more", count=len(pairs) - len(told)), quiet=True)

    def _apart_line(self, apart: Apart) -> str:
        return sentence(
            "map",
            "apart_line",
            first=claims_text((apart.first,)),
            second=claims_text((apart.second,)),
            only_first=self._thing(apart.only_first, apart.second),
            only_second=self._thing(apart.only_second, apart.first),
        )

    def _thing(self, article: Article, misses: int) -> str:
        """A thing by the values that the lines which it fails speak of."""
        values = settings_text(self.sheet, article, failing_names(self.sheet, article, misses))
        return sentence("map", "apart_thing", values=values)

    def undecided(self) -> Iterator[Block]:
        if not self.found.doubts:
            return
        yield Heading(sentence("section", "undecided"))
        lines = []
        for a, b, reason in self.found.doubts:
            first = upper_first(claims_text((a,)))
            if a == b:
                lines.append(sentence("map", "doubt_one", first=first, reason=flat(reason)))
            else:
                second = claims_text((b,))
                lines.append(sentence("map", "doubt", first=first, second=second, reason=flat(reason)))
        yield Listing(tuple(lines))


def class_text(sheet: Sheet, equal: Equal) -> str:
    """`claim 2`, or `claims 2 and 5, of one scope`; claims of which nothing is restated are not compared."""
    bare = [n for n in equal.claims if not sheet.claim(n).limitations]
    compared = [n for n in equal.claims if n not in bare]
    if not compared:
        compared, bare = bare[:1], bare[1:]
    told = claims_text(compared)
    if len(compared) > 1:
        keys = {True: "one_scope", False: "one_scope_base", None: "one_scope_unknown"}
        told = sentence("map", keys[equal.every], claims=told)
    return sentence("map", "and_bare", told=told, claims=claims_text(bare)) if bare else told


def failing_names(sheet: Sheet, article: Article, number: int) -> Iterable[str]:
    """The names in the lines that the thing does not meet: the claim's own, else those of its parents."""
    base = base_construction(sheet)
    for numbers in ((number,), lineage(sheet, number)):
        lines = (x for n in numbers for x in sheet.claim(n).limitations)
        failing = [x.formula for x in lines if not meets(x.formula, article, base)]
        if failing:
            return names_in(*failing)
    return ()
