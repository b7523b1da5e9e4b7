"""Which turns are due tonight, how long each runs, and between which seconds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..clock.days import holds
from ..clock.times import starts_in
from ..document.tables import Asked, Program, Station, Turn
from .tonight import Tonight

ASKED_RANK = 0
"""Ahead of rank 1, the first that a program can have."""


@dataclass(frozen=True, slots=True)
class Due:
    """One station's water for tonight. `cycles` may be empty: the percentages left nothing of the run.

    `key` is the turn's id, the asked-for run's id, or both with `/` between where a whole program is asked for.
    `asked` is the id of what was asked for. Times are seconds of the night; `begins` is False where the release
    is no more than the night's own start.
    """

    key: str
    station: Station
    program: Program | None
    asked: str | None
    cycles: tuple[int, ...]
    soak: int
    rank: int
    release: int
    deadline: int
    late: bool
    fixed: int | None = None

    @property
    def seconds(self) -> int:
        """The run time of all cycles together."""
        return sum(self.cycles)

    @property
    def group(self) -> tuple[str, str]:
        """Which program limit it falls under.

        A program that is both due and asked for shares its limits, but not its order: its usual turns need not
        wait for an asked-for run much later.
        """
        if self.program is None:
            return "", ""
        return self.program.id, (self.asked or "") if self.program.order == "listed" else ""


def dues(tonight: Tonight) -> tuple[Due, ...]:
    """Everything due, asked-for runs first, each program's turns in listed order; by ids, not by document order."""
    found = [*_asked_for(tonight), *_by_program(tonight)]
    positions = {turn.id: turn.position for turn in tonight.document.turns.values()}

    def place(due: Due) -> tuple[bool, str, str, int, str]:
        turn = due.key.rpartition("/")[2]
        return due.asked is None, due.program.id if due.program else "", due.asked or "", positions.get(turn, 0), turn

    return tuple(sorted(found, key=place))


def split(seconds: int, cycles: int) -> tuple[int, ...]:
    """A run time in parts as equal as whole seconds permit, the longer ones first, none of them empty."""
    parts = min(seconds, cycles)
    if not parts:
        return ()
    each, over = divmod(seconds, parts)
    return (each + 1,) * over + (each,) * (parts - over)


def program_start(tonight: Tonight, program: Program) -> int | None:
    """The second at which the program begins tonight; None where it is not due. Without a start it is due from noon."""
    if program.start is None:
        return 0 if holds(program, tonight.night.date) else None
    start = starts_in(program.start, program, tonight.night, tonight.clock, tonight.place)
    return None if start is None else tonight.second(start)


def asked_tonight(tonight: Tonight) -> list[Asked]:
    """What somebody asked for on this night."""
    day = tonight.night.date.isoformat()
    return [asked for asked in tonight.document.asked.values() if asked.night == day]


def asked_second(tonight: Tonight, asked: Asked) -> int | None:
    """The second of the chosen time; None where none was chosen or it does not come tonight."""
    if asked.at is None:
        return None
    return next((second for second in tonight.moments(asked.at) if 0 <= second < tonight.length), None)


def turns_by_program(tonight: Tonight) -> dict[str, list[Turn]]:
    """Each program's turns in document order; programs without turns have an empty list."""
    turns: dict[str, list[Turn]] = {program: [] for program in tonight.document.programs}
    for turn in tonight.document.turns.values():
        turns[turn.program].append(turn)
    return turns


def _by_program(tonight: Tonight) -> Iterator[Due]:
    turns = turns_by_program(tonight)
    for program in tonight.document.programs.values():
        release = program_start(tonight, program)
        if release is None:
            continue
        deadline = _deadline(tonight, program, release)
        late = (program.aim or tonight.document.site.aim) == "latest"
        for turn in turns[program.id]:
            if turn.mode == "need" and turn.station in tonight.needs.dry:
                continue
            rank = turn.rank or program.rank
            yield _of_turn(tonight, program, turn, rank=rank, release=release, deadline=deadline, late=late)


def _asked_for(tonight: Tonight) -> Iterator[Due]:
    turns = turns_by_program(tonight)
    for asked in asked_tonight(tonight):
        at = asked_second(tonight, asked)
        if asked.station is not None and asked.run_s:
            station = tonight.document.stations[asked.station]
            yield Due(
                key=asked.id, station=station, program=None, asked=asked.id, cycles=(asked.run_s,), soak=0,
                rank=ASKED_RANK, release=at or 0, deadline=tonight.length, late=False, fixed=at,
            )  # fmt: skip
        elif asked.program is not None:
            program = tonight.document.programs[asked.program]
            for turn in turns[program.id]:
                yield _of_turn(
                    tonight, program, turn, asked=asked.id, rank=ASKED_RANK, release=at or 0, deadline=tonight.length
                )


def _of_turn(
    tonight: Tonight,
    program: Program,
    turn: Turn,
    *,
    rank: int,
    release: int,
    deadline: int,
    late: bool = False,
    asked: str | None = None,
) -> Due:
    """The turn's water tonight: as the planting needs it, or by hand by both seasonal percentages, in cycles."""
    cycles, soak = _by_need(tonight, turn) or _by_hand(tonight, program, turn)
    return Due(
        key=f"{asked}/{turn.id}" if asked else turn.id, station=tonight.document.stations[turn.station],
        program=program, asked=asked, cycles=cycles, soak=soak,
        rank=rank, release=release, deadline=deadline, late=late,
    )  # fmt: skip


def _by_need(tonight: Tonight, turn: Turn) -> tuple[tuple[int, ...], int] | None:
    """Cycles and soak as worked out; None where the turn is set by hand, or nothing could be worked out."""
    run = tonight.needs.runs.get(turn.station) if turn.mode == "need" else None
    if run is None:
        return None
    return split(run.wanted.run_s, run.wanted.cycles), run.wanted.soak_s


def _by_hand(tonight: Tonight, program: Program, turn: Turn) -> tuple[tuple[int, ...], int]:
    percents = tonight.document.site.seasonal_pct * program.seasonal_pct
    seconds = (turn.run_s * percents + 5000) // 10_000
    return split(seconds, turn.cycles), turn.soak_s


def _deadline(tonight: Tonight, program: Program, release: int) -> int:
    """The program's own finish time, the next after its start; else the site's, wherever it lies in the night."""
    if program.finish_by is not None:
        ends, after = tonight.moments(program.finish_by), release
    else:
        finish = tonight.document.site.finish_by
        ends, after = tonight.moments(finish) if finish is not None else [], 0
    return next((end for end in ends if after < end <= tonight.length), tonight.length)
