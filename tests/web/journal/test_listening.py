"""Reporters over a real Mosquitto, with the broker and the bridge killed and started again."""

from __future__ import annotations

import json
import random
import socket
import time
from collections.abc import Iterator
from pathlib import Path
from threading import Event, Thread

import pytest
from flask.testing import FlaskClient
from paho.mqtt.enums import MQTTProtocolVersion
from sqlalchemy import select
from sqlalchemy.exc import OperationalError

from pengan.engine.journal.schema import topic_of
from pengan.web.journal.broker import Broker, broker_of
from pengan.web.journal.listening import Listener
from pengan.web.journal.models import JournalEntry
from pengan.web.settings import Settings
from web.journal.brokers import PATIENCE_S, Bridge, Mosquitto, telling, until
from web.journal.conftest import NOW, aside, counted, made_reporter, read, row
from web.people.crew import Server


@pytest.fixture
def mosquitto(tmp_path: Path) -> Iterator[Mosquitto]:
    broker = Mosquitto(tmp_path)
    broker.start()
    yield broker
    broker.kill()


@pytest.fixture
def bridge(server: Server, mosquitto: Mosquitto, tmp_path: Path) -> Iterator[Bridge]:
    """Not started yet."""
    settings = server.shared.settings
    assert settings.now is not None
    made = Bridge(
        {
            "PENGAN_DATA": str(settings.data), "PENGAN_DATABASE": settings.database, "PENGAN_MQTT": mosquitto.url,
            "PENGAN_NOW": settings.now.isoformat(), "PENGAN_LOG": "info",
        },
        tmp_path / "bridge.log",
    )  # fmt: skip
    yield made
    made.kill()


def numbers(server: Server) -> list[float]:
    """The flows in the journal, each of which was told once."""
    with server.shared.database.session() as session:
        return sorted(flow for flow in session.scalars(select(JournalEntry.flow_lpm)) if flow is not None)


@pytest.mark.parametrize("version", [MQTTProtocolVersion.MQTTv5, MQTTProtocolVersion.MQTTv311])
def test_what_a_reporter_publishes_is_in_the_journal_and_answered(
    server: Server, manager: FlaskClient, token: str, mosquitto: Mosquitto, bridge: Bridge, version: MQTTProtocolVersion
) -> None:
    bridge.start()
    bridge.wait_until_it_listens()
    good, bad = row(), row("flow", flow_lpm=-4)
    with telling(mosquitto.port, token, version) as teller:
        teller.say(b'{"token": "half a pho')
        teller.say(b"\x00\xff", topic_of("nobody"))
        teller.tell([good, bad])
        until(lambda: not teller.waiting, "both are answered")
        assert teller.outcomes == {good["id"]: ["taken"], bad["id"]: ["aside"]}
        assert bridge.stop() == 0
        later = [row("flow", flow_lpm=number) for number in range(5)]
        teller.tell(later)
        bridge.start()
        until(lambda: not teller.waiting, "what came while nobody listened is answered")
    assert len(read(manager)["entries"]) == 6
    codes = [line["faults"][0]["code"] for line in aside(manager)]
    assert codes == ["journal.negative_flow", "fault.not_json"]


def test_nothing_is_lost_or_doubled_though_the_bridge_is_killed_again_and_again(
    server: Server, token: str, mosquitto: Mosquitto, bridge: Bridge
) -> None:
    """The reporter tells each entry once and asks nothing: the broker keeps what nobody acknowledged."""
    chance, total, told = random.Random(7), 400, 0
    bridge.start()
    bridge.wait_until_it_listens()
    with telling(mosquitto.port, token) as teller:
        while told < total:
            size = chance.randint(1, 12)
            teller.tell([row("flow", flow_lpm=number) for number in range(told, told + size)])
            told += size
            if chance.random() < 0.08:
                time.sleep(chance.random() * 0.2)
                bridge.kill()
                bridge.start()
        until(lambda: len(numbers(server)) >= told, "all are in the journal")
    assert numbers(server) == list(range(told))
    assert counted(server)[1] == 0


def test_nothing_is_lost_or_doubled_though_broker_and_bridge_are_killed_in_turn(
    server: Server, token: str, mosquitto: Mosquitto, bridge: Bridge
) -> None:
    """A broker that is killed may lose what it had confirmed a moment ago; a reporter that waits for the journal's
    answer tells that again."""
    chance, told = random.Random(11), 0
    bridge.start()
    bridge.wait_until_it_listens()
    with telling(mosquitto.port, token) as teller:
        for number in range(30):
            size = chance.randint(1, 40)
            teller.tell([row("flow", flow_lpm=flow) for flow in range(told, told + size)])
            told += size
            time.sleep(chance.random() * 0.1)
            if number % 6 == 2:
                mosquitto.kill()
                mosquitto.start()
            if number % 6 == 5:
                bridge.kill()
                bridge.start()
        ends = time.monotonic() + PATIENCE_S
        while teller.waiting and time.monotonic() < ends:
            teller.tell_again()
            time.sleep(1)
    assert numbers(server) == list(range(told))
    assert counted(server)[1] == 0


