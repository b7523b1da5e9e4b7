"""What a rest of the night changes, to be shown before somebody accepts it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import asdict, dataclass

from ..document.document import Document
from ..plan.sheet import NightSheet, Run
from ..plan.solve import MOVED_S
from ..plan.water import litres


@dataclass(frozen=True, slots=True)
class Carried:
    """What a hydrozone lacks of what was planned for it tonight; `depth_mm` None where an area is not known.

    One litre on one square metre is one millimetre. The need of the next night knows it by itself: it counts what
    the sheet's runs brought.
    """

    hydrozone: str
    volume_l: float
    depth_mm: float | None


@dataclass(frozen=True, slots=True)
class Effect:
    """Before: the sheet that was in force. After: the new one. Finishes are instants.

    `missed_l` is what keeping to the clock would lose of what was planned, `recovered_l` what of it comes after all,
    `lost_l` what does not. Of `later_count` runs still to come `moved_count` start more than ten minutes from where
    they did, or do not run.
    """

    finish_before: int | None
    finish_after: int | None
    delivered_l: float
    missed_l: float
    recovered_l: float
    lost_l: float
    later_count: int
    moved_count: int
    carried: tuple[Carried, ...]

    def as_json(self) -> dict[str, object]:
        """As the app reads it."""
        return {**asdict(self), "carried": [asdict(one) for one in self.carried]}


def effect_of(document: Document, before: NightSheet, kept: int, after: NightSheet, now: int) -> Effect:
    """Hold the new sheet against the one in force, and against the millilitres that keeping to the clock brings."""
    planned, comes = _millilitres(before.runs), _millilitres(after.runs)
    later = [run for run in before.runs if run.start >= now]
    return Effect(
        finish_before=before.finish,
        finish_after=after.finish,
        delivered_l=litres(sum(_until(run, now) for run in after.runs)),
        missed_l=litres(max(0, planned - kept)),
        recovered_l=litres(max(0, comes - kept)),
        lost_l=litres(max(0, planned - comes)),
        later_count=len(later),
        moved_count=moved(later, after.runs),
        carried=tuple(_carried(document, before, after)),
    )


def moved(planned: Sequence[Run], runs: Iterable[Run]) -> int:
    """How many planned runs have no run of their turn within ten minutes of their start, each counted once."""
    starts: dict[str, list[int]] = defaultdict(list)
    for run in runs:
        starts[run.turn].append(run.start)
    count = 0
    for run in planned:
        near = min(starts[run.turn], key=lambda start: abs(start - run.start), default=None)
        if near is None or abs(near - run.start) > MOVED_S:
            count += 1
        else:
            starts[run.turn].remove(near)
    return count


def moved_pct(before: NightSheet, after: NightSheet, now: int) -> float:
    """The share of the runs still to come that moved, in percent to one decimal."""
    later = [run for run in before.runs if run.start >= now]
    return round(100 * moved(later, after.runs) / len(later), 1) if later else 0.0


def _carried(document: Document, before: NightSheet, after: NightSheet) -> Iterable[Carried]:
    planned, came = _by_turn(before), _by_turn(after)
    lacking: dict[str, int] = defaultdict(int)
    for turn, (station, volume) in planned.items():
        zone = document.stations[station].hydrozone if station in document.stations else None
        if zone is not None:
            lacking[zone] += max(0, volume - came.get(turn, ("", 0))[1])
    for zone, volume in sorted(lacking.items()):
        if volume:
            areas = [one.area_m2 for one in document.stations.values() if one.hydrozone == zone]
            known = [area for area in areas if area]
            depth = round(litres(volume) / sum(known), 2) if known and len(known) == len(areas) else None
            yield Carried(zone, litres(volume), depth)


def _by_turn(sheet: NightSheet) -> Mapping[str, tuple[str, int]]:
    found: dict[str, tuple[str, int]] = {}
    for run in sheet.runs:
        found[run.turn] = run.station, found.get(run.turn, ("", 0))[1] + round(run.volume_l * 1000)
    return found


def _millilitres(runs: Iterable[Run]) -> int:
    return sum(round(run.volume_l * 1000) for run in runs)


def _until(run: Run, now: int) -> int:
    """What a run brought until now, in millilitres."""
    part = max(0, min(run.end, now) - run.start)
    return round(run.volume_l * 1000 * part / (run.end - run.start))
