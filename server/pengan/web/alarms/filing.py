"""Findings made into alarms, inside one transaction: opened, carried on, ended, with a word in the journal of each."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass, field, replace
from datetime import timedelta
from typing import Any

from sqlalchemy import or_, select
from sqlalchemy.orm import Session

from pengan.engine.clock.nights import Night
from pengan.engine.clock.zones import SiteClock
from pengan.engine.document.document import Document
from pengan.engine.journal.alarm import (
    EXPLAINED_LATER,
    NIGHT_OVER,
    Held,
    alarm_id,
    gathered,
    gravity_of,
    made_id,
    matched,
    spells_of,
    why_over,
)
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.journal.finding import Finding, Noticed, Spell
from pengan.engine.message import Message

from ..journal.names import PERSON, SERVER
from ..journal.storing import store
from ..journal.wording import names_around, saying_so
from .models import Alarm, Watched
from .names import DRIFT

CARRY_S = 1800
"""So long after noon a fault of the night before may show again; then that alarm is over."""
MOST_TOLD = 3
SIZE_SHARE = 0.1
"""A size is written down anew once it has changed by such a share."""
_DAY = timedelta(days=1)


@dataclass(slots=True)
class Filing:
    """What happens to a site's alarms in one transaction. `opened` and `ended` are told to people afterwards."""

    session: Session
    watched: Watched
    document: Document
    clock: SiteClock
    now: int
    opened: list[Alarm] = field(default_factory=list)
    ended: list[Alarm] = field(default_factory=list)
    changed: dict[str, Alarm] = field(default_factory=dict)
    _words: list[Entry] = field(default_factory=list)

    def findings(self, night: Night, findings: Sequence[Finding], *, is_latest: bool, is_fresh: bool = False) -> None:
        """Bring the alarms to what a night shows. `is_latest`: no later night is watched yet. `is_fresh`: the journal
        has only just been opened, and whoever seems silent may not have had time to be heard."""
        day = night.date.isoformat()
        alarms = {one.id: one for one in self._about(night)}
        findings = gathered(findings)
        known = matched([held_of(one, day) for one in alarms.values()], findings)
        shown = set(known.values())
        for found in findings:
            alarm = alarms.get(known.get(found.id, "")) or self._same(day, found, shown)
            if alarm is not None:
                shown.add(alarm.id)
                self._carry_on(alarm, day, found)
            elif not (is_fresh and found.kind is Noticed.SILENT):
                self._open(day, found)
        for alarm in alarms.values():
            if alarm.id not in shown:
                self._gone(alarm, night, is_latest)

    def write(self) -> None:
        """Number the changes and tell the journal: at the end of the transaction."""
        for alarm in self.changed.values():
            self.watched.changes += 1
            alarm.change = self.watched.changes
        self.session.flush()
        store(self.session, self.watched.site, self._words, self.now)

    def begin(self, alarm: Alarm) -> None:
        """A new alarm."""
        self.session.add(alarm)
        self._opened(alarm)

    def end(self, alarm: Alarm, at: int, why: Message) -> None:
        """An alarm is over, as the watch has it."""
        alarm.ended_at, alarm.ended_by, alarm.ended_why = at, SERVER, as_json(why.as_json())
        self.ended.append(alarm)
        self.changed[alarm.id] = alarm
        entry_id = f"{alarm.id}-ended-{made_id(str(alarm.times), alarm.ended_why)[:8]}"
        self.say(Entry(entry_id, self.now, Kind.ALARM_ENDED, SERVER, alarm=alarm.id), why)

    def say(self, entry: Entry, said: Message) -> None:
        """A word of the server's for the journal, which whoever reads it has in their own language."""
        self._words.append(saying_so(entry, said, names_around(self.document, self.clock, [self.now])))

    # --- inside

    def _about(self, night: Night) -> Iterable[Alarm]:
        """The alarms that a night may show: its own, those of the night before, and those that are open."""
        before = (night.date - _DAY).isoformat()
        day = night.date.isoformat()
        near = (Alarm.last_night == before) | (Alarm.last_night == day) | (Alarm.night == day)
        wanted = select(Alarm).where(Alarm.site == self.watched.site, Alarm.kind != DRIFT)
        wanted = wanted.where(or_(near, Alarm.ended_at.is_(None)))
        return self.session.scalars(wanted, execution_options={"populate_existing": True}).all()

    def _same(self, day: str, found: Finding, shown: set[str]) -> Alarm | None:
        """The alarm that this finding made before, should nothing else about it be the same any more."""
        same = self.session.get(Alarm, (self.watched.site, alarm_id(self.watched.site, day, found)))
        return None if same is None or same.id in shown else same

    def _open(self, day: str, found: Finding) -> None:
        alarm = Alarm(
            site=self.watched.site, id=alarm_id(self.watched.site, day, found), change=0, night=day, last_night=day,
            times=0, spells="{}", opened_at=self.now, ended_at=None, size_lpm=found.size_lpm,
        )  # fmt: skip
        self._describe(alarm, day, found)
        self.session.add(alarm)
        self._opened(alarm)
        if not found.is_open:
            self.end(alarm, found.spells[-1].end or self.now, why_over(found))

    def _carry_on(self, alarm: Alarm, day: str, found: Finding) -> None:
        """It goes on, has ended, or has begun again. What a later night shows of it is not undone by an earlier one."""
        before = _shape(alarm)
        if day >= alarm.last_night:
            self._describe(alarm, day, found)
        else:
            alarm.spells = as_json({**json.loads(alarm.spells), day: _spells(found)})
        if _shape(alarm) != before:
            self.changed[alarm.id] = alarm
        if day < alarm.last_night:
            return
        if found.is_open:
            self._reopen(alarm, found)
        elif alarm.ended_at is None:
            self.end(alarm, found.spells[-1].end or self.now, why_over(found))

    def _reopen(self, alarm: Alarm, found: Finding) -> None:
        """A fault that shows again after it was over. One that a person ended has to begin anew for that."""
        if alarm.ended_at is None or (_by_hand(alarm) and found.spells[-1].start <= alarm.ended_at):
            return
        alarm.ended_at = alarm.ended_by = alarm.ended_why = None
        self._opened(alarm)

    def _gone(self, alarm: Alarm, night: Night, is_latest: bool) -> None:
        """Nothing shows it any more: later readings explain it, or it did not last over noon."""
        day = night.date.isoformat()
        if alarm.night == day and alarm.last_night == day:
            self._explained_later(alarm)
        elif is_latest and alarm.ended_at is None and alarm.last_night < day and self.now >= night.starts + CARRY_S:
            self.end(alarm, night.starts, NIGHT_OVER())
        elif is_latest and alarm.ended_at is None and alarm.last_night == day:
            self.end(alarm, self.now, EXPLAINED_LATER())

    def _explained_later(self, alarm: Alarm) -> None:
        """Also where it was over before: then for another reason. What a person said stands."""
        why = EXPLAINED_LATER()
        if _by_hand(alarm) or alarm.ended_why == as_json(why.as_json()):
            return
        self.end(alarm, alarm.ended_at or self.now, why)

    def _describe(self, alarm: Alarm, day: str, found: Finding) -> None:
        spells = {**json.loads(alarm.spells), day: _spells(found)}
        told = replace(found, spells=spells_of(read_spells(spells)))
        alarm.kind, alarm.gravity, alarm.finding = found.kind.value, int(gravity_of(self.document, found)), found.id
        alarm.supply, alarm.controller, alarm.last_night = found.supply, found.controller, day
        alarm.station = found.culprits[0].station if found.culprits else None
        if alarm.said is None or _moved(alarm.size_lpm, found.size_lpm):
            alarm.size_lpm = found.size_lpm
        alarm.said = as_json(replace(told, size_lpm=alarm.size_lpm).says().as_json())
        alarm.spells, alarm.trial = as_json(spells), as_json(list(found.trial))
        if alarm.culprits is None or _coarse(json.loads(alarm.culprits)) != _coarse(map(asdict, found.culprits)):
            alarm.culprits = as_json([{**asdict(one), "sure": round(one.sure, 2)} for one in found.culprits])

    def _opened(self, alarm: Alarm) -> None:
        alarm.times += 1
        self.opened.append(alarm)
        self.changed[alarm.id] = alarm
        entry = Entry(
            f"{alarm.id}-opened-{alarm.times}", self.now, Kind.ALARM_OPENED, SERVER, supply=alarm.supply,
            controller=alarm.controller, station=alarm.station, alarm=alarm.id,
        )  # fmt: skip
        self.say(entry, message_in(alarm.said))


