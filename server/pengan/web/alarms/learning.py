"""What a night teaches once it is over: stations' flows, who tells of valves, which supplies have a meter, drift."""

from __future__ import annotations

import json
from collections.abc import Mapping
from datetime import timedelta

from sqlalchemy import delete, select

from pengan.engine.clock.nights import Night
from pengan.engine.journal.alarm import DRIFTED, RIGHT_AGAIN, Gravity, made_id
from pengan.engine.journal.drift import Drift, drift
from pengan.engine.journal.learned import firm_flows, night_flows
from pengan.engine.journal.watch import Watch

from .filing import Filing
from .ground import learned_before
from .models import Alarm, LearnedFlow, WatchedNight
from .names import DRIFT

KEPT_DAYS = 400


def write_down(filing: Filing, night: Night, watch: Watch, now: int) -> None:
    """Keep what the night taught, in the place of what it taught before, and look for stations that drift."""
    session, site, day = filing.session, filing.watched.site, night.date.isoformat()
    flows, firm = night_flows(watch), firm_flows(watch)
    oldest = (night.date - timedelta(days=KEPT_DAYS)).isoformat()
    for table in (LearnedFlow, WatchedNight):
        old = (table.night == day) | (table.night < oldest)
        session.execute(delete(table).where(table.site == site, old))
    heard = sorted(watch.valves.heard & set(filing.document.controllers))
    session.add(
        WatchedNight(
            site=site, night=day, heard=json.dumps(heard), metered=json.dumps(sorted(watch.gauges)), watched_at=now
        )
    )
    session.add_all(
        LearnedFlow(site=site, station=id, night=day, flow_lpm=flow, firm=id in firm) for id, flow in flows.items()
    )
    session.flush()
    _file_drifts(filing, night, firm)


def _file_drifts(filing: Filing, night: Night, firm: Mapping[str, float]) -> None:
    """An alarm for each station that has left its flow, once; it is over when the chart no longer says so.

    A flow that was shared out among stations is right in the sum alone: it says nothing of drift.
    """
    learned = learned_before(filing.session, filing.watched.site, night.date + timedelta(days=1), firm=True)
    wanted = select(Alarm).where(Alarm.site == filing.watched.site, Alarm.kind == DRIFT, Alarm.ended_at.is_(None))
    standing = {one.station: one for one in filing.session.scalars(wanted)}
    for station in sorted(firm):
        found = drift(learned.nights[station])
        if found is None and station in standing:
            filing.end(standing[station], night.ends, RIGHT_AGAIN(end_at=night.ends))
        elif found is not None and station not in standing:
            _begin_drift(filing, night, station, found)


def _begin_drift(filing: Filing, night: Night, station: str, found: Drift) -> None:
    site, day = filing.watched.site, night.date.isoformat()
    id = made_id(site, DRIFT, station, found.since)
    if station not in filing.document.stations or filing.session.get(Alarm, (site, id)) is not None:
        return
    record = filing.document.stations[station]
    before, after = round(found.from_lpm, 1), round(found.to_lpm, 1)
    said = DRIFTED(station=station, before_lpm=before, after_lpm=after, since_date=found.since)
    filing.begin(
        Alarm(
            site=site, id=id, change=0, night=found.since, last_night=day, finding=f"{DRIFT}:{station}", kind=DRIFT,
            gravity=int(Gravity.MINOR), supply=record.supply, controller=record.controller, station=station,
            size_lpm=round(abs(found.to_lpm - found.from_lpm), 2), said=json.dumps(said.as_json()), spells="{}",
            culprits="[]", trial="[]", times=0, opened_at=filing.now,
        )
    )  # fmt: skip
