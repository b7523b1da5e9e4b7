"""The journal's tables. Entries name records of the document by id alone: records may be removed, what happened stays.

They are not tied to the site's row either, since whoever ties a row to another locks that one, and sync needs it.
Instants are whole seconds since 1970-01-01T00:00Z.
"""

from __future__ import annotations

from sqlalchemy import BigInteger, Float, ForeignKey, Index, LargeBinary, String, Text, text
from sqlalchemy.orm import Mapped, mapped_column

from ..database import Base

Id = String(64)
_WITH_STATION = text("station IS NOT NULL")
_WITH_TEXT = text("folded IS NOT NULL")


class JournalHead(Base):
    """The last number given out at a site, for entries and for what was kept aside. Held while some are written, so
    that whoever asks for what came after a number misses nothing."""

    __tablename__ = "journal_heads"

    site: Mapped[str] = mapped_column(Id, primary_key=True)
    newest: Mapped[int] = mapped_column(BigInteger, default=0)
    newest_aside: Mapped[int] = mapped_column(BigInteger, default=0)


class JournalEntry(Base):
    """One entry. `number` is its place in the order of arrival; numbers may be left out, and never go back.

    `sum` is a digest of who told what of when, by which the same is known under another id. `folded` is the text as it
    is searched. `said` (JSON) is what the server itself says here, for each reader in their own language.
    """

    __tablename__ = "journal_entries"
    __table_args__ = (
        Index("journal_by_id", "site", "id", unique=True),
        Index("journal_by_sum", "site", "sum", unique=True),
        Index("journal_by_time", "site", "at", "number"),
        Index("journal_by_kind", "site", "kind", "at"),
        Index(
            "journal_by_station", "site", "station", "at",
            postgresql_where=_WITH_STATION, sqlite_where=_WITH_STATION,
        ),
        Index("journal_by_text", "site", "at", postgresql_where=_WITH_TEXT, sqlite_where=_WITH_TEXT),
    )  # fmt: skip

    site: Mapped[str] = mapped_column(Id, primary_key=True)
    number: Mapped[int] = mapped_column(BigInteger, primary_key=True, autoincrement=False)
    id: Mapped[str] = mapped_column(Id)
    at: Mapped[int] = mapped_column(BigInteger)
    kind: Mapped[str] = mapped_column(String(20))
    by: Mapped[str] = mapped_column(String(80))
    station: Mapped[str | None] = mapped_column(Id)
    supply: Mapped[str | None] = mapped_column(Id)
    controller: Mapped[str | None] = mapped_column(Id)
    flow_lpm: Mapped[float | None] = mapped_column(Float)
    count_l: Mapped[float | None] = mapped_column(Float)
    alarm: Mapped[str | None] = mapped_column(Id)
    finding: Mapped[str | None] = mapped_column(String(20))
    count: Mapped[int | None]
    explained: Mapped[str | None] = mapped_column(String(20))
    text: Mapped[str | None] = mapped_column(Text)
    said: Mapped[str | None] = mapped_column(Text)
    folded: Mapped[str | None] = mapped_column(Text)
    sum: Mapped[bytes] = mapped_column(LargeBinary(16))
    arrived_at: Mapped[int] = mapped_column(BigInteger)


class JournalAside(Base):
    """Something that came and is no entry: what it was, and every fault of it. The same again raises `times`."""

    __tablename__ = "journal_aside"
    __table_args__ = (Index("journal_aside_by_sum", "site", "sum", unique=True),)

    site: Mapped[str] = mapped_column(Id, primary_key=True)
    number: Mapped[int] = mapped_column(BigInteger, primary_key=True, autoincrement=False)
    by: Mapped[str] = mapped_column(String(80))
    code: Mapped[str] = mapped_column(String(60))
    faults: Mapped[str] = mapped_column(Text)
    given: Mapped[str] = mapped_column(Text)
    sum: Mapped[bytes] = mapped_column(LargeBinary(16))
    times: Mapped[int] = mapped_column(BigInteger)
    first_at: Mapped[int] = mapped_column(BigInteger)
    last_at: Mapped[int] = mapped_column(BigInteger)


class Reporter(Base):
    """Something that reports to a site's journal. Its token is known to it alone; a row stays, as entries name it.

    `heard_at` is when it last sent something with its token; `taken` and `aside` count what became of it.
    """

    __tablename__ = "reporters"
    __table_args__ = (Index("reporters_by_site", "site"), Index("reporters_by_id", "id", unique=True))

    team: Mapped[str] = mapped_column(Id, ForeignKey("teams.id"), primary_key=True)
    id: Mapped[str] = mapped_column(Id, primary_key=True)
    site: Mapped[str] = mapped_column(Id)
    name: Mapped[str] = mapped_column(String(80))
    token_hash: Mapped[str] = mapped_column(String(64))
    made_by: Mapped[str] = mapped_column(Id)
    made_at: Mapped[int] = mapped_column(BigInteger)
    heard_at: Mapped[int | None] = mapped_column(BigInteger)
    taken: Mapped[int] = mapped_column(BigInteger, default=0)
    aside: Mapped[int] = mapped_column(BigInteger, default=0)
    ended_at: Mapped[int | None] = mapped_column(BigInteger)
    ended_by: Mapped[str | None] = mapped_column(Id)
