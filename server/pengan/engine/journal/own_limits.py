"""The limits of a site's watch as its document has them: each supply's own where it has some, the usual ones else."""

from __future__ import annotations

from dataclasses import replace

from ..document.document import Document
from ..document.tables import Supply
from .thresholds import Limits, Thresholds

_OF_FIELDS = {
    "watch_least_lpm": "least_lpm",
    "watch_hold_s": "hold_s",
    "watch_silent_s": "silent_s",
}


def limits_of(document: Document) -> Limits:
    """The site's limits."""
    usual = Thresholds()
    own = {id: _own(supply, usual) for id, supply in document.supplies.items()}
    return Limits({id: one for id, one in own.items() if one != usual}, usual)


def _own(supply: Supply, usual: Thresholds) -> Thresholds:
    """A share of one's own is as much wider for stations whose flow is not learned yet as the usual one is."""
    given = {to: getattr(supply, name) for name, to in _OF_FIELDS.items() if getattr(supply, name) is not None}
    share = supply.watch_share_pct
    if share is not None:
        given |= {"share_pct": share, "unlearned_pct": min(100, share * usual.unlearned_pct // usual.share_pct)}
    return replace(usual, **given)
