"""Rules of form for claims that refer to other claims, by profile: warnings at the words that refer."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from scopecheck.foundations.diagnostics import Diagnostic
from scopecheck.foundations.regex import regex
from scopecheck.foundations.spans import Span
from scopecheck.resolve.dependencies import noun_of

ALTERNATIVES = "35 U.S.C. 112(e), MPEP 608.01(n) I [R-01.2024]"
PREVIOUSLY = "35 U.S.C. 112(d), MPEP 608.01(n) I [R-01.2024]"
AS_SUCH = {
    "EPO": "Before the European Patent Office it is compared as the product itself, however it is made"
    " (EPO Guidelines F-IV 4.12).",
    "US": "In examination it is compared as the product, with what its making implies (MPEP 2113).",
}
"""How a product that is told by its making is held against others."""
_MADE_BY = regex(
    r"\b(?:obtained|obtainable|produced|producible|prepared|preparable|made|manufactured|formed|fabricated)"
    r" (?:directly )?(?:by|with|using|through|according to|in)"
    r" (?:(?:the|a|any|said) )?(?:\w+ )?(?:method|process|procedure)\b[^.;]{0,40}$",
    re.IGNORECASE,
)
SUITABLE = {
    "EPO": "Before the European Patent Office it is read as one suitable for that, be it so used or not"
    " (EPO Guidelines F-IV 4.13, which names exceptions).",
    "US": "In examination it is compared by what it is, not by its use (MPEP 2111.02 II, 2114 II).",
}
"""How a thing that is told by what it is for is held against others."""
AS_A_PROCESS = {
    "EPO": "Before the European Patent Office it is compared as a process (EPO Guidelines F-IV 4.16).",
    "US": "MPEP 2173.05(q) looks in such a claim for the steps of the use.",
}
"""How a claim to a use is taken."""
_FOR = regex(
    r"\b(?:for|(?:adapted|arranged|configured|designed|intended|operable|set up|equipped|suitable|suited|able"
    r"|capable|constructed|programmed) (?:to|for|of))\b",
    re.IGNORECASE,
)
_WITH_IT = regex(
    r"\b(?:comprising|comprises|including|includes|containing|contains|having|has|with|wherein|which|that"
    r"|consisting|made|obtain\w*|produced|prepared)\b",
    re.IGNORECASE,
)
"""What makes the other claim a part of the thing, or its origin."""
_DONE = regex(r"\b(?:methods?|process(?:es)?|procedures?)\b", re.IGNORECASE)
_USE = regex(r"\s*(?:(?:the|a) )?uses? of\b", re.IGNORECASE)
_PICKED = regex(r"\b(?:any|one|either)\s+(?:one\s+|or\s+more\s+)?(?:of\s+)?(?:the\s+)?$", re.IGNORECASE)
_WORD_BEFORE = regex(r"\b(?:any|one|either|each)\b", re.IGNORECASE)
_SPAN_OF_CLAIMS = regex(r"\d\s*(?:-|to|through)\s*(?:claims?\s*)?\d", re.IGNORECASE)
_OR = regex(r"\bor\b", re.IGNORECASE)
_AND = regex(r"\band\b", re.IGNORECASE)


def in_the_alternative(before: str, words: str) -> bool:
    """Does a reference to several claims name them in the alternative only?

    `words` is the reference, such as "claims 3 or 4", `before` the text up to it. "Any of claims 1-3 or 7-9"
    and "claims 3 or 4" do; "claims 3 and 4", "claims 1-3" and "claims 1-3 or 7-9" do not.
    "One or more of the preceding claims", a usual form, counts as one of them.
    """
    if _PICKED.search(before) or _WORD_BEFORE.match(words):
        return True
    if _AND.search(words) or _SPAN_OF_CLAIMS.search(words):
        return False
    return bool(_OR.search(words))


def form_warnings(
    profile: str,
    parents: Mapping[int, tuple[int, ...]],
    named: Mapping[int, tuple[str, Span]],
) -> Iterator[Diagnostic]:
    """What the form rules of the profile say of each claim that refers to others.

    `named` has for each such claim its text up to the first reference, and the place of that reference.
    A reference to a later claim is told in every profile; what concerns several claims named, in the US.
    """
    stacked: list[tuple[int, int, Span]] = []
    for number, (before, span) in named.items():
        above = parents.get(number, ())
        later = [p for p in above if p > number]
        if later:
            what = f"claim {number} refers to claim {later[0]}, which comes later"
            cause = f"In the US it refers to claims set forth before it ({PREVIOUSLY})."
            yield Diagnostic(
                "warning", span, what, cause if profile != "EPO" else "", "number the claims so that it does"
            )
        if profile != "EPO" and len(above) > 1:
            yield from _not_alternative(number, before, span, above)
            if multiple := _multiple_above(above, parents):
                stacked.append((number, multiple, span))
    if stacked:
        yield _stacked(stacked)


def told_by_its_making(
    profile: str, parents: Mapping[int, tuple[int, ...]], named: Mapping[int, tuple[str, Span]]
) -> Iterator[Diagnostic]:
    """A warning for each claim to a product `obtainable by the process of claim 1`; `named` as above.

    EPO Guidelines F-IV 4.12; MPEP 2113.
    """
    office = "EPO" if profile == "EPO" else "US"
    for number, (before, span) in named.items():
        if _MADE_BY.search(" ".join(before.split())):
            yield Diagnostic(
                "warning", span, f"claim {number} tells its product by how it is made",
                f"Here all limits of {_claims(parents.get(number, ()))} are taken over. {AS_SUCH[office]}",
                "to see what it reaches without them, restate the product in a claim of its own",
            )  # fmt: skip


def told_by_its_purpose(
    profile: str, parents: Mapping[int, tuple[int, ...]], named: Mapping[int, tuple[str, Span]]
) -> Iterator[Diagnostic]:
    """A warning for each claim to a thing `for carrying out the method of claim 1`, and to a use.

    `named` has, as above, the claims that are of another category than those they name. EPO Guidelines F-IV
    4.13 and 4.16; MPEP 2111.02, 2114 and 2173.05(q).
    """
    office = "EPO" if profile == "EPO" else "US"
    for number, (before, span) in named.items():
        above = _claims(parents.get(number, ()))
        if _USE.match(before):
            yield Diagnostic(
                "warning", span, f"claim {number} is for a use of what {above} claims",
                f"Here all limits of {above} are taken over, of what is used. {AS_A_PROCESS[office]}",
                "restate what the use itself asks for below it",
            )  # fmt: skip
            continue
        purposes = list(_FOR.finditer(before))
        if not purposes or _DONE.search(before[: purposes[0].start()]):
            continue
        if not _WITH_IT.search(before, purposes[-1].end()):
            thing = noun_of(before[: purposes[0].start()]).lower() or "thing"
            yield Diagnostic(
                "warning", span, f"claim {number} tells its {thing} by what it is for",
                f"Here all limits of {above} are taken over, even of how it is used. {SUITABLE[office]}",
                f"to see what it reaches without them, restate what limits the {thing} in a claim of its own",
            )  # fmt: skip


def _claims(numbers: tuple[int, ...]) -> str:
    return f"claim {numbers[0]}" if len(numbers) == 1 else f"claims {_and([str(n) for n in numbers])}"


def _not_alternative(number: int, before: str, span: Span, above: tuple[int, ...]) -> Iterator[Diagnostic]:
    if not in_the_alternative(before, span.text):
        yield Diagnostic(
            "warning",
            span,
            f"claim {number} names several claims, and not in the alternative only",
            f"In the US it names them in the alternative only ({ALTERNATIVES}). Each is handled by itself.",
            f"write {_alternatives(above)}",
        )


def _stacked(found: list[tuple[int, int, Span]]) -> Diagnostic:
    """The claims that name several claims on top of one that does, in one warning."""
    number, multiple, span = found[0]
    cause = f"The US rule asks that such a claim names no other one of its kind ({ALTERNATIVES})."
    told = f"claim {number} names several claims and depends on claim {multiple}, which names several too"
    help = f"leave out claim {multiple}, or write the claim once for each"
    if len(found) > 1:
        numbers = [str(n) for n, _, _ in found]
        told += f"; so {'does claim' if len(found) == 2 else 'do claims'} {_and(numbers[1:])}"
        help = "leave out the claims that name several, or write each claim once for each of its parents"
    return Diagnostic("warning", span, told, cause, help)


def _and(numbers: list[str]) -> str:
    return " and ".join([", ".join(numbers[:-1]), numbers[-1]] if len(numbers) > 1 else numbers)


def _alternatives(numbers: tuple[int, ...]) -> str:
    if len(numbers) == 2:
        return f"'claim {numbers[0]} or {numbers[1]}'"
    return f"'any one of claims {', '.join(map(str, numbers[:-1]))} and {numbers[-1]}'"


def _multiple_above(numbers: tuple[int, ...], parents: Mapping[int, tuple[int, ...]]) -> int:
    """The first claim among these and those they depend on that names several claims itself; 0 if none."""
    waiting, seen = list(numbers), set()
    while waiting:
        number = waiting.pop(0)
        if number not in seen:
            seen.add(number)
            if len(parents.get(number, ())) > 1:
                return number
            waiting += parents.get(number, ())
    return 0
