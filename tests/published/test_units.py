"""The unit table against two sources: the library pint (exact), and printed factors (to the digits printed).

Tags: `read` the text itself was seen; `read (secondary)` seen as quoted elsewhere; `memory` not seen.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pint
import pytest

from scopecheck.foundations.kinds import unit_table
from scopecheck.foundations.quantity import as_difference, find_unit, known_symbols

REGISTRY = pint.UnitRegistry(non_int_type=Fraction)

BASE = {
    "length": "meter",
    "mass": "kilogram",
    "time": "second",
    "temperature": "kelvin",
    "current": "ampere",
    "amount": "mole",
    "intensity": "candela",
    "flux": "lumen",
    "angle": "degree",
    "data": "bit",
}

# Where pint spells a unit otherwise; every other symbol is pint's own.
PINT = {
    "mil": "thou",
    "gal": "US_liquid_gallon",
    "oz": "avoirdupois_ounce",
    "t": "metric_ton",
    "rev": "revolution",
    "ha": "hectare",
    "deg": "degree",
    "arcmin": "arcminute",
    "arcsec": "arcsecond",
    "kB": "kilobyte",
    "MB": "megabyte",
    "GB": "gigabyte",
    "TB": "terabyte",
    "kiB": "kibibyte",
    "MiB": "mebibyte",
    "GiB": "gibibyte",
    "kbit": "kilobit",
    "Mbit": "megabit",
    "Gbit": "gigabit",
    "mmH2O": "centimeter_H2O / 10",
    "gsm": "gram / meter ** 2",
    "den": "denier",
    "cal": "thermochemical_calorie",
    "kcal": "kilothermochemical_calorie",
    "Ah": "ampere * hour",
    "mAh": "milliampere * hour",
    "kAh": "kiloampere * hour",
    "cd": "candela",
    "mcd": "millicandela",
    "P": "poise",
    "mP": "millipoise",
    "cP": "centipoise",
    "atm": "standard_atmosphere",
}
# Read as molar mass here, a mass in pint: see test_dalton. Scales of the trade convert into nothing.
ELSEWHERE = {"Da", "kDa", "MDa", "HRC", "HRB", "HV", "HB", "IU", "Brix", "dB", "dBA", "dBm", "dBi"}
ELSEWHERE |= {"mgKOH", "dH"}


def pint_factor(spelled: str, symbol: str) -> Fraction:
    unit = find_unit(symbol)
    assert unit is not None
    base = " * ".join(f"{BASE[name]} ** {power}" for name, power in unit.kind.dimension)
    magnitude = REGISTRY.parse_expression(spelled).to(base or "dimensionless").magnitude
    assert isinstance(magnitude, Fraction | int), "pint must stay exact"
    return Fraction(magnitude)


@pytest.mark.parametrize("symbol", [s for s in unit_table().factors if s not in ELSEWHERE])
def test_every_factor_is_that_of_pint(symbol: str) -> None:
    """Source: pint 0.25, default registry, exact fractions. Tag: read."""
    unit = find_unit(symbol)
    assert unit is not None
    assert unit.factor == pint_factor(PINT.get(symbol, symbol), symbol)


@pytest.mark.parametrize("symbol", list(unit_table().levels))
@pytest.mark.parametrize("number", ["-40", "0", "50", "451.5"])
def test_temperature_levels_are_those_of_pint(symbol: str, number: str) -> None:
    """Source: pint 0.25, offset units. Tag: read."""
    unit = find_unit(symbol)
    assert unit is not None
    value = Fraction(number)
    assert unit.to_base(value) == REGISTRY.Quantity(value, symbol).to("kelvin").magnitude
    assert (
        as_difference(unit).to_base(value)
        == REGISTRY.Quantity(value, f"delta_{symbol}").to("kelvin").magnitude
    )


SHARES = {
    **dict.fromkeys(("%", "percentage points", "wt%", "vol%", "mol%", "at%", "w/v%"), "percent"),
    **dict.fromkeys(("ppm(m)", "ppm(v)", "ppm(mol)"), "ppm"),
    **dict.fromkeys(("ppb(m)", "ppb(v)", "ppb(mol)"), "ppm / 1000"),
    "permille": "permille",
}


@pytest.mark.parametrize(("symbol", "spelled"), SHARES.items())
def test_share_factors(symbol: str, spelled: str) -> None:
    """Source: pint 0.25 for percent, permille and ppm; the bases are ours. Tag: read."""
    unit = find_unit(symbol)
    assert unit is not None
    assert unit.factor == pint_factor(spelled, symbol)


def test_every_symbol_is_held_against_something() -> None:
    table = unit_table()
    assert set(known_symbols()) == {*table.factors, *table.levels, *table.shares}
    assert set(table.shares) == set(SHARES)


def test_dalton_is_a_gram_per_mole_within_the_measured_mass() -> None:
    """A dalton as a mass, times the exact Avogadro number, is 1 g/mol to about one part in 10^9.

    Source: pint 0.25, constants of CODATA. Tag: read.
    """
    unit = find_unit("Da")
    assert unit is not None
    mass = Fraction(REGISTRY.Quantity(Fraction(1), "dalton").to("kilogram").magnitude)
    molar = mass * Fraction("6.02214076e23")
    assert abs(molar / unit.factor - 1) < Fraction(1, 10**8)
    assert molar != unit.factor


@pytest.mark.parametrize(
    ("text", "spelled"),
    [
        ("g/cm3", "gram / centimeter ** 3"),
        ("W/(m.K)", "watt / meter / kelvin"),
        ("lb/ft3", "pound / foot ** 3"),
        ("mPa.s", "millipascal * second"),
        ("mm2/s", "millimeter ** 2 / second"),
        ("kgf/cm2", "kilogram_force / centimeter ** 2"),
        ("kJ/(kg.K)", "kilojoule / kilogram / kelvin"),
        ("mile/h", "mile / hour"),
        ("N.m", "newton * meter"),
        ("s^-1", "1 / second"),
        ("V.A", "volt * ampere"),
        ("Mbit/s", "megabit / second"),
        ("dyn/cm", "dyne / centimeter"),
        ("lm/W", "lumen / watt"),
        ("lm/m2", "lux"),
        ("gal/min", "US_liquid_gallon / minute"),
        ("g/100 ml", "gram / (100 * milliliter)"),
        ("mg per 100 g", "milligram / (100 * gram)"),
        ("kcal/100 g", "kilocalorie / (100 * gram)"),
    ],
)
def test_compound_units(text: str, spelled: str) -> None:
    """Source: pint 0.25. Tag: read."""
    unit = find_unit(text)
    assert unit is not None
    assert unit.factor == pint_factor(spelled, text)


# NIST Special Publication 811 (2008), appendix B: factors to SI units as printed.
B_TEXT = "NIST SP 811, appendix B, introduction; tag: read"
B8 = "NIST SP 811, B.8; tag: memory"
B8_QUOTED = "NIST SP 811, B.8, as quoted in a unit library's tables to 6 digits; tag: read (secondary)"
PRINTED = [
    ("atm", "1.01325E+05", B_TEXT),
    ("ft3/s", "2.831685E-02", B_TEXT),
    ("lb", "4.535924E-01", B_TEXT),
    ("ft", "3.048E-01", B_TEXT),
    ("lb.ft/s", "1.382550E-01", B_TEXT),
    ("psi", "6.89476E+03", B8_QUOTED),
    ("kpsi", "6.89476E+06", B8_QUOTED),
    ("mil", "2.54E-05", B8_QUOTED),
    ("yd", "9.144E-01", B8_QUOTED),
    ("oz", "2.83495E-02", B8_QUOTED),
    ("inHg", "3.38639E+03", B8_QUOTED),
    ("mile/h", "4.4704E-01", B8_QUOTED),
    ("ft/min", "5.08E-03", B8_QUOTED),
    ("psi", "6.894757E+03", B8),
    ("inch", "2.54E-02", B8),
    ("mile", "1.609344E+03", B8),
    ("gal", "3.785412E-03", B8),
    ("lbf", "4.448222E+00", B8),
    ("kgf", "9.80665E+00", B8),
    ("dyn", "1.0E-05", B8),
    ("torr", "1.333224E+02", B8),
    ("mmHg", "1.333224E+02", B8),
    ("cmH2O", "9.80665E+01", B8),
    ("bar", "1.0E+05", B8),
    ("cal", "4.184E+00", B8),
    ("kWh", "3.6E+06", B8),
    ("cP", "1.0E-03", B8),
    ("cSt", "1.0E-06", B8),
    ("tex", "1.0E-06", B8),
    ("den", "1.111111E-07", B8),
    ("angstrom", "1.0E-10", B8),
    ("lb/ft3", "1.601846E+01", B8),
]


@pytest.mark.parametrize(("text", "printed", "source"), PRINTED)
def test_printed_factors(text: str, printed: str, source: str) -> None:
    """The exact factor rounds to the printed one at the place of its last digit."""
    unit = find_unit(text)
    assert unit is not None, source
    exponent = Decimal(printed).as_tuple().exponent
    assert isinstance(exponent, int)
    last = Fraction(10) ** exponent
    assert round(unit.factor / last) * last == Fraction(printed), source


def test_36_feet() -> None:
    """36 ft = 10.9728 m, before rounding. Source: NIST SP 811, B.7.2. Tag: read."""
    feet, metre = find_unit("ft"), find_unit("m")
    assert feet is not None
    assert metre is not None
    assert metre.from_base(feet.to_base(Fraction(36))) == Fraction("10.9728")


@pytest.mark.parametrize(
    ("fahrenheit", "celsius"),
    [("50", "10"), ("32", "0"), ("212", "100"), ("-40", "-40"), ("-459.67", "-273.15")],
)
def test_a_fahrenheit_level(fahrenheit: str, celsius: str) -> None:
    """t/degC = (t/degF - 32) / 1.8. Source: NIST SP 811, B.8. Tag: read (secondary)."""
    from_unit, to_unit = find_unit("degF"), find_unit("degC")
    assert from_unit is not None
    assert to_unit is not None
    assert to_unit.from_base(from_unit.to_base(Fraction(fahrenheit))) == Fraction(celsius)


def test_a_fahrenheit_interval() -> None:
    """18 degF of difference are 10 K (5.555556E-01 each). Source: NIST SP 811, B.8. Tag: read (secondary)."""
    interval = find_unit("degF(diff)")
    assert interval is not None
    assert interval.offset == 0
    assert interval.to_base(Fraction(18)) == 10
    assert abs(interval.factor - Fraction("0.5555556")) < Fraction(1, 10**7)


def test_torr_and_conventional_millimetre_of_mercury_differ() -> None:
    """1 torr = 101325/760 Pa; 1 mmHg = 13595.1 * 9.80665 / 1000 Pa. Source: NIST SP 811, B.8. Tag: memory."""
    torr, mercury = find_unit("torr"), find_unit("mmHg")
    assert torr is not None
    assert mercury is not None
    assert torr.factor == Fraction(101325, 760)
    assert mercury.factor == Fraction("13595.1") * Fraction("9.80665") / 1000
    assert torr.factor != mercury.factor
