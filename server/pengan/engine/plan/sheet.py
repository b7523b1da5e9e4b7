"""The night sheet: the plan of one night, complete enough to read without its document's help but for names.

Instants are whole seconds since 1970-01-01T00:00Z; `*_local` is the same moment on the site's clock as
`YYYY-MM-DDTHH:MM:SS±HH:MM`. Flows in L/min, volumes in litres, both exact to the millilitre.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..message import Message

SHEET_FORMAT = 1


@dataclass(frozen=True, slots=True)
class Rung:
    """One limit and the earliest instant from which it allowed a run until the run's start."""

    why: Message
    at: int


@dataclass(frozen=True, slots=True)
class Run:
    """One opening of one station. `cycle` counts from 1 to `cycles`; `turn` is the turn's (or asked-for run's) id."""

    turn: str
    station: str
    program: str | None
    supply: str
    controller: str | None
    cycle: int
    cycles: int
    start: int
    end: int
    start_local: str
    end_local: str
    flow_lpm: float
    volume_l: float
    why: Message
    ladder: tuple[Rung, ...]


@dataclass(frozen=True, slots=True)
class Shortfall:
    """Water that did not fit, and why. `cycles` counts the cycles left out, `run_s` their time together."""

    turn: str
    station: str
    program: str | None
    supply: str
    cycles: int
    run_s: int
    volume_l: float
    why: Message


@dataclass(frozen=True, slots=True)
class Draw:
    """One supply's draw over the night: from each instant on, so many L/min, until the next. Ends with 0."""

    supply: str
    steps: tuple[tuple[int, float], ...]
    volume_l: float
    peak_lpm: float


@dataclass(frozen=True, slots=True)
class Bound:
    """The night could not possibly end before `at`.

    `holder` says which limit holds it there, `relief` what more of it would bring.
    """

    at: int
    holder: Message
    relief: Message | None


@dataclass(frozen=True, slots=True)
class ClosedSpan:
    """A span of this night in which a closure or the lack of a window forbids water. `closure` None: no window is open.

    `supply` None means the whole site; `whole` is False where only some stations of that supply are meant.
    """

    closure: str | None
    supply: str | None
    whole: bool
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class NightSheet:
    """The plan of one night. `order` and `constructions` let a small edit be planned from it."""

    site: str
    night: str
    starts: int
    ends: int
    starts_local: str
    ends_local: str
    zone: str
    zone_data: str
    engine: str
    runs: tuple[Run, ...]
    shortfalls: tuple[Shortfall, ...]
    draws: tuple[Draw, ...]
    closed: tuple[ClosedSpan, ...]
    finish: int | None
    bound: Bound | None
    notices: tuple[Message, ...]
    volume_due_l: float
    volume_l: float
    moved_pct: float | None
    order: tuple[str, ...]
    constructions: int
