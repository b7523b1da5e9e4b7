"""What people do about an alarm: seen, explained, ended; by its address, or told later by a phone without signal."""

from __future__ import annotations

import csv
import io
import json
from typing import Any
from urllib.parse import quote

import pytest
from flask.testing import FlaskClient

from pengan.engine.journal.entry import Explained, Kind
from pengan.field.troubles import Break
from web.alarms.conftest import SHEET, Grounds
from web.people.crew import SITE, me

BEGIN = SHEET.runs[0].start
BROKEN = BEGIN + 600
ALARMS = f"/api/sites/{SITE}/alarms"
Body = dict[str, Any]


@pytest.fixture
def alarm(grounds: Grounds) -> str:
    """One that is open."""
    grounds.play(Break(supply="north", flow_lpm=30, at=BROKEN, until=BROKEN + 5400))
    watcher = grounds.watcher()
    grounds.tell_until(BROKEN + 900)
    grounds.look(watcher)
    grounds.real += 60
    grounds.look(watcher)
    (found,) = grounds.alarms()
    return found.id


def page(client: FlaskClient, query: str = "") -> Body:
    answer = client.get(f"{ALARMS}{query}")
    assert answer.status_code == 200, answer.text
    found: Body = answer.json
    return found


def do(client: FlaskClient, alarm: str, what: str, **body: object) -> Body:
    answer = client.put(f"{ALARMS}/{alarm}/{what}", json=body)
    assert answer.status_code == 200, answer.text
    found: Body = answer.json
    return found


def test_it_says_what_is_wrong_who_may_be_behind_it_and_how_sure(grounds: Grounds, alarm: str) -> None:
    client = grounds.server.person("crew", name="Ana")
    (one,) = page(client, "?language=en")["alarms"]
    assert one["id"] == alarm and one["ended"] is None and one["gravity"] == "grave"
    assert one["said"]["detail"].startswith("north gives ") or "North" in one["said"]["detail"]
    assert one["culprits"] and all(0 < each["sure"] <= 1 and each["said"]["detail"] for each in one["culprits"])
    assert abs(one["lost_l"] - one["size_lpm"] * 15) < one["size_lpm"] * 12
    assert "licensed" in page(client, "?language=en")["caution"]["detail"]


def test_seen_once_however_often_it_is_said(grounds: Grounds, alarm: str, crew: FlaskClient) -> None:
    before = page(crew)["newest"]
    first, again = do(crew, alarm, "seen"), do(crew, alarm, "seen")
    assert first["seen"] == again["seen"] == [{"person": me(crew)["person"], "at": grounds.server.now}]
    assert page(crew)["newest"] == before + 1 and page(crew)["names"] == {me(crew)["person"]: "Ana"}
    assert len(grounds.journal(Kind.ALARM_SEEN)) == 1


def test_explained_by_the_crew_and_kept_open(grounds: Grounds, alarm: str, crew: FlaskClient) -> None:
    said = do(crew, alarm, "explained", kind="work", text="Digging by the gate")
    assert said["explained"] == {
        "kind": "work", "text": "Digging by the gate", "by": me(crew)["person"], "at": grounds.server.now,
    }  # fmt: skip
    assert said["ended"] is None and len(said["seen"]) == 1
    do(crew, alarm, "explained", kind="work", text="Digging by the gate")
    (entry,) = grounds.journal(Kind.ALARM_EXPLAINED)
    assert (entry.explained, entry.text) == (Explained.WORK, "Digging by the gate")


def test_the_crew_cannot_end_it_a_lead_can_and_it_stays_ended(grounds: Grounds, alarm: str, crew: FlaskClient) -> None:
    """The break goes on; the readings that show it do not open it again."""
    assert crew.put(f"{ALARMS}/{alarm}/ended", json={}).status_code == 403
    lead = grounds.server.person("lead", name="Rui")
    grounds.server.later(seconds=grounds.now - grounds.server.now)
    ended = do(lead, alarm, "ended", text="Shut by hand")
    assert ended["ended"]["by"] == f"person:{me(lead)['person']}"
    grounds.go_on(grounds.watcher(), grounds.now + 60)
    grounds.real += 100
    grounds.go_on(grounds.watcher(), grounds.now + 900, every_s=300)
    (after,) = grounds.alarms()
    assert after.ended_at is not None and after.times == 1
    assert [(one.by, one.text) for one in grounds.journal(Kind.ALARM_ENDED)] == [(after.ended_by, "Shut by hand")]


def test_what_a_phone_tells_the_journal_later_counts_too(grounds: Grounds, alarm: str, crew: FlaskClient) -> None:
    grounds.server.later(seconds=grounds.now - grounds.server.now)
    rows = [
        {"id": "seen-offline-1", "at": grounds.now - 60, "kind": "alarm_seen", "alarm": alarm},
        {"id": "said-offline-1", "at": grounds.now - 30, "kind": "alarm_explained", "alarm": alarm, "text": "A hose"},
        {"id": "seen-nothing-1", "at": grounds.now - 60, "kind": "alarm_seen", "alarm": "no-such-alarm"},
    ]
    answer = crew.post(f"/api/sites/{SITE}/journal", json={"entries": rows})
    assert [one["outcome"] for one in answer.json["answers"]] == ["taken"] * 3
    grounds.real += 100
    grounds.look(grounds.watcher())
    (one,) = page(crew)["alarms"]
    assert one["seen"] == [{"person": me(crew)["person"], "at": grounds.now - 60}]
    assert (one["explained"]["kind"], one["explained"]["text"]) == ("other", "A hose")


