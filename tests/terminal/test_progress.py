"""Progress is quiet at first, and never on standard output."""

from __future__ import annotations

import io

from pengan.terminal.progress import Progress


class _Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


class _Clock:
    def __init__(self) -> None:
        self.now = 0.0

    def __call__(self) -> float:
        return self.now


def _progress(stream: io.StringIO, clock: _Clock) -> Progress:
    return Progress(lambda count: f"{count} done", stream, clock)


def test_nothing_is_said_within_the_first_second() -> None:
    stream, clock = _Terminal(), _Clock()
    progress = _progress(stream, clock)
    clock.now = 0.9
    progress(1)
    progress.end()
    assert stream.getvalue() == ""


def test_a_terminal_sees_one_line_that_is_taken_away_again() -> None:
    stream, clock = _Terminal(), _Clock()
    progress = _progress(stream, clock)
    for clock.now, count in ((1.1, 10), (1.15, 11), (1.5, 12)):
        progress(count)
    progress.end()
    assert stream.getvalue() == "\r10 done\r12 done\r       \r"


def test_a_file_gets_one_plain_line() -> None:
    stream, clock = io.StringIO(), _Clock()
    progress = _progress(stream, clock)
    for clock.now, count in ((1.1, 10), (2.0, 11)):
        progress(count)
    progress.end()
    assert stream.getvalue() == "10 done\n"
