"""Sends entries over MQTT 5, QoS 1: each message is sent until the broker has confirmed it."""

from __future__ import annotations

import ssl
import time
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from threading import Event
from typing import Any
from urllib.parse import urlsplit

from paho.mqtt.client import Client, ConnectFlags, error_string
from paho.mqtt.enums import CallbackAPIVersion, MQTTErrorCode, MQTTProtocolVersion
from paho.mqtt.properties import Properties
from paho.mqtt.reasoncodes import ReasonCode

from pengan.engine.journal.entry import Entry

from .sending import SendingFault, body_of, reporter_in, turned_away, unreachable

PATIENCE_S = 120.0
"""So long may a broker be away before a message is given up; the line is tried again all the while."""
PASSING = {0x88, 0x89}
"""Reason codes of MQTT 5 (section 3.2.2.2) after which a later try may succeed: unavailable, busy."""
PORTS = {"mqtt": 1883, "mqtts": 8883}


@dataclass(frozen=True, slots=True)
class Broker:
    """A broker's address, `mqtt://host:port` or `mqtts://host`, and how one signs in there."""

    address: str
    user: str | None = None
    password: str | None = None
    ca_file: str | None = None


class OverMqtt:
    """A line to a broker, opened with the first message and kept; lost, it is tried again."""

    def __init__(self, broker: Broker, token: str, patience_s: float = PATIENCE_S) -> None:
        self._broker, self._token, self._patience_s = broker, token, patience_s
        self._reporter = reporter_in(token)
        self._refused = ""
        self._confirmed: set[int] = set()
        self._answered = Event()
        self._client = self._made()
        self._open = False

    def send(self, entries: Sequence[Entry]) -> Counter[str]:
        """Returns once the broker has them. A broker does not tell what becomes of them."""
        self._connect()
        body = body_of(entries, token=self._token)
        sent = self._client.publish(f"pengan/1/{self._reporter}/entries", body, qos=1)
        # Without a line for the moment, it is queued all the same, and sent once there is one.
        if sent.rc not in (MQTTErrorCode.MQTT_ERR_SUCCESS, MQTTErrorCode.MQTT_ERR_NO_CONN):
            raise SendingFault(unreachable(address=self._broker.address, reason=error_string(sent.rc)))
        self._wait_for(sent.mid)
        return Counter(sent=len(entries))

    def close(self) -> None:
        """Hang up."""
        if self._open:
            self._client.disconnect()
            self._client.loop_stop()

    def _made(self) -> Client:
        name = f"pengan-field-{self._reporter}"
        client = Client(CallbackAPIVersion.VERSION2, name, protocol=MQTTProtocolVersion.MQTTv5)
        client.on_connect = self._on_connect
        client.on_publish = self._on_publish
        client.reconnect_delay_set(min_delay=1, max_delay=15)
        if self._broker.user is not None:
            client.username_pw_set(self._broker.user, self._broker.password)
        if urlsplit(self._broker.address).scheme == "mqtts":
            client.tls_set_context(ssl.create_default_context(cafile=self._broker.ca_file))
        return client

    def _connect(self) -> None:
        """Open the line, if it is not; a broker that does not answer is tried again for a while."""
        gives_up = time.monotonic() + self._patience_s
        parts = urlsplit(self._broker.address)
        while not self._open:
            try:
                self._client.connect(parts.hostname or "", parts.port or PORTS[parts.scheme])
                self._open = True
            except OSError as fault:
                if time.monotonic() > gives_up:
                    raise SendingFault(unreachable(address=self._broker.address, reason=str(fault))) from None
                time.sleep(min(1.0, self._patience_s))
            else:
                self._client.loop_start()

    def _wait_for(self, number: int) -> None:
        """Until the broker has confirmed the message or refused it."""
        gives_up = time.monotonic() + self._patience_s
        while number not in self._confirmed and not self._refused:
            if time.monotonic() > gives_up:
                reason = error_string(MQTTErrorCode.MQTT_ERR_CONN_LOST)
                raise SendingFault(unreachable(address=self._broker.address, reason=reason))
            self._answered.wait(0.5)
            self._answered.clear()
        if self._refused:
            raise SendingFault(turned_away(address=self._broker.address, reason=self._refused))
        self._confirmed.clear()

    def _on_connect(
        self, _client: Client, _data: Any, _flags: ConnectFlags, reason: ReasonCode, _more: Properties | None
    ) -> None:
        if reason.value not in PASSING:
            self._note(reason)

    def _on_publish(
        self, _client: Client, _data: Any, number: int, reason: ReasonCode, _more: Properties | None
    ) -> None:
        self._confirmed.add(number)
        self._note(reason)

    def _note(self, reason: ReasonCode) -> None:
        if reason.is_failure:
            self._refused = str(reason)
        self._answered.set()
