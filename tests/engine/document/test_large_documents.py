"""Reading takes work in step with the document's size, faults or none."""

from __future__ import annotations

import sys
from collections.abc import Callable
from types import FrameType
from typing import Any

import pytest

from builders import a_document_data, a_station, a_supply
from pengan.engine.document.read import faults_in


def _steps(data: dict[str, Any], faults: int) -> int:
    """Calls made while the document is read: the same on every machine, unlike seconds."""
    count = 0

    def counted(_frame: FrameType, _event: str, _argument: object) -> None:
        nonlocal count
        count += 1

    sys.setprofile(counted)
    try:
        found = len(faults_in(data))
    finally:
        sys.setprofile(None)
    assert found == faults
    return count


def _sound(count: int) -> dict[str, Any]:
    return a_document_data(stations=[a_station(f"s{number}") for number in range(count)])


def _one_number(count: int) -> dict[str, Any]:
    return a_document_data(stations=[a_station(f"s{number}", number="7", flow_lpm=0) for number in range(count)])


def _loops(count: int) -> dict[str, Any]:
    mains = [a_supply(f"m{number}", fed_by=f"m{number ^ 1}") for number in range(2 * count)]
    return a_document_data(supplies=[a_supply(), *mains])


def _one_loop(count: int) -> dict[str, Any]:
    mains = [a_supply(f"m{number}", fed_by=f"m{(number + 1) % count}") for number in range(count)]
    return a_document_data(supplies=[a_supply(), *mains])


FAMILIES: dict[str, tuple[Callable[[int], dict[str, Any]], Callable[[int], int]]] = {
    "sound": (_sound, lambda count: 0),
    "stations all of one number and no flow": (_one_number, lambda count: 2 * count - 1),
    "many small loops": (_loops, lambda count: count),
    "one long loop": (_one_loop, lambda count: 1),
}
"""Each with how many faults it has."""


@pytest.mark.parametrize("family", FAMILIES)
def test_ten_times_the_records_take_about_ten_times_the_work(family: str) -> None:
    make, faults = FAMILIES[family]
    assert _steps(make(3000), faults(3000)) < 12 * _steps(make(300), faults(300))
