"""axe-core in a page: what it finds against WCAG 2.2 and its own good practice, in words."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from playwright.sync_api import Page

SCRIPT = Path(__file__).parents[2] / "pwa" / "node_modules" / "axe-core" / "axe.min.js"
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
_RUN = """([tags, without]) => axe.run(document, {
  runOnly: tags,
  rules: Object.fromEntries(without.map((rule) => [rule, { enabled: false }])),
  resultTypes: ["violations"],
  selectors: false,
  preload: false,
})"""
CUT = "partially obscured"
"""Said of a target at the edge of what scrolls or under the foot: it is whole once it is scrolled to, and
`test_access.py` measures whole targets."""
SHOWN = 3
"""Of one rule's nodes on one screen."""


def flaws(page: Page, without: Sequence[str] = ()) -> list[str]:
    """Rule by rule, with the first nodes that break it. The page stays as it is."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(SCRIPT.read_text(encoding="utf-8"))
    found: dict[str, Any] = page.evaluate(_RUN, [TAGS, list(without)])
    assert found["passes"], "axe looked at nothing"
    return [
        f"{flaw['id']}: {flaw['help']}: {node['html'][:160]} {node['failureSummary'][:300]}"
        for flaw in found["violations"]
        for node in [one for one in flaw["nodes"] if not _cut(flaw["id"], one["failureSummary"])][:SHOWN]
    ]


def _cut(rule: str, told: str) -> bool:
    return rule == "target-size" and CUT in told
