"""A rule that a person set shuts a main: in the journal, and by an order over a real broker. Nothing else does."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from paho.mqtt.client import Client, MQTTMessage
from paho.mqtt.enums import CallbackAPIVersion
from sqlalchemy import select

from pengan.engine.journal.entry import Kind
from pengan.engine.journal.orders import orders_schema, orders_topic_of
from pengan.field.troubles import Break
from pengan.web.alarms.models import Order
from pengan.web.alarms.ordering import GOOD_FOR_S
from pengan.web.sites.operations import put_document
from web.alarms.conftest import SHEET, Grounds, a_field
from web.journal.brokers import Bridge, Mosquitto, until
from web.people.crew import SITE, me

BROKEN = SHEET.runs[0].start + 600
BREAK = Break(supply="north", flow_lpm=60, at=BROKEN, until=BROKEN + 3600)


def orders(grounds: Grounds) -> list[Order]:
    with grounds.server.shared.database.session() as session, session.begin():
        return list(session.scalars(select(Order)))


def rule(grounds: Grounds, person: str = "", above: float = 85) -> None:
    with grounds.server.shared.database.session() as session:
        put_document(session, a_field(shut_above_lpm=above, shut_after_s=60), person)


def test_without_a_rule_a_break_shuts_nothing(grounds: Grounds) -> None:
    grounds.play(BREAK)
    watcher = grounds.watcher()
    grounds.go_on(watcher, BROKEN + 900, every_s=300)
    assert len(grounds.alarms()) == 1
    assert orders(grounds) == [] == grounds.journal(Kind.SHUT)


def test_a_rule_shuts_once_and_says_who_set_it(grounds: Grounds) -> None:
    lead = grounds.server.person("lead", name="Rui")
    rule(grounds, me(lead)["person"])
    grounds.play(BREAK)
    watcher = grounds.watcher()
    grounds.go_on(watcher, BROKEN - 600, every_s=600)
    grounds.go_on(watcher, BROKEN + 900, every_s=60)
    (shut,) = grounds.journal(Kind.SHUT)
    assert (shut.supply, shut.by) == ("north", "server") and "Rui" in shut.text and "85" in shut.text
    assert BROKEN < shut.at < BROKEN + 300
    (order,) = orders(grounds)
    assert (order.id, order.supply, order.limit_lpm, order.sent_at) == (shut.id, "north", 85, None)


@pytest.fixture
def broker(grounds: Grounds, tmp_path: Path) -> Iterator[Mosquitto]:
    """A broker, and the server's process that listens to it."""
    mosquitto, settings = Mosquitto(tmp_path), grounds.server.shared.settings
    assert settings.now is not None
    given = {
        "PENGAN_DATA": str(settings.data), "PENGAN_DATABASE": settings.database, "PENGAN_MQTT": mosquitto.url,
        "PENGAN_NOW": settings.now.isoformat(), "PENGAN_LOG": "info",
    }  # fmt: skip
    bridge = Bridge(given, tmp_path / "bridge.log")
    mosquitto.start()
    bridge.start()
    bridge.wait_until_it_listens()
    yield mosquitto
    bridge.kill()
    mosquitto.kill()


@pytest.mark.parametrize("grounds", ["sqlite"], indirect=True)
def test_an_order_is_published_as_its_schema_says_and_an_old_one_is_not(grounds: Grounds, broker: Mosquitto) -> None:
    now, heard = grounds.server.now, list[MQTTMessage]()
    client = Client(CallbackAPIVersion.VERSION2, "valves")
    client.on_message = lambda _client, _data, message: heard.append(message)
    client.connect("127.0.0.1", broker.port)
    client.subscribe(orders_topic_of(SITE), 1)
    client.loop_start()
    given: dict[str, Any] = {"site": SITE, "supply": "north", "flow_lpm": 120.5, "limit_lpm": 85.0, "lapsed": False}
    with grounds.server.shared.database.session() as session, session.begin():
        session.add(Order(**given, id="order-new-1", at=now - 5))
        session.add(Order(**given, id="order-old-1", at=now - GOOD_FOR_S - 1))
    until(lambda: any(one.sent_at for one in orders(grounds)), "the order to be sent")
    client.loop_stop()
    (message,) = heard
    told = json.loads(message.payload)
    assert list(Draft202012Validator(orders_schema()).iter_errors(told)) == []
    assert (told["id"], told["order"], told["supply"], message.qos, message.retain) == (
        "order-new-1", "shut", "north", 1, False,
    )  # fmt: skip
    assert {one.id: one.lapsed for one in orders(grounds)} == {"order-new-1": False, "order-old-1": True}
