"""Sends entries over MQTT 5, QoS 1: each message is sent until the broker has confirmed it."""

from __future__ import annotations

import json
import ssl
import time
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from threading import Event
from typing import Any
from urllib.parse import urlsplit

from paho.mqtt.client import Client, ConnectFlags, MQTTMessage, error_string
from paho.mqtt.enums import CallbackAPIVersion, MQTTErrorCode, MQTTProtocolVersion
from paho.mqtt.properties import Properties
from paho.mqtt.reasoncodes import ReasonCode

from pengan.engine.journal.entry import Entry
from pengan.engine.journal.schema import answers_topic_of, topic_of

from .sending import SendingFault, body_of, reporter_in, turned_away, unreachable

PATIENCE_S = 120.0
"""So long may a broker be away before a message is given up; the line is tried again all the while."""
ANSWERED_S = 10.0
"""A server that listens answers within so long."""
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
        self._outcomes: dict[str, str] = {}
        self._answers_come = True
        self._subscribed = False
        self._news = Event()
        self._client = self._made()
        self._open = False

    def send(self, entries: Sequence[Entry]) -> Counter[str]:
        """Returns once the broker has them and the server has answered; `sent` is what nobody answered in time."""
        self._connect()
        sent = self._client.publish(topic_of(self._reporter), body_of(entries, token=self._token), qos=1)
        # Without a line for the moment, it is queued all the same, and sent once there is one.
        if sent.rc not in (MQTTErrorCode.MQTT_ERR_SUCCESS, MQTTErrorCode.MQTT_ERR_NO_CONN):
            raise SendingFault(unreachable(address=self._broker.address, reason=error_string(sent.rc)))
        self._wait(lambda: sent.mid in self._confirmed, self._patience_s)
        if sent.mid not in self._confirmed:
            raise self._silent()
        self._confirmed.discard(sent.mid)
        return self._answers_to([entry.id for entry in entries])

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
        client.on_subscribe = self._on_subscribe
        client.on_message = self._on_message
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
                self._wait(lambda: self._subscribed, self._patience_s)
                if not self._subscribed:
                    raise self._silent()

    def _answers_to(self, ids: Sequence[str]) -> Counter[str]:
        """What became of these entries. Where nobody answered last time, nobody is waited for again."""
        if self._answers_come:
            self._wait(lambda: all(id in self._outcomes for id in ids), ANSWERED_S)
        self._answers_come = all(id in self._outcomes for id in ids)
        return Counter(self._outcomes.pop(id, "sent") for id in ids)

    def _wait(self, done: Callable[[], bool], most_s: float) -> None:
        """Until something is so, or for so long. Raises `SendingFault` where the broker refuses us."""
        gives_up = time.monotonic() + most_s
        while not done() and time.monotonic() < gives_up:
            if self._refused:
                raise SendingFault(turned_away(address=self._broker.address, reason=self._refused))
            self._news.wait(0.2)
            self._news.clear()

    def _silent(self) -> SendingFault:
        reason = error_string(MQTTErrorCode.MQTT_ERR_CONN_LOST)
        return SendingFault(unreachable(address=self._broker.address, reason=reason))

    def _on_connect(
        self, client: Client, _data: Any, _flags: ConnectFlags, reason: ReasonCode, _more: Properties | None
    ) -> None:
        if reason.value not in PASSING:
            self._note(reason)
        if not reason.is_failure:
            client.subscribe(answers_topic_of(self._reporter), qos=1)

    def _on_subscribe(
        self, _client: Client, _data: Any, _number: int, _reasons: list[ReasonCode], _more: Properties | None
    ) -> None:
        """Whether or not we may hear answers, we may go on."""
        self._subscribed = True
        self._news.set()

    def _on_publish(
        self, _client: Client, _data: Any, number: int, reason: ReasonCode, _more: Properties | None
    ) -> None:
        if not reason.is_failure:
            self._confirmed.add(number)
        self._note(reason)

    def _on_message(self, _client: Client, _data: Any, message: MQTTMessage) -> None:
        """An answer: `{"answers": [{"id": …, "outcome": …}]}`. Anything else on its topic is none."""
        try:
            answers = {str(one["id"]): str(one["outcome"]) for one in json.loads(message.payload)["answers"]}
        except (ValueError, KeyError, TypeError):
            return
        self._outcomes.update(answers)
        self._news.set()

    def _note(self, reason: ReasonCode) -> None:
        if reason.is_failure:
            self._refused = str(reason)
        self._news.set()
