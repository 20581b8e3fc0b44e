"""One number of things beside another: 'as many ribs as slots', 'an equal number of ribs and slots'."""

from __future__ import annotations

from collections.abc import Sequence

from scopecheck.drafting.beside import noun_from, width_of
from scopecheck.drafting.draft import Quantity
from scopecheck.drafting.quantities import KEPT_WORDS
from scopecheck.drafting.work import Equal, Work
from scopecheck.foundations.quantity import find_unit
from scopecheck.foundations.word_lists import run_at, runs
from scopecheck.language.number_words import NUMBER_WORDS
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.text.stream import plural, stem
from scopecheck.vocabulary.parts import plural_of


def equals(text: ClaimText) -> list[Equal]:
    """Where a claim sets one number of things beside another; without nouns where they are not told."""
    texts, found = text.texts, list[Equal]()
    for at in sorted(at for word in runs("limits", "as_many") for at in text.where.get(word, ())):
        width = run_at(texts, at, "limits", "as_many")
        if not width or (found and at < found[-1].end):
            continue
        start = _said(texts, at + width)
        one = noun_from(text, start)
        joint = start + width_of(one)
        second = _said(texts, joint + 1)
        two = noun_from(text, second)
        several = one and two and plural(one.split()[-1]) and plural(two.split()[-1])
        told = several and texts[joint] in ("as", "and")
        end = second + width_of(two) if told else max(at + width, joint)
        begin = _limited(texts, at)
        found.append(Equal(begin, end, (one, two) if told and begin == at else ()))
    found += [
        one for one in _per_one(text) if not any(one.start < f.end and f.start < one.end for f in found)
    ]
    return sorted(found, key=lambda one: one.start)


def _per_one(text: ClaimText) -> list[Equal]:
    """'One blade per two air inlets', 'a pair of dampers for each tooth': so many of one beside the other."""
    texts, found = text.texts, list[Equal]()
    for at in sorted(
        (*text.where.get("one", ()), *text.where.get("single", ()), *text.where.get("pair", ()))
    ):
        noun = at + 1 + (texts[at : at + 2] == ["pair", "of"])
        one = noun_from(text, noun)
        joint = noun + width_of(one)
        behind = joint + 1 + (texts[joint : joint + 2] in (["for", "each"], ["for", "every"]))
        if (
            texts[at - 1] == "by"
            or not one
            or not (texts[joint : joint + 1] == ["per"] or behind > joint + 1)
        ):
            continue
        many = behind + (NUMBER_WORDS.get(texts[behind], 0) > 0 if behind < len(texts) else 0)
        two = noun_from(text, many)
        begin = _limited(texts, at - (texts[at - 1] in ("a", "exactly", "precisely")))
        if (
            two
        ):  # 'one tablet per day', 'one hole per cm': so many in what a unit measures, which nothing counts
            nouns = () if find_unit(two) or two == "second" else (_of_several(one), _of_several(two))
            found.append(Equal(begin, many + width_of(two), nouns))
    return found


def _of_several(noun: str) -> str:
    """'Piercing blades' for 'piercing blade'."""
    *rest, last = noun.split()
    return noun if plural(last) else " ".join((*rest, plural_of(last)))


def _limited(texts: list[str], at: int) -> int:
    """Where `at most`, `fewer than` begins before these words, if it does; else where they begin."""
    while at and texts[at - 1] in _LIMITING:
        at -= 1
    return at


_LIMITING = frozenset("no not never more less fewer than at least most about up to only nearly".split())


def _said(texts: list[str], at: int) -> int:
    """Where a noun begins behind its 'of' and its 'the'."""
    at += texts[at : at + 1] == ["of"]
    return at + (texts[at : at + 1] in (["the"], ["said"]))


def counted(works: Sequence[Work], quantities: list[Quantity]) -> None:
    """Finds or declares the numbers of things that are set beside each other."""
    for work in works:
        for one in work.equal:
            names = [_count(noun, quantities, work) for noun in one.nouns]
            if len(names) == 2 and all(names) and names[0] != names[1]:
                work.equals.append((one, ", ".join(names)))
            else:
                work.unread.append((one.start, one.end))


def _count(noun: str, quantities: list[Quantity], work: Work) -> str:
    """The name of the number of these things; '' where something else is called so."""
    said = [stem(word) for word in noun.lower().split()]
    found = [q for q in quantities if [stem(word) for word in q.noun.lower().split()] == said]
    numbers = [q for q in found if q.kind == "count" or q.kind.startswith("part,")]
    taken = {q.name.lower() for q in quantities}
    if not numbers and (noun.lower() in taken or noun.split()[0] in KEPT_WORDS):
        return ""
    if not numbers:
        numbers = [Quantity(noun, "count", noun, noun, [])]
        quantities += numbers
    numbers[0].claims = sorted({*numbers[0].claims, work.claim.number})
    return numbers[0].name
