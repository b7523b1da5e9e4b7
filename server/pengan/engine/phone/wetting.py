"""An audit as the app shows it: what its cans say, and what the unevenness costs in water."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from ..document.document import Document
from ..need.cans import Wetting, audit
from ..need.rates import multiplier
from ..need.site.planting import given_audit
from ..need.site.unevenness import Cost, unevenness


def wetting(document: Document, given: Mapping[str, str]) -> dict[str, object]:
    """The figures of `audit`, their cost in the year of `today`, and what is to be said; null where much is missing."""
    found, messages = audit(given_audit(document, document.audits[given["audit"]]))
    if found is None:
        return {"wetting": None, "cost": None, "messages": [message.as_json() for message in messages]}
    cost = unevenness(document, found, date.fromisoformat(given["today"]))
    said = [message.as_json() for message in (*messages, *cost.messages)]
    return {"wetting": _figures(found), "cost": _cost(cost), "messages": said}


def _figures(found: Wetting) -> dict[str, object]:
    return {
        "mean_mm": found.mean_mm,
        "rate_mm_h": found.rate_mm_h,
        "uniformity_lq": found.uniformity_lq,
        "christiansen": found.christiansen,
        "multiplier": multiplier(found.uniformity_lq),
        "lowest": [{"column": column, "row": row} for column, row in found.lowest],
    }


def _cost(found: Cost) -> dict[str, object]:
    season = found.season
    return {
        "aim_lq": found.aim_lq,
        "share": found.share,
        "runs": [{"turn": run.turn, "run_l": run.run_l, "extra_l": run.extra_l} for run in found.runs],
        "season": season
        and {
            "net_mm": season.net_mm,
            "area_m2": season.area_m2,
            "season_l": season.season_l,
            "extra_l": season.extra_l,
        },
    }
