"""A made-up night as a site's document, for what takes documents: the same stations, limits, hours and closures.

What a document cannot say is left as near as it can: times are cut to whole minutes, and turns of one program that
begin or end at other times become programs of their own. The clock is UTC, and the night the one of `NIGHT`.
"""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Any

from builders import FORMAT
from pengan.engine.document.document import Document
from pengan.engine.document.read import read_document
from pengan.engine.plan.problem import Chain, Problem

NIGHT = date(2026, 7, 1)
Row = dict[str, Any]


def as_document(problem: Problem) -> Document:
    """The document of this night. Its stations, turns and programs keep their keys."""
    return read_document({"format": FORMAT, "records": [*_ground(problem), *_programs(problem), *_stations(problem)]})


def _ground(problem: Problem) -> list[Row]:
    site = {"table": "site", "id": "site", "name": "Made up", "zone": "UTC"}
    supplies = [
        _given("supplies", node.key, limit_lpm=_lpm(node.limit), fed_by=_key(problem, node.parent))
        for node in problem.supplies
    ]
    controllers = [
        _given(
            "controllers", box.key, max_open=box.max_open, max_current_ma=box.max_current,
            valve_gap_s=box.gap if box.gap and box.max_open else None,
        )
        for box in problem.controllers
    ]  # fmt: skip
    return [site, *supplies, *controllers]


def _programs(problem: Problem) -> list[Row]:
    rows = {}
    for chain in problem.chains:
        limit = problem.programs[chain.program]
        rows[_program(chain)] = _given(
            "programs",
            _program(chain),
            start=_clock(chain.release),
            finish_by=_clock(chain.deadline) if chain.deadline < problem.length else None,
            limit_lpm=_lpm(limit.limit),
            max_open=limit.max_open,
            order="listed" if limit.ordered else None,
        )
    return list(rows.values())


def _stations(problem: Problem) -> list[Row]:
    rows: list[Row] = []
    for number, chain in enumerate(problem.chains):
        station = problem.stations[chain.station]
        controller = None if chain.controller is None else problem.controllers[chain.controller].key
        supply = problem.supplies[chain.supply].key
        rows.append(
            _given(
                "stations", station, number=str(number), supply=supply, flow_lpm=chain.flow / 1000,
                controller=controller, current_ma=chain.current or None,
            )
        )  # fmt: skip
        rows.append(
            {
                "table": "turns", "id": chain.key, "program": _program(chain), "station": station, "position": number,
                "run_s": sum(chain.cycles), "cycles": len(chain.cycles), "soak_s": chain.soak, "rank": chain.rank,
            }
        )  # fmt: skip
        rows.extend(_hours(problem, chain, station))
    for one, others in enumerate(problem.apart):
        rows.extend(
            {
                "table": "apart",
                "id": f"a{one}-{other}",
                "station": problem.stations[one],
                "other": problem.stations[other],
            }
            for other in sorted(others)
            if one < other
        )
    return rows


def _hours(problem: Problem, chain: Chain, station: str) -> list[Row]:
    """The holes in a station's calendar, as closures of the station."""
    spans = problem.calendars[chain.calendar]
    edges = [chain.release, *(edge for span in spans for edge in span), problem.length]
    holes = [(start, end) for start, end in zip(edges[::2], edges[1::2], strict=True) if start < end]
    return [
        {
            "table": "closures", "id": f"{station}-{number}", "name": "Hole", "station": station,
            "starts_on": _moment(start), "ends_on": _moment(end),
        }
        for number, (start, end) in enumerate(holes)
    ]  # fmt: skip


def _program(chain: Chain) -> str:
    return f"p{chain.program}-{chain.release}-{chain.deadline}"


def _given(table: str, key: str, **fields: Any) -> Row:
    return {
        "table": table,
        "id": key,
        "name": key,
        **{name: value for name, value in fields.items() if value is not None},
    }


def _key(problem: Problem, supply: int | None) -> str | None:
    return None if supply is None else problem.supplies[supply].key


def _lpm(flow: int | None) -> float | None:
    return None if flow is None else flow / 1000


def _at(second: int) -> datetime:
    return datetime(NIGHT.year, NIGHT.month, NIGHT.day, 12, tzinfo=UTC) + timedelta(seconds=second)


def _clock(second: int) -> str:
    return _at(second).strftime("%H:%M")


def _moment(second: int) -> str:
    return _at(second).strftime("%Y-%m-%dT%H:%M")
