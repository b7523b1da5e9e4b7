"""No supply feeds itself, neither straight nor by way of others."""

from __future__ import annotations

from collections.abc import Iterator

from ...message import saying
from ..draft import Drafts
from ..fault import Fault

LOOP = saying("fault.supply_loop", "This supply is fed by itself, by way of: {supplies}.")


def faults(drafts: Drafts) -> Iterator[Fault]:
    """One fault for each loop, at its first supply in document order."""
    fed_by = {draft.id: draft.text("fed_by") for draft in drafts.of("supplies")}
    done: set[str] = set()
    for draft in drafts.of("supplies"):
        path: dict[str, None] = {}
        at = draft.id
        while at and at in fed_by and at not in done and at not in path:
            path[at] = None
            at = fed_by[at]
        if at in path:
            yield _loop(drafts, list(path)[list(path).index(at) :])
        done.update(path)


def _loop(drafts: Drafts, loop: list[str]) -> Fault:
    first = next(draft for draft in drafts.of("supplies") if draft.id in loop)
    turned = loop[loop.index(first.id) :] + loop[: loop.index(first.id)]
    return first.fault("fed_by", LOOP(supplies=", ".join(turned)))
