"""Orders published to a site's topic at the broker, and marked as sent once the broker has them.

One that could not be published in time lapses: whoever hears of a break an hour late looks first.
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable

from paho.mqtt.client import Client
from sqlalchemy import select, update
from sqlalchemy.orm import Session

from pengan.engine.journal.orders import orders_topic_of

from ..database import Database, reading
from .models import Order

GOOD_FOR_S = 600
"""An order is carried out within this, or not at all. Common practice, no source."""
LOOK_S = 1.0
Key = tuple[str, str]


class OrderSender:
    """For one connection to the broker. `publish` is called again and again by the thread that holds the line."""

    def __init__(self, database: Database, now: Callable[[], int]) -> None:
        self._database, self._now = database, now
        self._looked_at = 0.0
        self._under_way: dict[int, Key] = {}
        self._sent: list[Key] = []

    def has_it(self, message: int) -> None:
        """The broker has this message."""
        if message in self._under_way:
            self._sent.append(self._under_way.pop(message))

    def publish(self, client: Client) -> None:
        """Mark what the broker has, and publish what is new. Raises the database's own failures."""
        if time.monotonic() - self._looked_at < LOOK_S:
            return
        self._looked_at = time.monotonic()
        with self._database.session() as session:
            self._mark(session)
            for order in _waiting(session, self._now()):
                if (order.site, order.id) not in self._under_way.values():
                    told = client.publish(orders_topic_of(order.site), shown(order), qos=1, retain=False)
                    self._under_way[told.mid] = (order.site, order.id)

    def _mark(self, session: Session) -> None:
        sent, self._sent = self._sent, []
        if sent:
            with session.begin():
                for site, id in sent:
                    row = update(Order).where(Order.site == site, Order.id == id)
                    session.execute(row.values(sent_at=self._now()))


def shown(order: Order) -> str:
    """An order as it is published."""
    given = {
        "id": order.id, "at": order.at, "until": order.at + GOOD_FOR_S, "order": "shut", "supply": order.supply,
        "flow_lpm": order.flow_lpm, "limit_lpm": order.limit_lpm,
    }  # fmt: skip
    return json.dumps(given, separators=(",", ":"))


def _waiting(session: Session, now: int) -> list[Order]:
    """Those that are neither sent nor too old; what is too old lapses."""
    unsent = select(Order).where(Order.sent_at.is_(None), Order.lapsed.is_(False)).order_by(Order.at)
    with reading(session):
        found = list(session.scalars(unsent))
    late = [order for order in found if order.at + GOOD_FOR_S < now]
    if late:
        with session.begin():
            for order in late:
                row = update(Order).where(Order.site == order.site, Order.id == order.id)
                session.execute(row.values(lapsed=True), execution_options={"synchronize_session": False})
    return [order for order in found if order not in late]
