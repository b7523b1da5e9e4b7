"""A hydrozone of the document as the need is worked out for it, or what is missing for that."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from ...document.document import Document
from ...document.need_tables import Audit as AuditRecord
from ...document.tables import Hydrozone, Station
from ...message import Message, saying
from ..cans import Audit, Can, Wetting, audit
from ..coefficients import Curve, Stages, Steady, landscape_coefficient
from ..decide import Drought, Manner
from ..intake import Intake, intake_of
from ..plants import PLANTS
from ..rates import ASSUMED_UNIFORMITY, Rate, station_rate
from ..soil import root_zone
from ..tonight import Planting

NO_COEFFICIENT = saying(
    "need.no_coefficient",
    "{hydrozone} does not say how thirsty its plants are: neither a crop coefficient, nor a species factor, nor a "
    "kind of planting.",
)
USUAL_FRACTION = 0.5
"""Share of the soil's water that plants take with ease where nothing is said: FAO-56 p. 162 ("a value of 0.50 is
commonly used for many crops")."""


@dataclass(frozen=True, slots=True)
class Read:
    """What a hydrozone's record gave: the planting, or None and everything that is missing."""

    planting: Planting | None
    messages: tuple[Message, ...]


def planting_of(
    document: Document, zone: Hydrozone, stations: Iterable[Station], wettings: Mapping[str, Wetting] | None = None
) -> Read:
    """A hydrozone with its stations' rates. Stations without a rate are told and left out.

    `wettings` are those of `latest_wettings`, for those who read many hydrozones.
    """
    plant = PLANTS.get(zone.plant_kind or "")
    fraction = _share(zone.depletion_pct, plant.fraction if plant and plant.fraction else USUAL_FRACTION)
    roots = zone.roots_m if zone.roots_m is not None or not plant or not plant.roots_m else plant.roots_m[0]
    root, messages = root_zone(
        zone.id, texture=zone.soil, available=zone.held_mm, root_depth_m=roots, fraction=fraction
    )
    curve = curve_of(zone)
    told = list(messages) if curve else [*messages, NO_COEFFICIENT(hydrozone=zone.id)]
    rates, untold = _rates(document, stations, wettings)
    if root is None or curve is None:
        return Read(None, (*told, *untold))
    planting = Planting(zone.id, root, curve, manner_of(zone), intake_for(zone), rates, document.site.rain_counts)
    return Read(planting, (*told, *untold))


def curve_of(zone: Hydrozone) -> Curve | None:
    """By factors, by stages of a season, by one coefficient, or by the published value of its kind; in that order."""
    if zone.species_factor is not None:
        others = (1.0 if factor is None else factor for factor in (zone.density_factor, zone.microclimate_factor))
        return landscape_coefficient(zone.species_factor, *others)
    if zone.kc_middle is not None:
        return _staged(zone, zone.kc_middle)
    plant = PLANTS.get(zone.plant_kind or "")
    return Steady(plant.middle) if plant else None


def _staged(zone: Hydrozone, middle: float) -> Curve:
    lengths = (zone.initial_days, zone.growth_days, zone.middle_days, zone.late_days)
    if zone.grows_from is None or all(length is None for length in lengths):
        return Steady(middle)
    month, day = (int(part) for part in zone.grows_from.split("-"))
    initial = middle if zone.kc_initial is None else zone.kc_initial
    end = middle if zone.kc_end is None else zone.kc_end
    rest = initial if zone.kc_rest is None else zone.kc_rest
    first, second, third, last = (length or 0 for length in lengths)
    return Stages((month, day), first, second, third, last, initial, middle, end, rest)


def manner_of(zone: Hydrozone) -> Manner:
    """How its nights are decided."""
    return Manner(
        zone.watering, zone.trigger_pct / 100, zone.leave_mm, zone.least_mm, zone.most_mm, zone.priority
    )  # fmt: skip


def intake_for(zone: Hydrozone) -> Intake | None:
    """What the ground takes in: as the site has seen it, else by texture and slope; None where neither is known."""
    table = intake_of(zone.soil, zone.slope_pct or 0.0) if zone.soil is not None else None
    if zone.intake_mm is None:
        return table
    storage = zone.storage_mm if zone.storage_mm is not None else table.storage_mm if table else 0.0
    return Intake(zone.intake_mm, storage)


def drought_on(document: Document, night: date) -> Drought | None:
    """The drought rule in force on a night; None where there is none."""
    day = night.isoformat()
    found = [one for one in document.droughts.values() if one.starts <= day and (one.ends is None or day <= one.ends)]
    return Drought({one.priority: one.share_pct for one in sorted(found, key=lambda one: one.id)}) if found else None


def latest_wettings(document: Document) -> dict[str, Wetting]:
    """Each station's newest audit that says anything."""
    found: dict[str, Wetting] = {}
    caught = _caught(document)
    for record in sorted(document.audits.values(), key=lambda one: (one.day, one.id)):
        wetting, _faults = audit(_given(record, caught.get(record.id, ())))
        if wetting is not None:
            found[record.station] = wetting
    return found


def given_audit(document: Document, record: AuditRecord) -> Audit:
    """An audit of the document with its cans, as it is worked out."""
    return _given(record, _caught(document).get(record.id, ()))


def _given(record: AuditRecord, cans: Iterable[Can]) -> Audit:
    return Audit(record.station, tuple(cans), record.run_s, record.caught_in, record.opening_cm2)


def _caught(document: Document) -> dict[str, list[Can]]:
    caught: dict[str, list[Can]] = {}
    for can in document.cans.values():
        caught.setdefault(can.audit, []).append(Can(can.column, can.row, can.catch))
    return caught


def rates_of(
    document: Document, stations: Iterable[Station], wettings: Mapping[str, Wetting] | None = None
) -> dict[str, tuple[Rate | None, tuple[Message, ...]]]:
    """Each station's rate and what is to be said of it."""
    wettings = latest_wettings(document) if wettings is None else wettings
    return {station.id: _rate(station, wettings.get(station.id)) for station in stations}


def _rates(
    document: Document, stations: Iterable[Station], wettings: Mapping[str, Wetting] | None
) -> tuple[tuple[Rate, ...], tuple[Message, ...]]:
    found = rates_of(document, stations, wettings).values()
    missing = (message for rate, messages in found if rate is None for message in messages)
    return tuple(rate for rate, _ in found if rate is not None), tuple(missing)


def _rate(station: Station, wetting: Wetting | None) -> tuple[Rate | None, tuple[Message, ...]]:
    audited = None if wetting is None else (wetting.rate_mm_h, wetting.uniformity_lq)
    assumed = _share(station.evenness_pct, ASSUMED_UNIFORMITY)
    return station_rate(station.id, station.flow_lpm, station.area_m2, audited, assumed)


def _share(percent: float | None, otherwise: float) -> float:
    return otherwise if percent is None else percent / 100
