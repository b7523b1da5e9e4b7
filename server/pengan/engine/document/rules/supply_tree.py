"""No supply feeds itself, neither straight nor by way of others."""

from __future__ import annotations

from collections.abc import Iterator

from ...message import saying
from ..draft import Drafts
from ..fault import Fault

LOOP = saying("fault.supply_loop", "This supply is fed by itself, by way of: {supplies}.")
MOST_NAMED = 12


def faults(drafts: Drafts) -> Iterator[Fault]:
    """One fault for each loop, at its first supply in document order."""
    supplies = {draft.id: draft for draft in drafts.of("supplies")}
    places = {id: place for place, id in enumerate(supplies)}
    for loop in _loops({id: draft.text("fed_by") for id, draft in supplies.items()}):
        turn = loop.index(min(loop, key=places.__getitem__))
        turned = loop[turn:] + loop[:turn]
        named = ", ".join(turned[:MOST_NAMED]) + (" …" if len(loop) > MOST_NAMED else "")
        yield supplies[turned[0]].fault("fed_by", LOOP(supplies=named))


def _loops(fed_by: dict[str, str]) -> Iterator[list[str]]:
    """Every loop once. Each supply is walked through once, so a tree of any size takes time in step with it."""
    done: set[str] = set()
    for start in fed_by:
        path: dict[str, None] = {}
        at = start
        while at in fed_by and at not in done and at not in path:
            path[at] = None
            at = fed_by[at]
        if at in path:
            walked = list(path)
            yield walked[walked.index(at) :]
        done.update(path)
