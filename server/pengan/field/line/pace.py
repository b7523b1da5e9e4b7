"""How fast the night goes by: as it really does, faster, or at once."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Protocol

GATHER_S = 1.0
"""Real seconds: what is told within so long of one another goes out together."""


class Pace(Protocol):
    """The field's own clock; instants are seconds since 1970Z."""

    def now(self) -> float:
        """What the field takes for now."""

    def wait_until(self, at: int) -> None:
        """Sleep until the field's clock has come to an instant."""


class AtOnce:
    """The night is over already."""

    def now(self) -> float:
        """Later than anything."""
        return float("inf")

    def wait_until(self, at: int) -> None:
        """Nothing to wait for."""


class Timed:
    """Real time, or `speed` times as fast from the instant `begins` on."""

    def __init__(
        self,
        begins: float,
        speed: float = 1.0,
        clock: Callable[[], float] = time.monotonic,
        sleep: Callable[[float], object] = time.sleep,
    ) -> None:
        self._begins, self._speed, self._clock, self._sleep = begins, speed, clock, sleep
        self._zero = clock()

    def now(self) -> float:
        """What the field takes for now."""
        return self._begins + (self._clock() - self._zero) * self._speed

    def wait_until(self, at: int) -> None:
        """Sleep until then. Where there is something to wait for, wait long enough for others to join it."""
        left = (at - self.now()) / self._speed
        if left > 0:
            self._sleep(max(left, GATHER_S))
