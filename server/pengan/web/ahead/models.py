"""The queue of sites to plan, and the notices kept about their nights."""

from __future__ import annotations

from sqlalchemy import BigInteger, ForeignKey, Index, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from ..database import Base


class PlanningJob(Base):
    """One site's place in the queue. It is never taken out: once worked off, it is due again at the site's next noon.

    `wanted` is the newest revision somebody asked to have planned, `planned` the one whose nights are all stored.
    `tonight` is the date of the first of them. `due` is an instant; `stage` says what is to be done then (see
    `queue.py`). `worker` holds the claim until the instant `until`; a claim that ran out is anybody's. `numbered`
    counts the sheets given out for the site. `tries` counts failures since the last success, `fault` names the last.
    """

    __tablename__ = "planning_jobs"
    __table_args__ = (Index("planning_jobs_by_due", "stage", "due"),)

    site: Mapped[str] = mapped_column(String(64), ForeignKey("site_copies.site", ondelete="CASCADE"), primary_key=True)
    wanted: Mapped[int]
    planned: Mapped[int] = mapped_column(default=0, server_default="0")
    planner: Mapped[str] = mapped_column(String(80), default="", server_default="")
    tonight: Mapped[str] = mapped_column(String(10), default="", server_default="")
    due: Mapped[int] = mapped_column(BigInteger, default=0, server_default="0")
    stage: Mapped[int] = mapped_column(default=0, server_default="0")
    worker: Mapped[str | None] = mapped_column(String(64))
    until: Mapped[int | None] = mapped_column(BigInteger)
    numbered: Mapped[int] = mapped_column(BigInteger, default=0, server_default="0")
    tries: Mapped[int] = mapped_column(default=0, server_default="0")
    fault: Mapped[str | None] = mapped_column(String(80))


class NightNotice(Base):
    """Something people should know about a night to come: a message, and whose edits brought it about.

    `subject` tells notices of one kind and night apart: the instant of a clock change, the revision of an edit.
    `params` and `people` are JSON; `people` is empty where nobody's edit is the cause.
    """

    __tablename__ = "night_notices"

    site: Mapped[str] = mapped_column(String(64), ForeignKey("site_copies.site", ondelete="CASCADE"), primary_key=True)
    night: Mapped[str] = mapped_column(String(10), primary_key=True)
    code: Mapped[str] = mapped_column(String(60), primary_key=True)
    subject: Mapped[int] = mapped_column(BigInteger, primary_key=True)
    params: Mapped[str] = mapped_column(Text)
    people: Mapped[str] = mapped_column(Text)
    made_at: Mapped[int] = mapped_column(BigInteger)
