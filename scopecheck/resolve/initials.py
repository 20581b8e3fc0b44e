"""What the claims call in full and the sheet by initials, or the other way round: a note that nobody wrote.

`SNR` is the signal-to-noise ratio of a claim that recites one, a declared `signal to noise ratio` is its SNR.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from scopecheck.foundations.record import replace
from scopecheck.foundations.regex import regex
from scopecheck.language.syntax import Declare

_SMALL = ("of", "to", "and", "per", "in")
_LED = r"\b(?:an?|the|said|its|each)[ \n]+"
_INITIALS = regex(r"(?=.*[A-Z].*[A-Z])[A-Za-z]{2,6}")


def noted(declared: Sequence[Declare], text: str) -> list[Declare]:
    """The declarations, those without a note with what the text of the claims calls them besides.

    What would be said of two of them is said of none.
    """
    own = {name.name for one in declared for name in one.names}
    called = [_called(one, text) if not one.note else "" for one in declared]
    alone = [c if called.count(c) == 1 and c not in own else "" for c in called]
    return [replace(one, note=c) if c else one for one, c in zip(declared, alone, strict=True)]


def _called(declared: Declare, text: str) -> str:
    """The words, or the initials, that the text has for what is declared; '' if it has none."""
    if len(declared.names) != 1:
        return ""
    name = declared.names[0].name
    return _in_full(name, text) if _INITIALS.fullmatch(name) else _in_short(name, text)


def _in_full(name: str, text: str) -> str:
    """`signal-to-noise ratio` of an `SNR`, behind an article or before the name in brackets."""
    small = rf"(?:(?:{'|'.join(_SMALL)})[ \n-]+)?"
    words = rf"[ \n-]+{small}".join(rf"{letter}[a-z]+" for letter in name)
    found = re.search(rf"{_LED}({words})\b|\b({words})[ \n]+\({name}\)", text, re.IGNORECASE)
    return " ".join((found[1] or found[2]).split()) if found else ""


def _in_short(name: str, text: str) -> str:
    """`SNR` of a `signal to noise ratio`, behind an article and before what is said of it."""
    words = re.findall(r"[a-z]+", name.lower())
    if len(words) < 2:
        return ""
    short = "".join(w[0] for w in words if w not in _SMALL).upper()
    forms = {short, "".join(w[0] for w in words).upper()}
    if not any(form in text for form in forms):
        return ""
    found = re.search(rf"{_LED}({'|'.join(sorted(forms))})[ \n]+(?:of|is|being|between|from)\b", text)
    return found[1] if found and len(found[1]) > 1 else ""
