"""What the page gets: plural rules as digits, and the units' table."""

from __future__ import annotations

import json
from gettext import GNUTranslations, c2py
from pathlib import Path

import pytest
from babel.messages.plurals import get_plural

from pengan.words import compiling
from pengan.words.compiling import compile_page, digits_of, plural_digits, units_table
from pengan.words.languages import ACCENTED, shipped
from pengan.words.loading import catalogue
from pengan.words.units import QUANTITIES


def as_the_page_does(digits: str) -> list[int]:
    return [int(digits[n if n < 200 else 100 + n % 100]) for n in range(5000)]


@pytest.mark.parametrize("language", ["fr", "pl", "ru", "cs", "uk", "tr", "zh", "ga", "sl"])
def test_the_digits_give_the_form_that_gettexts_rule_gives(language: str) -> None:
    """Beside gettext's own evaluation of the rule, for every number up to 5,000."""
    rule = c2py(get_plural(language).plural_expr)
    assert as_the_page_does(digits_of(rule)) == [int(rule(n)) for n in range(5000)]


@pytest.mark.parametrize("language", [*shipped(), "ar-EG", "pt-BR", ACCENTED])
def test_the_page_and_the_server_have_one_rule(language: str) -> None:
    """A language takes a form by the rule at the head of its file, on either side."""
    spoken = catalogue(language)
    rule = spoken.plural if isinstance(spoken, GNUTranslations) else c2py("n != 1")
    assert as_the_page_does(plural_digits(language)) == [int(rule(n)) for n in range(5000)]


@pytest.fixture(scope="module")
def compiled(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    return compile_page(tmp_path_factory.mktemp("compiled"))


def test_a_files_bytes_do_not_depend_on_the_run(compiled: list[Path], tmp_path: Path) -> None:
    again = compile_page(tmp_path)
    assert [path.read_bytes() for path in compiled] == [path.read_bytes() for path in again]


def test_the_first_screen_has_its_own_sentences_and_few_others(compiled: list[Path]) -> None:
    files = {path.stem: json.loads(path.read_text(encoding="utf-8")) for path in compiled}
    for tag in ("es", "ar", "en-XA"):
        whole, first = files[tag], files[f"{tag}.first"]
        assert (
            first["messages"].items() <= whole["messages"].items()
            and first["sayings"].items() <= whole["sayings"].items()
        )
        assert {"Next water", "Skip to the room", "{minutes} min", "{figure} L/min"} <= first["messages"].keys()
        assert {said["template"] for said in first["sayings"].values()} <= first["messages"].keys() > set()
        assert len(first["messages"]) < 0.2 * len(whole["messages"])


def test_the_pages_units_are_those_of_python() -> None:
    table = json.loads(json.dumps(units_table()))
    for key, quantity in QUANTITIES.items():
        for unit in quantity.units.values():
            numerator, denominator = table[key]["units"][unit.key]["factor"]
            assert numerator / denominator == float(unit.factor)


def test_only_the_sentences_the_page_can_show_travel_to_it(compiled: list[Path]) -> None:
    messages = json.loads((compiled[0].parent / "es.json").read_text(encoding="utf-8"))["messages"]
    assert "Program {program} starts." in messages
    assert "Usage:" not in messages
    assert compiling.PAGE_FOLDER.parts[-3:] == ("pwa", "generated", "catalogues")
