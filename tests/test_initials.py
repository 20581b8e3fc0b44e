"""What a claim calls in full and the sheet by initials, or the other way round."""

from __future__ import annotations

import pytest

from scopecheck.foundations.spans import Source
from scopecheck.resolve.sheet import read_sheet


def warned(declared: str, said: str) -> list[str] | None:
    """The messages about the words, without those on what is not restated; None if they are refused."""
    name = declared.partition("  ")[0]
    text = f"profile  US\n{declared}\n\n1. A device, wherein {said}.\n   | {name} : {said}\n"
    read, diagnostics = read_sheet(Source("sheet", text))
    return [d.message for d in diagnostics if "not restated" not in d.message] if read else None


@pytest.mark.parametrize(
    ("declared", "said"),
    [
        ("SNR  number", "a signal-to-noise ratio of at least 10"),
        ("SNR  number", "a signal to noise ratio (SNR) of at least 10"),
        ("signal to noise ratio  number", "an SNR of at least 10"),
        ("DOD  share in %", "a depth of discharge of at most 80 %"),
        ("DoD  share in %", "the depth of discharge is at most 80 %"),
        ("depth of discharge  share in %", "the DOD is at most 80 %"),
        ("RH  share in %", "a relative humidity of at most 60 %"),
        ("ID  length in mm", "the inner diameter is at most 6 mm"),
    ],
)
def test_initials_and_what_they_stand_for_are_one_name(declared: str, said: str) -> None:
    assert warned(declared, said) == []


@pytest.mark.parametrize(
    ("declared", "said"),
    [
        ("SNR  number", "a sound-to-noise level of at least 10"),
        ("ID  length in mm\nlast  number", "the outer diameter is at most 6 mm"),
        ("SNR  number", "a mean signal-to-noise ratio of at least 10"),
        ("snr  number", "a signal-to-noise ratio of at least 10"),
        ("signal to noise ratio  number", "a BER of at least 10"),
    ],
)
def test_other_words_are_told_or_refused_as_before(declared: str, said: str) -> None:
    assert warned(declared, said) != []


def test_what_two_names_may_stand_for_is_neither() -> None:
    """`DC` may be the duty cycle or the drain current here."""
    two = "duty cycle  share in %\ndrain current  current in mA"
    assert warned(two, "the DC is at most 60 %") != []
