"""What counts as a change worth telling, and how it is told: a night that ends later, or brings less, than it did."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from pengan.engine.clock.rules import Change
from pengan.engine.message import Message, saying
from pengan.engine.plan.sheet import NightSheet

FORWARD = saying("ahead.clock_forward", "In the night of {night_date} the clock goes forward by {step_s}.")
BACK = saying("ahead.clock_back", "In the night of {night_date} the clock goes back by {step_s}.")
LATER = saying("ahead.ends_later", "The night of {night_date} now ends at {finish_at}, {later_s} later than before.")
SOONER = saying(
    "ahead.ends_sooner", "The night of {night_date} now ends at {finish_at}, {sooner_s} sooner than before."
)
BEGUN = saying("ahead.now_has_water", "The night of {night_date}, which had no water, now ends at {finish_at}.")
EMPTIED = saying("ahead.no_water_now", "The night of {night_date} now has no water at all.")
SHORT = saying("ahead.more_short", "In the night of {night_date}, {short_l} more than before do not fit.")
FITS = saying("ahead.less_short", "In the night of {night_date}, {fits_l} that did not fit before now do.")
CLOCK_CODES = (FORWARD.code, BACK.code)


@dataclass(frozen=True, slots=True)
class Told:
    """A finish this many seconds off, or water short by this share of what is due, is told."""

    finish_s: int = 15 * 60
    short_pct: int = 5

    def of(self, before: NightSheet, after: NightSheet) -> Iterator[Message]:
        """What to tell of a night whose sheet has become another one; nothing where it is too little."""
        yield from self._finish(before, after)
        more = round(short_l(after) - short_l(before), 3)
        if abs(more) * 100 >= self.short_pct * max(after.volume_due_l, before.volume_due_l) and more:
            night = after.night
            yield SHORT(night_date=night, short_l=more) if more > 0 else FITS(night_date=night, fits_l=-more)

    def _finish(self, before: NightSheet, after: NightSheet) -> Iterator[Message]:
        night = after.night
        if after.finish is None or before.finish is None:
            if after.finish is not None:
                yield BEGUN(night_date=night, finish_at=after.finish)
            elif before.finish is not None:
                yield EMPTIED(night_date=night)
            return
        later = (after.finish - after.starts) - (before.finish - before.starts)
        if abs(later) >= self.finish_s:
            told = LATER(night_date=night, finish_at=after.finish, later_s=later)
            yield told if later > 0 else SOONER(night_date=night, finish_at=after.finish, sooner_s=-later)


def clock_told(night: str, change: Change) -> Message:
    """What to tell of a change of the clock."""
    return (FORWARD if change.step_s > 0 else BACK)(night_date=night, step_s=abs(change.step_s))


def short_l(sheet: NightSheet) -> float:
    """The water that does not fit in a night, in litres."""
    return sum(part.volume_l for part in sheet.shortfalls)
