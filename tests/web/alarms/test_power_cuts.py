"""A cut that is told of once it has been noticed by what it left undone: one alarm, opened once and ended once."""

from __future__ import annotations

import json

import pytest

from pengan.engine.journal.entry import Entry, Kind
from pengan.field.troubles import PowerCut
from web.alarms.conftest import SHEET, Grounds

CUT = SHEET.runs[0].start + 1200
BACK = CUT + 1800
OF_POWER = (Kind.POWER_LOST, Kind.POWER_BACK)


def go_through(grounds: Grounds, lost_told: int) -> None:
    """The night until an hour after the cut; its loss is told at that instant, its end at once."""
    watcher = grounds.watcher()
    power = {one.kind: one for one in grounds.entries if one.kind in OF_POWER}
    due: list[tuple[int, Entry]] = [(lost_told, power[Kind.POWER_LOST]), (BACK, power[Kind.POWER_BACK])]
    grounds.tell_until(CUT - 600)
    while grounds.now < BACK + 3600:
        grounds.tell_until(grounds.now + 60, OF_POWER)
        grounds.tell(entry for at, entry in due if grounds.now - 60 < at <= grounds.now)
        grounds.real += 3000
        grounds.look(watcher)


@pytest.mark.parametrize("cabinet", ["cab-n", None])
@pytest.mark.parametrize("lost_told", [CUT + 600, BACK], ids=["ten minutes late", "once it is back"])
def test_it_is_one_alarm_that_says_in_the_end_what_it_was(grounds: Grounds, lost_told: int, cabinet: str) -> None:
    grounds.play(PowerCut(at=CUT, until=BACK, controller=cabinet))
    go_through(grounds, lost_told)
    (alarm,) = grounds.alarms()
    assert (alarm.kind, alarm.controller, alarm.supply, alarm.times) == ("power", cabinet, None, 1)
    assert alarm.opened_at < CUT + 600
    assert json.loads(alarm.said)["code"] == ("finding.power" if cabinet else "finding.power_site")
    assert alarm.ended_at == BACK and json.loads(alarm.ended_why or "")["code"] == "alarm.power_again"
    assert len(grounds.journal(Kind.ALARM_OPENED)) == len(grounds.journal(Kind.ALARM_ENDED)) == 1