def held_of(alarm: Alarm, day: str) -> Held:
    """An alarm as findings of a night are held against it."""
    spells = spells_of(read_spells(json.loads(alarm.spells)))
    own = alarm.finding if alarm.last_night == day else None
    kind = Noticed(alarm.kind) if alarm.kind in set(Noticed) else Noticed.METER
    return Held(alarm.id, kind, alarm.supply, alarm.controller, spells or (Spell(0, 0, 0),), own)


def read_spells(nights: Mapping[str, Sequence[Sequence[int | None]]]) -> dict[str, list[Spell]]:
    """An alarm's spells by night, out of their JSON."""
    return {day: [Spell(one[0] or 0, one[1] or 0, one[2]) for one in spells] for day, spells in nights.items()}


def message_in(text: str) -> Message:
    """A message that was kept as JSON."""
    kept = json.loads(text)
    return Message(kept["code"], kept["params"])


def _spells(found: Finding) -> list[list[int | None]]:
    return [[one.start, one.noticed, one.end] for one in found.spells]


def _coarse(culprits: Iterable[Mapping[str, Any]]) -> list[tuple[object, ...]]:
    """What of the culprits is worth telling phones anew: who they are, and how sure in tenths."""
    names = ("cause", "station", "supply", "controller")
    return [(*(one[name] for name in names), round(one["sure"], 1)) for one in culprits][:MOST_TOLD]


def _by_hand(alarm: Alarm) -> bool:
    return alarm.ended_by is not None and alarm.ended_by.startswith(PERSON)


def _moved(before: float, now: float) -> bool:
    return abs(now - before) > SIZE_SHARE * before


def _shape(alarm: Alarm) -> tuple[object, ...]:
    return (
        alarm.kind, alarm.gravity, alarm.supply, alarm.controller, alarm.station, alarm.size_lpm, alarm.said,
        alarm.spells, alarm.trial, alarm.culprits, alarm.last_night,
    )  # fmt: skip


def as_json(value: object) -> str:
    """As it is kept in the database: the same value always gives the same text."""
    return json.dumps(value, separators=(",", ":"), sort_keys=True)
