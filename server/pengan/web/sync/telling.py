"""Puts what answers say into the reader's language, beside the codes that stay."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from flask import Response

from pengan.engine.message import Message
from pengan.words.reader import Reader
from pengan.words.say import say

from ..alarms.shown import copy_shown


def told(answer: dict[str, Any], reader: Reader) -> dict[str, Any]:
    """The answer of a push, decision or pull, with sentences beside its codes."""
    if "answers" in answer:
        return answer | {"answers": [_told(item, reader) for item in answer["answers"]]}
    waiting = [item | {"answer": _told(item["answer"], reader)} for item in answer["waiting"]]
    notices = [item | {"detail": _say(item["message"], reader)} for item in answer["notices"]]
    alarms = answer["alarms"]
    spoken = None if alarms is None else copy_shown(alarms, reader)
    return answer | {"waiting": waiting, "notices": notices, "alarms": spoken}


def as_json(answer: dict[str, Any]) -> Response:
    """An answer that has its final shape. The nights ahead bring their own JSON along."""
    found = answer.get("sheets")
    written = json.dumps(answer if found is None else answer | {"sheets": None}, separators=(",", ":"))
    if found is not None:
        written = written.replace('"sheets":null', f'"sheets":{found.as_text()}', 1)
    return Response(written, mimetype="application/json")


def _told(item: Mapping[str, Any], reader: Reader) -> dict[str, Any]:
    if item["outcome"] != "refused":
        return dict(item)
    faults = [fault | {"detail": _say(fault, reader)} for fault in item["faults"]]
    return {**item, "detail": _say(item, reader), "faults": faults}


def _say(said: Mapping[str, Any], reader: Reader) -> str:
    return say(Message(said["code"], said["params"]), reader)
