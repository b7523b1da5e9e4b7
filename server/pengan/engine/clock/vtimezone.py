"""A clock as a VTIMEZONE (RFC 5545 section 3.6.5), and a VTIMEZONE as a clock of the site's own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from .instants import Timeline
from .observance import Observance, observance_lines, read_observances, wall_at
from .own_rule import rule_begins, rule_from
from .rules import DAY_S, Change, Rule, Summer, YearDay, year_of
from .yearly import recurrence_like, year_day_like
from .zones import SiteClock

SINCE = 31_536_000
"""1971-01-01T00:00Z: unless asked otherwise, a VTIMEZONE holds from then on."""

LAST_YEAR = 2099
"""How far changes are written out one by one where a recurrence cannot say them."""

_LAST = (date(LAST_YEAR + 1, 1, 1) - date(1970, 1, 1)).days * DAY_S

_YEAR_S = 366 * DAY_S


def vtimezone_of(clock: SiteClock, since: int = SINCE) -> str:
    """The clock as a VTIMEZONE that holds from `since` on, lines ended and folded as RFC 5545 section 3.1 asks.

    A yearly rule with no equal among recurrences is written out up to `LAST_YEAR`.
    """
    lines = ["BEGIN:VTIMEZONE", f"TZID:{_text(clock.name)}"]
    for item in _observances(clock.timeline, since):
        lines += observance_lines(item)
    return "".join(f"{_folded(line)}\r\n" for line in [*lines, "END:VTIMEZONE"])


def read_vtimezone(text: str, last_year: int = LAST_YEAR) -> Timeline:
    """The timeline of the first VTIMEZONE in a text. Raises `ClockFault`.

    Two recurrences without end become a yearly rule where a POSIX rule can say the same; otherwise what recurs is
    written out up to the end of `last_year`.
    """
    observances = read_observances(text)
    endless = [item for item in observances if item.rule is not None and item.rule.endless]
    rule = _rule_of(endless)
    if rule is None:
        return _timeline(observances, last_year)
    bounded = [item for item in observances if item not in endless]
    last_onset = max(
        *(_settled(item) for item in endless), *(onset for item in bounded for onset in item.onsets(last_year))
    )
    history = _timeline(observances, year_of(last_onset))
    return Timeline(history.first_s, tuple(c for c in history.dated if c.at <= last_onset), rule, last_onset)


def _settled(item: Observance) -> int:
    """From when on an endless part does what its rule says: its start and single dates need not fall on the rule."""
    single = [*item.onsets(0)]
    following = (onset for onset in item.onsets(item.start.year + 1) if onset not in single)
    return max([*single, min(following, default=single[0])])


def _timeline(observances: Sequence[Observance], last_year: int) -> Timeline:
    onsets = sorted((at, item.before_s, item.after_s) for item in observances for at in item.onsets(last_year))
    first_s = now = onsets[0][1]
    dated = []
    for at, _, after in onsets:
        if after != now:
            dated.append(Change(at, now, after))
        now = after
    return Timeline(first_s, tuple(dated))


def _rule_of(endless: list[Observance]) -> Rule | None:
    """The yearly rule of a standard and a daylight part that both go on for ever."""
    if len(endless) != 2:
        return None
    standard, daylight = sorted(endless, key=lambda item: (item.part != "STANDARD", item.after_s))
    if (standard.before_s, standard.after_s) != (daylight.after_s, daylight.before_s):
        return None
    starts, ends = _year_day(daylight), _year_day(standard)
    if starts is None or ends is None:
        return None
    base = rule_from(standard.after_s, standard.name)
    return Rule(
        base.name,
        base.offset_s,
        Summer(rule_from(daylight.after_s, daylight.name).name, daylight.after_s, starts, ends),
    )


def _year_day(item: Observance) -> YearDay | None:
    assert item.rule is not None
    midnight = item.start.replace(hour=0, minute=0, second=0)
    return year_day_like(item.rule, item.start.date(), int((item.start - midnight).total_seconds()))


def _observances(timeline: Timeline, since: int) -> Iterator[Observance]:
    """An opening part, the dated changes, and the yearly rule from where it alone decides."""
    begins = rule_begins(timeline, since)
    yearly = list(_yearly(timeline.rule, begins - _YEAR_S if begins == since else begins))
    dated = timeline.changes(since, begins if yearly else max(begins, _LAST))
    if dated or not yearly:
        offset_s = timeline.offset(since)
        yield Observance("STANDARD", offset_s, offset_s, wall_at(since, offset_s))
    yield from _grouped(dated)
    yield from yearly


def _grouped(changes: Sequence[Change]) -> Iterator[Observance]:
    """One part for all changes from one offset to the same other."""
    pairs = dict.fromkeys((change.before_s, change.after_s) for change in changes)
    for before_s, after_s in pairs:
        same = [change for change in changes if (change.before_s, change.after_s) == (before_s, after_s)]
        walls = [wall_at(change.at, before_s) for change in same]
        yield Observance(_part(same[0]), before_s, after_s, walls[0], more=tuple(walls[1:]))


def _yearly(rule: Rule | None, begins: int) -> Iterator[Observance]:
    """The two parts of a yearly rule, each from its first change after `begins`; none if it has no equal."""
    summer = rule.summer if rule is not None else None
    if rule is None or summer is None:
        return
    recurrences = recurrence_like(summer.starts), recurrence_like(summer.ends)
    changes = tuple(rule.changes(begins, begins + 2 * _YEAR_S))
    if None in recurrences or not changes:
        return
    ahead = summer.offset_s - rule.offset_s
    for change in sorted(changes[:2], key=lambda change: -change.step_s):
        is_start = change.step_s == ahead
        yield Observance(
            _part(change),
            change.before_s,
            change.after_s,
            wall_at(change.at, change.before_s),
            recurrences[0 if is_start else 1],
            name=summer.name if is_start else rule.name,
        )


def _part(change: Change) -> str:
    """DAYLIGHT is where the clock is ahead, even for a rule that calls it standard: others count on that."""
    return "DAYLIGHT" if change.step_s > 0 else "STANDARD"


def _text(value: str) -> str:
    """Text with the characters escaped that RFC 5545 section 3.3.11 names."""
    for mark in ("\\", ";", ","):
        value = value.replace(mark, "\\" + mark)
    return value


def _folded(line: str) -> str:
    """All here is ASCII, so that 75 characters are the 75 octets a line may have."""
    pieces = [line[:75], *(line[at : at + 74] for at in range(75, len(line), 74))]
    return "\r\n ".join(pieces)