def test_a_message_is_acknowledged_only_once_the_database_has_it(
    server: Server, token: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Against a broker that knows only MQTT 3.1.1 and turns newer ones away, while the database is away at first."""
    failing = Event()
    failing.set()
    before = Listener.__init__.__globals__["take_messages"]

    def taking(*words: object) -> object:
        if failing.is_set():
            raise OperationalError("", {}, Exception("away"))
        return before(*words)

    monkeypatch.setattr("pengan.web.journal.listening.take_messages", taking)
    entry = row()
    body = json.dumps({"token": token, "entries": [entry]}).encode()
    old = OldBroker(topic_of(token.split(".")[1]), body)
    stop = Event()
    listener = Listener(server.shared.database, Broker("127.0.0.1", old.port), "pengan-test", lambda: NOW, stop)
    threads = [Thread(target=work, daemon=True) for work in (old.serve, listener.run)]
    for thread in threads:
        thread.start()
    try:
        until(lambda: old.published.is_set(), "the message went out")
        assert not old.acknowledged.wait(1.0) and counted(server) == (0, 0)
        failing.clear()
        assert old.acknowledged.wait(PATIENCE_S)
        assert counted(server) == (1, 0)
    finally:
        stop.set()
        threads[1].join(PATIENCE_S)
    assert old.refused == 1, "MQTT 5 was tried first"


class OldBroker:
    """Just enough of MQTT 3.1.1 (OASIS standard, sections 3.1 to 3.4) for one message."""

    def __init__(self, topic: str, payload: bytes) -> None:
        self._door = socket.create_server(("127.0.0.1", 0))
        self.port: int = self._door.getsockname()[1]
        name = topic.encode()
        rest = len(name).to_bytes(2, "big") + name + (1).to_bytes(2, "big") + payload
        self._message = bytes([0x32, *_length(len(rest))]) + rest
        self.published, self.acknowledged, self.refused = Event(), Event(), 0

    def serve(self) -> None:
        while not self.acknowledged.is_set():
            line, _address = self._door.accept()
            with line:
                self._talk(line)

    def _talk(self, line: socket.socket) -> None:
        connect = line.recv(4096)
        if connect[8] != 4:  # the protocol's level
            self.refused += 1
            line.sendall(b"\x20\x02\x00\x01")
            return
        line.sendall(b"\x20\x02\x00\x00")
        while came := line.recv(4096):
            if came[0] == 0x82:  # SUBSCRIBE
                line.sendall(b"\x90\x03" + came[2:4] + b"\x01" + self._message)
                self.published.set()
            if b"\x40\x02\x00\x01" in came:  # PUBACK of that message
                self.acknowledged.set()
                return


def _length(number: int) -> bytes:
    """A remaining length as MQTT writes it (section 2.2.3)."""
    low, high = number % 128, number // 128
    return bytes([low | 0x80, *_length(high)]) if high else bytes([low])


@pytest.mark.parametrize(
    ("given", "broker"),
    [
        ("mqtt://localhost", ("localhost", 1883, False)),
        ("mqtts://broker.example.org", ("broker.example.org", 8883, True)),
        ("mqtt://[::1]:2000/", ("::1", 2000, False)),
    ],
)
def test_the_brokers_address_is_read(given: str, broker: tuple[str, int, bool], tmp_path: Path) -> None:
    (tmp_path / "word").write_text("open sesame\n")
    found = broker_of(Settings(mqtt=given, mqtt_user="pengan", mqtt_password_file=tmp_path / "word"))
    assert (found.host, found.port, found.is_private, found.password) == (*broker, "open sesame")
    assert "sesame" not in repr(found)


@pytest.mark.parametrize(
    "given", ["localhost:1883", "http://x", "mqtt://", "mqtt://a:b@c", "mqtt://a/topic", "mqtt://a:x"]
)
def test_what_is_no_brokers_address_is_told(given: str) -> None:
    with pytest.raises(ValueError, match="PENGAN_MQTT"):
        broker_of(Settings(mqtt=given))


def test_two_reporters_at_one_broker_do_not_meet(
    server: Server, manager: FlaskClient, token: str, mosquitto: Mosquitto, bridge: Bridge
) -> None:
    bridge.start()
    bridge.wait_until_it_listens()
    other = made_reporter(manager, "Other")["token"]
    with telling(mosquitto.port, token) as one, telling(mosquitto.port, other) as two:
        first, second = row(), row("closed")
        one.tell([first])
        two.tell([second])
        until(lambda: not one.waiting and not two.waiting, "both are answered")
        assert (list(one.outcomes), list(two.outcomes)) == ([first["id"]], [second["id"]])
