"""Night sheets that have been worked out, kept so that nobody waits twice for the same one."""

from __future__ import annotations

from sqlalchemy import BigInteger, ForeignKey, Index, LargeBinary, String
from sqlalchemy.orm import Mapped, mapped_column

from ..database import Base


class StoredSheet(Base):
    """One night's sheet, first worked out for `revision` of the document and still the same at `good_for`.

    `planner` is part of the key: a newer engine or newer zone data may plan another night. `packed` is the canonical
    JSON the engine writes, compressed (see `stored.py`). `inputs` is the fingerprint of all that decides the sheet.
    `number` counts the site's sheets in the order in which they were given out, so that a phone asks for those after
    the last it has; None where nobody looked further ahead than one person's question.
    """

    __tablename__ = "night_sheets"
    __table_args__ = (Index("night_sheets_by_number", "site", "number"),)

    site: Mapped[str] = mapped_column(String(64), ForeignKey("site_copies.site", ondelete="CASCADE"), primary_key=True)
    night: Mapped[str] = mapped_column(String(10), primary_key=True)
    revision: Mapped[int] = mapped_column(primary_key=True)
    planner: Mapped[str] = mapped_column(String(80), primary_key=True)
    good_for: Mapped[int]
    inputs: Mapped[str] = mapped_column(String(64))
    constructions: Mapped[int]
    number: Mapped[int | None] = mapped_column(BigInteger)
    packed: Mapped[bytes] = mapped_column(LargeBinary)
