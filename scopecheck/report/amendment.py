"""What an amendment changes, as a report: what each claim gave up and gained, and what that touches."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence, Set

from scopecheck.answers.amended import Amended
from scopecheck.answers.amended_stretch import Stretching
from scopecheck.answers.amendment import Change
from scopecheck.answers.findings import (
    Answers,
    Finding,
    relation_of,
)
from scopecheck.answers.minimise import BreakPoint
from scopecheck.core.grounds import ground_text
from scopecheck.core.model import Claim, Sheet
from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.report.amended_ranges import Ranges, ranges_of
from scopecheck.report.amended_things import listed_things, together, uncarried
from scopecheck.report.blocks import Banner, Block, Heading, Item, Listing, Paragraph, Picture, Report
from scopecheck.report.describe import labelled, lineage
from scopecheck.report.frame import ground, head
from scopecheck.report.margins import readings_told
from scopecheck.report.page import told_below, warned
from scopecheck.report.rereadings import break_text, group_words, reading_label, reading_text
from scopecheck.report.things import thing_text
from scopecheck.report.wording import claims_text, counted, flat, listed, sentence, upper_first
from scopecheck.solving.ends import Extremum


def amendment_report(
    amended: Amended, diagnostics: Sequence[Diagnostic] = (), strained: bool = False, everything: bool = False
) -> Report:
    """The report on an amendment. Without `everything` what the answers rest on is told in brief."""
    telling = _Telling(amended)
    once = _told_once(diagnostics)
    blocks = [*_head(amended), *(told_below(once) if once else ()), *telling.glance(), *telling.in_full()]
    blocks += [*telling.idle(), *listed_things(amended), *uncarried(amended), *warned(once)]
    sheet = amended.joined.after
    answers = Answers((), (), sheet.groups, sheet.policies)
    blocks.append(Heading(sentence("section", "foot")))
    blocks += ground(sheet, answers, strained, everything)
    return Report(tuple(blocks), sheet, answers, (), diagnostics=tuple(diagnostics))


def _told_once(diagnostics: Sequence[Diagnostic]) -> list[Diagnostic]:
    """The warnings, those that both sheets have of the same line at its place in the sheet after only."""

    def what(d: Diagnostic) -> tuple[str, ...]:
        return d.message, d.cause, d.help, d.span.source.line(d.span.line).strip(), d.span.text

    last = {what(d): d for d in diagnostics}
    return [d for d in diagnostics if last[what(d)] is d]


def _head(amended: Amended) -> Iterator[Block]:
    before, after = amended.joined.before, amended.joined.after
    title = flat(after.title or before.title) or sentence("head", "no_title")
    for block in head(after):
        match block:
            case Banner():
                yield block
            case Heading():
                yield Heading(sentence("amend", "title", title=title), 1)
            case Paragraph():
                yield block
                break
    yield Paragraph(
        sentence(
            "amend",
            "compared",
            before=flat(before.source_name),
            after=flat(after.source_name),
            claims_before=counted(len(before.claims), "claim"),
            claims_after=counted(len(after.claims), "claim"),
        )
    )


class _Telling:
    """The sentences about one amendment."""

    def __init__(self, amended: Amended) -> None:
        self.amended = amended
        before, after = amended.joined.before, amended.joined.after
        self.before, self.after = together(before, after), together(after, before)

    # ---- at a glance

    def glance(self) -> Iterator[Block]:
        """One line for each claim; claims of which the same is told share one, unless renumbered."""
        yield Heading(sentence("amend", "glance"))
        lines: dict[tuple[str, str], list[int]] = {}
        for change in self.amended.changes:
            kept = change.before and change.after and change.before.number == change.after.number
            name = "" if kept else upper_first(self.name(change))
            numbers = lines.setdefault((name, self.told(change)), [])
            numbers += [change.after.number] if change.after else []
        yield Listing(
            tuple(
                sentence("amend", "line", claim=name or upper_first(claims_text(numbers)), told=told)
                for (name, told), numbers in lines.items()
            )
        )

    def name(self, change: Change) -> str:
        """`claim 2`, `claim 2 (claim 3 before)`."""
        claim = change.after or change.before
        assert claim is not None
        name = claims_text((claim.number,))
        if change.before is not None and change.before.number != claim.number:
            return sentence("amend", "claim_from", claim=name, before=claims_text((change.before.number,)))
        return name

    def told(self, change: Change) -> str:
        """The relation of a claim before and after, in a line."""
        if change.after is None:
            assert change.before is not None
            return self._deleted(change.before)
        if change.before is None:
            return self._added(change)
        if change.same:
            words = [" ".join(c.text.split()) for c in (change.before, change.after)]
            renumbered = change.before.number != change.after.number or change.after.parents
            reworded = words[0] != words[1] and not renumbered
            return sentence("amend", "same_reworded" if reworded else "same")
        if change.relation is None:
            return sentence("amend", "undecided", reason=flat(change.undecided[0].reason))
        told = self._relation(change)
        if change.taken_over:
            told = sentence("amend", "taken_over", told=told)
        if change.emptied:
            return sentence("amend", "emptied_base" if change.empty else "emptied", told=told)
        return sentence("amend", f"empty_{change.empty}", told=told) if change.empty else told

    def _relation(self, change: Change) -> str:
        if change.everywhere:
            return sentence("amend", "relation_every", relation=relation_text(change.relation or ""))
        others = [self._other(change, f, brief=True) for f in change.otherwise]
        others += [sentence("amend", "undecided", reason=flat(f.reason)) for f in change.undecided]
        told = self._as_presumed(change)
        return sentence("amend", "relation_base", told=told, others="; ".join(others)) if others else told

    def _other(self, change: Change, finding: Finding, brief: bool = False) -> str:
        """The relation on other readings than the presumed ones; told where the claim's lines differ."""
        labels = self._differing(change)
        moved = (*finding.rereads, *finding.read_as)
        if brief:
            readings = listed(reading_label(self.after, r, with_words=True, labels=labels) for r in moved)
        else:
            readings = listed(reading_text(self.after, r, labels) for r in moved)
        told = sentence(
            "amend", "other", relation=relation_text(relation_of(finding) or "unchanged"), readings=readings
        )
        if held := self._not_stretched(change, {r.group for r in moved}):
            return sentence("amend", "other_unstretched", told=told, held=held)
        return told

    def _not_stretched(self, change: Change, moved: Set[int]) -> str:
        """The hedges read as presumed, whose stretch nobody states: other readings are tried without any."""
        stretched = {s.parameter for s in change.stretched}
        hedges = [
            p.group
            for p in self.amended.joined.after.parameters
            if p.key in stretched and p.group not in moved
        ]
        labels = self._differing(change)
        words = (group_words(self.after.groups[group], labels) for group in hedges)
        return listed(sentence("amend", "not_at_all", words=w) for w in words)

    def _stretched(self, change: Change, stretching: Stretching) -> str:
        """From which stretch of a hedge on which relation holds, and which without any stretch."""
        sheet, stages = self.amended.joined.after, stretching.stages
        p = next(p for p in sheet.parameters if p.key == stretching.parameter)
        words = group_words(sheet.groups[p.group], self._differing(change))
        told = []
        for stage, following in zip(stages[1:], [*stages[2:], None], strict=True):
            # A stage may be a single value, the next one beginning right after it.
            only = following is not None and following.start.value == stage.start.value
            once = break_text(sheet, BreakPoint(p.key, stage.start, True, only), words)
            told.append(sentence("amend", "stretched", relation=relation_text(stage.relation), once=once))
        end = stages[1].start
        until = sentence("amend", "not_at_all", words=words)
        if end.value != p.presumed:
            until = break_text(sheet, BreakPoint(p.key, Extremum(end.value, not end.closed), False), words)
        relation = relation_text(stages[0].relation)
        return "; ".join([*told, sentence("amend", "unstretched", relation=relation, until=until)])

    def _differing(self, change: Change) -> tuple[str, ...]:
        """The labels of the lines that only one version of the claim has, those of the amended one first."""
        assert change.before is not None
        assert change.after is not None
        sheets = (self.amended.joined.after, change.after), (self.amended.joined.before, change.before)
        lines = [
            [x for n in lineage(sheet, claim.number) for x in sheet.claim(n).limitations]
            for sheet, claim in sheets
        ]
        said = [{x.formula for x in part} for part in lines]
        found = (
            x.label for own, other in ((0, 1), (1, 0)) for x in lines[own] if x.formula not in said[other]
        )
        return tuple(dict.fromkeys(found))

    def _deleted(self, claim: Claim) -> str:
        own = {x.label for x in claim.limitations}
        moves = [(m, c.after) for c in self.amended.changes if c.after for m in c.moved if m.before in own]
        if not moves:
            return sentence("amend", "deleted")
        labels = listed(dict.fromkeys(labelled(self.before, m.before) for m, _ in moves))
        claims = claims_text(c.number for _, c in moves)
        return sentence("amend", "deleted_into", labels=labels, claims=claims)

    def _added(self, change: Change) -> str:
        if not change.moved:
            return sentence("amend", "added")
        labels = listed(labelled(self.after, m.label) for m in change.moved)
        claims = claims_text(m.claim for m in change.moved)
        return sentence("amend", "added_from", labels=labels, claims=claims)

    # ---- in full

    def in_full(self) -> Iterator[Block]:
        """One item for each claim that changes by its own words."""
        full = [c for c in self.amended.changes if c.given_up is not None and not c.taken_over]
        if not full:
            return
        yield Heading(sentence("amend", "in_full"))
        for number, change in enumerate(full, 1):
            ranges = ranges_of(self.amended, change)
            yield self._item(number, change, ranges)
            yield from (Picture(picture) for picture in ranges.pictures)

    def _item(self, number: int, change: Change, ranges: Ranges) -> Item:
        rows: list[tuple[str, Iterable[str]]] = [
            (sentence("amend", "margin_given_up"), [self._given_up(change)]),
            (sentence("amend", "margin_gained"), [self._gained(change)]),
            (sentence("amend", "margin_region"), ranges.lines),
            (sentence("amend", "margin_otherwise"), [self._other(change, f) for f in change.otherwise]),
            (sentence("amend", "margin_moved"), self._moves(change)),
            (sentence("margin", "rests"), [self._rests_on(change)]),
        ]
        kept = [(word, tuple(text for text in texts if text)) for word, texts in rows]
        return Item(
            number, "", ((upper_first(self.name(change)), ""),), f"{upper_first(self.told_briefly(change))}.",
            tuple((word, texts) for word, texts in kept if texts), (), (), (),
        )  # fmt: skip

    def told_briefly(self, change: Change) -> str:
        if change.relation is None or change.everywhere:
            return self.told(change)
        return self._as_presumed(change)

    def _as_presumed(self, change: Change) -> str:
        """`only widened, with every phrase as presumed`, or how it hangs on the stretch of a hedge."""
        told = sentence("amend", "as_presumed", relation=relation_text(change.relation or ""))
        if change.stretched:
            told = "; ".join(self._stretched(change, s) for s in change.stretched)
        return self._with_alike_ends(change, told) if change.alike else told

    def _with_alike_ends(self, change: Change, told: str) -> str:
        """With what becomes of the relation where no end rounds, the words that do as presumed and do not."""
        assert change.alike is not None
        labels = self._differing(change)

        def named(groups: Iterable[int], one: str, many: str) -> str:
            words = dict.fromkeys(group_words(self.after.groups[g], labels) for g in groups)
            return sentence("amend", one if len(words) == 1 else many, words=listed(words))

        return sentence(
            "amend", "alike_ends", told=told, relation=relation_text(change.alike.relation),
            rounding=named(change.alike.rounding, "rounds", "rounds_many"),
            others=named(change.alike.others, "rounds_not", "rounds_not_many"),
        )  # fmt: skip

    def _given_up(self, change: Change) -> str:
        assert change.given_up is not None
        if change.emptied:
            return sentence("amend", "everything_given_up", claim=self.name(change))
        return self._side(change.given_up, self.before, "gave_up", "nothing_given_up")

    def _gained(self, change: Change) -> str:
        assert change.gained is not None
        return self._side(change.gained, self.after, "got", "nothing_gained")

    def _side(self, finding: Finding, sheet: Sheet, shown: str, nothing: str) -> str:
        if finding.outcome == "undecided":
            return sentence("amend", "undecided", reason=flat(finding.reason))
        if finding.outcome == "excluded":
            return sentence("amend", nothing)
        told = sentence("amend", shown, thing=thing_text(sheet, finding))
        if finding.failing:
            failing = listed(labelled(sheet, label) for label in finding.failing)
            told = sentence("amend", "because", told=told, failing=failing)
        readings = [*readings_told(sheet, finding)] if finding.rereads or finding.read_as else []
        told = "; ".join([told, *(sentence("margin", "reading").lower() + " " + r for r in readings)])
        if finding.status.at_base == "none":
            return sentence("amend", "not_presumed", told=told)
        if finding.quantifier == "every":
            return told if finding.thing.on_each else sentence("amend", "every_other", told=told)
        return sentence("amend", "not_every", told=told)

    def _moves(self, change: Change) -> Iterator[str]:
        for move in change.moved:
            label = labelled(self.after, move.label)
            claim = claims_text((move.claim,))
            yield sentence("amend", "moved", label=label, claim=claim, before=move.before)

    def _rests_on(self, change: Change) -> str:
        sides = [f for f in (change.given_up, change.gained) if f is not None]
        return listed(dict.fromkeys(flat(ground_text(x)) for f in sides for x in f.rests_on))

    # ---- dependents that add nothing

    def idle(self) -> Iterator[Block]:
        if not self.amended.idle:
            return
        yield Heading(sentence("amend", "idle"))
        yield Listing(tuple(self._idle_line(f) for f in self.amended.idle))

    def _idle_line(self, finding: Finding) -> str:
        sheet = self.amended.joined.after
        labels = listed(labelled(sheet, x.label) for x in sheet.claim(finding.claim).limitations)
        claim = upper_first(claims_text((finding.claim,)))
        if finding.quantifier == "every":
            return sentence("amend", "idle_line", claim=claim, labels=labels)
        readings = listed(readings_told(self.after, finding))
        return sentence("amend", "idle_line_some", claim=claim, labels=labels, readings=readings)


def relation_text(relation: str) -> str:
    """`only narrowed`."""
    keys = {"unchanged": "unchanged", "narrowed": "narrowed", "widened": "widened", "both": "both"}
    return sentence("amend", keys[relation])
