"""Suggested seasonal percentages, as the app shows them: the same shape as the server's, messages not yet worded."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from ..document.document import Document
from ..need.site.suggestions import suggestions


def suggested(document: Document, given: Mapping[str, Any]) -> dict[str, object]:
    """What the programs' percentages should be on `night`, and why nothing can be said of others."""
    night = date.fromisoformat(given["night"])
    found, said = suggestions(document, night)
    return {
        "night": night.isoformat(),
        "suggestions": [
            {
                "program": one.program,
                "from_pct": one.from_pct,
                "to_pct": one.to_pct,
                "by_itself": one.by_itself,
                "message": one.message.as_json(),
            }
            for one in found
        ],
        "messages": [message.as_json() for message in said],
    }
