"""Stations whose flow creeps away over three weeks, among sound ones: how many are noticed, after how many nights."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random
from statistics import median

from pengan.engine.journal.drift import BASE_NIGHTS, Drift, drift
from pengan.engine.journal.learned import Learned, firm_flows, night_flows
from pengan.engine.journal.watch import Known, watch_night
from pengan.field.play import play
from pengan.field.troubles import Drift as Drifting

from .field_nights import Field
from .table import Table, note, percent

NIGHTS, FIELD, DRIFTING = 35, Field(0, 1), 40


def show() -> None:
    drifting = _drifting()
    nights = _learned(drifting).nights
    told = {station: drift(nights.get(station, ())) for station in FIELD.site.stations}
    heads = ("a night", "stations", "enough nights", "noticed", "median nights until told")
    table = Table(f"Drift from night {BASE_NIGHTS + 1} on, watched for {NIGHTS} nights", heads, first=16)
    for low, high in ((0.5, 1.0), (1.0, 2.0), (2.0, 3.0)):
        ones = [station for station, pct in drifting.items() if low <= abs(pct) < high]
        table.row(f"{low} to {high} %", str(len(ones)), *_cells(ones, told, nights))
    sound = [station for station in told if station not in drifting and len(nights.get(station, ())) > BASE_NIGHTS]
    cried = [station for station in sound if told[station]]
    note(f"Sound stations with enough nights: {len(sound)}, of which {len(cried)} were taken for drifting.")


def _cells(
    ones: list[str], told: dict[str, Drift | None], nights: dict[str, tuple[tuple[str, float], ...]]
) -> Iterator[str]:
    enough = [station for station in ones if len(nights.get(station, ())) > BASE_NIGHTS]
    found = [(station, one) for station in enough if (one := told[station])]
    after = [_nights_until(nights[station], one) for station, one in found]
    yield str(len(enough))
    yield percent(len(found) / len(enough)) if enough else "-"
    yield str(round(median(after))) if after else "-"


def _nights_until(nights: tuple[tuple[str, float], ...], found: Drift) -> int:
    """How many nights of its own a station had between its first ones and the one that told."""
    return [night for night, _ in nights].index(found.told) - BASE_NIGHTS + 1


def _drifting() -> dict[str, float]:
    chance = Random("drifting")
    stations = chance.sample(sorted(FIELD.site.stations), DRIFTING)
    return {station: chance.uniform(0.5, 3) * chance.choice((-1, 1)) for station in stations}


def _learned(drifting: dict[str, float]) -> Learned:
    """What the nights tell of stations that were seen by themselves."""
    learned, firm = Learned(), Learned()
    for night in range(NIGHTS):
        sheet = FIELD.sheet_of(night)
        since = FIELD.sheet_of(BASE_NIGHTS).starts
        troubles = [Drifting(at=since, station=station, pct_a_night=pct) for station, pct in drifting.items()]
        known = Known(learned.flows(), frozenset(FIELD.site.controllers), frozenset(FIELD.site.supplies))
        told = play(FIELD.site, sheet, FIELD.number, troubles, FIELD.nature)
        watch = watch_night(FIELD.site, sheet, told, known=known)
        learned = learned.with_night(sheet.night, night_flows(watch))
        firm = firm.with_night(sheet.night, firm_flows(watch))
    return firm
