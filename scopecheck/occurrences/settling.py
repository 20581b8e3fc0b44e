"""Pins, policies and what is read apart, held against what a sheet uses: nothing settles without a place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from scopecheck.foundations.diagnostics import Diagnostic, did_you_mean
from scopecheck.foundations.spans import Span
from scopecheck.language.syntax import ApartStatement, PolicyStatement, ReadStatement
from scopecheck.occurrences.groups import (
    CLAIMS,
    SLOT,
    Clash,
    Draft,
    Groups,
    as_it_stands,
    plain_wording,
    spellings_of,
)
from scopecheck.vocabulary.catalogue import entries
from scopecheck.vocabulary.definitions import Definition


def wrong_settlings(groups: Groups, whole: bool) -> tuple[Diagnostic, ...]:
    """What is wrong with pins, policies and `apart`, once everything is resolved.

    `whole`: the sheet has no other mistake, so every place at which words are used is known.
    """
    found: list[Diagnostic] = []
    known: dict[str, tuple[str, ...]] = {}
    for wording in groups.seen:
        known[plain_wording(wording)] = (*known.get(plain_wording(wording), ()), wording)
    for pin in groups.pins:
        first = _pin(groups, pin, known)
        found += [first] if first else _places(groups, pin) if whole else []
    found += [_clash(clash) for clash in groups.clashes.values()]
    said = dict[str, PolicyStatement]()
    for policy in groups.policies:
        before = said.setdefault(policy.axis, policy)
        if before.value != policy.value:
            message = f"another policy says that {policy.axis} are taken as '{before.value}'"
            cause = f"It stands in line {before.span.line}; the two cannot both hold."
            found.append(_error(policy.span, message, cause, "take one of them out, or pin single places"))
        values = groups.axes.get(policy.axis)
        if values is None or policy.value not in values:
            found.append(_policy(groups, policy, values))
    found += [_unused(a, known) for a in groups.apart if plain_wording(a.wording) not in known]
    if whole:
        found += [d for definition in groups.definitions for d in _definition(groups, definition)]
    return tuple(found)


def _definition(groups: Groups, definition: Definition) -> Iterator[Diagnostic]:
    """A definition that reaches nothing, makes no sense somewhere, or passes by words that hold its own."""
    span, wording = definition.statement.span, definition.statement.wording
    if id(definition) not in groups.reached:
        message = f"nothing in the claims reads '{wording}', so its definition changes nothing"
        cause = "A definition is for words that the claims say, on lines that are read as phrases."
        yield Diagnostic("warning", span, message, cause, "")
    for other, words, where, why in dict.fromkeys(groups.unfit):
        if other is definition:
            yield Diagnostic(
                "warning", span, f"the definition of '{wording}' does not go with '{words}' in {where}",
                f"There {why}.", "it changes nothing there",
            )  # fmt: skip
    if not definition.noun:
        for draft in groups.drafts.values():
            yield from _passed_by(draft, definition)


def _passed_by(draft: Draft, definition: Definition) -> Iterator[Diagnostic]:
    """Words of the claims in which the defined words stand among others."""
    if draft.document != CLAIMS or draft.definition or draft.noun:
        return
    own_words = definition.statement.wording
    own = plain_wording(own_words).split()
    words = plain_wording(draft.wording).split()
    if own and len(words) > len(own) and any(words[i : i + len(own)] == own for i in range(len(words))):
        where = ", ".join(p.where for p in draft.places)
        yield Diagnostic(
            "warning", definition.statement.span,
            f"the definition of '{own_words}' is not taken for '{draft.wording}' in {where}",
            "A definition is for its own words, whole.", "define these words too, or pin their reading",
        )  # fmt: skip


def _error(span: Span, message: str, cause: str = "", help: str = "") -> Diagnostic:
    return Diagnostic("error", span, message, cause, help)


def _pin(groups: Groups, pin: ReadStatement, known: Mapping[str, tuple[str, ...]]) -> Diagnostic | None:
    wordings = known.get(plain_wording(pin.wording), ())
    labels = tuple(dict.fromkeys(label for wording in wordings for label in groups.seen[wording]))
    if pin.reading.lower() in (label.lower() for label in labels):
        return None
    here = _with_these_words(groups, pin)
    phrases = list(dict.fromkeys((d.wording, d.entry) for d in here if _settled(d, pin)))
    if len(phrases) > 1:
        message = f"'{pin.wording}' are words of several phrases that have a reading '{pin.reading}'"
        return _error(pin.span, message, "", _by_phrase(pin, [d for d in here if _settled(d, pin)]))
    if phrases or id(pin.span) in groups.yielded:
        return None
    labels = labels or tuple(dict.fromkeys(r.label for d in here for r in d.readings))
    if not labels:
        return _error(
            pin.span, f"nothing in the sheet reads '{pin.wording}'",
            "A pin names the words of a phrase in use.", _longer(plain_wording(pin.wording), known),
        )  # fmt: skip
    listed = ", ".join(f"'{label}'" for label in labels)
    return _error(
        pin.span, f"'{pin.wording}' has no reading '{pin.reading}'", "", f"its readings here: {listed}"
    )


def _with_these_words(groups: Groups, pin: ReadStatement) -> list[Draft]:
    """The phrases that have the words of the pin at some place, numbers and all."""
    words = as_it_stands(pin.wording)
    return [d for d in groups.drafts.values() if any(as_it_stands(p.words) == words for p in d.places)]


def _by_phrase(pin: ReadStatement, drafts: Iterable[Draft]) -> str:
    """A help sentence: what to write for each of the phrases."""
    told = {plain_wording(d.wording): ", ".join(p.where for p in d.places) for d in drafts}
    ways = [f'read "{plain}" in {where} as "{pin.reading}"' for plain, where in told.items() if plain]
    return f"name the phrase, without its numbers: {' or '.join(ways)}" if ways else ""


def _longer(plain: str, known: Mapping[str, tuple[str, ...]]) -> str:
    """A help sentence: the wordings in use that begin alike, as they are shown, else the nearest."""
    shown = {bare: " ".join(SLOT.sub("...", wordings[-1]).split()) for bare, wordings in known.items()}
    begun = dict.fromkeys(f"'{shown[bare]}'" for bare in known if bare.startswith(f"{plain} "))
    return f"did you mean {' or '.join(list(begun)[:3])}?" if begun else did_you_mean(plain, shown.values())


def _places(groups: Groups, pin: ReadStatement) -> list[Diagnostic]:
    """A pin that takes hold nowhere, or not at a place it names, or sets a number that is not open."""
    plain = plain_wording(pin.wording)
    named = [
        d
        for d in groups.drafts.values()
        if plain in (plain_wording(d.wording), plain_wording(d.entry)) or _settled(d, pin)
    ]
    drafts = named or _with_these_words(groups, pin)
    found = []
    for place in pin.places:
        here = [d for d in drafts if any(place in spellings_of(p.where) for p in d.places)]
        if not here:
            used = ", ".join(dict.fromkeys(p.where for d in drafts for p in d.places))
            message = f"'{pin.wording}' is not used in {place}"
            cause = "A pin settles words where they are used."
            found.append(_error(pin.span, message, cause, f"it is used in: {used}"))
        elif not any(_settled(d, pin) for d in here) and not _yields(groups, pin, place):
            found.append(_without_effect(pin, here, f" in {place}"))
    if not any(_settled(d, pin) for d in drafts) and not found:
        if id(pin.span) in groups.yielded:
            found += _needless(groups, pin)
        elif not pin.places:
            found.append(_without_effect(pin, drafts, ""))
    if all(d.severity == "warning" for d in found):
        found += [
            _no_number(groups, pin, name)
            for name, _ in pin.values
            if (id(pin.span), name) not in groups.numbers
        ]
    return found


def _settled(draft: Draft, pin: ReadStatement) -> bool:
    return any(s.span is pin.span for s in draft.settled)


def _yields(groups: Groups, pin: ReadStatement, place: str) -> bool:
    return any(place in spellings_of(where) for where in groups.yielded.get(id(pin.span), ()))


def _needless(groups: Groups, pin: ReadStatement) -> list[Diagnostic]:
    """That a pin says nothing that others do not say; nothing of one that says otherwise than another."""
    if any(clash.second is pin for clash in groups.clashes.values()):
        return []
    by = {
        s.text: s.span.line for d in groups.drafts.values() for s in d.settled if s.text.startswith("read ")
    }
    same = by.get(f"read {pin.text}")
    if same is not None:
        message, cause = f"this pin stands in line {same} already", "Once is enough."
    else:
        message = f"the pin of '{pin.wording}' settles nothing"
        cause = "Wherever its words are used, a pin for fewer places, or for fewer words, settles them."
    return [Diagnostic("warning", pin.span, message, cause, "take it out")]


def _clash(clash: Clash) -> Diagnostic:
    cause = f"It stands in line {clash.first.span.line}; the two cannot both hold."
    help = "take one of them out, or say where one holds: read ... in 1b as ..."
    return _error(clash.second.span, f"another pin {clash.what}", cause, help)


def _without_effect(pin: ReadStatement, drafts: list[Draft], where: str) -> Diagnostic:
    left = ", ".join(dict.fromkeys(f"'{r.label}'" for d in drafts for r in d.readings))
    by = ", ".join(dict.fromkeys(f"'{s.text}'" for d in drafts for s in d.settled))
    cause = f"Settled before by {by}." if by else "That reading makes no sense with the values there."
    message = f"'{pin.wording}' has no reading '{pin.reading}' left{where}"
    return _error(pin.span, message, cause, f"its readings: {left}")


def _no_number(groups: Groups, pin: ReadStatement, name: str) -> Diagnostic:
    names = [n for (span, n) in groups.numbers if span == id(pin.span)]
    names = names or sorted(groups.open_numbers.get(id(pin.span), ()))
    return _error(
        pin.span, f"the reading '{pin.reading}' leaves no number '{name}' open",
        "A pin gives values to the numbers that its reading leaves open.",
        f"it leaves open: {', '.join(names)}" if names else "take out 'with' and what follows it",
    )  # fmt: skip


def _policy(groups: Groups, policy: PolicyStatement, values: set[str] | None) -> Diagnostic:
    axes = {a for e in entries() for r in e.readings for a, _ in r.axes}
    if policy.axis not in axes | set(groups.axes):
        message = f"no phrase leaves open how '{policy.axis}' are taken"
        return _error(policy.span, message, "", did_you_mean(policy.axis, axes))
    known = {v for e in entries() for r in e.readings for a, v in r.axes if a == policy.axis}
    if policy.value not in known | (values or set()):
        meant = did_you_mean(policy.value, sorted(known))
        return _error(
            policy.span, f"'{policy.value}' is no way in which '{policy.axis}' are taken", "",
            meant or f"write one of: {', '.join(sorted(known))}",
        )  # fmt: skip
    here = f"In use here: {', '.join(sorted(values))}." if values else ""
    return Diagnostic(
        "warning", policy.span, f"the policy '{policy.text}' settles nothing in this sheet", here
    )


def _unused(apart: ApartStatement, known: Mapping[str, tuple[str, ...]]) -> Diagnostic:
    return Diagnostic(
        "warning", apart.span, f"nothing in the sheet reads '{apart.wording}', so nothing is set apart",
        "Only phrases and terms in use can be read apart.", _longer(plain_wording(apart.wording), known),
    )  # fmt: skip
