"""Lengths of time: whole seconds on one side, `1 h 20 min` on the other."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

from .faults import NOT_A_DURATION, WordsFault
from .figures import read_figure, write_figure
from .reader import N_, Reader
from .wordings import folded, wordings

_PATTERNS = {
    (True, True, True): N_("{hours} h {minutes} min {seconds} s"),
    (True, True, False): N_("{hours} h {minutes} min"),
    (True, False, True): N_("{hours} h {seconds} s"),
    (True, False, False): N_("{hours} h"),
    (False, True, True): N_("{minutes} min {seconds} s"),
    (False, True, False): N_("{minutes} min"),
    (False, False, True): N_("{seconds} s"),
    (False, False, False): N_("{minutes} min"),
}
_SPELLINGS = (
    (3600, N_("h, hr, hrs, hour, hours")),
    (60, N_("min, m, mins, minute, minutes")),
    (1, N_("s, sec, secs, second, seconds")),
)
_COLONS = re.compile(r"(\d{1,3}):(\d{2})(?::(\d{2}))?")
_PART = re.compile(r"([\d.,٫]+)\s*([^\d\s.,٫]*)\.?\s*")
_LARGEST_S = 366 * 86_400


def write_duration(seconds: float, reader: Reader) -> str:
    """Seconds as hours, minutes and seconds, leaving out what is zero: 4800 → `1 h 20 min`."""
    whole = round(abs(seconds))
    hours, minutes, rest = whole // 3600, whole // 60 % 60, whole % 60
    pattern = _PATTERNS[hours > 0, minutes > 0, rest > 0]
    figures = {name: write_figure(value, 0, reader) for name, value in _named(hours, minutes, rest)}
    return ("−" if seconds < 0 else "") + reader.gettext(pattern, **figures)


def _named(hours: int, minutes: int, seconds: int) -> tuple[tuple[str, int], ...]:
    return ("hours", hours), ("minutes", minutes), ("seconds", seconds)


def read_duration(text: str, reader: Reader, *, bare_s: int = 60) -> int:
    """Whole seconds out of `1 h 20`, `1h20m`, `0:48` (hours:minutes), `1:20:30` or `1,5 h`.

    A bare number alone counts `bare_s`; after hours it is minutes, after minutes seconds. Raises `WordsFault`.
    """
    colons = _COLONS.fullmatch(text.strip())
    seconds = _of_colons(colons) if colons else _of_parts(text, reader, bare_s)
    if seconds is None or seconds.denominator != 1 or seconds > _LARGEST_S:
        raise WordsFault(NOT_A_DURATION(text=text.strip()))
    return int(seconds)


def _of_colons(match: re.Match[str]) -> Fraction | None:
    hours, minutes, seconds = (int(part or 0) for part in match.groups())
    return None if minutes > 59 or seconds > 59 else Fraction(hours * 3600 + minutes * 60 + seconds)


def _of_parts(text: str, reader: Reader, bare_s: int) -> Fraction | None:
    rest, total, last = text.strip(), Fraction(0), 0
    while rest:
        part = _PART.match(rest)
        size = _size(part.group(2), last, bare_s) if part else None
        if part is None or size is None or (last and size >= last):
            return None
        total += read_figure(part.group(1), reader) * size
        rest, last = rest[part.end() :], size
    return total if last else None


def _size(named: str, last: int, bare_s: int) -> int | None:
    if not named:
        return last // 60 if last > 1 else None if last else bare_s
    return spelled_sizes().get(folded(named))


@cache
def spelled_sizes() -> dict[str, int]:
    """Seconds by how people write hours, minutes and seconds, folded."""
    spelled: dict[str, int] = {}
    for size, listed in _SPELLINGS:
        for spelling in wordings(listed):
            spelled.setdefault(folded(spelling), size)
    return spelled
