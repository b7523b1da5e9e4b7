"""Watching processes as they really run, beside a server and each other."""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from pengan.engine.journal.entry import Kind
from pengan.field.troubles import Break
from web.alarms.conftest import SHEET, Grounds

BROKEN = SHEET.runs[0].start + 600
ROOT = Path(__file__).parents[3]
PATIENCE_S = 120


def watch(grounds: Grounds) -> subprocess.Popen[bytes]:
    settings = grounds.server.shared.settings
    assert settings.now is not None
    given = {
        "PENGAN_DATA": str(settings.data), "PENGAN_DATABASE": settings.database,
        "PENGAN_NOW": settings.now.isoformat(), "PYTHONPATH": str(ROOT / "server"),
    }  # fmt: skip
    command = (sys.executable, "-m", "pengan", "watch", "--with-parent")
    return subprocess.Popen(command, env=os.environ | given, stdin=subprocess.PIPE, stderr=subprocess.DEVNULL)


@pytest.mark.parametrize("grounds", ["postgresql"], indirect=True)
def test_two_processes_open_one_alarm_and_end_with_who_started_them(grounds: Grounds) -> None:
    """Killed processes are tested with a made-up clock: their lease takes a minute to run out."""
    grounds.play(Break(supply="north", flow_lpm=30, at=BROKEN, until=BROKEN + 6000))
    grounds.tell_until(grounds.server.now)
    started = [watch(grounds), watch(grounds)]
    ends = time.monotonic() + PATIENCE_S
    while not grounds.alarms() and time.monotonic() < ends:
        time.sleep(0.5)
    time.sleep(3)
    for process in started:
        assert process.stdin is not None and process.poll() is None
        process.stdin.close()
    assert [process.wait(30) for process in started] == [0, 0]
    assert len(grounds.alarms()) == len(grounds.journal(Kind.ALARM_OPENED)) == 1
