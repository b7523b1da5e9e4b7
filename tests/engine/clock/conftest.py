"""Outside clocks to compare with."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from importlib.resources import files
from zoneinfo import ZoneInfo

import pytest


@pytest.fixture(scope="session")
def outside_zone() -> Callable[[str], ZoneInfo]:
    """Python's own `zoneinfo`, reading the same package and never the system's data."""
    return cache(_zone)


def _zone(name: str) -> ZoneInfo:
    with files("tzdata").joinpath("zoneinfo", *name.split("/")).open("rb") as data:
        return ZoneInfo.from_file(data, key=name)
