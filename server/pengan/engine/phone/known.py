"""What the app asks besides whole nights: JSON texts in, lines of JSON out, as `answer` has them.

An answer's first line is `known`, with what was asked for on the next, or `faulty`, with a list of all faults on the
next. What can be asked stands in `ABOUT_SITES` and `ABOUT_FIGURES`: to add something, add a function there. Messages
in answers are codes with parameters, worded by the page.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

from ..clock.fault import ClockFault
from ..document.document import Document
from ..document.fault import DocumentFaults
from ..document.json_text import data_in
from ..document.read import read_document
from .answer import clock_faults, faulty, text
from .need import need_on_night, season_of_hydrozone, work_of_turn
from .rest import rest
from .suggested import suggested
from .weather_days import weather_days
from .wetting import wetting

KNOWN = "known"
Given = Mapping[str, Any]
ABOUT_SITES: Mapping[str, Callable[[Document, Given], object]] = MappingProxyType(
    {
        "suggestions": suggested,
        "night": need_on_night,
        "work": work_of_turn,
        "season": season_of_hydrozone,
        "weather": weather_days,
        "wetting": wetting,
        "rest": rest,
    }
)
"""Of a document, and what else is given."""
ABOUT_FIGURES: Mapping[str, Callable[[Given], object]] = MappingProxyType({})
"""Of what is given alone: no document is read."""


def known(about: str, document: str, given: str) -> str:
    """What is asked about a document, or about figures. `given` is a JSON object: `{"night": "2026-10-24"}`.

    Raises KeyError for what nobody can be asked about, and for something that is wanted and not given.
    """
    if about in ABOUT_FIGURES:
        return "\n".join((KNOWN, text(ABOUT_FIGURES[about](json.loads(given)))))
    tell = ABOUT_SITES[about]
    try:
        read = read_document(data_in(document))
        found = tell(read, json.loads(given))
    except DocumentFaults as faults:
        return faulty([fault.as_json() for fault in faults.faults])
    except ClockFault as fault:
        return faulty(clock_faults(read, fault))
    return "\n".join((KNOWN, text(found)))
