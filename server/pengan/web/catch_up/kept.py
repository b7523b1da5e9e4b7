"""What was accepted for a night, as it is kept. Belongs to the caller's transaction."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy import select, update
from sqlalchemy.orm import Session

from pengan.engine.catch_up.effect import Effect
from pengan.engine.catch_up.rest import Way
from pengan.engine.journal.entry import Entry, Kind

from ..journal.inserting import insert_into
from .models import CaughtUp

ENDINGS = (Kind.POWER_BACK, Kind.FREED, Kind.LIFTED)
"""What may be promised: the ends of what interrupts a night."""


@dataclass(frozen=True, slots=True)
class Promise:
    """At the instant `at` an interruption is expected to be over."""

    kind: Kind
    at: int
    supply: str | None = None
    controller: str | None = None

    def entry(self) -> Entry:
        """As the engine reads it."""
        return Entry("promised", self.at, self.kind, "server", supply=self.supply, controller=self.controller)

    def as_json(self) -> dict[str, object]:
        """As it is kept and answered: what it does not name is left out."""
        known = {"kind": self.kind.value, "at": self.at, "supply": self.supply, "controller": self.controller}
        return {name: value for name, value in known.items() if value is not None}


@dataclass(frozen=True, slots=True)
class Accepted:
    """One rest of a night that was accepted; see `models.py`."""

    id: str
    at: int
    way: Way
    effort: int
    promised: tuple[Promise, ...]
    by: str
    worked_out: bool
    effect: Mapping[str, Any] | None = None


def keep(session: Session, site: str, night: str, one: Accepted, now: int) -> bool:
    """Keep one more; whether it is new. What is kept under that id stays as it is, though both come at once.

    `night` is its date, `now` the instant at which the server heard of it. Whoever keeps one has the site planned.
    """
    row = {
        "site": site, "night": night, "id": one.id, "at": one.at, "way": one.way.value, "effort": one.effort,
        "promised": json.dumps([each.as_json() for each in one.promised], sort_keys=True), "by": one.by,
        "arrived_at": now, "worked_out": one.worked_out,
    }  # fmt: skip
    new = insert_into(session)(CaughtUp).values(row).on_conflict_do_nothing().returning(CaughtUp.id)
    return session.execute(new).one_or_none() is not None


def accepted_of(session: Session, site: str, night: date) -> list[Accepted]:
    """What was accepted for a night, in the order of its instants."""
    found = select(CaughtUp).where(CaughtUp.site == site, CaughtUp.night == night.isoformat())
    rows = session.scalars(found.order_by(CaughtUp.at, CaughtUp.id).execution_options(populate_existing=True))
    return [
        Accepted(
            row.id,
            row.at,
            Way(row.way),
            row.effort,
            read_promises(json.loads(row.promised)),
            row.by,
            row.worked_out,
            None if row.effect is None else json.loads(row.effect),
        )
        for row in rows
    ]


def read_promises(given: Sequence[Mapping[str, Any]]) -> tuple[Promise, ...]:
    """Promises out of JSON whose shape was looked at."""
    return tuple(
        Promise(Kind(one["kind"]), one["at"], one.get("supply"), one.get("controller"))
        for one in sorted(given, key=lambda one: (one["at"], one["kind"]))
    )


def keep_worked_out(session: Session, site: str, night: date, effects: Mapping[str, Effect]) -> None:
    """The night's stored sheet knows of these from now on; `effects` by id."""
    for id, effect in effects.items():
        known = update(CaughtUp).where(CaughtUp.site == site, CaughtUp.night == night.isoformat(), CaughtUp.id == id)
        session.execute(known.values(worked_out=True, effect=json.dumps(effect.as_json())))
