"""The tables of work on the ground: what was found broken, and what becomes of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from .fields import choice, date_, ref, text, whole
from .record import Record

FOUND = ("head", "tilt", "leak", "pressure", "wire", "valve", "clogged", "blocked", "other")
"""What may be broken, in the words of the journal's findings; a test holds the two together."""
STATES = ("open", "in_hand", "done", "dropped")


@dataclass(frozen=True, slots=True, kw_only=True)
class Repair(Record):
    """Something to be mended at a station: what is broken, who sees to it, and how far they are.

    `finding` is the id of the journal's entry that told of it, `photos` the ids of its photos with commas.
    """

    table: ClassVar[str] = "repairs"
    station: str = ref("stations", "The station.", required=True)
    found: str = choice("What is broken.", *FOUND, default="other")
    count: int = whole("How many are broken.", least=1, most=999, default=1)
    state: str = choice("Whether somebody has to see to it still.", *STATES, default="open")
    owner: str = text("Who sees to it.")
    found_on: str | None = date_("The day it was found, on the site's calendar.")
    found_by: str = text("Who found it.")
    finding: str = text("The journal's entry that told of it, by its id.", most=64)
    photos: str = text("Its photos by their ids, with commas.", most=1000)
    notes: str = text("Where it is, and what mending it takes.", most=4000)
