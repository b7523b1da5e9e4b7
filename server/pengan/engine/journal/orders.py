"""The JSON Schema (draft 2020-12) of an order: what the server asks whoever holds a site's valves to do."""

from __future__ import annotations

from typing import Any

from ..document.schema import DIALECT
from ..document.tables import LARGEST_FLOW_LPM
from ..document.written import ID
from .fields import ENTRY_ID
from .schema import TOPICS

Schema = dict[str, Any]


def orders_topic_of(site: str) -> str:
    """Where a site's orders are published."""
    return f"{TOPICS}/{site}/orders"


def orders_schema() -> Schema:
    """The schema of a message with an order."""
    flow = {"type": "number", "minimum": 0, "maximum": LARGEST_FLOW_LPM}
    return {
        "$schema": DIALECT,
        "title": "An order of a site",
        "description": f"One message on the topic {orders_topic_of('SITE')}, QoS 1, never retained. It may come twice: "
        "its id says so. Whoever carries it out tells the journal what was done. An order is no safeguard: a device "
        "that has to hold without a line needs one of its own, by local codes and licensed practice.",
        "type": "object",
        "properties": {
            "id": {"type": "string", "pattern": f"^{ENTRY_ID}$", "description": "Of the entry in the journal."},
            "at": {"type": "integer", "description": "When it was given, in whole seconds since 1970."},
            "until": {"type": "integer", "description": "Not to be carried out after this instant."},
            "order": {"const": "shut", "description": "Let no water through this supply."},
            "supply": {"type": "string", "pattern": f"^{ID}$", "description": "An id of supplies."},
            "flow_lpm": {**flow, "description": "What flowed."},
            "limit_lpm": {**flow, "description": "What the rule allows."},
        },
        "required": ["id", "at", "until", "order", "supply", "flow_lpm", "limit_lpm"],
        "additionalProperties": False,
    }
