"""The bridge from an MQTT broker to the journal: MQTT 5, or 3.1.1 where the broker knows no better.

A message is acknowledged to the broker only once the database holds what is in it. The session at the broker lasts, so
whatever is killed, and whenever, the broker hands over again what was not acknowledged; what had been stored is then
known. One thread does all of it: no acknowledgement can meet another connection than its message came by.

Each message is answered on `pengan/1/<reporter>/answers`, so that a reporter may keep entries until the journal has
them: a broker that is killed may lose what it had confirmed and not yet written to its disk.
"""

from __future__ import annotations

import json
import logging
import ssl
import time
from collections.abc import Callable, Sequence
from threading import Event

from paho.mqtt.client import Client, ConnectFlags, DisconnectFlags, MQTTMessage
from paho.mqtt.enums import CallbackAPIVersion, MQTTErrorCode, MQTTProtocolVersion
from paho.mqtt.packettypes import PacketTypes
from paho.mqtt.properties import Properties
from paho.mqtt.reasoncodes import ReasonCode
from sqlalchemy.exc import InterfaceError, OperationalError

from pengan.engine.journal.schema import answers_topic_of

from ..alarms.ordering import OrderSender
from ..database import Database
from ..own_secret import OwnSecret
from .broker import Broker
from .messages import EVERY_REPORTER, TOPIC, Message, take_messages
from .taking import Answer

QOS = 1
KEEP_ALIVE_S = 30
MOST_MESSAGES = 200
"""Stored in one go; so many the broker sends ahead, where it speaks MQTT 5."""
GATHER_S = 0.05
"""So long messages gather before they are stored, where more and more come."""
FIRST_PAUSE_S, LONGEST_PAUSE_S = 0.5, 30.0
FOREVER = 0xFFFFFFFF
"""A session that never lapses (MQTT 5.0, section 3.1.2.11.2)."""
NEWER, OLDER = MQTTProtocolVersion.MQTTv5, MQTTProtocolVersion.MQTTv311
WAIT_S = 0.5
"""So long a look at the line lasts where nothing comes."""
logger = logging.getLogger(__name__)


