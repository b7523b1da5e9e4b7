"""The catalogues of every shipped language are complete, and in step with the code."""

from __future__ import annotations

import ast
import json
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog

from pengan.engine.message import SAYINGS
from pengan.words.checking import flaws
from pengan.words.compiling import compile_page, read_translations
from pengan.words.languages import shipped
from pengan.words.say import import_every_saying
from pengan.words.sentences import declared_sayings, source_files, template_catalogue

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


def test_no_word_in_the_code_is_taken_for_a_sentence(template: Catalog) -> None:
    """Only what stands in a call as it is, is said: `_(WHY[one["why"]])` says nothing of “why”."""
    taken = {
        message.id for message in template if message.id and any(_is_python(place) for place, _ in message.locations)
    }
    assert {id if isinstance(id, str) else id[0] for id in taken} <= _said_in_python()


def _is_python(place: str) -> bool:
    return place.endswith(".py")


SAYING = {"_", "N_", "gettext", "ngettext", "N_plural", "saying", "saying_plural"}


def _said_in_python() -> set[str]:
    """Every text that is itself an argument of what says something, and how commands describe themselves."""
    trees = [ast.parse(path.read_text(encoding="utf-8")) for path in source_files() if path.suffix == ".py"]
    nodes = [node for tree in trees for node in ast.walk(tree)]
    calls = [node for node in nodes if isinstance(node, ast.Call)]
    given = [one for call in calls if SAYING & {getattr(call.func, "id", None), getattr(call.func, "attr", None)}
             for one in call.args]  # fmt: skip
    given += [word.value for call in calls for word in call.keywords if word.arg in {"help", "metavar"}]
    described = {ast.get_docstring(node) or "" for node in nodes if isinstance(node, ast.FunctionDef)}
    return described | {str(one.value) for one in given if isinstance(one, ast.Constant)}


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


def test_what_is_typed_has_one_word_in_a_languages_help() -> None:
    """ICS is a name in every language; SITE is not."""
    english = [("SITE", ""), ("ICS", ""), ("Write SITE as ICS.", ""), ("SITES are many.", "")]
    spanish = [
        ("SITE", "RECINTO"),
        ("ICS", "ICS"),
        ("Write SITE as ICS.", "SITE en ICS."),
        ("SITES are many.", "SITES."),
    ]
    found = flaws(_catalogue(*spanish), _catalogue(*english))
    assert [(flaw.sentence, flaw.what) for flaw in found] == [("Write SITE as ICS.", "leaves SITE in English")]


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
