"""The server's own words in the journal are searched in the language of whoever searches."""

from __future__ import annotations

import csv
import io
from urllib.parse import quote

import pytest
from flask.testing import FlaskClient

from pengan.engine.journal.alarm import RIGHT_AGAIN
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.journal.finding import SILENT_MANY
from pengan.engine.journal.shutting import SHUT_BY_SITE
from pengan.engine.message import Message
from pengan.web.journal.names import SERVER
from pengan.web.journal.storing import store
from pengan.web.journal.wording import saying_so
from web.journal.conftest import JOURNAL, NOW, outcomes, read, row, send
from web.people.crew import SITE, Server

SHUT = saying_so(
    Entry("shut-by-rule", NOW - 60, Kind.SHUT, SERVER, supply="north"),
    SHUT_BY_SITE(supply="north", flow_lpm=90.5, limit_lpm=85),
)
RIGHT = saying_so(Entry("right-again", NOW - 50, Kind.ALARM_ENDED, SERVER, alarm="a1"), RIGHT_AGAIN(end_at=NOW - 70))
SILENT = saying_so(
    Entry("silent", NOW - 40, Kind.ALARM_OPENED, SERVER, alarm="a2"), SILENT_MANY(voices_count=3, since_at=NOW - 900)
)


@pytest.fixture
def spoken(server: Server, manager: FlaskClient, token: str) -> FlaskClient:
    """A manager at a site where the server has said three things, and somebody one."""
    with server.shared.database.session() as session, session.begin():
        assert store(session, SITE, [SHUT, RIGHT, SILENT], NOW) == ["taken"] * 3
    assert outcomes(send(server, token, row("note", at=NOW - 10, text="Regel im Gelände: 100% naß"))) == ["taken"]
    return manager


def found(client: FlaskClient, words: str, language: str, more: str = "") -> list[str]:
    page = read(client, f"text={quote(words)}&language={language}{more}")
    return [entry["id"] if entry["by"] == SERVER else "told" for entry in page["entries"]]


@pytest.mark.parametrize(
    ("words", "language", "expected"),
    [
        ("automáticamente", "es", ["shut-by-rule"]),
        ("LA REGLA DEL RECINTO", "es", ["shut-by-rule"]),
        ("la regla del recinto", "es-MX", ["shut-by-rule"]),
        ("lecturas", "es", ["right-again"]),
        ("no comunican nada", "es", ["silent"]),
        ("Messwerte", "de", ["right-again"]),
        ("regel", "de", ["told", "shut-by-rule"]),
        ("gelände", "de", ["told", "shut-by-rule"]),
        ("Steuergeräte und Zähler", "de", ["silent"]),
        ("جهازًا", "ar", ["silent"]),
        ("القراءات سليمة", "ar", ["right-again"]),
        ("lecturas", "de", []),
        ("limit_lpm", "es", []),
        ("{supply}", "es", []),
        ("%", "es", ["told"]),
        ("ordered shut", "es", ["shut-by-rule"]),
        ("ordered shut", "en", ["shut-by-rule"]),
        ("north", "de", ["shut-by-rule"]),
    ],
)
def test_the_servers_words_are_found_in_the_readers_language(
    spoken: FlaskClient, words: str, language: str, expected: list[str]
) -> None:
    """As in the source's, whatever the case; a sentence of several forms by any of them; what stands in it as it is."""
    assert found(spoken, words, language) == expected


def test_other_filters_hold_as_well(spoken: FlaskClient) -> None:
    assert found(spoken, "Regel", "de", "&kind=shut") == ["shut-by-rule"]
    assert found(spoken, "Regel", "de", f"&starts={NOW - 20}") == ["told"]
    assert found(spoken, "Regel", "de", "&supply=town") == []


def test_a_page_of_what_was_found_leads_to_the_next(spoken: FlaskClient) -> None:
    first = read(spoken, "text=Regel&language=de&limit=1")
    second = read(spoken, f"text=Regel&language=de&limit=1&page={first['next']}")
    assert [entry["by"] == SERVER for page in (first, second) for entry in page["entries"]] == [False, True]
    assert second["next"] is None


def test_the_table_holds_what_was_found(spoken: FlaskClient) -> None:
    answer = spoken.get(f"{JOURNAL}/table.csv?text=Messwerte&language=de")
    rows = list(csv.DictReader(io.StringIO(answer.text, newline="")))
    assert [one["id"] for one in rows] == ["right-again"]
    assert "Messwerte stimmen" in rows[0]["text"]


def test_nothing_is_said_in_a_journal_that_nobody_could_search_for() -> None:
    with pytest.raises(ValueError, match=r"why\.first"):
        saying_so(Entry("x", NOW, Kind.NOTE, SERVER), Message("why.first", {}))


def test_a_person_searches_in_their_own_language_without_saying_so(spoken: FlaskClient) -> None:
    """People come in with Spanish here."""
    assert [entry["id"] for entry in read(spoken, "text=lecturas")["entries"]] == ["right-again"]
    assert "right-again" in spoken.get(f"{JOURNAL}/table.csv?text=lecturas").text
