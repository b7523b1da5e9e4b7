"""What people change without knowing of each other, and what becomes of it, over a server that is really stopped."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from uuid import uuid4

import pytest
from playwright.sync_api import Browser, Page, expect

from browser.codes import SITE
from browser.edits import SOON_MS, at_turn, open_at, pocket, record, run_for, run_s
from browser.joining import SETTINGS, joined_phone
from browser.planning import planning_ahead
from browser.standing import Standing

pytestmark = pytest.mark.journey

WEIGHED_MS = 120_000
TURN = "stations/s103/turn/p-d-s103"


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Standing]:
    standing = Standing(tmp_path_factory.mktemp("changes"))
    standing.start()
    yield standing
    standing.stop()


@pytest.fixture(scope="module")
def ines(browser: Browser, server: Standing) -> Iterator[Page]:
    with joined_phone(browser, server, "manager", "Inês Falcão") as page:
        yield page


@pytest.fixture(scope="module")
def bikram(browser: Browser, server: Standing, ines: Page) -> Iterator[Page]:
    with joined_phone(browser, server, "lead", "Bikram Thapa") as page:
        yield page


@pytest.fixture(autouse=True)
def started(server: Standing) -> None:
    server.start()


def ask(page: Page, method: str, path: str, body: Any = None) -> Any:
    """Of the API, as whoever uses this phone."""
    answer = page.evaluate(
        """async ([method, path, body]) => {
          const headers = { "content-type": "application/json" };
          const given = body === null ? {} : { headers, body: JSON.stringify(body) };
          const answer = await fetch(path, { method, ...given });
          return { status: answer.status, body: await answer.json().catch(() => null) };
        }""",
        [method, path, body],
    )
    assert answer["status"] < 300, answer
    return answer["body"]


def push(page: Page, **edit: Any) -> str:
    """An edit made on a phone that had only seen the site's first version. Returns its outcome."""
    me = ask(page, "GET", "/api/session")
    whole = {
        "id": str(uuid4()),
        "format": 1,
        "seen": 1,
        "was": None,
        "now": None,
        "field": None,
        "phone_time": "2026-10-24T22:48:00+01:00",
    }
    sets = [{"id": str(uuid4()), "site": SITE, "edits": [whole | edit]}]
    answer = ask(page, "POST", "/api/sync/push", {"device": me["device"], "person": me["person"], "sets": sets})
    return str(answer["answers"][0]["outcome"])


def test_two_phones_set_one_run_time_without_signal_and_settle_it_with_one_tap(
    server: Standing, ines: Page, bikram: Page
) -> None:
    for phone in (ines, bikram):
        at_turn(phone, server, TURN)
        expect(phone.locator(".stepper-now")).to_have_value("90")
    server.stop()
    run_for(ines, 50)
    run_for(bikram, 36)
    pocket(bikram)

    server.start()
    with planning_ahead(server):
        open_at(ines, server, "changes")
        expect(ines.get_by_text("Everything has been sent.")).to_be_visible(timeout=SOON_MS)
        assert run_s(server, "p-d-s103") == 50 * 60
        open_at(bikram, server, "changes")
        for phone in (bikram, ines):
            dispute = phone.locator("[data-list=waiting] [data-tray=disputed]")
            expect(dispute).to_have_count(1, timeout=SOON_MS)
            expect(phone.locator(".room-count")).to_contain_text("1")
            dispute.click()
            expect(phone.locator(".dispute-words")).to_have_text(
                "Two people set this run time without knowing of each other. It was 1 h 30 min."
            )
            mine, theirs = phone.locator("[data-side=mine]"), phone.locator("[data-side=theirs]")
            expect(mine.locator(".side-value")).to_have_text("36 min")
            expect(theirs.locator(".side-value")).to_have_text("50 min")
            expect(mine.locator("h3")).to_contain_text("Bikram Thapa")
            expect(theirs.locator("h3")).to_contain_text("Inês Falcão")
            for side in (mine, theirs):
                expect(side.locator(".side-words")).to_contain_text("Finish", timeout=WEIGHED_MS)
            expect(theirs.locator(".side-picture .drawing")).to_be_visible()
            expect(phone.locator(".dispute-until")).to_contain_text("tonight keeps 50 min")

        ines.get_by_role("button", name="Use 36 min").click()
        expect(ines.get_by_text("Nothing waits for a decision.")).to_be_visible()
        expect(ines.get_by_text("Everything has been sent.")).to_be_visible(timeout=SOON_MS)
    assert run_s(server, "p-d-s103") == 36 * 60
    open_at(bikram, server, "changes")
    expect(bikram.get_by_text("Nothing waits for a decision.")).to_be_visible(timeout=SOON_MS)
    for phone in (ines, bikram):
        open_at(phone, server, TURN)
        expect(phone.locator(".stepper-now")).to_have_value("36", timeout=SOON_MS)


