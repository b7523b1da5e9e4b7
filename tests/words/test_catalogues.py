"""The catalogues of every shipped language are complete, and in step with the code."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog

from pengan.engine.message import SAYINGS
from pengan.words.checking import flaws
from pengan.words.compiling import compile_page, read_translations
from pengan.words.languages import shipped
from pengan.words.say import import_every_saying
from pengan.words.sentences import declared_sayings, template_catalogue

TRANSLATED = [tag for tag in shipped() if tag != "en"]


@pytest.fixture(scope="module")
def template() -> Catalog:
    return template_catalogue()


@pytest.mark.parametrize("language", TRANSLATED)
def test_every_sentence_is_translated(language: str, template: Catalog) -> None:
    found = flaws(read_translations(language), template)
    assert not found, "\n".join(f"“{flaw.sentence}” {flaw.what}" for flaw in found)


def test_every_saying_of_the_engine_is_found_in_its_source() -> None:
    import_every_saying()
    read = {saying.code: (saying.template, saying.many, saying.count) for saying in declared_sayings()}
    run = {saying.code: (saying.template, saying.many, saying.count) for saying in SAYINGS.values()}
    engine = {code: said for code, said in run.items() if not code.startswith("test.")}
    assert {code: read.get(code) for code in engine} == engine


def _catalogue(*pairs: tuple[str | tuple[str, str], str | tuple[str, ...]], fuzzy: bool = False) -> Catalog:
    made = Catalog(locale="es")
    for english, spanish in pairs:
        made.add(english, spanish, flags=["fuzzy"] if fuzzy else [])
    return made


WANTED = _catalogue(("Night of {date}", ""), (("{count} run", "{count} runs"), ("", "")))
PLURAL = (("{count} run", "{count} runs"), ("{count} riego", "{count} riegos"))


@pytest.mark.parametrize(
    ("translated", "what"),
    [
        (_catalogue(PLURAL), "is missing: run update"),
        (_catalogue(("Night of {date}", ""), PLURAL), "is not translated"),
        (_catalogue(("Night of {date}", "Noche"), PLURAL), "has the placeholders [] instead of ['date']"),
        (_catalogue(("Night of {date}", "Noche {dia}"), PLURAL), "has the placeholders ['dia'] instead of ['date']"),
        (_catalogue(("Night of {date}", "Noche {date} }"), PLURAL), "has a brace too many or too few"),
        (_catalogue(("Night of {date}", "{date}"), PLURAL, ("Old", "Viejo")), "is no longer in the code: run update"),
        (_catalogue(("Night of {date}", "Noche {date}"), (PLURAL[0], ("{count} riego", ""))), "is not translated"),
        (_catalogue(("Night of {date}", "Noche {date}"), (PLURAL[0], ("{count}",))), "has 1 plural forms, 2 needed"),
    ],
)  # fmt: skip
def test_each_flaw_of_a_catalogue_is_found(translated: Catalog, what: str) -> None:
    assert [flaw.what for flaw in flaws(translated, WANTED)] == [what]


def test_a_translation_marked_fuzzy_is_a_flaw() -> None:
    translated = _catalogue(("Night of {date}", "Noche {date}"), PLURAL, fuzzy=True)
    assert [flaw.what for flaw in flaws(translated, WANTED)] == ["is marked fuzzy"] * 2


def test_a_form_that_one_number_takes_may_say_it_in_a_word_and_no_other_form() -> None:
    """Arabic has a word for two runs; from three on the figure has to stand."""
    forms = ["{count} none", "run", "two runs", "{count} few", "{count} many", "{count} other"]
    arabic = Catalog(locale="ar")
    for message in (("Night of {date}", "{date}"), (PLURAL[0], tuple(forms))):
        arabic.add(*message)
    assert flaws(arabic, WANTED) == []
    arabic.get(PLURAL[0][0]).string = (*forms[:3], "few", *forms[4:])  # type: ignore[union-attr]
    assert [flaw.what for flaw in flaws(arabic, WANTED)] == ["has the placeholders [] instead of ['count']"]


def test_a_complete_catalogue_has_no_flaws() -> None:
    assert flaws(_catalogue(("Night of {date}", "Noche del {date}"), PLURAL), WANTED) == []


def test_the_pages_files_hold_every_sentence_in_every_form(tmp_path: Path) -> None:
    files = {path.stem: json.loads(path.read_text(encoding="utf-8")) for path in compile_page(tmp_path)}
    spanish = files["es"]
    assert spanish["plural"][:3] == "101"
    assert spanish["direction"] == "ltr" and files["ar-XB"]["direction"] == "rtl"
    assert all(len(text) == 2 for text in spanish["messages"].values() if isinstance(text, list))
    assert spanish["messages"].keys() == files["en-XA"]["messages"].keys() > set()
    templates = {said["template"] for said in spanish["sayings"].values()}
    assert templates <= spanish["messages"].keys()
    assert files["units"]["flow"]["units"]["m3h"]["factor"] == [50, 3]
