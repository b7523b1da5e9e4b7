"""Where a station lies: whoever works at the site may say so, both coordinates as one set; and nothing else with it."""

from __future__ import annotations

import pytest

from web.sync.crew import SITE, World, edit

HERE = {"latitude_deg": 37.07801, "longitude_deg": -8.32702}


def test_the_crew_puts_a_station_where_they_stand(world: World) -> None:
    eva = world.person("Eva", "crew")
    answers = eva.push([edit("stations", "s1", field, value) for field, value in HERE.items()])
    assert [answer["outcome"] for answer in answers] == ["taken", "taken"]
    assert {field: world.value("stations", "s1", field) for field in HERE} == HERE


@pytest.mark.parametrize("also", [("stations", "s1", "flow_lpm", 40), ("site", SITE, "latitude_deg", 37.0)])
def test_it_gives_no_right_to_anything_else(world: World, also: tuple[str, str, str, object]) -> None:
    eva = world.person("Eva", "crew")
    table, record, field, value = also
    answers = eva.push([edit("stations", "s1", "latitude_deg", 37.0), edit(table, record, field, value)])
    assert [answer["outcome"] for answer in answers] == ["held", "held"]


def test_a_place_that_is_none_is_refused_with_its_field(world: World) -> None:
    answer = world.person("Eva", "crew").one(edit("stations", "s1", "latitude_deg", 91))
    assert (answer["outcome"], answer["faults"][0]["field"]) == ("refused", "latitude_deg")
