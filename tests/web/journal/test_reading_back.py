"""The journal read back: in the order of occurrence, in the order of arrival, filtered, searched, as a table."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from typing import Any

import pytest
from flask.testing import FlaskClient

from pengan.engine.journal.entry import Entry, Explained, Kind
from pengan.engine.journal.shutting import SHUT_BY_SITE
from pengan.engine.message import Message
from pengan.web.journal.finding import happened
from pengan.web.journal.names import SERVER
from pengan.web.journal.storing import Outcome, id_taken, store, sum_of
from pengan.web.journal.wording import saying_so
from web.journal.conftest import JOURNAL, NOW, outcomes, read, row, send
from web.people.crew import SITE, Server

Row = dict[str, Any]


def ids(page: Row) -> list[str]:
    return [entry["id"] for entry in page["entries"]]


def pages(client: FlaskClient, query: str, word: str, first: str = "") -> list[list[str]]:
    """All pages, each as the ids in it."""
    found, place = [], first
    for _page in range(20):
        page = read(client, f"{query}&{word}={place}" if place else query)
        found.append(ids(page))
        place = page["next"]
        if place is None:
            return found
    raise AssertionError("the pages do not end")


def test_late_entries_stand_where_they_happened(server: Server, manager: FlaskClient, token: str) -> None:
    told = [row(at=NOW - 10), row(at=NOW - 3000, station="s2"), row("closed", at=NOW - 100), row("note", at=NOW - 100)]
    for entry in told:
        assert outcomes(send(server, token, entry)) == ["taken"]
    by_time = [told[1], told[2], told[3], told[0]]
    assert ids(read(manager, "order=oldest")) == [entry["id"] for entry in by_time]
    assert ids(read(manager)) == [entry["id"] for entry in reversed(by_time)]
    assert ids(read(manager, "since=0")) == [entry["id"] for entry in told]
    with server.shared.database.session() as session, session.begin():
        found = happened(session, SITE, NOW - 3000, NOW - 10)
        assert [entry.id for entry in found] == [entry["id"] for entry in by_time[:3]]
        assert [entry.id for entry in happened(session, SITE, 0, NOW, [Kind.CLOSED])] == [told[2]["id"]]


@pytest.mark.parametrize("order", ["newest", "oldest"])
def test_pages_hold_everything_once_though_much_happened_in_one_second(
    server: Server, manager: FlaskClient, token: str, order: str
) -> None:
    told = [row("flow", at=NOW - 60 + number // 4, flow_lpm=number) for number in range(11)]
    send(server, token, *told)
    found = pages(manager, f"limit=3&order={order}", "page")
    assert [len(page) for page in found] == [3, 3, 3, 2]
    by_time = [entry["id"] for entry in told]
    assert [id for page in found for id in page] == (by_time if order == "oldest" else by_time[::-1])


def test_a_copy_goes_on_from_the_number_it_knows(server: Server, manager: FlaskClient, token: str) -> None:
    first = [row("flow", flow_lpm=number) for number in range(5)]
    send(server, token, *first)
    assert pages(manager, "limit=2", "since", "0") == [
        [first[0]["id"], first[1]["id"]], [first[2]["id"], first[3]["id"]], [first[4]["id"]],
    ]  # fmt: skip
    known = read(manager, "since=0")["newest"]
    assert read(manager, f"since={known}") == {"entries": [], "names": {}, "next": None, "newest": known}
    late = row(at=NOW - 86_400)
    send(server, token, first[0], late)
    assert ids(read(manager, f"since={known}")) == [late["id"]]


def test_a_first_copy_begins_with_the_last_nights(server: Server, manager: FlaskClient, token: str) -> None:
    old, new = row(at=NOW - 90 * 86_400), row(at=NOW - 5)
    late = row("closed", at=NOW - 80 * 86_400)
    send(server, token, old, new, late)
    page = read(manager, f"since=0&starts={NOW - 3 * 86_400}")
    assert (ids(page), page["newest"]) == ([new["id"]], 3)


@pytest.mark.parametrize(
    ("query", "expected"),
    [
        ("kind=flow", {"flow"}),
        ("kind=flow&kind=note", {"flow", "note"}),
        ("station=s1", {"opened"}),
        ("supply=north", {"flow"}),
        ("controller=cab", {"alive"}),
        (f"starts={NOW - 20}", {"alive", "note"}),
        (f"ends={NOW - 20}", {"opened", "flow", "stopped"}),
        (f"starts={NOW - 30}&ends={NOW - 20}", {"stopped"}),
        ("by=reporter:nobody", set()),
        ("text=fountain", {"note"}),
        ("text=FOUNTAIN", {"note"}),
        ("text=%C3%9FCHEN", {"note"}),
        ("text=sschen", {"note"}),
        ("text=100%25", {"note"}),
        ("text=%25", {"note"}),
        ("text=_", set()),
        ("text=rain", {"stopped"}),
        ("text=rain&kind=note", set()),
    ],
)
def test_it_is_searched_by_kind_place_time_and_text(
    server: Server, manager: FlaskClient, token: str, query: str, expected: set[str]
) -> None:
    told = [
        row("opened", at=NOW - 50, station="s1"),
        row("flow", at=NOW - 40),
        row("stopped", at=NOW - 30),
        row("alive", at=NOW - 20),
        row("note", at=NOW - 10, text="Fountain in the Schlößchen, 100% wet"),
    ]
    assert outcomes(send(server, token, *told)) == ["taken"] * 5
    assert {entry["kind"] for entry in read(manager, query)["entries"]} == expected


@pytest.mark.parametrize(
    "query",
    ["kind=burst", "limit=0", "limit=1001", "order=any", "page=x", "page=1", "page=1.-1", "since=-1"],
)
def test_a_question_that_makes_no_sense_is_answered_as_such(manager: FlaskClient, query: str) -> None:
    assert manager.get(f"{JOURNAL}?{query}").status_code == 422


def test_an_entry_comes_back_as_it_was_told(server: Server, manager: FlaskClient, token: str) -> None:
    told = row("flow", at="2026-07-10T21:59:30+01:00", text="by the hour")
    send(server, token, told)
    found = read(manager)["entries"][0]
    assert found == {**told, "at": NOW - 30, "number": 1, "arrived_at": server.now, "by": found["by"]}


def test_as_a_table_it_has_the_sites_clock_and_no_formula(server: Server, manager: FlaskClient, token: str) -> None:
    told = [row("flow", at=NOW - 40), row("note", at=NOW - 60, text='=1+1, "quoted"\nand broken')]
    send(server, token, *told)
    answer = manager.get(f"{JOURNAL}/table.csv?starts={NOW - 60}")
    assert answer.mimetype == "text/csv"
    rows = list(csv.DictReader(io.StringIO(answer.text, newline="")))
    assert [(one["at"], one["kind"], one["supply"], one["flow_lpm"], one["text"]) for one in rows] == [
        ("2026-07-10T21:59:00+01:00", "note", "", "", '\'=1+1, "quoted"\nand broken'),
        ("2026-07-10T21:59:20+01:00", "flow", "north", "31.5", ""),
    ]


def test_a_table_of_many_entries_is_whole(
    server: Server, manager: FlaskClient, token: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("pengan.web.journal.finding.IN_ONE_GO", 3)
    told = [row("flow", at=NOW - 60 + number // 4, flow_lpm=number) for number in range(10)]
    send(server, token, *told)
    rows = list(csv.DictReader(io.StringIO(manager.get(f"{JOURNAL}/table.csv").text, newline="")))
    assert [one["id"] for one in rows] == [entry["id"] for entry in told]


SAID = SHUT_BY_SITE(supply="north", flow_lpm=90.5, limit_lpm=85)


def says(server: Server, entry: Entry) -> list[Outcome]:
    with server.shared.database.session() as session, session.begin():
        return store(session, SITE, [entry], NOW)


def test_what_the_server_says_is_worded_for_each_reader(server: Server, manager: FlaskClient) -> None:
    """In their units too; the text is the source's, for whoever knows no better."""
    entry = saying_so(Entry("shut-by-rule", NOW - 60, Kind.SHUT, SERVER, supply="north"), SAID)
    assert says(server, entry) == ["taken"]
    wishes = {"name": "Ana", "language": "de", "units": "us", "hour_cycle": "12"}
    assert manager.put("/api/session/profile", json=wishes).status_code == 200
    (one,) = read(manager, "language=en")["entries"]
    assert one["said"]["params"] == {"supply": "north", "flow_lpm": 90.5, "limit_lpm": 85}
    assert "90.5 L/min" in one["text"] and "23.9 gpm" in one["said"]["detail"]


