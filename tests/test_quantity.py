"""Kinds, unit texts, number texts."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scopecheck.foundations.kinds import unit_table
from scopecheck.foundations.quantity import (
    PLAIN,
    PLAIN_KIND,
    Kind,
    KindError,
    Unit,
    UnitError,
    as_difference,
    as_level,
    comparable,
    decimal_text,
    define_unit,
    difference_kind,
    explain_unit,
    find_unit,
    kind_word,
    kind_words,
    known_symbols,
    nearest_units,
    number_text,
    power_kind,
    product_kind,
    quotient_kind,
    sum_kind,
)

Refusal = tuple[Callable[[Kind, Kind], Kind], Kind, Kind]


def unit(text: str) -> Unit:
    found = find_unit(text)
    assert found is not None, text
    return found


def kind(text: str) -> Kind:
    return unit(text).kind


# ---- what a text spells


@pytest.mark.parametrize(
    ("text", "symbol", "name", "factor"),
    [
        ("mm", "mm", "length", "1/1000"),
        ("µm", "µm", "length", "1/1000000"),
        ("\u03bcm", "µm", "length", "1/1000000"),
        ("Å", "angstrom", "length", "1/10000000000"),
        ("m^2", "m2", "area", "1"),
        ("m²", "m2", "area", "1"),
        ("cm3", "cm3", "volume", "1/1000000"),
        ("kg/m³", "kg/m3", "mass / volume", "1"),
        ("g/cm3", "g/cm3", "mass / volume", "1000"),
        ("g/cc", "g/cm3", "mass / volume", "1000"),
        ("mg/ml", "mg/mL", "mass / volume", "1"),
        ("m/s", "m/s", "length / time", "1"),
        ("km/h", "km/h", "length / time", "5/18"),
        ("s⁻¹", "s^-1", "frequency", "1"),
        ("1/min", "1/min", "frequency", "1/60"),
        ("rpm", "rpm", "rotational speed", "6"),
        ("mPa·s", "mPa.s", "dynamic viscosity", "1/1000"),
        ("mm2/s", "mm2/s", "kinematic viscosity", "1/1000000"),
        ("W/(m·K)", "W/(m.K)", "thermal conductivity", "1"),
        ("W/m/K", "W/m/K", "thermal conductivity", "1"),
        ("°C/min", "degC/min", "temperature / time", "1/60"),
        ("degF/h", "degF/h", "temperature / time", "1/6480"),
        ("kΩ", "kohm", "resistance", "1000"),
        ("°", "deg", "angle", "1"),
        ("g/mol", "g/mol", "molar mass", "1/1000"),
        ("kDa", "kDa", "molar mass", "1"),
        ("mol/L", "mol/L", "amount / volume", "1000"),
        ("mM", "mM", "amount / volume", "1"),
        ("kiB", "kiB", "data", "8192"),
        ("KiB", "kiB", "data", "8192"),
        ("kB", "kB", "data", "8000"),
        ("mg/kg", "mg/kg", "share by mass", "1/1000000"),
        ("mL/L", "mL/L", "share by volume", "1/1000"),
        ("cm3/m3", "cm3/m3", "share by volume", "1/1000000"),
        ("mmol/mol", "mmol/mol", "share by mole", "1/1000"),
        ("mm/m", "mm/m", "plain number", "1/1000"),
        ("%", "%", "plain number", "1/100"),
        ("wt.-%", "wt%", "share by mass", "1/100"),
        ("% by volume", "vol%", "share by volume", "1/100"),
        ("at%", "at%", "share by atom", "1/100"),
        ("w/v%", "w/v%", "share by mass per volume", "1/100"),
        ("ppm by mass", "ppm(m)", "share by mass", "1/1000000"),
        ("ppb(mol)", "ppb(mol)", "share by mole", "1/1000000000"),
        ("psig", "psi(g)", "gauge pressure", "8896443230521/1290320000"),
        ("bar(a)", "bar(a)", "absolute pressure", "100000"),
        ("hours", "h", "time", "3600"),
        ("% w/w", "wt%", "share by mass", "1/100"),
        ("%-wt", "wt%", "share by mass", "1/100"),
        ("%-by-weight", "wt%", "share by mass", "1/100"),
        ("% (w/w)", "wt%", "share by mass", "1/100"),
        ("weight percent", "wt%", "share by mass", "1/100"),
        ("per cent by volume", "vol%", "share by volume", "1/100"),
        ("mol.%", "mol%", "share by mole", "1/100"),
        ("% (w/v)", "w/v%", "share by mass per volume", "1/100"),
        ("g per square metre", "g/m2", "mass / area", "1/1000"),
        ("metres per second", "m/s", "length / time", "1"),
        ("cubic metres per hour", "m3/h", "length^3 / time", "1/3600"),
        ("per square centimetre", "1/cm2", "1 / length^2", "10000"),
        ("newton metres", "N.m", "energy", "1"),
    ],
)
def test_texts_and_their_plain_spelling(text: str, symbol: str, name: str, factor: str) -> None:
    found = unit(text)
    assert (found.symbol, found.kind.name, found.factor) == (symbol, name, Fraction(factor))
    assert found.offset == 0
    assert find_unit(found.symbol) == found


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "Mm",
        "MM",
        "kK",
        "in",
        "at",
        "a",
        "as",
        "to",
        "ppm",
        "pH",
        "rad",
        "C",
        "month",
        "year",
        "ton",
        "W/m.K",
        "m/",
        "/s",
        "m//s",
        ".m",
        "m.",
        "m^0",
        "m^0.5",
        "m1",
        "m12",
        "m-1",
        "kg-1",
        "m*s",
        "m m",
        "5mm",
        "bar(g)/min",
        "wt%/h",
        "m(g)",
        "bar(x)",
        "J/(kg.K",
        "J/kg.K)",
        "J/(kg/K)",
        "()",
        "(m)",
        "″",
        "stroke",
        "% weight",
        "% at",
        "% by weight.",
        "second",
        "per se",
        "square",
    ],
)
def test_what_is_no_unit(text: str) -> None:
    assert find_unit(text) is None


def test_every_symbol_is_found_under_its_own_name() -> None:
    symbols = known_symbols()
    assert len(symbols) == len(set(symbols)) > 190
    for symbol in symbols:
        assert unit(symbol).symbol == symbol


def test_no_unit_is_a_word_of_the_language() -> None:
    """`A` is the ampere; case matters, and `a` is refused."""
    table = unit_table()
    words = table.function_words
    assert {"in", "at", "a", "as", "to", "of", "or", "and"} <= words
    assert [s for s in (*known_symbols(), *table.aliases) if s in words] == []


def test_aliases_lead_to_units_and_refusals_offer_units() -> None:
    table = unit_table()
    for alias, target in table.aliases.items():
        assert find_unit(target) is not None, alias
        assert alias not in table.factors, alias
    for word, (_, *instead) in table.refused.items():
        assert find_unit(word) is None, word
        assert [i for i in instead if find_unit(i) is None] == [], word


def test_a_prefix_is_accepted_only_where_listed() -> None:
    assert find_unit("kN")
    assert find_unit("mN")
    assert find_unit("kbar")
    for text in ("kmin", "mh", "kinch", "kg2g", "mrpm", "kdeg", "mpsi", "MM", "kkg"):
        assert find_unit(text) is None, text


# ---- temperatures and pressures


def test_a_level_and_a_difference_of_one_temperature_unit() -> None:
    level = unit("°C")
    assert level.kind == Kind((("temperature", 1),), "level")
    assert level.kind.point
    assert level.to_base(Fraction(0)) == Fraction(27315, 100)
    assert as_difference(unit("degF")) == unit("degF(diff)")
    assert as_level(unit("degF(diff)")) == unit("degF")
    assert unit("K").kind.name == "temperature difference"
    assert not unit("K").kind.point
    kelvin = find_unit("K", level=True)
    assert kelvin is not None
    assert kelvin == as_level(unit("K"))
    assert kelvin.symbol == "K"
    comparable(kelvin.kind, level.kind)
    assert find_unit("degC", level=True) == level
    assert find_unit("mm", level=True) == unit("mm")


def test_only_temperatures_have_levels() -> None:
    for convert in (as_level, as_difference):
        with pytest.raises(KindError, match="length"):
            convert(unit("mm"))


def test_sums_and_differences_of_points() -> None:
    level, step = kind("degC"), kind("K")
    assert sum_kind(level, step) == sum_kind(step, level) == level
    assert difference_kind(level, level) == step
    assert difference_kind(level, step) == level
    refusals: list[Refusal] = [(sum_kind, level, level), (difference_kind, step, level)]
    for refused, one, other in refusals:
        with pytest.raises(KindError, match="temperature level"):
            refused(one, other)
    for operation in (product_kind, quotient_kind):
        with pytest.raises(KindError, match="point on a scale"):
            operation(level, PLAIN_KIND)
    with pytest.raises(KindError, match="temperature level and temperature difference cannot be compared"):
        comparable(level, step)


def test_gauge_absolute_and_unstated_pressure() -> None:
    gauge, absolute, unstated = kind("bar(g)"), kind("bar(a)"), kind("bar")
    assert gauge.point
    assert not absolute.point
    assert sum_kind(gauge, unstated) == gauge
    assert sum_kind(absolute, unstated) == absolute == sum_kind(absolute, absolute)
    assert difference_kind(gauge, gauge) == unstated == difference_kind(absolute, absolute)
    assert product_kind(absolute, PLAIN_KIND) == absolute
    assert product_kind(absolute, kind("mol%")) == absolute
    assert product_kind(absolute, kind("m2")).name == "force"
    assert quotient_kind(absolute, absolute) == PLAIN_KIND
    for pair in ((gauge, absolute), (gauge, unstated), (absolute, unstated)):
        with pytest.raises(KindError, match=r"pressure and .*pressure cannot be compared"):
            comparable(*pair)
    refusals: list[Refusal] = [
        (sum_kind, gauge, gauge),
        (sum_kind, gauge, absolute),
    ]
    for refused, one, other in refusals:
        with pytest.raises(KindError, match="gauge pressure"):
            refused(one, other)
    with pytest.raises(KindError, match="gauge pressure"):
        power_kind(gauge, 2)


# ---- shares


def test_a_basis_is_a_kind() -> None:
    mass, volume, plain = kind("wt%"), kind("vol%"), kind("%")
    assert plain == PLAIN_KIND == PLAIN.kind
    comparable(mass, kind("ppm(m)"))
    comparable(mass, kind("mg/kg"))
    for other in (volume, plain, kind("mol%"), kind("w/v%")):
        with pytest.raises(KindError, match="share by mass"):
            comparable(mass, other)
        with pytest.raises(KindError):
            sum_kind(mass, other)


def test_shares_of_named_wholes() -> None:
    of_wax = kind("wt%").of("wax")
    assert of_wax.name == "share by mass of wax"
    assert of_wax.split == ("by mass", "wax")
    assert kind("%").of("wax").name == "share of wax"
    assert kind("wt%").of("end of line").split == ("by mass", "end of line")
    assert of_wax.of("resin") == kind("wt%").of("resin")
    comparable(of_wax, kind("wt%"))
    assert sum_kind(kind("wt%"), of_wax) == of_wax
    with pytest.raises(KindError, match="wax and share by mass of resin"):
        comparable(of_wax, kind("wt%").of("resin"))
    with pytest.raises(KindError, match="length cannot be a share"):
        kind("mm").of("wax")


def test_shares_in_products() -> None:
    mass, volume = kind("wt%"), kind("vol%")
    assert product_kind(mass, kind("kg")) == kind("kg") == product_kind(kind("kg"), mass)
    assert quotient_kind(kind("kg"), mass) == kind("kg")
    assert quotient_kind(mass, mass) == PLAIN_KIND
    assert product_kind(PLAIN_KIND, mass) == mass == quotient_kind(mass, PLAIN_KIND)
    assert product_kind(mass.of("wax"), mass.of("resin")) == mass
    assert product_kind(mass, kind("g/cm3")) == kind("g/cm3")
    refusals: list[Refusal] = [
        (product_kind, mass, kind("L")),
        (quotient_kind, kind("mol"), mass),
        (product_kind, mass, volume),
        (quotient_kind, mass, volume),
        (quotient_kind, mass.of("wax"), mass.of("resin")),
        (product_kind, kind("w/v%"), kind("L")),
    ]
    for refused, one, other in refusals:
        with pytest.raises(KindError, match="share by mass"):
            refused(one, other)


# ---- other kinds


def test_errors_name_both_kinds() -> None:
    with pytest.raises(
        KindError, match="length and angle cannot be added: they are different kinds"
    ) as caught:
        sum_kind(kind("mm"), kind("deg"))
    assert (caught.value.first, caught.value.second) == (kind("mm"), kind("deg"))


def test_products_and_quotients_cancel() -> None:
    assert product_kind(kind("N"), kind("m")) == kind("J")
    assert quotient_kind(kind("m"), kind("s")).name == "length / time"
    assert quotient_kind(kind("m"), kind("mm")) == PLAIN_KIND
    assert quotient_kind(PLAIN_KIND, kind("s")) == kind("Hz")
    assert power_kind(kind("m"), 3) == kind("L")
    assert power_kind(kind("m"), 0) == PLAIN_KIND
    assert power_kind(kind("%"), 2) == PLAIN_KIND
    assert Kind((("angle", 2), ("time", -1))).name == "angle^2 / time"
    with pytest.raises(KindError, match="rotational speed and frequency"):
        comparable(kind("rpm"), kind("Hz"))


SIMPLE = st.sampled_from([s for s in known_symbols() if not unit(s).kind.point])


@given(SIMPLE, SIMPLE)
def test_a_product_divided_by_a_factor_is_the_other(a: str, b: str) -> None:
    one, other = Kind(kind(a).dimension), Kind(kind(b).dimension)
    assert quotient_kind(product_kind(one, other), other) == one
    assert product_kind(one, other) == product_kind(other, one)


@given(st.sampled_from(known_symbols()), st.fractions())
def test_there_and_back(symbol: str, value: Fraction) -> None:
    found = unit(symbol)
    assert found.from_base(found.to_base(value)) == value


@given(st.text(alphabet="mkgsPaKb/.^-()23% 1µ°²⁻", max_size=9))
def test_any_text_is_a_unit_with_a_stable_spelling_or_none(text: str) -> None:
    found = find_unit(text)
    if found is not None:
        again = find_unit(found.symbol)
        assert again is not None
        assert again == found
    explain_unit(text)
    nearest_units(text)


# ---- units of the trade


def test_a_unit_of_the_trade_has_its_own_dimension() -> None:
    stroke = define_unit("stroke")
    own = {"stroke": stroke}
    assert stroke.kind.name == "count of stroke"
    assert find_unit("stroke", own) == stroke
    rate = find_unit("stroke/min", own)
    assert rate is not None
    assert rate.factor == Fraction(1, 60)
    assert rate.kind.name == "count of stroke / time"
    assert find_unit("stroke/min") is None
    assert nearest_units("strok/min", own) == ("stroke/min",)
    assert define_unit("length").kind != kind("m")


@pytest.mark.parametrize("word", ["mm", "in", "In", "per", "a b", "x2", "", "5", "%", "hours", "-x", "x-"])
def test_a_word_that_cannot_become_a_unit(word: str) -> None:
    with pytest.raises(UnitError, match="unit"):
        define_unit(word)


# ---- what may have been meant


def test_a_refused_unit_says_why_and_what_to_write() -> None:
    assert nearest_units("ppm") == ("ppm(m)", "ppm(v)", "ppm(mol)")
    said = explain_unit("ppm")
    assert said is not None
    assert all(offer in said for offer in ("ppm(m)", "ppm(v)", "ppm(mol)"))
    for text, part in {
        "pH": "plain number",
        "rad": "exact",
        "in": "inch",
        "C": "degC",
        "W/m.K": "brackets",
        "kg-1": "^",
        "N*m": "dot",
        "MPa.m^0.5": "whole powers",
        "wt%/h": "stand alone",
    }.items():
        said = explain_unit(text)
        assert said is not None, text
        assert part in said, text
    assert explain_unit("mm") is None
    assert explain_unit("zzzzzz") is None


def test_nearest_units() -> None:
    assert nearest_units("MPA") == ("mPa", "MPa")
    assert nearest_units("mg/Kg") == ("mg/kg",)
    assert "inch" in nearest_units("inchs")
    assert nearest_units("zzzzzz") == ()


# ---- words


def test_every_word_has_a_kind_and_ordered_ends() -> None:
    for name in kind_words():
        word = kind_word(name)
        assert word is not None
        assert word.name == name
        assert word.accepts(word.kind)
        if word.lower is not None and word.upper is not None:
            assert word.lower < word.upper


def test_words_for_what_is_measured() -> None:
    share, pressure, temperature = kind_word("share"), kind_word("pressure"), kind_word("temperature")
    assert share is not None
    assert (share.lower, share.upper) == (Fraction(0), Fraction(1))
    assert share.accepts(kind("wt%").of("wax"))
    assert not share.accepts(kind("w/v%"))
    assert pressure is not None
    assert pressure.accepts(kind("bar(g)"))
    assert pressure.lower is None
    assert temperature is not None
    assert temperature.accepts(kind("degF"))
    assert not temperature.accepts(kind("K"))
    assert temperature.lower == 0
    assert temperature.upper is None
    assert kind_word("temperature  difference") == kind_word("temperature difference")
    assert kind_word("width") is None
    assert kind_word("") is None


# ---- numbers as text


@pytest.mark.parametrize(
    ("value", "text"),
    [
        ("0", "0"),
        ("-5", "-5"),
        ("1/2", "0.5"),
        ("-1/8", "-0.125"),
        ("300", "300"),
        ("1/1000000000000", "0.000000000001"),
        ("1/10000000000000", None),
        ("1/3", None),
        ("100/3", None),
        ("27315/100", "273.15"),
    ],
)
def test_decimals(value: str, text: str | None) -> None:
    assert decimal_text(Fraction(value)) == text
    assert number_text(Fraction(value)) == (text or value)


def test_fewer_places() -> None:
    assert decimal_text(Fraction(1, 8), most=2) is None
    assert decimal_text(Fraction(1, 4), most=2) == "0.25"


@given(st.fractions())
def test_a_number_text_reads_back(value: Fraction) -> None:
    assert Fraction(number_text(value)) == value
