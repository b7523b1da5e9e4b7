"""What phones get of alarms with their pull, and how they hear that there is something to get."""

from __future__ import annotations

from typing import Any

from pengan.field.troubles import Break
from pengan.web.sync.nudges import stream
from web.alarms.conftest import SHEET, Grounds
from web.people.crew import SITE

BROKEN = SHEET.runs[0].start + 600


def pulled(grounds: Grounds, client: Any, **asked: object) -> dict[str, Any]:
    answer = client.post("/api/sync/pull", json={"site": SITE, "alarms": 0, **asked})
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json
    return found


def test_a_pull_brings_the_alarms_that_changed_since(grounds: Grounds, crew: Any) -> None:
    grounds.play(Break(supply="north", flow_lpm=30, at=BROKEN, until=BROKEN + 1200))
    assert pulled(grounds, crew)["alarms"] is None
    watcher = grounds.watcher()
    grounds.go_on(watcher, BROKEN + 300, every_s=300)
    whole = pulled(grounds, crew)
    (alarm,) = whole["alarms"]["alarms"]
    assert alarm["ended"] is None and alarm["said"]["detail"] and not whole["alarms"]["more"]
    asked = {"cursor": whole["cursor"], "scope": whole["scope"], "alarms": whole["alarms"]["next"]}
    assert pulled(grounds, crew, **asked)["alarms"] is None
    revision = crew.get(f"/api/sync/revision?site={SITE}").json
    assert revision["alarms"] == whole["alarms"]["next"]
    grounds.go_on(watcher, BROKEN + 2400, every_s=300)
    (ended,) = pulled(grounds, crew, **asked)["alarms"]["alarms"]
    assert ended["id"] == alarm["id"] and ended["ended"]["why"]["detail"]


def test_a_stream_tells_of_alarms_apart_from_edits() -> None:
    moments, counts = iter(range(0, 10_000, 20)), iter([3, 4])
    events = list(stream("x", lambda: 7, lambda: next(counts), seconds=55, clock=lambda: float(next(moments))))
    told = [event for event in events if event.startswith("event: alarms")]
    assert [event.splitlines()[1] for event in told] == [
        'data: {"site":"x","alarms":3}', 'data: {"site":"x","alarms":4}',
    ]  # fmt: skip
    assert sum(event.count("event: nudge") for event in events) == 1
