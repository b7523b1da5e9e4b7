"""Reading the zone data file format TZif (RFC 9636 section 3), version 2 and later.

Own code and not `zoneinfo`, because the changes themselves have to be listed, and because every interpreter must
make the same of the same bytes. `zoneinfo` is the outside check.
"""

from __future__ import annotations

import struct
from typing import NamedTuple

from .instants import ALWAYS, Timeline
from .posix import read_posix
from .rules import Change

HEADER = struct.Struct(">4sc15x6I")


class _Counts(NamedTuple):
    isutcnt: int
    isstdcnt: int
    leapcnt: int
    timecnt: int
    typecnt: int
    charcnt: int

    def size(self, time_size: int) -> int:
        """Bytes of the data block that follows a header with these counts."""
        times = self.timecnt * (time_size + 1) + self.leapcnt * (time_size + 4)
        return times + self.typecnt * 6 + self.charcnt + self.isstdcnt + self.isutcnt


def read_tzif(data: bytes) -> Timeline:
    """The timeline in a TZif file. Raises ValueError for anything but version 2 or later."""
    at = HEADER.size + _counts(data, 0).size(4)
    counts = _counts(data, at)
    at += HEADER.size
    footer = data[at + counts.size(8) :].strip(b"\n").decode("ascii")
    times = struct.unpack_from(f">{counts.timecnt}q", data, at)
    kinds = struct.unpack_from(f">{counts.timecnt}B", data, at + 8 * counts.timecnt)
    offsets = [struct.unpack_from(">i", data, at + 9 * counts.timecnt + 6 * kind)[0] for kind in range(counts.typecnt)]
    dated = _changes(times, [offsets[kind] for kind in kinds], offsets[0])
    return Timeline(offsets[0], dated, read_posix(footer) if footer else None, times[-1] if times else ALWAYS)


def _counts(data: bytes, at: int) -> _Counts:
    magic, version, *counts = HEADER.unpack_from(data, at)
    if magic != b"TZif" or version < b"2":
        raise ValueError("not a TZif file of version 2 or later")
    return _Counts(*counts)


def _changes(times: tuple[int, ...], offsets: list[int], first_s: int) -> tuple[Change, ...]:
    """The transitions that move the wall; many only change a name or a flag."""
    befores = [first_s, *offsets]
    changes = (Change(at, before, after) for at, before, after in zip(times, befores, offsets, strict=False))
    return tuple(change for change in changes if change.step_s)