@pytest.mark.parametrize("explained", [*Explained, None])
def test_what_it_was_is_known_though_it_was_said_without_signal(
    grounds: Grounds, alarm: str, crew: FlaskClient, explained: Explained | None
) -> None:
    """Without words of one's own too. What an older phone tells is of no sort: something else."""
    grounds.server.later(seconds=grounds.now - grounds.server.now)
    said = {"id": "said-offline-2", "at": grounds.now - 30, "kind": "alarm_explained", "alarm": alarm}
    row = said | ({} if explained is None else {"explained": explained.value})
    answer = crew.post(f"/api/sites/{SITE}/journal", json={"entries": [row]})
    assert answer.json["answers"][0]["outcome"] == "taken"
    grounds.real += 100
    grounds.look(grounds.watcher())
    (one,) = page(crew)["alarms"]
    assert (one["explained"]["kind"], one["explained"]["text"]) == (explained or "other", "")
    assert one["explained"]["at"] == grounds.now - 30


def test_what_was_said_by_its_own_address_is_not_said_anew_by_the_journal(
    grounds: Grounds, alarm: str, crew: FlaskClient
) -> None:
    """Two people at the same second: what stands, stands, though the journal repeats both."""
    grounds.server.later(seconds=grounds.now - grounds.server.now)
    other = grounds.server.person("crew", name="Rui")
    do(crew, alarm, "explained", kind="work", text="")
    do(other, alarm, "explained", kind="meter", text="")
    before = page(crew)["newest"]
    grounds.real += 100
    grounds.look(grounds.watcher())
    assert page(crew)["alarms"][0]["explained"]["kind"] == "meter"
    assert page(crew)["newest"] == before


def test_each_reader_has_the_journals_alarms_in_their_own_language(
    grounds: Grounds, alarm: str, crew: FlaskClient
) -> None:
    """Sentence, units and clock; what a search finds is the source's."""
    journal = f"/api/sites/{SITE}/journal"
    (opened,) = crew.get(f"{journal}?kind=alarm_opened&language=en").json["entries"]
    (german,) = crew.get(f"{journal}?kind=alarm_opened&language=de").json["entries"]
    assert opened["said"]["detail"] == opened["text"] == german["text"]
    assert german["said"]["code"] == opened["said"]["code"] and german["said"]["params"] == opened["said"]["params"]
    assert german["said"]["detail"] not in ("", opened["text"])
    (told,) = csv.DictReader(io.StringIO(crew.get(f"{journal}/table.csv?kind=alarm_opened&language=de").text))
    assert told["text"] == german["said"]["detail"]
    found = crew.get(f"{journal}?text={quote(opened['text'][-20:])}&language=de").json["entries"]
    assert [one["id"] for one in found] == [opened["id"]]


def test_an_alarms_end_is_said_in_the_readers_language_too(grounds: Grounds, alarm: str, crew: FlaskClient) -> None:
    watcher = grounds.watcher()
    grounds.go_on(watcher, BROKEN + 5400 + 900, every_s=300)
    assert grounds.alarms()[0].ended_at is not None
    journal = f"/api/sites/{SITE}/journal?kind=alarm_ended"
    english, german = (crew.get(f"{journal}&language={one}").json["entries"][0] for one in ("en", "de"))
    assert english["said"]["code"] == german["said"]["code"] == "alarm.right_again"
    assert english["said"]["detail"] == english["text"] != german["said"]["detail"]


def test_open_ones_come_first_and_pages_leave_none_out(grounds: Grounds, alarm: str, crew: FlaskClient) -> None:
    lead = grounds.server.person("lead", name="Rui")
    with grounds.server.shared.database.session() as session, session.begin():
        from pengan.web.alarms.models import Alarm

        first = session.get_one(Alarm, (SITE, alarm))
        for number in range(5):
            values = {name: getattr(first, name) for name in Alarm.__table__.columns.keys()}  # noqa: SIM118
            more = {"id": f"other-{number}", "opened_at": first.opened_at - number % 2, "change": 50 + number}
            session.add(Alarm(**{**values, **more}))
    do(lead, alarm, "ended")
    found, query = [], "?limit=2"
    while query:
        got = page(crew, query)
        found += [one["id"] for one in got["alarms"]]
        query = f"?limit=2&page={got['next']}" if got["next"] else ""
    assert found == ["other-0", "other-2", "other-4", "other-1", "other-3", alarm]
    assert [one["id"] for one in page(crew, "?state=ended")["alarms"]] == [alarm]
    assert [one["id"] for one in page(crew, "?since=51")["alarms"]] == ["other-2", "other-3", "other-4"]
    assert crew.get(f"{ALARMS}?page=x").status_code == 422


def test_strangers_learn_nothing(grounds: Grounds, alarm: str) -> None:
    assert grounds.server.browser().get(ALARMS).status_code == 404
    assert json.loads(grounds.server.browser().get(ALARMS).text)["code"] == "web.no_such_site"
