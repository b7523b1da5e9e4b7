"""Whose language, units and clock count."""

from __future__ import annotations

import pytest

from pengan.words import Reader, WordsFault, _, ngettext, reader_for, reading
from pengan.words.languages import direction, match, shipped


def test_spanish_and_english_are_shipped() -> None:
    assert {"en", "es"} <= set(shipped())


@pytest.mark.parametrize(
    ("wish", "tag"),
    [
        ("es", "es"), ("es_MX.UTF-8", "es-MX"), ("en-gb", "en-GB"), ("C", "en"), ("xx", None), ("", None),
        ("es-419", "es-419"), ("EN-xa", "en-XA"), ("not a language", None), ("es-XQZ-nonsense", "es"),
    ],
)  # fmt: skip
def test_a_wish_means_a_shipped_language_or_none(wish: str, tag: str | None) -> None:
    assert match(wish) == tag


def test_the_option_comes_before_the_environment() -> None:
    environ = {"PENGAN_LANGUAGE": "es", "LANG": "en_US.UTF-8"}
    assert reader_for("en-GB", environ=environ).language == "en-GB"
    assert reader_for(environ=environ).language == "es"
    assert reader_for(environ={"LANG": "es_ES.UTF-8"}).language == "es-ES"
    assert reader_for(environ={}).language == "en"


def test_units_come_from_the_region_unless_they_are_chosen() -> None:
    assert reader_for("en-US", environ={}).units == "us"
    assert reader_for("en", environ={}).units == "metric"
    assert reader_for("en-US", environ={"PENGAN_UNITS": "metric"}).units == "metric"


def test_sentences_follow_the_current_reader_and_no_longer_after() -> None:
    with reading(Reader("en-XA")):
        assert _("Night") == "⟦Ñíğĥţ ~⟧"
        assert ngettext("{count} run", "{count} runs", 2).startswith("⟦2 ŕúñš")
    assert _("Night") == "Night"


def test_numbers_in_sentences_are_the_readers() -> None:
    assert Reader("es").gettext("{n}", n=12345.5) == "12.345,5"


def test_the_mirrored_language_runs_right_to_left() -> None:
    assert direction("ar-XB") == "rtl"
    assert Reader("ar-XB").gettext("Night of {date}", date="x") == "\u202eNight\u202c \u202eof\u202c x"


def test_single_units_can_be_chosen_over_a_set() -> None:
    reader = reader_for("es", "us,flow=m3h,pressure=kpa", environ={})
    assert (reader.units, dict(reader.choices)) == ("us", {"flow": "m3h", "pressure": "kpa"})
    assert reader_for("en-US", "flow=lps", environ={}).units == "us"


@pytest.mark.parametrize("typed", ["cubits", "flow=cubits", "speed=knots", "us,flow"])
def test_units_that_are_not_known_are_a_coded_fault(typed: str) -> None:
    with pytest.raises(WordsFault) as fault:
        reader_for(units=typed, environ={})
    assert fault.value.message.code == "words.unknown_choice"
