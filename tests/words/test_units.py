"""The units' factors, against published ones, and amounts written and read."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pengan.words import Reader, WordsFault, read, write
from pengan.words.units import AREA, FLOW, LENGTH, PRESSURE, QUANTITIES, VOLUME, Quantity

# Each case of this file names its source: NIST SP 811 and Handbook 44, or says that it is derived or from memory.
PUBLISHED = json.loads((Path(__file__).parents[2] / "fixtures" / "units" / "conversions.json").read_text())["cases"]
CASES = {case["id"]: case for case in PUBLISHED}

LANGUAGES = ("en", "en-GB", "es", "es-MX", "de", "pt", "ar", "ar-EG", "hi", "fr-CH")

CONVERSIONS: tuple[tuple[str, str, str, Quantity, str, str], ...] = (
    ("us-gallon-L", "us_gallon", "L", VOLUME, "gal", "l"),
    ("foot-m", "foot", "m", LENGTH, "ft", "m"),
    ("hectare-acre", "hectare", "acre", AREA, "ha", "ac"),
    ("hectare-acre", "hectare", "m2", AREA, "ha", "m2"),
    ("acre-foot", "acre_foot", "m3", VOLUME, "acft", "m3"),
    ("acre-foot", "acre_foot", "us_gallon", VOLUME, "acft", "gal"),
    ("acre-foot", "acre_foot", "ft3", VOLUME, "acft", "ft3"),
    ("bar-psi", "bar", "psi", PRESSURE, "bar", "psi"),
    ("bar-psi", "bar", "kPa", PRESSURE, "bar", "kpa"),
    ("gpm-Ls", "gpm_us", "L_min", FLOW, "gpm", "lpm"),
    ("gpm-Ls", "gpm_us", "L_s", FLOW, "gpm", "lps"),
    ("gpm-Ls", "gpm_us", "m3_h", FLOW, "gpm", "m3h"),
    ("m3h-gpm", "m3_h", "gpm_us", FLOW, "m3h", "gpm"),
    ("imperial-gallon", "imperial_gallon", "L", VOLUME, "igal", "l"),
    ("ft3-gal", "ft3", "us_gallon", VOLUME, "ft3", "gal"),
    ("ft3-gal", "ft3", "L", VOLUME, "ft3", "l"),
)


@pytest.mark.parametrize(("case", "given", "expected", "quantity", "source", "target"), CONVERSIONS)
def test_a_factor_is_the_published_one(
    case: str, given: str, expected: str, quantity: Quantity, source: str, target: str
) -> None:
    published: dict[str, Any] = CASES[case]
    ratio = quantity.units[source].factor / quantity.units[target].factor
    assert float(ratio) * published["inputs"][given] == pytest.approx(
        published["expected"][expected], rel=published["tolerance"]["rel"]
    )


def test_an_inch_is_25_point_4_millimetres() -> None:
    assert float(QUANTITIES["depth"].units["in"].factor) == CASES["inch-mm"]["expected"]["mm"]


def test_fahrenheit_is_the_published_celsius() -> None:
    case = CASES["F-C"]
    for fahrenheit, celsius in zip(case["inputs"]["F"], case["expected"]["C"], strict=True):
        assert read(f"{fahrenheit} °F", "temperature", Reader()) == pytest.approx(celsius, abs=5e-5)


UNITS = [(quantity, unit) for quantity in QUANTITIES.values() for unit in quantity.units]


@pytest.mark.parametrize("tag", LANGUAGES)
@given(st.sampled_from(UNITS), st.floats(min_value=-50_000, max_value=5_000_000, allow_nan=False))
def test_what_is_written_is_read_back_to_the_printed_digit(tag: str, chosen: tuple[Quantity, str], base: float) -> None:
    quantity, unit = chosen
    reader = Reader(tag)
    written = write(quantity.key, base, reader, unit=unit)
    assert write(quantity.key, read(written, quantity.key, reader), reader, unit=unit) == written


@pytest.mark.parametrize(
    ("typed", "quantity", "reader", "base"),
    [
        ("12,5 m3/h", "flow", Reader("es"), 12.5 * 1000 / 60),
        ("12.5 m³/h", "flow", Reader("es"), 12.5 * 1000 / 60),
        ("12,5m3/h", "flow", Reader(), 12.5 * 1000 / 60),
        ("40 gpm", "flow", Reader(), 40 * 3.785411784),
        ("40 GPM", "flow", Reader("en", "imperial"), 40 * 4.54609),
        ("40 US gpm", "flow", Reader("en", "imperial"), 40 * 3.785411784),
        ("40 imp gpm", "flow", Reader(), 40 * 4.54609),
        ("240", "flow", Reader(), 240),
        ("240", "flow", Reader("en-US", "us"), 240 * 3.785411784),
        ("1.250 L", "volume", Reader("es"), 1250),
        ("1.250 L", "volume", Reader(), 1.25),
        ("1,250 L", "volume", Reader(), 1250),
        ("1 250,5 L", "volume", Reader("fr-FR"), 1250.5),
        ("1,234,567.8 L", "volume", Reader("es"), 1234567.8),
        ("١٢٫٥ m³", "volume", Reader("ar-EG"), 12_500),
        ("0.25 ac-ft", "volume", Reader(), 0.25 * 1233481.83754752),
        ("−3 °C", "temperature", Reader(), -3),
        ("3.5 bar", "pressure", Reader(), 350),
        ('1.5"', "depth", Reader(), 38.1),
    ],
)
def test_people_can_write_amounts_their_own_way(typed: str, quantity: str, reader: Reader, base: float) -> None:
    assert read(typed, quantity, reader) == pytest.approx(base, rel=1e-9)


@pytest.mark.parametrize(
    ("typed", "code"),
    [
        ("", "words.not_a_number"),
        ("gpm", "words.not_a_number"),
        ("1.2.3,4,5 L/min", "words.not_a_number"),
        ("12,34.5 L/min", "words.not_a_number"),
        ("12 furlongs", "words.unknown_unit"),
        ("12 psi", "words.unknown_unit"),
        ("nan", "words.unknown_unit"),
        ("1e400 L/min", "words.unknown_unit"),
    ],
)
def test_what_cannot_be_read_is_a_coded_fault(typed: str, code: str) -> None:
    with pytest.raises(WordsFault) as fault:
        read(typed, "flow", Reader())
    assert (
        fault.value.message.code in {code, "words.not_a_number"}
        if not typed.strip()
        else fault.value.message.code == code
    )


@pytest.mark.parametrize(
    ("quantity", "base", "reader", "written"),
    [
        ("flow", 240, Reader(), "240 L/min"),
        ("flow", 240, Reader("en-US", "us"), "63.4 gpm"),
        ("flow", 240, Reader("en-GB", "imperial"), "52.8 imp gpm"),
        ("flow", 240, Reader("es", choices={"flow": "m3h"}), "14,4 m³/h"),
        ("volume", 999, Reader(), "999 L"),
        ("volume", 4512, Reader(), "4.5 m³"),
        ("volume", 4_512_000, Reader("es"), "4512 m³"),
        ("current", 250, Reader(), "250 mA"),
        ("current", 1250, Reader(), "1.25 A"),
        ("pressure", 350, Reader(), "3.5 bar"),
        ("area", 15_000, Reader(), "1.5 ha"),
        ("temperature", 20, Reader("en-US", "us"), "68 °F"),
    ],
)
def test_amounts_are_written_in_the_readers_units(quantity: str, base: float, reader: Reader, written: str) -> None:
    assert write(quantity, base, reader) == written


def test_every_unit_set_names_units_that_exist() -> None:
    for quantity in QUANTITIES.values():
        for steps in quantity.sets.values():
            assert steps[0][0] == 0
            assert {unit for _least, unit in steps} <= quantity.units.keys()
