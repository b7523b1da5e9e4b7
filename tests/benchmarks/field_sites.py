"""Sites made up from a seed, no two alike, for benchmarks that must not know the site they are held against.

Each has one to three sources, mains below them (some below other mains), cabinets, and stations whose turns a night
has about room for. The figures are common practice, no source. Flows in L/min.
"""

from __future__ import annotations

from collections.abc import Iterator
from random import Random
from typing import Any

from builders import a_controller, a_document, a_program, a_station, a_supply, a_turn, a_window
from pengan.engine.document.document import Document

Row = dict[str, Any]
BY_ITSELF = 0.05
"""So many stations hang on no cabinet."""


def made_up_site(seed: int) -> Document:
    """The site of a seed."""
    chance = Random(f"site/{seed}")
    parents = dict(_mains(chance))
    cabinets = [f"cabinet-{number}" for number in range(1, chance.randint(3, 7))]
    stations = list(_stations(chance, [main for main in parents if main not in parents.values()], cabinets))
    return a_document(
        supplies=_supplies(chance, parents, stations), controllers=[a_controller(id) for id in cabinets],
        stations=stations, windows=[a_window()], programs=[a_program("daily"), a_program("odd", days="odd")],
        turns=[_turn(chance, row["id"]) for row in stations],
    )  # fmt: skip


def _mains(chance: Random) -> Iterator[tuple[str, str | None]]:
    """Every supply and what feeds it."""
    for source in range(1, chance.randint(1, 3) + 1):
        yield f"source-{source}", None
        for main in range(1, chance.randint(1, 4) + 1):
            yield f"main-{source}-{main}", f"source-{source}"
            for branch in range(1, chance.choice((0, 0, 0, 2, 3)) + 1):
                yield f"branch-{source}-{main}-{branch}", f"main-{source}-{main}"


def _stations(chance: Random, ends: list[str], cabinets: list[str]) -> Iterator[Row]:
    """Stations at the ends of the pipes; those of one end hang mostly on one cabinet."""
    for end in ends:
        usual, likely = chance.choice(cabinets), chance.choice((12, 25, 45))
        for number in range(1, chance.randint(5, 14) + 1):
            cabinet = (
                None if chance.random() < BY_ITSELF else usual if chance.random() < 0.8 else chance.choice(cabinets)
            )
            flow = round(min(140.0, max(4.0, chance.lognormvariate(0, 0.5) * likely)), 1)
            id = f"{end}-{number}"
            yield a_station(
                id, number=str(ends.index(end) * 100 + number), supply=end, controller=cabinet, flow_lpm=flow
            )


def _turn(chance: Random, station: str) -> Row:
    return a_turn(chance.choice(("daily", "daily", "odd")), station, run_s=60 * chance.randint(15, 60))


def _supplies(chance: Random, parents: dict[str, str | None], stations: list[Row]) -> list[Row]:
    """Each end gives one to three stations at once, a supply above a part of what those below may give together."""
    limits: dict[str, float] = {}
    for id in reversed(parents):
        below = [limits[other] for other, parent in parents.items() if parent == id]
        flows = [row["flow_lpm"] for row in stations if row["supply"] == id]
        most = max(flows) * chance.uniform(1.2, 3) if flows else max(max(below), sum(below) * chance.uniform(0.5, 0.9))
        limits[id] = round(most, 1)
    waters = {id: chance.choice(("town", "well", "pond", "reclaimed")) for id, parent in parents.items() if not parent}
    return [
        a_supply(id, fed_by=parent, limit_lpm=limits[id], water=waters[_source_of(parents, id)])
        for id, parent in parents.items()
    ]


def _source_of(parents: dict[str, str | None], supply: str) -> str:
    above = parents[supply]
    return supply if above is None else _source_of(parents, above)
