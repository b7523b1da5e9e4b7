"""axe-core in a page: what it finds against WCAG 2.2 and its own good practice, in words."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from playwright.sync_api import Page

SCRIPT = Path(__file__).parents[2] / "pwa" / "node_modules" / "axe-core" / "axe.min.js"
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
_RUN = "(tags) => axe.run(document, { runOnly: tags, resultTypes: ['violations'], preload: false })"
CUT_AT_THE_EDGE = ("target-size", 'class="night')
"""Of a strip of nights that scrolls sideways the last one in sight may be cut; it is 56 px wide once it is scrolled to."""
SHOWN = 3
"""Of one rule's nodes on one screen."""


def flaws(page: Page) -> list[str]:
    """Rule by rule, with the first nodes that break it. The page stays as it is."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(SCRIPT.read_text(encoding="utf-8"))
    found: dict[str, Any] = page.evaluate(_RUN, TAGS)
    assert found["passes"], "axe looked at nothing"
    return [
        f"{flaw['id']}: {flaw['help']}: {node['html'][:160]} {node['failureSummary'][:300]}"
        for flaw in found["violations"]
        for node in [one for one in flaw["nodes"] if not _cut(flaw["id"], one["html"])][:SHOWN]
    ]


def _cut(rule: str, html: str) -> bool:
    return rule == CUT_AT_THE_EDGE[0] and CUT_AT_THE_EDGE[1] in html