def test_another_value_settles_a_dispute_too(server: Standing, ines: Page, bikram: Page) -> None:
    run = {"cycles": 3, "soak_s": 1800}
    first, second = {"run_s": 1200, **run}, {"run_s": 2400, **run}
    turn = {"kind": "set", "table": "turns", "record": "p-d-s104", "field": "run"}
    open_at(ines, server, "changes")
    open_at(bikram, server, "changes")
    assert push(bikram, **turn, now=first) == "taken"
    assert push(ines, **turn, now=second) == "disputed"
    ines.reload()
    ines.locator("[data-tray=disputed]").click(timeout=SOON_MS)
    ines.get_by_role("button", name="Set another value").click()
    field = ines.get_by_label("Run time")
    field.fill("33")
    field.blur()
    ines.get_by_role("button", name="Use 33 min").click()
    expect(ines.get_by_text("Nothing waits for a decision.")).to_be_visible()
    expect(ines.get_by_text("Everything has been sent.")).to_be_visible(timeout=SOON_MS)
    assert run_s(server, "p-d-s104") == 33 * 60


def test_what_is_unsent_is_told_in_words_saved_as_a_file_and_taken_back(
    server: Standing, ines: Page, tmp_path: Path
) -> None:
    at_turn(ines, server, TURN)
    before = run_s(server, "p-d-s103")
    server.stop()
    run_for(ines, 41)
    ines.get_by_role("navigation", name="Rooms").get_by_role("button", name="Changes").click()
    told = ines.locator("[data-list=unsent]")
    expect(told).to_contain_text("Run time of 103 Meadow east, hives:")
    expect(told).to_contain_text("41 min")
    with ines.expect_download() as saved:
        ines.get_by_role("button", name="Save as a file").click()
    saved.value.save_as(tmp_path / "unsent.json")
    edits = json.loads((tmp_path / "unsent.json").read_text(encoding="utf-8"))["edits"]
    assert [edit["now"]["run_s"] for edit in edits] == [41 * 60]
    ines.get_by_role("button", name="Take back").click()
    # The phone had tried to send it, and its answer may be on the way: then a second edit sets it back.
    expect(
        told.locator("li.change-act").filter(has_text="41 min →").or_(ines.get_by_text("Everything has been sent."))
    ).to_be_visible()
    server.start()
    expect(ines.get_by_text("Everything has been sent.")).to_be_visible(timeout=SOON_MS)
    open_at(ines, server, TURN)
    expect(ines.locator(".stepper-now")).to_have_value(str(before // 60))
    assert run_s(server, "p-d-s103") == before


def test_an_edit_that_lost_its_right_on_the_way_waits_for_a_manager(server: Standing, ines: Page, bikram: Page) -> None:
    open_at(ines, server, "changes")
    at_turn(bikram, server, "stations/s107/turn/p-d-s107")
    person = ask(bikram, "GET", "/api/session")["person"]
    server.stop()
    run_for(bikram, 44)
    pocket(bikram)
    server.start()
    open_at(ines, server, "changes")
    ask(ines, "PUT", f"/api/people/{person}/role", {"site": SITE, "role": "crew"})
    open_at(bikram, server, "changes")
    held = bikram.locator("[data-tray=held]")
    expect(held).to_have_count(1, timeout=SOON_MS)
    held.click()
    expect(bikram.get_by_text("It waits for a manager.")).to_be_visible()
    expect(bikram.get_by_role("button", name="Accept")).to_have_count(0)
    assert run_s(server, "p-d-s107") != 44 * 60

    ines.reload()
    ines.locator("[data-tray=held]").click(timeout=SOON_MS)
    ines.get_by_role("button", name="Accept").click()
    expect(ines.get_by_text("Nothing waits for a decision.")).to_be_visible(timeout=SOON_MS)
    assert run_s(server, "p-d-s107") == 44 * 60
    bikram.goto(f"{server.address}/changes?{SETTINGS}")
    expect(bikram.locator("[data-list=news]")).to_contain_text("Inês Falcão accepted it", timeout=SOON_MS)
    ask(ines, "PUT", f"/api/people/{person}/role", {"site": SITE, "role": "lead"})


def test_what_broke_a_limit_names_it_and_is_mended(server: Standing, ines: Page) -> None:
    open_at(ines, server, "changes")
    outcome = push(ines, kind="set", table="stations", record="s106", field="flow_lpm", was=94, now=-4)
    assert outcome == "refused"
    ines.reload()
    ines.locator("[data-tray=refused]").click(timeout=SOON_MS)
    expect(ines.locator(".decide-faults")).to_contain_text("between 0.1 L/min and 60,000 L/min, but it is -4 L/min")
    ines.get_by_role("button", name="Mend it").click()
    field = ines.get_by_label("Flow", exact=True)
    expect(field).to_have_value("-4")
    field.fill("88")
    field.blur()
    ines.get_by_role("button", name="Use 88 L/min").click()
    expect(ines.get_by_text("Nothing waits for a decision.")).to_be_visible()
    expect(ines.get_by_text("Everything has been sent.")).to_be_visible(timeout=SOON_MS)
    assert (record(server, "stations", "s106") or {})["flow_lpm"] == 88


def test_an_edit_to_a_removed_record_brings_it_back(server: Standing, ines: Page, bikram: Page) -> None:
    open_at(ines, server, "changes")
    open_at(bikram, server, "changes")
    assert push(bikram, kind="remove", table="closures", record="k-film", seen={}) == "taken"
    assert record(server, "closures", "k-film") is None
    renamed = {"was": "Open-air film in the arrival court", "now": "Film night"}
    assert push(ines, kind="set", table="closures", record="k-film", field="name", **renamed) == "removed"
    ines.reload()
    ines.locator("[data-tray=removed]").click(timeout=SOON_MS)
    expect(ines.locator(".dispute")).to_contain_text("Removed by Bikram Thapa")
    ines.get_by_role("button", name="Bring the record back and apply it").click()
    expect(ines.get_by_text("Nothing waits for a decision.")).to_be_visible()
    expect(ines.get_by_text("Everything has been sent.")).to_be_visible(timeout=SOON_MS)
    assert (record(server, "closures", "k-film") or {})["name"] == "Film night"


def test_what_others_changed_is_told_once(server: Standing, ines: Page, bikram: Page) -> None:
    open_at(ines, server, "changes")
    expect(ines.locator(".changes-lists")).to_be_visible()
    ines.get_by_role("navigation", name="Rooms").get_by_role("button", name="Tonight").click()
    open_at(bikram, server, "changes")
    assert push(bikram, kind="set", table="programs", record="p-q", field="notes", now="Ferns first.") == "taken"
    # The server's clock stands: what came at the very second up to which one has seen is told by its revision.
    open_at(ines, server, "changes")
    news = ines.locator("[data-list=news]")
    expect(news).to_contain_text("Notes of Fern house", timeout=SOON_MS)
    expect(news).to_contain_text("Bikram Thapa")
    ines.get_by_role("navigation", name="Rooms").get_by_role("button", name="Tonight").click()
    ines.get_by_role("navigation", name="Rooms").get_by_role("button", name="Changes").click()
    expect(ines.get_by_text("Nobody else changed anything.")).to_be_visible()


def test_the_history_is_filtered_and_a_set_is_undone(server: Standing, ines: Page, bikram: Page) -> None:
    open_at(bikram, server, "changes")
    assert push(bikram, kind="set", table="supplies", record="town", field="limit_lpm", was=140, now=120) == "taken"
    open_at(ines, server, "changes/history")
    newest = ines.locator("[data-act]").first
    expect(newest).to_contain_text("Flow limit of Town connection: 140 L/min → 120 L/min", timeout=SOON_MS)
    expect(newest).to_contain_text("Bikram Thapa")
    ines.get_by_label("What it is about").select_option("stations")
    expect(ines.locator("[data-act]").first).to_contain_text("Flow of 106 Meadow east, bench")
    assert ines.get_by_text("Town connection").count() == 0
    ines.get_by_label("What it is about").select_option("")
    expect(newest).to_contain_text("Town connection")
    newest.get_by_role("button", name="Undo").click()
    expect(ines.locator("[data-act]").first).to_contain_text("120 L/min → 140 L/min", timeout=SOON_MS)
    assert (record(server, "supplies", "town") or {})["limit_lpm"] == 140


def test_the_site_as_it_stood_on_a_date(server: Standing, ines: Page) -> None:
    """The server's clock stands, so that all of the history lies at one instant; days before it there was no site."""
    open_at(ines, server, "changes/then")
    expect(ines.get_by_text("Nothing has changed since then.")).to_be_visible(timeout=SOON_MS)
    ines.get_by_label("At the end of").fill("2026-10-20")
    expect(ines.get_by_text("The site was not here yet at that time.")).to_be_visible()


def test_the_history_is_there_without_the_server(server: Standing, ines: Page) -> None:
    open_at(ines, server, "changes")
    ines.get_by_role("button", name="History").click()
    expect(ines.locator("[data-act]").first).to_contain_text("Flow limit of Town connection", timeout=SOON_MS)
    ines.get_by_role("button", name="Back").click()
    server.stop()
    try:
        ines.get_by_role("button", name="History").click()
        expect(ines.get_by_text("No signal. This is what this phone had read before.")).to_be_visible()
        expect(ines.locator("[data-act]").first).to_contain_text("Flow limit of Town connection")
    finally:
        server.start()
