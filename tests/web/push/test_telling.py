"""An alarm's way to a phone: from the field over HTTP, past the watch, to a push service, and to its end."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from flask.testing import FlaskClient
from sqlalchemy import select

from pengan.engine.journal.reading import told
from pengan.field.troubles import Break
from pengan.web.alarms.watching import Watcher
from pengan.web.extensions import KEY
from pengan.web.push.calling import Outcome, call
from pengan.web.push.models import PushMessage, PushSubscription
from pengan.web.push.own_key import own_push_key, public_text
from pengan.web.push.queueing import queue_told
from pengan.web.push.sending import MOST_TRIES, send_next
from web.alarms.conftest import SHEET, Grounds
from web.journal.conftest import made_reporter
from web.people.crew import SITE, me
from web.push.services import Phone, Service, push_service

BROKEN = SHEET.runs[0].start + 600
BREAK = Break(supply="north", flow_lpm=30, at=BROKEN, until=BROKEN + 1800)
Body = dict[str, Any]


@pytest.fixture
def service(grounds: Grounds) -> Iterator[Service]:
    """The one push service that the server may call."""
    with push_service() as made:
        shared = grounds.server.shared
        settings = replace(shared.settings, push_services=made.address)
        grounds.server.app.extensions[KEY] = replace(shared, settings=settings)
        yield made


@pytest.fixture
def watcher(grounds: Grounds) -> Watcher:
    return grounds.watcher(queue_told)


def subscribed(client: FlaskClient, service: Service, path: str = "/phone/1") -> Phone:
    phone = Phone(path)
    answer = client.put("/api/push/subscription", json=phone.subscription(service.address))
    assert answer.status_code == 204, answer.text
    return phone


def send(grounds: Grounds) -> list[Outcome]:
    """Send all that is due now."""
    key = own_push_key(grounds.server.shared.settings.secret_path)
    out: list[Outcome] = []
    with grounds.server.shared.database.session() as session:
        while (
            done := send_next(
                session,
                "one",
                grounds.now,
                int(grounds.real),
                lambda *given: call(key, "mailto:water@example.org", *given),
            )
        ) is not None:
            out.append(done)
    return out


def messages(grounds: Grounds) -> list[PushMessage]:
    with grounds.server.shared.database.session() as session, session.begin():
        return list(session.scalars(select(PushMessage)))


def wants(client: FlaskClient, **wish: object) -> None:
    answer = client.put("/api/push/wishes", json={"least": "serious", "quiet_but": "grave", **wish})
    assert answer.status_code == 200, answer.text


def alarm_comes(grounds: Grounds, watcher: Watcher) -> str:
    grounds.play(BREAK)
    grounds.tell_until(BROKEN + 300)
    grounds.look(watcher)
    (alarm,) = grounds.alarms()
    return alarm.id


def test_the_whole_way_from_a_break_to_a_phone_and_to_its_end(
    grounds: Grounds, service: Service, watcher: Watcher, crew: FlaskClient
) -> None:
    phone = subscribed(crew, service)
    reporter = made_reporter(grounds.server.person("manager"))
    headers = {"Authorization": f"Bearer {reporter['token']}"}
    grounds.play(BREAK)
    for at in (BROKEN - 60, BROKEN + 120, BROKEN + 300, BROKEN + 1800, BROKEN + 2400):
        grounds.server.later(seconds=at - grounds.server.now)
        rows = [told(one) for one in grounds.entries if grounds.told_to < one.at <= at]
        grounds.now = grounds.told_to = at
        for first in range(0, len(rows), 1000):
            answer = grounds.server.browser().post(
                "/api/journal/entries", json={"entries": rows[first : first + 1000]}, headers=headers
            )
            assert {one["outcome"] for one in answer.json["answers"]} == {"taken"}
        grounds.real += 60
        grounds.look(watcher)
        send(grounds)
        if at == BROKEN + 300:
            (alarm,) = grounds.alarms()
            assert crew.put(f"/api/sites/{SITE}/alarms/{alarm.id}/seen", json={}).status_code == 200
    (came,) = service.came
    said = phone.opened(came.body)
    assert (came.path, said["site"], said["alarm"], said["gravity"]) == ("/phone/1", SITE, alarm.id, "grave")
    assert said["language"] == "es" and "north" in said["text"].lower()
    key = crew.get("/api/push/key").json["key"]
    claims = came.claims()
    assert (claims["key"], claims["sub"], claims["aud"]) == (key, "mailto:water@example.org", service.address)
    assert came.headers["content-encoding"] == "aes128gcm" and came.headers["urgency"] == "high"
    assert int(came.headers["ttl"]) > 0 and came.headers["topic"] == alarm.id and len(came.body) < 4096
    (after,) = grounds.alarms()
    assert after.ended_at is not None
    looked = crew.get(f"/api/sites/{SITE}/alarms").json["alarms"][0]
    assert [one["person"] for one in looked["seen"]] == [me(crew)["person"]]


def test_a_device_that_is_gone_is_told_no_more(
    grounds: Grounds, service: Service, watcher: Watcher, crew: FlaskClient
) -> None:
    subscribed(crew, service)
    service.status = 410
    alarm_comes(grounds, watcher)
    assert send(grounds) == [Outcome.GONE]
    assert crew.get("/api/push/key").json["subscribed"] is False and messages(grounds) == []


def test_a_busy_service_is_asked_again_later_each_time_and_not_for_ever(
    grounds: Grounds, service: Service, watcher: Watcher, crew: FlaskClient
) -> None:
    subscribed(crew, service)
    service.status, service.more = 429, {"Retry-After": "100"}
    alarm_comes(grounds, watcher)
    assert send(grounds) == [Outcome.LATER]
    assert [one.due - grounds.now for one in messages(grounds)] == [100]
    service.more = {}
    waits = []
    while messages(grounds):
        grounds.now = messages(grounds)[0].due
        assert send(grounds) == [Outcome.LATER]
        waits += [one.due - grounds.now for one in messages(grounds)]
    assert waits == sorted(waits) and len(service.came) == MOST_TRIES


def test_no_redirect_is_followed(grounds: Grounds, service: Service, watcher: Watcher, crew: FlaskClient) -> None:
    subscribed(crew, service)
    service.status, service.more = 302, {"Location": f"{service.address}/elsewhere"}
    alarm_comes(grounds, watcher)
    assert send(grounds) == [Outcome.NEVER]
    assert [one.path for one in service.came] == ["/phone/1"]


@pytest.mark.parametrize(
    "endpoint",
    ["https://127.0.0.1/x", "http://fcm.googleapis.com/x", "https://fcm.googleapis.com.example.org/x",
     "https://user@fcm.googleapis.com/x", "https://fcm.googleapis.com:22/x", "file:///etc/passwd", "https://[::1]/x",
     "https://notify.windows.com.evil.example/x", "gopher://fcm.googleapis.com/"],
)  # fmt: skip
def test_only_known_push_services_are_called(grounds: Grounds, crew: FlaskClient, endpoint: str) -> None:
    given = Phone("").subscription("") | {"endpoint": endpoint}
    answer = crew.put("/api/push/subscription", json=given)
    assert answer.status_code == 422 and answer.json["fields"][0]["field"] == "endpoint"
    good = given | {"endpoint": "https://fcm.googleapis.com/fcm/send/x"}
    assert crew.put("/api/push/subscription", json=good).status_code == 204


def test_in_quiet_hours_a_minor_matter_waits_and_a_grave_one_does_not(
    grounds: Grounds, service: Service, watcher: Watcher, crew: FlaskClient
) -> None:
    """The break is grave. Ana hears of it at once, Rui wants nothing at all until seven."""
    lead = grounds.server.person("lead", name="Rui")
    ana, rui = subscribed(crew, service, "/ana"), subscribed(lead, service, "/rui")
    wants(crew, quiet_from="21:00", quiet_to="07:00")
    wants(lead, quiet_from="21:00", quiet_to="07:00", quiet_but=None)
    alarm_comes(grounds, watcher)
    send(grounds)
    assert [one.path for one in service.came] == ["/ana"] and ana.opened(service.came[0].body)
    (waiting,) = messages(grounds)
    grounds.go_on(watcher, BROKEN + 2700, every_s=300)
    assert waiting.due % 86_400 == 6 * 3600  # seven in Lisbon's summer
    grounds.now = waiting.due
    assert send(grounds) == [Outcome.TAKEN]
    assert service.came[-1].path == "/rui" and len(rui.opened(service.came[-1].body)["text"]) > 40


def test_who_knows_already_is_not_told_nor_who_has_left(
    grounds: Grounds, service: Service, watcher: Watcher, crew: FlaskClient
) -> None:
    manager, lead = grounds.server.person("manager"), grounds.server.person("lead", name="Rui")
    subscribed(crew, service, "/ana")
    subscribed(lead, service, "/rui")
    alarm = alarm_comes(grounds, watcher)
    crew.put(f"/api/sites/{SITE}/alarms/{alarm}/seen", json={})
    gone = manager.put(f"/api/people/{me(lead)['person']}/role", json={"site": SITE, "role": None})
    assert gone.status_code == 204
    assert set(send(grounds)) == {Outcome.NEVER} and service.came == []


def test_a_phone_may_be_told_no_more(grounds: Grounds, service: Service, watcher: Watcher, crew: FlaskClient) -> None:
    subscribed(crew, service)
    assert crew.delete("/api/push/subscription").status_code == 204
    alarm_comes(grounds, watcher)
    assert send(grounds) == [] and service.came == []
    with grounds.server.shared.database.session() as session, session.begin():
        assert session.scalars(select(PushSubscription)).all() == []


def test_the_servers_key_is_made_once_and_read_by_its_owner_alone(grounds: Grounds) -> None:
    secret = grounds.server.shared.settings.secret_path
    assert public_text(own_push_key(secret)) == public_text(own_push_key(secret))
    assert (secret.parent / "push-key.pem").stat().st_mode & 0o077 == 0
