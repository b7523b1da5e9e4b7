"""The rests of nights that people accepted. Instants are whole seconds since 1970-01-01T00:00Z."""

from __future__ import annotations

from sqlalchemy import BigInteger, ForeignKey, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from ..database import Base


class CaughtUp(Base):
    """One rest of a night that somebody accepted at the instant `at`; what ran until then counts as it ran.

    `way` and `effort` are what the engine was asked with, and `promised` (JSON) what was expected then: power, supplies
    and the lifting of a stop, and when. `worked_out`: the night's stored sheet knows of it; then `effect` is its own.
    """

    __tablename__ = "caught_up"

    site: Mapped[str] = mapped_column(String(64), ForeignKey("site_copies.site", ondelete="CASCADE"), primary_key=True)
    night: Mapped[str] = mapped_column(String(10), primary_key=True)
    id: Mapped[str] = mapped_column(String(64), primary_key=True)
    at: Mapped[int] = mapped_column(BigInteger)
    way: Mapped[str] = mapped_column(String(10))
    effort: Mapped[int]
    promised: Mapped[str] = mapped_column(Text)
    by: Mapped[str] = mapped_column(String(80))
    arrived_at: Mapped[int] = mapped_column(BigInteger)
    worked_out: Mapped[bool] = mapped_column(default=False)
    effect: Mapped[str | None] = mapped_column(Text)
