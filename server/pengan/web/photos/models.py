"""The table of photos. Nothing in a document ties them: a repair names its photos, and what was seen stays."""

from __future__ import annotations

from sqlalchemy import BigInteger, LargeBinary, String
from sqlalchemy.orm import Mapped, mapped_column

from ..database import Base


class Photo(Base):
    """One photo. `size` is in bytes, `sum` the SHA-256 of its content; `by` is the person who sent it.

    `arrived_at` is in whole seconds since 1970-01-01T00:00Z.
    """

    __tablename__ = "photos"
    __table_args__ = {"info": {"at_once": 20}}
    """Rows of a megabyte: so many are held in memory at a time where rows are copied."""

    site: Mapped[str] = mapped_column(String(64), primary_key=True)
    id: Mapped[str] = mapped_column(String(64), primary_key=True)
    kind: Mapped[str] = mapped_column(String(40))
    size: Mapped[int]
    sum: Mapped[bytes] = mapped_column(LargeBinary(32))
    by: Mapped[str] = mapped_column(String(64))
    arrived_at: Mapped[int] = mapped_column(BigInteger)
    content: Mapped[bytes] = mapped_column(LargeBinary)
