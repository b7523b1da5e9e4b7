"""Reporters over TLS, at a real Mosquitto: only the broker that is vouched for, by its own name, is heard."""

from __future__ import annotations

import socket
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path

import pytest
from flask.testing import FlaskClient

from pengan.web.journal.broker import broker_of
from pengan.web.settings import Settings
from web.journal.brokers import Bridge, Mosquitto, telling, until
from web.journal.certificates import Voucher
from web.journal.conftest import counted, read, row
from web.people.crew import Server

Start = Callable[..., Bridge]


@dataclass
class Private:
    """A broker that speaks TLS, and who vouches for it."""

    broker: Mosquitto
    ca: Voucher


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path


@pytest.fixture
def private(folder: Path, request: pytest.FixtureRequest) -> Iterator[Private]:
    """Its certificate is for `localhost`, unless a test asks for another."""
    host, lasts = getattr(request, "param", ("localhost", timedelta(days=1)))
    ca = Voucher(folder, "ours")
    certificate, key = ca.vouch_for(host, lasts)
    broker = Mosquitto(folder, f"allow_anonymous true\ncertfile {certificate}\nkeyfile {key}")
    broker.start()
    yield Private(broker, ca)
    broker.kill()


@pytest.fixture
def start(server: Server, folder: Path) -> Iterator[Start]:
    """Starts `pengan listen` with these settings."""
    settings, made = server.shared.settings, list[Bridge]()
    assert settings.now is not None
    own = {
        "PENGAN_DATA": str(settings.data), "PENGAN_DATABASE": settings.database, "PENGAN_LOG": "info",
        "PENGAN_NOW": settings.now.isoformat(),
    }  # fmt: skip

    def begin(address: str, ca: Path | None = None) -> Bridge:
        more = {"PENGAN_MQTT": address} | ({} if ca is None else {"PENGAN_MQTT_CA": str(ca)})
        bridge = Bridge(own | more, folder / f"bridge-{len(made)}.log")
        made.append(bridge)
        bridge.start()
        return bridge

    yield begin
    for bridge in made:
        bridge.kill()


def test_a_broker_that_is_vouched_for_is_heard(
    server: Server, manager: FlaskClient, token: str, private: Private, start: Start
) -> None:
    bridge = start(f"mqtts://localhost:{private.broker.port}", private.ca.file)
    bridge.wait_until_it_listens()
    entry = row()
    with telling(private.broker.port, token, ca=private.ca.file) as teller:
        teller.tell([entry])
        until(lambda: not teller.waiting, "it is answered")
    assert teller.outcomes == {entry["id"]: ["taken"]}
    assert [one["id"] for one in read(manager)["entries"]] == [entry["id"]]
    assert bridge.stop() == 0


@pytest.mark.parametrize(
    ("private", "address", "trusts", "told"),
    [
        (
            ("localhost", timedelta(days=1)), "localhost", "another",
            "nobody we trust vouches for the broker's certificate",
        ),
        (("localhost", timedelta(days=1)), "localhost", None, "nobody we trust vouches for the broker's certificate"),
        (
            ("broker.example.org", timedelta(days=1)), "localhost", "ours",
            "the broker's certificate is for another name",
        ),
        (("localhost", timedelta(days=1)), "127.0.0.1", "ours", "the broker's certificate is for another address"),
        (("localhost", timedelta(days=-1)), "localhost", "ours", "the broker's certificate has expired"),
    ],
    indirect=["private"],
    ids=["vouched for by another", "vouched for by nobody", "of another name", "of another address", "expired"],
)  # fmt: skip
def test_from_a_broker_that_is_not_what_it_says_nothing_is_taken(
    server: Server,
    token: str,
    private: Private,
    start: Start,
    folder: Path,
    address: str,
    trusts: str | None,
    told: str,
) -> None:
    """Whoever stands there may keep what reporters tell; it waits for the right one."""
    known = {"ours": private.ca.file, "another": Voucher(folder, "another").file}
    bridge = start(f"mqtts://{address}:{private.broker.port}", known[trusts] if trusts else None)
    bridge.wait_until_it_says(told)
    assert not bridge.has_listened()
    assert counted(server) == (0, 0)


def test_a_broker_without_tls_is_no_private_one(server: Server, start: Start, folder: Path) -> None:
    """Mosquitto hangs up on whoever begins with TLS there."""
    broker = Mosquitto(folder)
    broker.start()
    try:
        bridge = start(f"mqtts://localhost:{broker.port}", Voucher(folder, "ours").file)
        bridge.wait_until_it_says("no line to the broker")
        assert not bridge.has_listened()
    finally:
        broker.kill()


def test_something_else_that_answers_there_is_told(server: Server, start: Start, folder: Path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as door:
        bridge = start(f"mqtts://127.0.0.1:{door.getsockname()[1]}", Voucher(folder, "ours").file)
        line, _address = door.accept()
        with line:
            line.recv(4096)
            line.sendall(b"HTTP/1.1 400 Bad Request\r\n\r\n")
            bridge.wait_until_it_says("the broker does not speak TLS with us")
    assert not bridge.has_listened()


def test_who_vouches_has_to_be_a_certificate_that_can_be_read(folder: Path) -> None:
    settings = Settings(mqtt="mqtts://broker.example.org", mqtt_ca=folder / "none.pem")
    with pytest.raises(FileNotFoundError, match=r"none\.pem"):
        broker_of(settings)
    for content in (b"", b"no certificate", b"\xff\xfe\x00", b"-----BEGIN CERTIFICATE-----\nhalf of"):
        (folder / "wrong.pem").write_bytes(content)
        with pytest.raises(ValueError, match=r"PENGAN_MQTT_CA: .*wrong\.pem"):
            broker_of(Settings(mqtt="mqtts://broker.example.org", mqtt_ca=folder / "wrong.pem"))
    voucher = Voucher(folder, "ours").file
    assert broker_of(Settings(mqtt="mqtts://broker.example.org", mqtt_ca=voucher)).ca == voucher
