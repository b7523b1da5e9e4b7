"""Puts what answers say into the reader's language, beside the codes that stay."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from pengan.engine.message import Message
from pengan.words.reader import Reader
from pengan.words.say import say


def told(answer: dict[str, Any], reader: Reader) -> dict[str, Any]:
    """The answer of a push, decision or pull, with sentences beside its codes."""
    if "answers" in answer:
        return answer | {"answers": [_told(item, reader) for item in answer["answers"]]}
    waiting = [item | {"answer": _told(item["answer"], reader)} for item in answer["waiting"]]
    return answer | {"waiting": waiting}


def _told(item: Mapping[str, Any], reader: Reader) -> dict[str, Any]:
    if item["outcome"] != "refused":
        return dict(item)
    faults = [fault | {"detail": _say(fault, reader)} for fault in item["faults"]]
    return {**item, "detail": _say(item, reader), "faults": faults}


def _say(said: Mapping[str, Any], reader: Reader) -> str:
    return say(Message(said["code"], said["params"]), reader)
