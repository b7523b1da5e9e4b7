"""A night of the field played: from a document and a sheet to what the journal is told of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from heapq import merge
from zlib import crc32

from pengan.engine.document.document import Document
from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.plan.sheet import NightSheet

from .controllers import controllers_say
from .ground import Ground
from .meters import Meter, Reading, first_count
from .nature import Nature
from .pressure import Supplied
from .streams import streams
from .told import Told
from .troubles import NEVER, Trouble
from .valves import Order, orders

BY = "reporter:field"


def play(
    document: Document,
    sheet: NightSheet,
    seed: int,
    troubles: Iterable[Trouble] = (),
    nature: Nature | None = None,
    counts: Mapping[str, float] | None = None,
    by: str = BY,
) -> Iterator[Entry]:
    """What a journal is told of the night, in order of occurrence; what is never told is not among it.

    `sheet` is a sheet of this document. The same arguments give the same entries, ids included, on every machine.
    `counts` are the meters' counters in the evening; `last_counts` of the night before carries them on.
    """
    return (told.entry for told in happenings(document, sheet, seed, troubles, nature, counts, by))


def tellings(
    document: Document,
    sheet: NightSheet,
    seed: int,
    troubles: Iterable[Trouble] = (),
    nature: Nature | None = None,
    counts: Mapping[str, float] | None = None,
    by: str = BY,
) -> list[Told]:
    """The same entries in the order in which they are told: what had to wait for power or a voice comes late."""
    return sorted(happenings(document, sheet, seed, troubles, nature, counts, by), key=lambda told: told.at)


def happenings(
    document: Document,
    sheet: NightSheet,
    seed: int,
    troubles: Iterable[Trouble],
    nature: Nature | None,
    counts: Mapping[str, float] | None,
    by: str,
) -> Iterator[Told]:
    """In order of occurrence, each with the instant at which it is told."""
    ground = Ground(document, sheet, seed, tuple(troubles), nature or Nature())
    ordered = orders(ground)
    said = sorted(controllers_say(ground, ordered), key=lambda told: told.entry.at)
    mark = _mark(ground)
    everything = merge(said, *_meters(ground, ordered, counts or {}), key=lambda told: told.entry.at)
    for number, told in enumerate(everything):
        if told.at < NEVER:
            yield replace(told, entry=replace(told.entry, id=f"{mark}-{number:06}", by=by))


def last_counts(entries: Iterable[Entry]) -> dict[str, float]:
    """Each meter's counter as it stood last, to begin the next night with."""
    counted = (entry for entry in entries if entry.kind is Kind.COUNT)
    return {entry.supply: entry.count_l for entry in counted if entry.supply and entry.count_l is not None}


def _meters(ground: Ground, ordered: Sequence[Order], counts: Mapping[str, float]) -> list[Iterator[Told]]:
    flowing = streams(ground, ordered)
    supplied = Supplied(ground, flowing)
    metered = ground.nature.metered
    return [
        _as_told(ground, Meter(ground, supply, flowing, supplied, counts.get(supply, first_count(ground, supply))))
        for supply in sorted(ground.document.supplies)
        if metered is None or supply in metered
    ]


def _as_told(ground: Ground, meter: Meter) -> Iterator[Told]:
    return (_reading(ground, reading) for reading in meter.readings())


def _reading(ground: Ground, reading: Reading) -> Told:
    at = ground.sheet.starts + reading.second
    if reading.is_count:
        return Told(at, Entry("", at, Kind.COUNT, "", supply=reading.supply, count_l=reading.value))
    return Told(at, Entry("", at, Kind.FLOW, "", supply=reading.supply, flow_lpm=reading.value))


def _mark(ground: Ground) -> str:
    """What ids begin with: another night, seed, sheet or trouble gives others."""
    runs = [(run.station, run.start, run.end) for run in ground.sheet.runs]
    nature, metered = replace(ground.nature, metered=None), sorted(ground.nature.metered or ())
    asked = repr((ground.seed, runs, ground.troubles, nature, metered)).encode()
    return f"field-{ground.sheet.night}-{crc32(asked):08x}"
