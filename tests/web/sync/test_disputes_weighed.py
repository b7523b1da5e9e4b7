"""Both sides of a dispute are told with what each would do to tonight."""

from __future__ import annotations

from datetime import date, datetime

from pengan.engine.plan.night import plan_night
from pengan.web.ahead.disputes import weigh_one
from pengan.web.sites.operations import document_of
from web.sync.crew import SITE, World, edit, remove, rename

NOON = int(datetime.fromisoformat("2026-09-21T12:00:00+01:00").timestamp())
"""Tonight's water has not begun to run."""


def weighed(world: World) -> int:
    """Weigh all that is there; how many."""
    count = 0
    with world.database.session() as session:
        while weigh_one(session, world.now):
            count += 1
    return count


def run(record: str, run_s: int) -> dict[str, object]:
    return edit("turns", record, "run", {"run_s": run_s, "cycles": 1, "soak_s": 0})


def test_a_dispute_is_pulled_with_both_finishes(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    world.now = NOON
    ana.one(run("p1.s1", 1200))
    own = run("p1.s1", 4800)
    ben.push([own, rename("s2", "Pond")])
    ana.pull()
    assert ana.waiting[str(own["id"])]["effect"] is None
    assert weighed(world) == 2
    assert weighed(world) == 0
    page = ana.pull()[0]
    assert len(page["waiting"]) == 2
    effect = ana.waiting[str(own["id"])]["effect"]
    with world.database.session() as session:
        kept = plan_night(document_of(session, SITE).document, date.fromisoformat(effect["night"]), effort=8)
    assert effect["theirs"]["finish"] == kept.finish
    assert effect["mine"]["finish"] == kept.finish + 3600
    assert effect["revision"] == world.revision() == 2


def test_what_would_break_a_rule_by_now_has_no_finish(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.one(rename("s1", "Gate"))
    ben.push([rename("s1", "Pond"), edit("stations", "s2", "number", "X9")])
    ana.one(edit("stations", "s3", "number", "x9"))
    weighed(world)
    ana.pull()
    assert [item["effect"]["mine"] for item in ana.waiting.values()] == [None, None]
    assert all(item["effect"]["theirs"] for item in ana.waiting.values())


def test_a_disputed_removal_is_weighed_as_one(world: World) -> None:
    ana, ben = world.person("Ana"), world.person("Ben")
    ana.one(edit("turns", "p2.s1", "rank", 2))
    ben.one(remove("turns", "p2.s1"))
    weighed(world)
    ana.pull()
    (effect,) = (item["effect"] for item in ana.waiting.values())
    assert effect["theirs"]["volume_l"] - effect["mine"]["volume_l"] == 600.0
