"""Every edit ever sent, with what became of it, and what waits for a person to decide."""

from __future__ import annotations

from sqlalchemy import BigInteger, ForeignKey, Index, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from ..database import Base


class Edit(Base):
    """One edit: receipt and history in one row, kept for ever.

    `revision` and `place` give the order in which the server decided; edits of one set share a revision. `seen`, `was`
    and `now` are JSON, brought up to today's format; `sent` is the edit as it came where that differs. `saw` is the
    version that `seen` stands for, `before` what was in force until then, `version` the one it wrote or agreed with.
    `at` is the server's time in seconds since 1970Z; `phone_time` is what the phone said, shown and never used.
    `decided_by` is who accepted or declined it where that was somebody else. `effect` says what its revision did to
    the night's finish (JSON; filled in by the jobs, later).
    """

    __tablename__ = "edits"
    __table_args__ = (
        Index("edits_by_revision", "site", "revision", "place"),
        Index("edits_by_record", "site", "record_table", "record", "revision"),
        Index("edits_by_set", "site", "edit_set"),
    )

    site: Mapped[str] = mapped_column(String(64), ForeignKey("site_copies.site", ondelete="CASCADE"), primary_key=True)
    id: Mapped[str] = mapped_column(String(64), primary_key=True)
    revision: Mapped[int]
    place: Mapped[int]
    edit_set: Mapped[str] = mapped_column(String(64))
    kind: Mapped[str] = mapped_column(String(8))
    record_table: Mapped[str] = mapped_column(String(64))
    record: Mapped[str] = mapped_column(String(64))
    field: Mapped[str | None] = mapped_column(String(64))
    seen: Mapped[str | None] = mapped_column(Text)
    saw: Mapped[int | None]
    was: Mapped[str | None] = mapped_column(Text)
    now: Mapped[str | None] = mapped_column(Text)
    before: Mapped[str | None] = mapped_column(Text)
    format: Mapped[int]
    sent: Mapped[str | None] = mapped_column(Text)
    settles: Mapped[str | None] = mapped_column(String(64))
    undoes: Mapped[str | None] = mapped_column(String(64))
    outcome: Mapped[str] = mapped_column(String(8))
    version: Mapped[int | None]
    answer: Mapped[str] = mapped_column(Text)
    person: Mapped[str] = mapped_column(String(64))
    device: Mapped[str | None] = mapped_column(String(64))
    phone_time: Mapped[str | None] = mapped_column(String(40))
    at: Mapped[int] = mapped_column(BigInteger)
    decided_by: Mapped[str | None] = mapped_column(String(64))
    decided_at: Mapped[int | None] = mapped_column(BigInteger)
    effect: Mapped[str | None] = mapped_column(Text)


class Waiting(Base):
    """An edit that is not in force: in dispute, about a removed record, refused, held or parked.

    `tray` is its outcome when it came. `changed` is the revision of its last change, for phones to pull. `open` until
    somebody decided: `closed_how` is then settled, accepted, declined, discarded or upgraded. `effect` says what each
    side of a dispute would do to the night's finish (JSON; filled in by the jobs, later).
    """

    __tablename__ = "waiting_edits"
    __table_args__ = (Index("waiting_edits_by_change", "site", "changed"),)

    site: Mapped[str] = mapped_column(String(64), ForeignKey("site_copies.site", ondelete="CASCADE"), primary_key=True)
    edit: Mapped[str] = mapped_column(String(64), primary_key=True)
    tray: Mapped[str] = mapped_column(String(8))
    changed: Mapped[int]
    open: Mapped[bool] = mapped_column(default=True)
    closed_how: Mapped[str | None] = mapped_column(String(10))
    closed_by: Mapped[str | None] = mapped_column(String(64))
    closed_at: Mapped[int | None] = mapped_column(BigInteger)
    effect: Mapped[str | None] = mapped_column(Text)
