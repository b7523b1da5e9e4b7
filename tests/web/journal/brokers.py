"""A real Mosquitto on this machine, that can be killed and started again; reporters that tell it something."""

from __future__ import annotations

import json
import os
import shutil
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from threading import Event, Lock
from typing import Any

import pytest
from paho.mqtt.client import Client, MQTTMessage
from paho.mqtt.enums import CallbackAPIVersion, MQTTProtocolVersion

from pengan.engine.journal.schema import answers_topic_of, topic_of

Row = dict[str, Any]
ROOT = Path(__file__).parents[3]
PATIENCE_S = 90
"""Machines that do much else at the same time are slow."""


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
    return port


def until(done: Callable[[], bool], what: str) -> None:
    """Wait until something is so."""
    ends = time.monotonic() + PATIENCE_S
    while not done():
        assert time.monotonic() < ends, f"in vain: {what}"
        time.sleep(0.05)


class Mosquitto:
    """A broker on a port of its own that writes to its disk whenever something changes."""

    def __init__(self, folder: Path, more: str = "") -> None:
        found = shutil.which("mosquitto") or shutil.which("mosquitto", path="/usr/sbin")
        if found is None:
            pytest.fail("These tests need Mosquitto: install the package mosquitto.")
        self._program, self.port, self._file = found, free_port(), folder / "mosquitto.conf"
        user = "user root\n" if os.getuid() == 0 else ""
        self._file.write_text(
            f"listener {self.port} 127.0.0.1\n{user}persistence true\npersistence_location {folder}/\n"
            f"autosave_on_changes true\nautosave_interval 1\n{more or 'allow_anonymous true'}\n"
        )
        self._running: subprocess.Popen[bytes] | None = None

    @property
    def url(self) -> str:
        """As the settings have it."""
        return f"mqtt://127.0.0.1:{self.port}"

    def start(self) -> None:
        """Start it; it answers when this is over."""
        self._running = subprocess.Popen(
            [self._program, "-c", str(self._file)], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        until(lambda: _answers(self.port), "Mosquitto answers")

    def kill(self) -> None:
        """As a power cut would."""
        if self._running is not None:
            self._running.kill()
            self._running.wait()
            self._running = None


def _answers(port: int) -> bool:
    with socket.socket() as caller:
        return caller.connect_ex(("127.0.0.1", port)) == 0


class Bridge:
    """`pengan listen` as a process of its own."""

    def __init__(self, environment: dict[str, str], log: Path) -> None:
        self._environment = {**os.environ, "PYTHONPATH": str(ROOT / "server"), **environment}
        self._log = log
        self._running: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        with self._log.open("ab") as log:
            self._running = subprocess.Popen(
                [sys.executable, "-m", "pengan", "listen"], env=self._environment, stdout=log, stderr=log
            )

    def wait_until_it_listens(self) -> None:
        until(lambda: '"listening"' in self._log.read_text(), "the bridge listens")

    def wait_until_it_says(self, event: str) -> None:
        until(lambda: f'"{event}"' in self._log.read_text(), f"the bridge says: {event}")

    def has_listened(self) -> bool:
        return '"listening"' in self._log.read_text()

    def kill(self) -> None:
        if self._running is not None:
            self._running.kill()
            self._running.wait()
            self._running = None

    def stop(self) -> int:
        """Ask it to stop; its exit code."""
        assert self._running is not None
        self._running.send_signal(signal.SIGTERM)
        code = self._running.wait(PATIENCE_S)
        self._running = None
        return code


class Teller:
    """A reporter that keeps each entry until it is answered, and tells it again whenever that takes long."""

    def __init__(
        self, port: int, token: str, version: MQTTProtocolVersion = MQTTProtocolVersion.MQTTv5, ca: Path | None = None
    ) -> None:
        self._token, self.reporter, self._port = token, token.split(".")[1], port
        self._client = Client(CallbackAPIVersion.VERSION2, protocol=version)
        self._host = "127.0.0.1" if ca is None else "localhost"
        if ca is not None:
            self._client.tls_set(str(ca))
        self._client.reconnect_delay_set(1, 1)
        self._client.on_connect = lambda client, *_more: client.subscribe(answers_topic_of(self.reporter), 1)
        self._client.on_subscribe = lambda *_told: self._hears.set()
        self._client.on_message = self._answered
        self._hears = Event()
        self._lock, self.waiting, self.outcomes = Lock(), dict[str, Row](), dict[str, list[str]]()

    def start(self) -> None:
        """What it tells once this is over is told by somebody who hears the answers."""
        self._client.connect(self._host, self._port)
        self._client.loop_start()
        assert self._hears.wait(PATIENCE_S), "in vain: the broker lets it hear the answers"

    def stop(self) -> None:
        self._client.disconnect()
        self._client.loop_stop()

    def tell(self, entries: Sequence[Row]) -> None:
        with self._lock:
            self.waiting |= {entry["id"]: entry for entry in entries}
        self._publish(entries)

    def tell_again(self) -> None:
        with self._lock:
            entries = list(self.waiting.values())
        for first in range(0, len(entries), 500):
            self._publish(entries[first : first + 500])

    def say(self, payload: bytes, topic: str = "") -> None:
        """Anything at all."""
        self._client.publish(topic or topic_of(self.reporter), payload, qos=1).wait_for_publish(PATIENCE_S)

    def _publish(self, entries: Sequence[Row]) -> None:
        body = json.dumps({"token": self._token, "entries": list(entries)})
        self._client.publish(topic_of(self.reporter), body, qos=1)

    def _answered(self, _client: Client, _data: object, message: MQTTMessage) -> None:
        with self._lock:
            for answer in json.loads(message.payload)["answers"]:
                self.outcomes.setdefault(answer["id"], []).append(answer["outcome"])
                self.waiting.pop(answer["id"], None)


@contextmanager
def telling(
    port: int, token: str, version: MQTTProtocolVersion = MQTTProtocolVersion.MQTTv5, ca: Path | None = None
) -> Iterator[Teller]:
    """A reporter at a broker, until the test is over. `ca` vouches for the broker, which then speaks TLS."""
    teller = Teller(port, token, version, ca)
    teller.start()
    try:
        yield teller
    finally:
        teller.stop()
