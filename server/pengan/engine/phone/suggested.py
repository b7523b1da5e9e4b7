"""Suggested seasonal percentages for the app, in the shape of the server's answer."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from ..document.document import Document
from ..need.site.shapes import suggestions_shape
from ..need.site.suggestions import suggestions


def suggested(document: Document, given: Mapping[str, Any]) -> dict[str, object]:
    """What the programs' percentages should be on `night`, and why nothing can be said of others."""
    night = date.fromisoformat(given["night"])
    return suggestions_shape(night, suggestions(document, night))
