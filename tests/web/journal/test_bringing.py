"""A CSV file brought in by the app: taken once, by those who may, whole or not at all where it cannot be read."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

import pytest
from flask.testing import FlaskClient
from werkzeug.test import TestResponse

from pengan.web.journal.bringing import MOST_BYTES, MOST_TOLD
from web.journal.conftest import JOURNAL, aside, counted, read
from web.people.crew import BESIDE, Server, me

Row = dict[str, Any]
TABLE = f"{JOURNAL}/table.csv"
HEAD = "at,kind,station,supply,count_l,text\n"
LINES = (
    HEAD + "2026-07-01 08:00,count,,town,4000,\n2026-07-01 22:15,opened,s1,,,\n2026-07-02 09:00,note,,,,Größe — 公園\n"
)


def bring(client: FlaskClient, content: str | bytes, path: str = TABLE, **how: list[str] | str) -> TestResponse:
    data = content if isinstance(content, bytes) else content.encode()
    return client.post(f"{path}?{urlencode(how, doseq=True)}", data=data, content_type="text/csv")


def brought(client: FlaskClient, content: str | bytes, **how: list[str] | str) -> Row:
    answer = bring(client, content, **how)
    assert answer.status_code == 200, answer.text
    found: Row = answer.json
    return found


def counts(found: Row) -> tuple[int, int, int]:
    return found["taken"], found["known"], found["aside"]


@pytest.mark.parametrize("role", ["lead", "manager"])
def test_leads_and_managers_bring_a_file_which_is_taken_once(server: Server, role: str) -> None:
    """The app and the journal name who brought it."""
    client = server.person(role)
    assert brought(client, LINES) == {"taken": 3, "known": 0, "aside": 0, "lines": [], "left_out": []}
    assert counts(brought(client, LINES)) == (0, 3, 0)
    entries = read(client, "order=oldest")["entries"]
    assert [(one["kind"], one.get("count_l"), one.get("text")) for one in entries] == [
        ("count", 4000, None), ("opened", None, None), ("note", None, "Größe — 公園"),
    ]  # fmt: skip
    assert {one["by"] for one in entries} == {f"person:{me(client)['person']}"}


def test_nobody_else_brings_anything(server: Server, manager: FlaskClient) -> None:
    answers = [bring(server.browser(), LINES), bring(server.person("crew"), LINES)]
    assert [one.status_code for one in answers] == [401, 403]
    assert bring(manager, LINES, f"/api/sites/{BESIDE}/journal/table.csv").status_code == 404
    assert counted(server) == (0, 0)


@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-16"])
def test_it_may_be_written_as_spreadsheets_write_it(manager: FlaskClient, encoding: str) -> None:
    text = LINES.replace(",", ";").replace("\n", "\r\n")
    assert counts(brought(manager, text.encode(encoding))) == (3, 0, 0)
    assert counts(brought(manager, LINES)) == (0, 3, 0), "the same, whatever it was written in"


def test_the_old_encoding_of_windows_is_read_too(manager: FlaskClient) -> None:
    assert counts(brought(manager, (HEAD + "2026-07-02 09:00,note,,,,Größe\n").encode("cp1252"))) == (1, 0, 0)
    assert read(manager)["entries"][0]["text"] == "Größe"


@pytest.mark.parametrize(
    "content",
    [b"PK\x03\x04\x00\x00 a spreadsheet's own file", LINES.encode("utf-16-le"), b"\x00", b"at,kind\n\x81\x8d"],
)
def test_what_is_no_text_is_refused_whole(server: Server, manager: FlaskClient, content: bytes) -> None:
    answer = bring(manager, content)
    assert (answer.status_code, answer.json["code"]) == (422, "journal.no_text")
    assert counted(server) == (0, 0)


def test_of_half_a_file_nothing_is_taken(server: Server, manager: FlaskClient) -> None:
    """Cut within a text in quotation marks, two thousand sound lines below the headings."""
    lines = HEAD + "".join(f"2026-07-01 08:00,count,,town,{number},\n" for number in range(2000))
    answer = bring(manager, lines + '2026-07-02 09:00,note,,,,"half a te')
    assert (answer.status_code, answer.json["code"]) == (422, "journal.no_csv")
    assert answer.json["params"] == {"line": 2002}
    assert counted(server) == (0, 0)


def test_every_column_that_is_missing_is_told_at_once(server: Server, manager: FlaskClient) -> None:
    answer = bring(manager, "Time,Reading\n2026-07-01 08:00,5\n", column="count_l=Reading")
    assert answer.status_code == 422
    assert [(one["field"], one["code"]) for one in answer.json["fields"]] == [
        ("at", "journal.no_column"), ("kind", "journal.no_column"),
    ]  # fmt: skip
    assert bring(manager, "").status_code == 422
    assert counted(server) == (0, 0)


def test_headings_units_and_what_is_so_in_every_line_may_be_told(manager: FlaskClient) -> None:
    how: dict[str, list[str] | str] = {
        "column": ["at=Time", "count_l=Reading"], "unit": "count_l=m3", "always": ["kind=count", "supply=north"],
    }  # fmt: skip
    found = brought(manager, "Time,Reading,Colour\n2026-07-01 08:00,5,red\n", **how)
    assert counts(found) == (1, 0, 0) and found["left_out"] == ["Colour"]
    (one,) = read(manager)["entries"]
    assert (one["kind"], one["supply"], one["count_l"]) == ("count", "north", 5000)


def test_everything_that_was_asked_wrongly_is_told_at_once(manager: FlaskClient) -> None:
    how: dict[str, list[str] | str] = {"column": "at", "unit": "count_l=bathtubs", "always": ["colour=red", "kind"]}
    answer = bring(manager, LINES, **how)
    assert answer.status_code == 422
    assert [one["field"] for one in answer.json["fields"]] == ["column", "always", "always", "unit"]


def test_records_may_be_named_as_people_call_them(manager: FlaskClient) -> None:
    """By number or name where that is one record's alone. The builder's stations are numbered."""
    document = manager.get(f"{JOURNAL.removesuffix('/journal')}/document").json
    station = next(one for one in document["records"] if one["table"] == "stations" and one["id"] == "s2")
    supply = next(one for one in document["records"] if one["table"] == "supplies" and one["id"] == "north")
    text = HEAD + f"2026-07-01 22:15,opened,{station['number']},,,\n2026-07-01 22:16,shut,,{supply['name'].upper()},,\n"
    assert counts(brought(manager, text)) == (2, 0, 0)
    entries = read(manager, "order=oldest")["entries"]
    assert (entries[0]["station"], entries[1]["supply"]) == ("s2", "north")


def test_faulty_lines_are_kept_aside_with_every_reason_in_the_readers_language(
    server: Server, manager: FlaskClient
) -> None:
    text = HEAD + "2026-07-01 08:00,count,,sea,x,\n2026-07-01 08:05,count,,town,7,\nlater,rain,,,,\n"
    answers = [bring(manager, text, language=language) for language in ("en", "de")]
    found, german = (one.json for one in answers)
    assert counts(found) == (1, 0, 2)
    assert [(one["line"], [fault["field"] for fault in one["faults"]]) for one in found["lines"]] == [
        (2, ["supply", "count_l"]), (4, ["at", "kind"]),
    ]  # fmt: skip
    assert counts(german) == (0, 1, 2)
    assert german["lines"][0]["faults"][0]["detail"] != found["lines"][0]["faults"][0]["detail"]
    assert counted(server) == (1, 2) and {one["times"] for one in aside(manager)} == {2}


def test_of_many_faulty_lines_the_first_are_told(manager: FlaskClient) -> None:
    found = brought(manager, HEAD + "".join(f"2026-07-01 08:00,count,,town,-{number},\n" for number in range(1, 151)))
    assert counts(found) == (0, 0, 150) and len(found["lines"]) == MOST_TOLD


def test_what_only_the_watch_may_tell_is_not_brought(manager: FlaskClient) -> None:
    """Nobody forges an alarm; on the server's own command line a journal that was given out comes back whole."""
    found = brought(manager, "at,kind,alarm,text\n2026-07-01 08:00,alarm_opened,alarm-0001,Too much\n")
    assert [fault["code"] for fault in found["lines"][0]["faults"]] == ["journal.not_yours"]


def test_a_file_that_is_too_large_is_not_read(server: Server, manager: FlaskClient) -> None:
    answer = bring(manager, HEAD + "x" * MOST_BYTES)
    assert (answer.status_code, answer.json["code"]) == (413, "web.body_too_large")
    assert manager.post(TABLE, data=LINES.encode(), content_type="text/plain").status_code == 415
    assert counted(server) == (0, 0)


def test_what_the_server_gives_out_is_known_to_it(manager: FlaskClient) -> None:
    brought(manager, LINES)
    given = manager.get(f"{TABLE}?language=de").text
    found = brought(manager, given)
    assert counts(found) == (0, 3, 0) and found["left_out"] == ["by", "arrived_at"]
