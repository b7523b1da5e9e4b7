"""What the controllers of a night say, and what people say who shut a main or stop the watering."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from pengan.engine.journal.entry import Entry, Kind
from pengan.engine.plan.problem import Span
from pengan.engine.plan.spans import holding, merged

from .ground import Ground
from .told import Told
from .troubles import NEVER, PowerCut, ShutMain, Silence, Stop
from .valves import Order, power_cuts


def controllers_say(ground: Ground, orders: Iterable[Order]) -> Iterator[Told]:
    """Openings and closings, signs of life, power, shut mains and stops; in any order."""
    voices = {controller: _Voice(ground, controller) for controller in (None, *ground.document.controllers)}
    for order in orders:
        yield from _of_order(ground, voices[order.controller], order)
    for controller in ground.document.controllers:
        yield from _alive(ground, voices[controller], controller)
    for trouble in ground.troubles:
        if isinstance(trouble, PowerCut):
            yield from _power(ground, trouble, voices)
        elif isinstance(trouble, ShutMain):
            yield from _began_and_ended(ground, trouble, Kind.SHUT, Kind.FREED, supply=trouble.supply)
        elif isinstance(trouble, Stop):
            yield from _began_and_ended(ground, trouble, Kind.STOPPED, Kind.LIFTED, text=trouble.text)


class _Voice:
    """When a controller can be heard: not without power, and not while it is silent."""

    def __init__(self, ground: Ground, controller: str | None) -> None:
        self._ground = ground
        silences = (item for item in ground.troubles if isinstance(item, Silence) and item.controller == controller)
        # One that lasts to the end of the night or longer is heard again in no part of it.
        unheard = [item.seconds(ground.sheet.starts, ground.length) for item in silences]
        self._unheard = merged([*((max(0, start), end) for start, end in unheard), *power_cuts(ground, controller)])

    def told(self, entry: Entry) -> Told:
        """The entry with the instant at which it comes through."""
        span = self.unheard(entry.at)
        if span is None:
            return Told(entry.at, entry)
        return Told(self._ground.sheet.starts + span[1] if span[1] < self._ground.length else NEVER, entry)

    def unheard(self, at: int) -> Span | None:
        """The seconds around an instant in which nothing is heard."""
        return holding(self._unheard, self._ground.second(at))


def _of_order(ground: Ground, voice: _Voice, order: Order) -> Iterator[Told]:
    for kind, second in ((Kind.OPENED, order.start), (Kind.CLOSED, order.end)):
        if kind is Kind.OPENED or not order.cut:
            yield voice.told(Entry("", ground.sheet.starts + second, kind, "", station=order.station))


def _alive(ground: Ground, voice: _Voice, controller: str) -> Iterator[Told]:
    every = ground.nature.alive_every_s
    first = ground.random("alive", ground.sheet.night, controller).randrange(every)
    for second in range(first, ground.length, every):
        at = ground.sheet.starts + second
        if voice.unheard(at) is None:
            yield Told(at, Entry("", at, Kind.ALIVE, "", controller=controller))


def _power(ground: Ground, cut: PowerCut, voices: dict[str | None, _Voice]) -> Iterator[Told]:
    """Both are told once the power is back: whoever would tell has none before."""
    voice = voices[cut.controller]
    if ground.sheet.starts <= cut.at < ground.sheet.ends:
        yield voice.told(Entry("", cut.at, Kind.POWER_LOST, "", controller=cut.controller))
    if ground.sheet.starts <= cut.ended < ground.sheet.ends:
        yield voice.told(Entry("", cut.ended, Kind.POWER_BACK, "", controller=cut.controller))


def _began_and_ended(
    ground: Ground,
    trouble: ShutMain | Stop,
    began: Kind,
    ended: Kind,
    supply: str | None = None,
    text: str = "",
) -> Iterator[Told]:
    """What people do is told at once."""
    for kind, at in ((began, trouble.at), (ended, trouble.ended)):
        if ground.sheet.starts <= at < ground.sheet.ends:
            yield Told(at, Entry("", at, kind, "", supply=supply, text=text if kind is began else ""))
