"""The weather services there are, by the names under which a setting chooses one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Protocol

from .met_norway import MetNorway
from .open_meteo import OpenMeteo
from .steps import Step

PLACES_DEG = 2
"""Hundredths of a degree, about a kilometre: as near as a forecast can tell apart, and no nearer to anybody's gate."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where a forecast is for. A service is told no more than this."""

    latitude_deg: float
    longitude_deg: float
    elevation_m: float | None = None


class Service(Protocol):
    """One public weather service: what it is called, what it is asked, and how its answer reads."""

    @property
    def name(self) -> str:
        """Its name as people read it: beside every figure of its own, which its licence asks for as well."""

    @property
    def wind_height_m(self) -> float:
        """How high above ground its wind blows."""

    def address(self, latitude_deg: float, longitude_deg: float, elevation_m: float | None) -> str:
        """The address that is asked for a place."""

    def read(self, body: bytes) -> tuple[Step, ...]:
        """The steps in an answer. Raises `Malformed`."""


SERVICES: Mapping[str, Callable[[], Service]] = MappingProxyType({"met-norway": MetNorway, "open-meteo": OpenMeteo})


def rounded(place: Place) -> Place:
    """A place as it is told to a service."""
    height = None if place.elevation_m is None else round(place.elevation_m)
    return Place(round(place.latitude_deg, PLACES_DEG), round(place.longitude_deg, PLACES_DEG), height)
