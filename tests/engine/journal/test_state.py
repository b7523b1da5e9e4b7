"""A watch put away in the middle of a night and taken up again notices what it would have noticed."""

from __future__ import annotations

import json

import pytest

from engine.journal.told import a_night, a_park, run_of
from pengan.engine.journal.state import put_away, taken_up
from pengan.engine.journal.watch import Known, Watch
from pengan.field.play import play
from pengan.field.troubles import Break, PowerCut, Silence, StuckOpen

PARK = a_park()
SHEET = a_night(PARK)
RUN = run_of(SHEET, "s1")
KNOWN = Known({"s1": 60}, frozenset(["c1", "c2"]), frozenset(["town"]))
NIGHT = [
    Break(at=RUN.start + 300, station="s1", flow_lpm=25),
    StuckOpen(at=RUN.start + 60, station="s4"),
    PowerCut(at=RUN.start + 400, until=RUN.start + 700, controller="c1"),
    Silence(at=RUN.end + 3600, controller="c2"),
]


@pytest.mark.parametrize("share", [0.1, 0.38, 0.4, 0.42, 0.5, 0.9])
def test_a_watch_taken_up_goes_on_as_if_nothing_had_been(share: float) -> None:
    told = list(play(PARK, SHEET, 5, NIGHT))
    whole, watch = Watch(PARK, SHEET, known=KNOWN), Watch(PARK, SHEET, known=KNOWN)
    place = round(len(told) * share)
    for entry in told:
        assert whole.take(entry)
    for entry in told[:place]:
        watch.take(entry)
    watch = taken_up(PARK, SHEET, json.loads(json.dumps(put_away(watch))), known=KNOWN)
    for entry in told[place:]:
        assert watch.take(entry)
    for one in (whole, watch):
        one.tick(SHEET.ends)
    assert whole.findings()
    assert watch.findings() == whole.findings()
    assert put_away(watch) == put_away(whole)


def test_a_state_of_another_format_is_refused() -> None:
    with pytest.raises(ValueError, match="format"):
        taken_up(PARK, SHEET, {"format": 0})
