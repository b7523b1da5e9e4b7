"""The rest of a night under way, for the app: after an edit, or after an interruption that the journal tells."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from ..catch_up.happened import from_journal
from ..catch_up.rest import Way, rest_of_night
from ..catch_up.under_way import is_of_its_clock
from ..clock.night_clock import clock_on
from ..document.document import Document
from ..journal.entry import Entry, Found, Kind
from ..plan.night import plan_night
from ..plan.sheet_json import sheet_as_json, sheet_from_json


def rest(document: Document, given: Mapping[str, Any]) -> dict[str, object]:
    """The night of the sheet `before` from the instant `now` on, with the clock over it and what that changes.

    `effort` counts constructions. `entries`: the night's journal, sound entries as in `journal/entry.py`; then `way`
    is `keep` or `recover`. Without `entries` it is the rest of the night after an edit of the document: what `before`
    had until now counts as run; where its clock was changed, it is the whole night, and `effect` is null. Raises
    KeyError or ValueError for what is none of that.
    """
    before, now, told = sheet_from_json(given["before"]), int(given["now"]), given.get("entries")
    clock = clock_on(document.site, date.fromisoformat(before.night)).as_json()
    if told is None and not is_of_its_clock(document, before):
        whole = plan_night(document, date.fromisoformat(before.night), effort=int(given["effort"]), before=before)
        return {"sheet": sheet_as_json(whole), "clock": clock, "effect": None}
    happened = None if told is None else from_journal(document, before, [_entry(one) for one in told], now)
    way = Way(given.get("way", Way.RECOVER))
    found = rest_of_night(document, before, now, happened, way=way, effort=int(given["effort"]))
    return {"sheet": sheet_as_json(found.sheet), "clock": clock, "effect": found.effect.as_json()}


def _entry(told: Mapping[str, Any]) -> Entry:
    finding = told.get("finding")
    return Entry(**{**told, "kind": Kind(told["kind"]), "finding": None if finding is None else Found(finding)})
