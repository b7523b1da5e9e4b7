"""The fields of an entry as they are told: what each may hold, and which kinds of entry have it.

Reading, the JSON Schema and the CSV's columns follow from these.
"""

from __future__ import annotations

from collections.abc import Mapping

from ..document.fields import Kind as FieldKind
from ..document.tables import LARGEST_FLOW_LPM
from .entry import Explained, Found, Kind

MOST_ENTRIES = 1000
"""In one message or request."""
MOST_BYTES = 512 * 1024
"""Of one message or request."""
LONGEST_TEXT = 2000
LARGEST_COUNT_L = 1e12
ENTRY_ID = r"[A-Za-z0-9-]{8,64}"

VALUES: Mapping[str, FieldKind] = {
    "flow_lpm": FieldKind("number", "A meter's reading.", least=0, most=LARGEST_FLOW_LPM, unit="lpm"),
    "count_l": FieldKind("number", "What a meter's counter shows.", least=0, most=LARGEST_COUNT_L, unit="l"),
    "finding": FieldKind("choice", "What is broken.", choices=tuple(Found)),
    "count": FieldKind("whole", "How many are broken.", least=1, most=999),
    "explained": FieldKind("choice", "What an alarm was. Left out, it was something else.", choices=tuple(Explained)),
    "text": FieldKind("text", "In somebody's own words.", least=0, most=LONGEST_TEXT),
}
PLACES: Mapping[str, str] = {"station": "stations", "supply": "supplies", "controller": "controllers"}
"""The fields that name a record of the site's document, and its table."""

NEEDED: Mapping[Kind, tuple[str, ...]] = {
    Kind.OPENED: ("station",),
    Kind.CLOSED: ("station",),
    Kind.FLOW: ("supply", "flow_lpm"),
    Kind.COUNT: ("supply", "count_l"),
    Kind.POWER_LOST: (),
    Kind.POWER_BACK: (),
    Kind.SHUT: ("supply",),
    Kind.FREED: ("supply",),
    Kind.STOPPED: ("text",),
    Kind.LIFTED: (),
    Kind.ALIVE: ("controller",),
    Kind.ALARM_OPENED: ("alarm", "text"),
    Kind.ALARM_SEEN: ("alarm",),
    Kind.ALARM_EXPLAINED: ("alarm",),
    Kind.ALARM_ENDED: ("alarm",),
    Kind.NOTE: ("text",),
    Kind.FINDING: ("station", "finding"),
    Kind.REPLACED: ("supply", "count_l"),
}
"""What an entry of each kind has to have, besides `id`, `at` and `kind`."""

_BESIDES: Mapping[Kind, tuple[str, ...]] = {
    Kind.POWER_LOST: ("controller",),
    Kind.POWER_BACK: ("controller",),
    Kind.ALARM_OPENED: ("station", "supply", "controller", "flow_lpm"),
    Kind.ALARM_EXPLAINED: ("explained",),
    Kind.NOTE: ("station", "supply", "controller", "alarm"),
    Kind.FINDING: ("count",),
}
ALLOWED: Mapping[Kind, frozenset[str]] = {
    kind: frozenset({*needed, *_BESIDES.get(kind, ()), "text"}) for kind, needed in NEEDED.items()
}
"""What an entry of each kind may have; all may have a text."""
FIELDS: tuple[str, ...] = ("id", "at", "kind", *PLACES, "alarm", *VALUES)
