"""Reads the published cases of `fixtures/need` and holds a number to a case's own tolerance."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

FIXTURES = Path(__file__).resolve().parents[3] / "fixtures" / "need"

Case = dict[str, Any]


@cache
def cases(topic: str) -> dict[str, Case]:
    """A topic's cases by id."""
    read = json.loads((FIXTURES / f"{topic}.json").read_text(encoding="utf-8"))
    return {case["id"]: case for case in read["cases"]}


def holds(case: Case, **worked: Any) -> None:
    """Every number worked out lies within the case's tolerance of what is expected of it. Lists go item by item."""
    for key, value in worked.items():
        expected = case["expected"][key]
        pairs = list(zip(value, expected, strict=True)) if isinstance(expected, list) else [(value, expected)]
        for ours, theirs in pairs:
            allowed = _allowed(case["tolerance"], key, theirs)
            assert abs(ours - theirs) <= allowed + 1e-12, f"{case['id']} {key}: {ours} is not {theirs} ± {allowed}"


def _allowed(tolerance: dict[str, Any], key: str, expected: float) -> float:
    rule = tolerance if {"abs", "rel"} & tolerance.keys() else tolerance.get(key, tolerance.get("default"))
    assert rule is not None, f"no tolerance for {key}"
    return max(float(rule.get("abs", 0.0)), float(rule.get("rel", 0.0)) * abs(expected))
