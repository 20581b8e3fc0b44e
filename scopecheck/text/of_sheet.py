"""The claims of a sheet for the words alone, with what its user answered once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from scopecheck.foundations.diagnostics import Diagnostic, Trouble
from scopecheck.foundations.record import record
from scopecheck.foundations.spans import Source
from scopecheck.language.layout import Page, blocks
from scopecheck.language.pieces import Desk, after_word, one_line
from scopecheck.language.statements_claims import claim_pieces
from scopecheck.language.statements_text import answered, nouns
from scopecheck.language.syntax import AnsweredStatement, NounsStatement
from scopecheck.resolve.claim_text import ClaimText
from scopecheck.text.claim_set import Known
from scopecheck.text.flags import Flag
from scopecheck.text.shown import flags
from scopecheck.text.stream import stem


@record
class Shown:
    """What the words show and no answer settles; what answers settle; answers about no words any more."""

    open: tuple[Flag, ...]
    answered: tuple[tuple[Flag, AnsweredStatement], ...] = ()
    idle: tuple[AnsweredStatement, ...] = ()


def shown_of_sheet(source: Source) -> tuple[Shown, int, tuple[Diagnostic, ...]]:
    """What the words of a sheet's claims show, beside its answers; how many claims; mistakes in the answers.

    Only the claims' text and the statements about it are read: the lines beside it need not be right.
    """
    desk = Desk(Page(source))
    texts: dict[int, ClaimText] = {}
    profile, answers, nouns_said = "US", list[AnsweredStatement](), list[NounsStatement]()
    for block in blocks(desk.page)[0]:
        try:
            if block.heading == "claim":
                number, pieces = claim_pieces(desk, block)
                texts.setdefault(number, ClaimText.of(pieces))
            elif block.heading == "profile":
                profile = one_line(desk.text[after_word(desk.text, "profile", block.head) : block.head.end])
            elif block.heading == "answered":
                answers.append(answered(desk, block))
            elif block.heading in ("alike", "inherent"):
                nouns_said.append(nouns(desk, block))
        except Trouble as error:
            desk.diagnostics.append(error.diagnostic)
    found = flags(texts, profile.upper(), known_nouns(nouns_said))
    return settled(found, answers), len(texts), tuple(desk.diagnostics)


def known_nouns(statements: Iterable[NounsStatement]) -> Known:
    """The nouns that the sheet calls alike, and those that it calls inherent, by their heads."""
    alike: dict[str, frozenset[str]] = {}
    inherent: set[str] = set()
    for statement in statements:
        heads = frozenset(stem(noun.split()[-1]) for noun in statement.nouns)
        if statement.heading == "inherent":
            inherent |= heads
            continue
        for head in sorted(heads):
            alike[head] = alike.get(head, frozenset()) | heads
    return Known(alike, frozenset(inherent))


def settled(found: Sequence[Flag], answers: Sequence[AnsweredStatement]) -> Shown:
    """Each flag with the answer that is about its words, if one is."""
    pairs = [(flag, next((a for a in answers if _about(a, flag)), None)) for flag in found]
    idle = tuple(a for a in answers if not any(a is by for _, by in pairs))
    return Shown(
        tuple(flag for flag, by in pairs if by is None),
        tuple((flag, by) for flag, by in pairs if by is not None),
        idle,
    )


def _about(answer: AnsweredStatement, flag: Flag) -> bool:
    same = " ".join(answer.words.lower().split()) == " ".join(flag.words.lower().split())
    return same and answer.claim in (None, flag.claim)
