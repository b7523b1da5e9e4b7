"""Entries over MQTT, against a real Mosquitto broker that goes away and comes back."""

from __future__ import annotations

import json
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from queue import Queue
from threading import Thread

import pytest
from paho.mqtt.client import Client
from paho.mqtt.enums import CallbackAPIVersion

from pengan.engine.journal.entry import Entry, Kind
from pengan.field.line import over_mqtt
from pengan.field.line.over_mqtt import Broker, OverMqtt
from pengan.field.line.sending import SendingFault
from pengan.words import say
from web.journal.brokers import Mosquitto

TOKEN = "team.3f9c.secret"
QUICKLY_S = 0.5
TOPIC = "pengan/1/3f9c/entries"


def entries(first: int, count: int = 3) -> list[Entry]:
    return [
        Entry(f"entry-{first + n:04}", 1_800_000_000 + n, Kind.FLOW, "reporter:x", supply="north", flow_lpm=n)
        for n in range(count)
    ]


@pytest.fixture(autouse=True)
def impatient(monkeypatch: pytest.MonkeyPatch) -> None:
    """Mostly nobody answers here."""
    monkeypatch.setattr(over_mqtt, "ANSWERED_S", QUICKLY_S)


@pytest.fixture
def broker(tmp_path: Path) -> Iterator[Mosquitto]:
    made = Mosquitto(tmp_path)
    made.start()
    yield made
    made.kill()


def listening(broker: Mosquitto) -> tuple[Client, Queue[tuple[str, int, dict[str, object]]]]:
    """Somebody who hears all that is told, and goes on hearing it when the broker is back."""
    heard: Queue[tuple[str, int, dict[str, object]]] = Queue()
    client = Client(CallbackAPIVersion.VERSION2, "listener", clean_session=False)
    client.on_message = lambda _client, _data, message: heard.put(
        (message.topic, message.qos, json.loads(message.payload))
    )
    ready: Queue[bool] = Queue()
    client.on_subscribe = lambda *_words: ready.put(True)
    client.on_connect = lambda *_words: client.subscribe("pengan/1/+/entries", qos=1)
    client.reconnect_delay_set(1, 1)
    client.connect("127.0.0.1", broker.port)
    client.loop_start()
    ready.get(timeout=10)
    return client, heard


def test_entries_are_published_on_the_reporters_topic_once_the_broker_has_them(broker: Mosquitto) -> None:
    client, heard = listening(broker)
    sender = OverMqtt(Broker(broker.url), TOKEN)
    try:
        assert sender.send(entries(1)) == Counter(sent=3)  # nobody answers
        topic, quality, body = heard.get(timeout=10)
    finally:
        sender.close()
        client.disconnect()
        client.loop_stop()
    assert (topic, quality) == (TOPIC, 1)
    assert body["token"] == TOKEN
    assert body["entries"][0] == {
        "id": "entry-0001", "at": 1_800_000_000, "kind": "flow", "supply": "north", "flow_lpm": 0
    }  # type: ignore[index]  # fmt: skip


def test_nothing_is_lost_while_the_broker_is_away(broker: Mosquitto) -> None:
    client, heard = listening(broker)
    sender = OverMqtt(Broker(broker.url), TOKEN)
    try:
        sender.send(entries(1))
        broker.kill()
        back = Thread(target=lambda: (time.sleep(2), broker.start()))
        back.start()
        sender.send(entries(11))  # returns once the broker is back and has them
        back.join()
        sender.send(entries(21))
        seen: set[str] = set()
        for _message in range(3):
            seen |= {entry["id"] for entry in heard.get(timeout=20)[2]["entries"]}  # type: ignore[union-attr,index]
    finally:
        sender.close()
        client.disconnect()
        client.loop_stop()
    assert {f"entry-{n:04}" for first in (1, 11, 21) for n in range(first, first + 3)} <= seen


def test_what_the_server_answers_is_told(broker: Mosquitto, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(over_mqtt, "ANSWERED_S", 30)
    answer = b'{"answers": [{"id": "entry-0001", "outcome": "taken"}, {"id": "entry-0002", "outcome": "aside"}]}'
    client, _heard = listening(broker)
    client.on_message = lambda *_words: [client.publish("pengan/1/3f9c/answers", it) for it in (b"\x00", b"[]", answer)]
    sender = OverMqtt(Broker(broker.url), TOKEN)
    try:
        assert sender.send(entries(1, 2)) == Counter(taken=1, aside=1)
    finally:
        sender.close()
        client.disconnect()
        client.loop_stop()


def test_a_broker_that_stays_away_is_given_up(broker: Mosquitto) -> None:
    broker.kill()
    sender = OverMqtt(Broker(broker.url), TOKEN, patience_s=0.3)
    with pytest.raises(SendingFault) as found:
        sender.send(entries(1))
    sender.close()
    assert "could not be reached" in say(found.value.message)


def test_a_broker_that_goes_away_for_good_is_given_up(broker: Mosquitto) -> None:
    sender = OverMqtt(Broker(broker.url), TOKEN, patience_s=1.5)
    sender.send(entries(1))
    broker.kill()
    with pytest.raises(SendingFault):
        sender.send(entries(11))
    sender.close()


def test_a_broker_that_knows_nobody_turns_entries_away(tmp_path: Path) -> None:
    strict = Mosquitto(tmp_path, "allow_anonymous false")
    strict.start()
    sender = OverMqtt(Broker(strict.url, "somebody", "wrong"), TOKEN, patience_s=10)
    try:
        with pytest.raises(SendingFault) as found:
            sender.send(entries(1))
    finally:
        sender.close()
        strict.kill()
    assert "turned the entries away" in say(found.value.message)


def test_what_is_no_token_is_noticed_at_once() -> None:
    with pytest.raises(SendingFault) as found:
        OverMqtt(Broker("mqtt://127.0.0.1"), "no-token")
    assert "not the token of a reporter" in say(found.value.message)
