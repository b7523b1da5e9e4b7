"""Night sheets that have been worked out, kept so that nobody waits twice for the same one."""

from __future__ import annotations

from sqlalchemy import ForeignKey, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from ..database import Base


class StoredSheet(Base):
    """One night's sheet for one revision of the document, as the canonical JSON the engine writes.

    `planner` is part of the key: a newer engine or newer zone data may plan another night.
    """

    __tablename__ = "night_sheets"

    site: Mapped[str] = mapped_column(String(64), ForeignKey("site_copies.site", ondelete="CASCADE"), primary_key=True)
    night: Mapped[str] = mapped_column(String(10), primary_key=True)
    revision: Mapped[int] = mapped_column(primary_key=True)
    planner: Mapped[str] = mapped_column(String(80), primary_key=True)
    body: Mapped[str] = mapped_column(Text)
