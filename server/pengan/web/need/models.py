"""What the water need keeps beside the document: weather stations, their hours, and what each night brought."""

from __future__ import annotations

from sqlalchemy import BigInteger, Float, ForeignKey, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from ..database import Base


class WeatherStation(Base):
    """Something that sends a site's weather. Its token is known to it alone; a row stays, as the history names it.

    `heard_at` is when it last sent something that could be read.
    """

    __tablename__ = "weather_stations"
    __table_args__ = (Index("weather_stations_by_site", "site"), Index("weather_stations_by_id", "id", unique=True))

    team: Mapped[str] = mapped_column(String(64), ForeignKey("teams.id"), primary_key=True)
    id: Mapped[str] = mapped_column(String(64), primary_key=True)
    site: Mapped[str] = mapped_column(String(64))
    name: Mapped[str] = mapped_column(String(80))
    token_hash: Mapped[str] = mapped_column(String(64))
    made_by: Mapped[str] = mapped_column(String(64))
    made_at: Mapped[int] = mapped_column(BigInteger)
    heard_at: Mapped[int | None] = mapped_column(BigInteger)
    ended_at: Mapped[int | None] = mapped_column(BigInteger)
    ended_by: Mapped[str | None] = mapped_column(String(64))


class WeatherHour(Base):
    """One hour of one weather station, in base units, from the instant `starts` on. They become days (see `hours`)."""

    __tablename__ = "weather_hours"

    site: Mapped[str] = mapped_column(String(64), ForeignKey("site_copies.site", ondelete="CASCADE"), primary_key=True)
    station: Mapped[str] = mapped_column(String(64), primary_key=True)
    starts: Mapped[int] = mapped_column(BigInteger, primary_key=True)
    mean_degc: Mapped[float | None] = mapped_column(Float)
    high_degc: Mapped[float | None] = mapped_column(Float)
    low_degc: Mapped[float | None] = mapped_column(Float)
    humidity_pct: Mapped[float | None] = mapped_column(Float)
    wind_mps: Mapped[float | None] = mapped_column(Float)
    wind_height_m: Mapped[float | None] = mapped_column(Float)
    solar_mj: Mapped[float | None] = mapped_column(Float)
    sunshine_h: Mapped[float | None] = mapped_column(Float)
    rain_mm: Mapped[float | None] = mapped_column(Float)


class NightWatering(Base):
    """What a night that is over brought a hydrozone, by the journal and else by its sheet: written once, looked at anew
    when the next night is written, and not changed after.

    Depths are None where no station of it has a rate, or there was no sheet. `depletion_mm` is what its soil lacked on
    the morning after; worked out anew when weather comes late, and None where no balance can be kept.
    """

    __tablename__ = "night_waterings"

    site: Mapped[str] = mapped_column(String(64), ForeignKey("site_copies.site", ondelete="CASCADE"), primary_key=True)
    hydrozone: Mapped[str] = mapped_column(String(64), primary_key=True)
    night: Mapped[str] = mapped_column(String(10), primary_key=True)
    volume_l: Mapped[float] = mapped_column(Float)
    applied_mm: Mapped[float | None] = mapped_column(Float)
    ran_off_mm: Mapped[float | None] = mapped_column(Float)
    uneven_mm: Mapped[float | None] = mapped_column(Float)
    depletion_mm: Mapped[float | None] = mapped_column(Float)


class WeatherFetch(Base):
    """When a site's forecast is asked for next, of which service, and how the last time went.

    `due` is an instant. `modified` is what the service said of its last answer (Last-Modified, word for word); `tries`
    counts failures since the last success, `fault` names the last.
    """

    __tablename__ = "weather_fetches"
    __table_args__ = (Index("weather_fetches_by_due", "due"),)

    site: Mapped[str] = mapped_column(String(64), ForeignKey("site_copies.site", ondelete="CASCADE"), primary_key=True)
    service: Mapped[str] = mapped_column(String(40))
    due: Mapped[int] = mapped_column(BigInteger, default=0, server_default="0")
    modified: Mapped[str | None] = mapped_column(String(80))
    tries: Mapped[int] = mapped_column(default=0, server_default="0")
    fault: Mapped[str | None] = mapped_column(String(80))