def test_what_another_version_said_stands_in_the_sources_language(server: Server, manager: FlaskClient) -> None:
    unknown = Message("shut.by_the_moon", {"supply": "north"})
    entry = Entry("shut-by-moon", NOW - 60, Kind.SHUT, SERVER, supply="north", text="The moon did it.", said=unknown)
    says(server, entry)
    (one,) = read(manager, "language=de")["entries"]
    assert one["said"] == {**unknown.as_json(), "detail": "The moon did it."}


def test_a_table_that_was_given_out_in_another_language_is_known_again(server: Server, manager: FlaskClient) -> None:
    entry = saying_so(Entry("shut-by-rule", NOW - 60, Kind.SHUT, SERVER, supply="north"), SAID)
    says(server, entry)
    (row,) = csv.DictReader(io.StringIO(manager.get(f"{JOURNAL}/table.csv?language=de").text, newline=""))
    assert row["text"] != entry.text
    assert says(server, replace(entry, said=None, text=row["text"])) == ["known"]
    assert says(server, replace(entry, supply="town")) == [id_taken()]


def test_what_has_no_explanation_has_the_digest_that_it_always_had() -> None:
    """Written down before entries could have one: the same told again is known by it."""
    entry = Entry("entry-0001", NOW, Kind.NOTE, "person:ana", station="s1", text="Wet by the gate")
    assert sum_of(entry).hex() == "793e0f6084517e6d234659a3b74733df"
    explained = replace(entry, explained=Explained.WORK)
    assert sum_of(explained) != sum_of(entry)
