"""What is watched, what was noticed, who has seen it, and what nights taught. Instants are whole seconds since 1970Z.

None of it is tied to the site's row: whoever ties a row to another locks that one, and sync needs it.
"""

from __future__ import annotations

from sqlalchemy import BigInteger, Boolean, Float, Index, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from ..database import Base

Id = String(64)
Day = String(10)


class Watched(Base):
    """One site's place among those that are watched; it is made when the first entry is found there.

    `night` is the one being watched, empty before the first; `looked` the newest number of the journal that was taken
    in; `looked_at` (the machine's clock) and `due` (the server's) say when it is looked at next. `changes` counts the
    alarms' changes, for phones to ask after. `worker` holds the claim until `until`: see `queue.py`.
    """

    __tablename__ = "watches"
    __table_args__ = (Index("watches_by_due", "due"),)

    site: Mapped[str] = mapped_column(Id, primary_key=True)
    night: Mapped[str] = mapped_column(Day, default="", server_default="")
    looked: Mapped[int] = mapped_column(BigInteger, default=0, server_default="0")
    looked_at: Mapped[int] = mapped_column(BigInteger, default=0, server_default="0")
    due: Mapped[int] = mapped_column(BigInteger, default=0, server_default="0")
    changes: Mapped[int] = mapped_column(BigInteger, default=0, server_default="0")
    worker: Mapped[str | None] = mapped_column(Id)
    until: Mapped[int | None] = mapped_column(BigInteger)
    tries: Mapped[int] = mapped_column(default=0, server_default="0")
    fault: Mapped[str | None] = mapped_column(String(80))


class Alarm(Base):
    """One fault that was noticed. It is never taken out.

    `night` is the first that showed it, `last_night` the latest, `finding` the finding's id in that one. `spells` is
    JSON: for each night its `[start, noticed, end]`. `said`, `ended_why`, `culprits` and `trial` are JSON too. `times`
    counts how often it was opened. `ended_by` is `server` or `person:<id>`. `change` is the site's count at its last
    change. `explained` holds the latest explanation; all are in the journal.
    """

    __tablename__ = "alarms"
    __table_args__ = (
        Index("alarms_by_change", "site", "change"),
        Index("alarms_by_time", "site", "opened_at"),
        Index("alarms_by_night", "site", "last_night"),
    )

    site: Mapped[str] = mapped_column(Id, primary_key=True)
    id: Mapped[str] = mapped_column(Id, primary_key=True)
    change: Mapped[int] = mapped_column(BigInteger)
    night: Mapped[str] = mapped_column(Day)
    last_night: Mapped[str] = mapped_column(Day)
    finding: Mapped[str] = mapped_column(String(160))
    kind: Mapped[str] = mapped_column(String(20))
    gravity: Mapped[int]
    supply: Mapped[str | None] = mapped_column(Id)
    controller: Mapped[str | None] = mapped_column(Id)
    station: Mapped[str | None] = mapped_column(Id)
    size_lpm: Mapped[float] = mapped_column(Float)
    said: Mapped[str] = mapped_column(Text)
    spells: Mapped[str] = mapped_column(Text)
    culprits: Mapped[str] = mapped_column(Text)
    trial: Mapped[str] = mapped_column(Text)
    times: Mapped[int]
    opened_at: Mapped[int] = mapped_column(BigInteger)
    ended_at: Mapped[int | None] = mapped_column(BigInteger)
    ended_by: Mapped[str | None] = mapped_column(String(80))
    ended_why: Mapped[str | None] = mapped_column(Text)
    explained: Mapped[str | None] = mapped_column(String(20))
    explained_by: Mapped[str | None] = mapped_column(Id)
    explained_at: Mapped[int | None] = mapped_column(BigInteger)
    explained_text: Mapped[str | None] = mapped_column(Text)


class AlarmLook(Base):
    """That a person has seen an alarm, and when first."""

    __tablename__ = "alarm_looks"

    site: Mapped[str] = mapped_column(Id, primary_key=True)
    alarm: Mapped[str] = mapped_column(Id, primary_key=True)
    person: Mapped[str] = mapped_column(Id, primary_key=True)
    at: Mapped[int] = mapped_column(BigInteger)


class LearnedFlow(Base):
    """A station's own flow by one night's clean moments. `firm`: seen alone, and not shared out among several."""

    __tablename__ = "learned_flows"

    site: Mapped[str] = mapped_column(Id, primary_key=True)
    station: Mapped[str] = mapped_column(Id, primary_key=True)
    night: Mapped[str] = mapped_column(Day, primary_key=True)
    flow_lpm: Mapped[float] = mapped_column(Float)
    firm: Mapped[bool] = mapped_column(Boolean)


class WatchedNight(Base):
    """A night that was watched to its end: which controllers told of their valves, and which supplies have a meter
    (JSON lists of ids)."""

    __tablename__ = "watched_nights"

    site: Mapped[str] = mapped_column(Id, primary_key=True)
    night: Mapped[str] = mapped_column(Day, primary_key=True)
    heard: Mapped[str] = mapped_column(Text)
    metered: Mapped[str] = mapped_column(Text)
    watched_at: Mapped[int] = mapped_column(BigInteger)


class Order(Base):
    """An order to shut a supply, by a rule that a person set: for whoever holds its valve, over MQTT.

    `sent_at` is when the broker had it. One that could not be told in time has `lapsed`: nothing is shut late.
    """

    __tablename__ = "orders"
    __table_args__ = (Index("orders_by_time", "sent_at", "at"),)

    site: Mapped[str] = mapped_column(Id, primary_key=True)
    id: Mapped[str] = mapped_column(Id, primary_key=True)
    at: Mapped[int] = mapped_column(BigInteger)
    supply: Mapped[str] = mapped_column(Id)
    flow_lpm: Mapped[float] = mapped_column(Float)
    limit_lpm: Mapped[float] = mapped_column(Float)
    sent_at: Mapped[int | None] = mapped_column(BigInteger)
    lapsed: Mapped[bool] = mapped_column(default=False)
