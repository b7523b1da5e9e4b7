"""Water that did not fit, as the sheet tells it."""

from __future__ import annotations

from ..message import Message
from .dues import Due
from .sheet import Shortfall
from .water import litres, millilitres, millilitres_per_minute


def shortfall(due: Due, done: int, why: Message, until: int | None = None) -> Shortfall:
    """The cycles of a due turn from number `done` (counted from 0) up to and without `until` left out, and why."""
    missing = due.cycles[done:until]
    return Shortfall(
        turn=due.key,
        station=due.station.id,
        program=due.program.id if due.program else None,
        supply=due.station.supply,
        cycles=len(missing),
        run_s=sum(missing),
        volume_l=litres(volume_of(due, missing)),
        why=why,
    )


def volume_of(due: Due, cycles: tuple[int, ...]) -> int:
    """What these cycles bring, in millilitres, each rounded by itself."""
    flow = millilitres_per_minute(due.station.flow_lpm)
    return sum(millilitres(flow, seconds) for seconds in cycles)
