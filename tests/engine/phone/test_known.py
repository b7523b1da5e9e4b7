"""What the app asks the engine besides nights: the same answers as elsewhere, and faults in their place."""

from __future__ import annotations

import json
from datetime import date
from typing import Any

import pytest

from golden.nights import DEMO
from pengan.engine.document.read import read_document
from pengan.engine.need.site.suggestions import suggestions
from pengan.engine.phone.known import known

SITE = DEMO.read_text(encoding="utf-8")


def told(text: str) -> tuple[str, Any]:
    kind, found = text.split("\n")
    return kind, json.loads(found)


def test_suggestions_are_the_engine_s_own_messages_as_codes() -> None:
    kind, found = told(known("suggestions", SITE, '{"night": "2026-10-24"}'))
    wanted, said = suggestions(read_document(json.loads(SITE)), date(2026, 10, 24))
    assert kind == "known"
    assert [(one["program"], one["from_pct"], one["to_pct"], one["by_itself"]) for one in found["suggestions"]] == [
        (one.program, one.from_pct, one.to_pct, one.by_itself) for one in wanted
    ]
    assert [one["message"] for one in found["suggestions"]] == [one.message.as_json() for one in wanted]
    assert wanted, "the demo site has weather before this night"
    assert found["messages"] == [message.as_json() for message in said] == []


def test_a_document_with_faults_is_answered_with_all_of_them() -> None:
    records = [{"table": "site", "id": "here"}, {"table": "turns", "id": "t", "run_s": -5}]
    kind, faults = told(known("suggestions", json.dumps({"format": 1, "records": records}), '{"night": "2026-10-24"}'))
    assert kind == "faulty"
    assert {fault["record"] for fault in faults} == {"here", "t"}


def test_what_nobody_can_be_asked_about_and_what_is_not_given_are_errors_of_the_page() -> None:
    with pytest.raises(KeyError, match="moon"):
        known("moon", SITE, "{}")
    with pytest.raises(KeyError, match="night"):
        known("suggestions", SITE, "{}")