class Listener:
    """Listens until `stop` is set. `name` is this server's at the broker; `now` is its clock."""

    def __init__(self, database: Database, broker: Broker, name: str, now: Callable[[], int], stop: Event) -> None:
        self._database, self._broker, self._name, self._now, self._stop = database, broker, name, now, stop
        self._version = NEWER
        self._pending: list[MQTTMessage] = []
        self._is_up = False
        self._orders = OrderSender(database, now)

    def run(self) -> None:
        """Connect again whenever the line is lost, the longer in vain the more seldom."""
        pause = FIRST_PAUSE_S
        while not self._stop.is_set():
            pause = FIRST_PAUSE_S if self._listen_once() else min(LONGEST_PAUSE_S, pause * 2)
            self._stop.wait(pause)

    def _listen_once(self) -> bool:
        """One connection, to its end; whether the broker let us in."""
        client = self._client()
        self._is_up = False
        try:
            self._connect(client)
            while not self._stop.is_set() and self._gather(client):
                self._store(client)
                self._publish_orders(client)
            if not self._is_up and not self._stop.is_set():  # one who knows only one version may just hang up
                self._version = OLDER if self._version == NEWER else NEWER
        except ssl.SSLError as fault:
            logger.error(_no_trust(fault), extra={"code": fault.reason or type(fault).__name__})
        except OSError as fault:
            logger.warning("no line to the broker", extra={"code": type(fault).__name__})
        finally:
            self._pending.clear()
            client.on_disconnect = None
            client.disconnect()
        return self._is_up

    def _client(self) -> Client:
        client = Client(
            CallbackAPIVersion.VERSION2, self._name, protocol=self._version, manual_ack=True,
            clean_session=None if self._version == NEWER else False, reconnect_on_failure=False,
        )  # fmt: skip
        client.on_connect, client.on_message = self._connected, lambda _client, _data, came: self._pending.append(came)
        client.on_subscribe, client.on_disconnect = self._subscribed, self._lost
        orders = self._orders = OrderSender(self._database, self._now)
        client.on_publish = lambda _client, _data, message, _reason, _more: orders.has_it(message)
        if self._broker.user is not None:
            client.username_pw_set(self._broker.user, self._broker.password)
        if self._broker.is_private:
            client.tls_set_context(ssl.create_default_context(cafile=self._broker.ca))
        return client

    def _connect(self, client: Client) -> None:
        """The session at the broker is to outlast the line."""
        if self._version == OLDER:
            client.connect(self._broker.host, self._broker.port, KEEP_ALIVE_S)
            return
        lasting = Properties(PacketTypes.CONNECT)  # type: ignore[no-untyped-call]
        lasting.SessionExpiryInterval = FOREVER
        lasting.ReceiveMaximum = MOST_MESSAGES
        client.connect(self._broker.host, self._broker.port, KEEP_ALIVE_S, clean_start=False, properties=lasting)

    def _connected(
        self, client: Client, _data: object, _flags: ConnectFlags, reason: ReasonCode, _more: Properties | None
    ) -> None:
        if reason.is_failure:
            logger.warning("the broker does not let us in", extra={"code": str(reason)})
            return
        self._is_up = True
        client.subscribe(EVERY_REPORTER, QOS)

    def _subscribed(
        self, _client: Client, _data: object, _mid: int, reasons: list[ReasonCode], _more: Properties | None
    ) -> None:
        for reason in reasons:
            if reason.is_failure:
                logger.error("the broker does not let us listen", extra={"code": str(reason)})
            else:
                logger.info("listening")

    def _lost(
        self, _client: Client, _data: object, _flags: DisconnectFlags, reason: ReasonCode, _more: Properties | None
    ) -> None:
        """What came by this line and is not stored yet, the broker hands over again."""
        self._pending.clear()
        logger.warning("the line to the broker is lost", extra={"code": str(reason)})

    def _gather(self, client: Client) -> bool:
        """Wait for messages, and take those that come together; whether the line still stands."""
        until, wait = None, WAIT_S
        while True:
            before = len(self._pending)
            if client.loop(wait) != MQTTErrorCode.MQTT_ERR_SUCCESS:
                return False
            until = until or time.monotonic() + GATHER_S
            no_more = len(self._pending) == before
            if no_more or len(self._pending) >= MOST_MESSAGES or time.monotonic() > until:
                return True
            wait = 0.0

    def _store(self, client: Client) -> None:
        """Store what has come; only then tell the broker that it need not keep it any more."""
        came, self._pending = self._pending, []
        if not came:
            return
        answers = self._taken([Message(message.topic, bytes(message.payload)) for message in came])
        for message, answer in zip(came, answers, strict=True):
            topic = TOPIC.fullmatch(message.topic)
            if answer is not None and topic:
                client.publish(answers_topic_of(topic[1]), answer_shown(answer), qos=0)
            client.ack(message.mid, message.qos)

    def _publish_orders(self, client: Client) -> None:
        """What rules have ordered since. While the database is away there is nothing to say."""
        if not self._is_up:
            return
        try:
            self._orders.publish(client)
        except (OperationalError, InterfaceError) as fault:
            logger.warning("the database does not answer", extra={"code": type(fault).__name__})

    def _taken(self, messages: Sequence[Message]) -> list[list[Answer] | None]:
        """What became of them. While the database is away they wait, here and at the broker."""
        pause = FIRST_PAUSE_S
        while True:
            try:
                with self._database.session() as session:
                    return take_messages(session, messages, self._now())
            except (OperationalError, InterfaceError) as fault:
                if self._stop.is_set():
                    raise
                logger.warning("the database does not answer", extra={"code": type(fault).__name__})
                self._stop.wait(pause)
                pause = min(LONGEST_PAUSE_S, pause * 2)


_NO_TRUST = {
    9: "the broker's certificate is not valid yet",
    10: "the broker's certificate has expired",
    62: "the broker's certificate is for another name",
    64: "the broker's certificate is for another address",
}
"""By OpenSSL's codes (X509_STORE_CTX_get_error(3), "ERROR CODES"; the numbers are those of its x509_vfy.h)."""


def _no_trust(fault: ssl.SSLError) -> str:
    """Why there is no TLS with the broker. Nothing is told to it, nor taken from it."""
    if not isinstance(fault, ssl.SSLCertVerificationError):
        return "the broker does not speak TLS with us"
    return _NO_TRUST.get(fault.verify_code, "nobody we trust vouches for the broker's certificate")


def name_at_the_broker(secret: OwnSecret) -> str:
    """The same at each start, as the session at the broker goes by it; another server's is another."""
    return f"pengan-{secret.hashed('broker', 'name')[:12]}"


def answer_shown(answers: Sequence[Answer]) -> str:
    """What became of a message's entries, as it is published."""
    shown = [{"id": one.id, "outcome": one.outcome, **_faults(one)} for one in answers]
    return json.dumps({"answers": shown}, separators=(",", ":"))


def _faults(answer: Answer) -> dict[str, object]:
    faults = [{"field": fault.field, "code": fault.message.code} for fault in answer.faults]
    return {"faults": faults} if faults else {}
