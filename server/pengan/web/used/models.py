"""What nights that are over used, written down so that years are answered fast. Volumes are whole millilitres.

None of it is tied to the site's row: whoever ties a row to another locks that one, and sync needs it.
"""

from __future__ import annotations

from sqlalchemy import BigInteger, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from ..database import Base

Id = String(64)
Day = String(10)


class UsedHead(Base):
    """How far a site's journal has been reckoned up, and whose turn it is: `until` ends a claim (machine's clock).

    `newest` is the newest number of an entry that has been looked at: later ones may be of nights past.
    """

    __tablename__ = "used_heads"

    site: Mapped[str] = mapped_column(Id, primary_key=True)
    newest: Mapped[int] = mapped_column(BigInteger, default=0, server_default="0")
    until: Mapped[int] = mapped_column(BigInteger, default=0, server_default="0")


class UsedNight(Base):
    """One night that was reckoned up. `told`: whether anything was told of any valve in it; `said` is JSON.

    `stale`: something about it came since, and it is reckoned up anew before long.
    """

    __tablename__ = "used_nights"

    site: Mapped[str] = mapped_column(Id, primary_key=True)
    night: Mapped[str] = mapped_column(Day, primary_key=True)
    told: Mapped[bool]
    stale: Mapped[bool]
    said: Mapped[str] = mapped_column(Text)
    reckoned_at: Mapped[int] = mapped_column(BigInteger)


class UsedWater(Base):
    """A night's water of one supply, program and hydrozone (ids, empty for none); see the engine's `Water`."""

    __tablename__ = "used_water"

    site: Mapped[str] = mapped_column(Id, primary_key=True)
    night: Mapped[str] = mapped_column(Day, primary_key=True)
    supply: Mapped[str] = mapped_column(Id, primary_key=True)
    program: Mapped[str] = mapped_column(Id, primary_key=True)
    hydrozone: Mapped[str] = mapped_column(Id, primary_key=True)
    planned_ml: Mapped[int] = mapped_column(BigInteger)
    delivered_ml: Mapped[int] = mapped_column(BigInteger)
    assumed_ml: Mapped[int] = mapped_column(BigInteger)
    beyond_ml: Mapped[int] = mapped_column(BigInteger)
    power_ml: Mapped[int] = mapped_column(BigInteger)
    shut_ml: Mapped[int] = mapped_column(BigInteger)
    stopped_ml: Mapped[int] = mapped_column(BigInteger)
    not_opened_ml: Mapped[int] = mapped_column(BigInteger)
    opened_late_ml: Mapped[int] = mapped_column(BigInteger)
    closed_early_ml: Mapped[int] = mapped_column(BigInteger)
    low_flow_ml: Mapped[int] = mapped_column(BigInteger)


class UsedMeter(Base):
    """A night of one supply's meter; see the engine's `MeterNight`. `said` is JSON.

    `ends_ml` is where its counter was taken to begin again: stated otherwise since, the night is reckoned up anew.
    """

    __tablename__ = "used_meters"

    site: Mapped[str] = mapped_column(Id, primary_key=True)
    night: Mapped[str] = mapped_column(Day, primary_key=True)
    supply: Mapped[str] = mapped_column(Id, primary_key=True)
    first_at: Mapped[int] = mapped_column(BigInteger)
    first_ml: Mapped[int] = mapped_column(BigInteger)
    first_is_new: Mapped[bool]
    last_at: Mapped[int] = mapped_column(BigInteger)
    last_ml: Mapped[int] = mapped_column(BigInteger)
    counted_ml: Mapped[int] = mapped_column(BigInteger)
    came_ml: Mapped[int] = mapped_column(BigInteger)
    before_ml: Mapped[int] = mapped_column(BigInteger)
    after_ml: Mapped[int] = mapped_column(BigInteger)
    ends_ml: Mapped[int | None] = mapped_column(BigInteger)
    said: Mapped[str] = mapped_column(Text)


USED = (UsedHead, UsedNight, UsedWater, UsedMeter)
