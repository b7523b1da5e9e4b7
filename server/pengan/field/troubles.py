"""What can go wrong in the made-up field: one dataclass a trouble. Instants are whole seconds since 1970Z."""

from __future__ import annotations

from dataclasses import dataclass

NEVER = 1 << 62
CLOGS_IN_S = 4 * 3600


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Begins at `at` and is over at `until`; None: not in this night."""

    at: int
    until: int | None = None

    def seconds(self, starts: int, length: int) -> tuple[int, int]:
        """From when to when it lasts, in seconds of a night of so many; the start may lie before the night's."""
        end = NEVER if self.until is None else self.until - starts
        return self.at - starts, min(end, length)

    @property
    def ended(self) -> int:
        """The instant at which it is over, or `NEVER`."""
        return NEVER if self.until is None else self.until


@dataclass(frozen=True, slots=True, kw_only=True)
class Break(Trouble):
    """A broken pipe: `flow_lpm` escapes. At a supply all the time, below a station's valve while that is open."""

    flow_lpm: float
    supply: str | None = None
    station: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Leak(Trouble):
    """A supply loses a little all the time, also with nothing open."""

    supply: str
    flow_lpm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class StuckOpen(Trouble):
    """A valve gives water whatever its controller says."""

    station: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DeadValve(Trouble):
    """A valve gives no water; its controller believes that it does."""

    station: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Clogged(Trouble):
    """A supply's filter clogs: within `over_s` its flow falls slowly by `loss_pct`, and stays there."""

    supply: str
    loss_pct: float
    over_s: int = CLOGS_IN_S


@dataclass(frozen=True, slots=True, kw_only=True)
class Drift(Trouble):
    """A station's flow is `pct_a_night` more (or, negative, less) with each night since the one that `at` lies in."""

    station: str
    pct_a_night: float


@dataclass(frozen=True, slots=True, kw_only=True)
class StuckMeter(Trouble):
    """A meter goes on telling what it last told, and its counter stands still."""

    supply: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PowerCut(Trouble):
    """No power at a controller, or at the whole site: valves close, and it is told once the power is back.

    At the whole site no meter tells anything, and sources that are pumped (all but town water) give nothing. A run
    that the sheet asks for when the power is back goes on then.
    """

    controller: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Silence(Trouble):
    """A controller waters but is not heard; what it has to say comes once it is heard again."""

    controller: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShutMain(Trouble):
    """Somebody shuts a supply: no water through it, and all below it."""

    supply: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop(Trouble):
    """Rain, or somebody's order: all valves close, and no run starts until it is lifted."""

    text: str
