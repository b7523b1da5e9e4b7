"""One night worked out for the app: JSON texts in, lines of JSON out, since text alone crosses into a browser cheaply.

An answer's first line says what it is: `planned`, with the sheet and the site's clock over that night on the next two
lines, or `faulty`, with a list of all faults on the next.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from datetime import date

from ..clock.fault import ClockFault
from ..clock.night_clock import clock_on
from ..document.document import Document
from ..document.fault import DocumentFaults
from ..document.json_text import data_in
from ..document.read import read_document
from ..plan.night import plan_night
from ..plan.sheet_json import dumps, loads

PLANNED, FAULTY = "planned", "faulty"


def answer(document: str, night: str, effort: int, before: str = "") -> str:
    """The night of the date `night` as this document has it. `before`: the sheet that the new one takes the place of.

    A document or a date that cannot be planned is answered with its faults. Raises ValueError for a `before` that is
    no sheet, and for a `night` that is no date.
    """
    day, earlier = date.fromisoformat(night), loads(before) if before else None
    try:
        read = read_document(data_in(document))
        sheet = plan_night(read, day, effort=effort, before=earlier)
        clock = clock_on(read.site, day)
    except DocumentFaults as found:
        return faulty([fault.as_json() for fault in found.faults])
    except ClockFault as found:
        return faulty(clock_faults(read, found))
    return "\n".join((PLANNED, dumps(sheet), text(clock.as_json())))


def clock_faults(document: Document, found: ClockFault) -> list[dict[str, object]]:
    """What a clock that cannot be read makes of the site that states it."""
    about = {"table": "site", "record": document.site.id, "field": found.field or None}
    return [about | found.message.as_json()]


def faulty(faults: Sequence[dict[str, object]]) -> str:
    """The answer that says what is wrong with the document."""
    return "\n".join((FAULTY, text(faults)))


def text(value: object) -> str:
    """JSON on one line, the same on every machine."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
