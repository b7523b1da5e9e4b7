"""Which devices are told, how people want it, and what waits to be told. Instants are whole seconds since 1970Z."""

from __future__ import annotations

from sqlalchemy import BigInteger, Index, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from ..database import Base

Id = String(64)


class PushSubscription(Base):
    """Where a device's push service takes messages for it, and the keys that they are encrypted with."""

    __tablename__ = "push_subscriptions"
    __table_args__ = (Index("push_by_person", "team", "person"),)

    team: Mapped[str] = mapped_column(Id, primary_key=True)
    device: Mapped[str] = mapped_column(Id, primary_key=True)
    person: Mapped[str] = mapped_column(Id)
    endpoint: Mapped[str] = mapped_column(Text)
    p256dh: Mapped[str] = mapped_column(String(100))
    auth: Mapped[str] = mapped_column(String(40))
    made_at: Mapped[int] = mapped_column(BigInteger)


class PushWish(Base):
    """How a person wants to be told: from which gravity on, and when rather not. Hours are on the wall of the site
    that an alarm is about. `quiet_but`: what is as grave is told in quiet hours too; None: nothing is."""

    __tablename__ = "push_wishes"

    team: Mapped[str] = mapped_column(Id, primary_key=True)
    person: Mapped[str] = mapped_column(Id, primary_key=True)
    least: Mapped[int]
    quiet_from: Mapped[str | None] = mapped_column(String(5))
    quiet_to: Mapped[str | None] = mapped_column(String(5))
    quiet_but: Mapped[int | None]


class PushMessage(Base):
    """Something to be told to one device, from `due` on. Gone once the push service has it, or it cannot be told.

    `waited` is set where quiet hours held it back. `worker` holds a claim until `until`, by the machine's clock.
    """

    __tablename__ = "push_messages"
    __table_args__ = (Index("push_messages_by_due", "due"),)

    site: Mapped[str] = mapped_column(Id, primary_key=True)
    alarm: Mapped[str] = mapped_column(Id, primary_key=True)
    device: Mapped[str] = mapped_column(Id, primary_key=True)
    team: Mapped[str] = mapped_column(Id)
    person: Mapped[str] = mapped_column(Id)
    due: Mapped[int] = mapped_column(BigInteger)
    waited: Mapped[bool]
    tries: Mapped[int] = mapped_column(default=0)
    worker: Mapped[str | None] = mapped_column(Id)
    until: Mapped[int | None] = mapped_column(BigInteger)
