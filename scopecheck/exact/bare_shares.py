"""A share on no basis, a bare %, beside a share by mass, volume or mole: what is said, what to write."""

from __future__ import annotations

from collections.abc import Mapping

from scopecheck.core.formula import Measured
from scopecheck.foundations.diagnostics import Diagnostic, KindTrouble, Trouble, trouble
from scopecheck.foundations.quantity import PLAIN_KIND, Kind, Unit
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.vocabulary.names import Bound, Typed

NO_BASIS = "A bare % says neither by mass, by volume or by mole nor of what."
_OTHERWISE = "if no claim says by what, declare the shares in %, or a term with a reading for each basis"
PERCENT = {"by mass": "wt%", "by volume": "vol%", "by mole": "mol%", "by atom": "at%"}
"""The per cent on each basis."""
_BARE = regex(r"(?<![\w/])(?:%|per ?cent\b)")
_PERCENT = regex(r"%|per ?cent\b")
_WORD = regex(r"[A-Za-z]+")


_OF_WHAT = regex(r"(?:%|per ?cent|\d parts) (?:of|on|in) (?:the|a|an|its|said|all) ")
"""Words that say percent, or parts, of what."""
_BY_WHAT = "whether the share is by mass, by volume or by mole"


class BareShareTrouble(KindTrouble):
    """A bare % beside a share on a basis. `name` is '' where that share is no single declared thing."""

    def __init__(self, span: Span, number: str, name: str, kind: Kind, unit: Unit | None) -> None:
        self.number, self.kind, self.unit = number, kind, unit
        self.percent = PERCENT[kind.split[0]]
        message = (
            f"{number} % is a share on no basis, and {name or 'beside it stands'} a {kind.name},"
            f" in {unit.symbol if unit else self.percent}; nothing here converts one into the other"
        )
        help = f"write {number} {self.percent} if that is meant, or declare the shares in %"
        super().__init__(Diagnostic("error", span, message, NO_BASIS, help))

    def beside_words(
        self, words: Span, formula: str, slots: Mapping[str, Bound], shown: str, claim: bool
    ) -> Trouble:
        """The trouble of words: in a claim, with the formula in this basis, if numbers alone fill it."""
        numbers = {k: b.number for k, b in slots.items() if isinstance(b, Typed) and b.number}
        filled = {k: f"{number.text} {self.percent}" for k, number in numbers.items()} | {"x": shown}
        exact = formula if set(_WORD.findall(formula)) <= set(filled) else "..."
        exact = _WORD.sub(lambda word: filled[word.group()], exact)
        help = f"if {self.percent} is meant, write behind the words: two blanks, exactly {exact}"
        if not claim:
            help = f"write {_BARE.sub(self.percent, words.text)} if that is meant"
        own = BareShareTrouble(words, self.number, shown, self.kind, self.unit)
        return trouble(words, own.diagnostic.message, NO_BASIS, f"{help}; {_OTHERWISE}")


def read_as_declared(words: Span, share: Bound) -> Diagnostic:
    """The warning that a bare %, or ppm, is read on the basis on which the share is declared."""
    kind = share.kind if isinstance(share, Typed) else None
    basis = kind.split[0] if kind else ""
    percent = PERCENT.get(basis, "")
    if _OF_WHAT.search(words.text):
        return Diagnostic(
            "warning", words, f"these words do not say {_BY_WHAT}: read as {percent}, as declared", "",
            f"if the claim means {percent}, let it say so; {_OTHERWISE}",
        )  # fmt: skip
    if _PERCENT.search(words.text):
        said, why = "percent of what", NO_BASIS
    else:
        said, percent = "by what the parts are counted", f"parts {basis}"
        why = "Bare parts per million may be by mass, by volume or by mole."
    return Diagnostic(
        "warning", words, f"these words do not say {said}: read as {percent}, as declared", why,
        f"if the claim means {percent}, let it say so; {_OTHERWISE}",
    )  # fmt: skip


def bare_share(span: Span, a: Typed, b: Typed) -> BareShareTrouble | None:
    """The trouble if one value is a number in a bare % and the other a share on a basis; else None."""
    for bare, share in ((a, b), (b, a)):
        if share.kind is None or share.kind.dimension or share.kind.split[0] not in PERCENT:
            continue
        if bare.number and bare.kind == PLAIN_KIND and bare.unit and bare.unit.symbol == "%":
            name = share.term.name if isinstance(share.term, Measured) else ""
            return BareShareTrouble(span, bare.number.text, name, share.kind, share.unit)
    return None
