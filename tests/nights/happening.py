"""What could have happened on a night: outages, and valves that open late, close early, stay shut or are told twice."""

from __future__ import annotations

from random import Random

from pengan.engine.catch_up.happened import Happened, as_told
from pengan.engine.document.document import Document
from pengan.engine.journal.openings import Opening
from pengan.engine.journal.outages import FOREVER, Outages, path_of
from pengan.engine.plan.problem import Span
from pengan.engine.plan.sheet import NightSheet
from pengan.engine.plan.spans import merged

Spans = tuple[Span, ...]


def power_cut(document: Document, start: int, end: int, controller: str | None = None) -> Outages:
    """No power at one controller, or at the whole site."""
    cabinets = [controller] if controller is not None else [*document.controllers, None]
    return Outages(dict.fromkeys(cabinets, ((start, end),)), {}, ())


def supply_shut(document: Document, supply: str, start: int, end: int = FOREVER) -> Outages:
    """No water through a supply, nor through what it feeds; until further notice unless an end is given."""
    fed = [node for node in document.supplies if supply in path_of(document, node)]
    return Outages({}, dict.fromkeys(fed, ((start, end),)), ())


def stopped(start: int, end: int = FOREVER) -> Outages:
    """All watering stopped."""
    return Outages({}, {}, ((start, end),))


def both(one: Outages, other: Outages) -> Outages:
    """Two outages on one night."""
    return Outages(
        {key: _all(one.power.get(key, ()), other.power.get(key, ())) for key in [*one.power, *other.power]},
        {key: _all(one.shut.get(key, ()), other.shut.get(key, ())) for key in [*one.shut, *other.shut]},
        _all(one.stopped, other.stopped),
    )


def _all(some: Spans, others: Spans) -> Spans:
    return tuple(merged([*some, *others]))


def any_outage(random: Random, document: Document, sheet: NightSheet, now: int) -> Outages:
    """One or two outages of any kind around now: over, going on, or announced."""
    found = _any_one(random, document, sheet, now)
    return both(found, _any_one(random, document, sheet, now)) if random.random() < 0.4 else found


def _any_one(random: Random, document: Document, sheet: NightSheet, now: int) -> Outages:
    start = now + random.randrange(-3 * 3600, 3600)
    end = FOREVER if random.random() < 0.1 else start + random.randrange(60, 3 * 3600)
    kind = random.randrange(4)
    if kind == 0:
        return stopped(start, end)
    if kind == 1:
        return supply_shut(document, random.choice(sorted(document.supplies)), start, end)
    controller = random.choice([None, *sorted(document.controllers)]) if kind == 2 else None
    return power_cut(document, start, end, controller)


def valves(random: Random, sheet: NightSheet, now: int, odd: float = 0.3) -> list[Opening]:
    """What each valve did until now, a share of them otherwise than planned. Outages are not regarded."""
    found = []
    for run in sheet.runs:
        start, end = run.start, run.end
        if random.random() < odd:
            what = random.randrange(6)
            if what == 0:
                continue
            start += random.choice((2, 45, 400)) if what == 1 else 0
            end += random.choice((-1, -40, -500)) if what == 2 else random.choice((3, 60, 900)) if what == 3 else 0
            if what == 4:
                middle = (start + end) // 2
                found.append(Opening(run.station, start, middle))
                start = middle + 20
            start, end = (start + 700, end + 700) if what == 5 else (start, end)
        if start < now and start < end:
            found.append(Opening(run.station, start, end if end <= now else None))
    return [one for one in found if one.end is None or one.start < one.end]


def as_it_came(
    random: Random, document: Document, sheet: NightSheet, now: int, odd: float = 0.3
) -> tuple[Happened, Outages]:
    """A whole night until now with outages and odd valves."""
    out = any_outage(random, document, sheet, now)
    return as_told(document, sheet, valves(random, sheet, now, odd), out, now), out
