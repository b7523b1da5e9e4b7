"""The app's way in to the rest of a night: texts in, texts out."""

from __future__ import annotations

import json
from typing import Any

import pytest

from golden.built import questions
from pengan.engine.phone.known import known
from pengan.engine.plan.sheet_json import sheet_from_json

RESTS = [question for question in questions() if question.about == "rest"]


def answered(place: int) -> tuple[dict[str, Any], dict[str, Any]]:
    question = RESTS[place]
    kind, told = known(question.about, question.document, question.given).split("\n")
    assert kind == "known"
    return json.loads(question.given), json.loads(told)


def test_without_a_journal_the_night_goes_on_as_it_was() -> None:
    given, told = answered(0)
    assert sheet_from_json(told["sheet"]).runs == sheet_from_json(given["before"]).runs
    assert told["clock"]["night"] == given["before"]["night"]
    assert told["effect"]["lost_l"] == told["effect"]["moved_count"] == 0


def test_after_a_power_cut_both_ways_are_told_with_their_effect() -> None:
    _, kept = answered(1)
    _, recovered = answered(2)
    assert 0 < kept["effect"]["missed_l"] == kept["effect"]["lost_l"]
    assert recovered["effect"]["lost_l"] < kept["effect"]["lost_l"]
    assert recovered["effect"]["recovered_l"] > 0
    assert {"notice.worked_out", "notice.before_water_runs"} <= {said["code"] for said in recovered["sheet"]["notices"]}


def test_what_is_no_way_and_no_entry_is_not_taken() -> None:
    question = RESTS[2]
    given = json.loads(question.given)
    for wrong in ({"way": "backwards"}, {"entries": [{"id": "x", "at": 1, "kind": "danced", "by": "person:a"}]}):
        with pytest.raises(ValueError):
            known("rest", question.document, json.dumps({**given, **wrong}))


def test_with_another_clock_the_whole_night_is_planned_and_no_rest_of_it() -> None:
    question = RESTS[0]
    document = json.loads(question.document)
    (site,) = (record for record in document["records"] if record["table"] == "site")
    site.update({"zone": None, "zone_rule": "WST11"})
    told = json.loads(known("rest", json.dumps(document), question.given).split("\n")[1])
    sheet, before = sheet_from_json(told["sheet"]), sheet_from_json(json.loads(question.given)["before"])
    assert (told["effect"], sheet.night) == (None, before.night)
    assert (sheet.starts, sheet.ends) != (before.starts, before.ends)
    assert all(sheet.starts <= run.start < sheet.ends for run in sheet.runs)
