"""A document has exactly one site, and the site exactly one clock."""

from __future__ import annotations

from collections.abc import Iterator

from ...message import saying
from ..draft import Drafts
from ..fault import Fault

NONE = saying("fault.no_site", "The record of the site is missing.")
MORE = saying("fault.more_sites", "A document has one site, but this is another.")
NO_CLOCK = saying("fault.no_clock", "The site has no clock. Give it a time zone.")
TWO_CLOCKS = saying("fault.two_clocks", "The site has more than one clock. Keep one of: {fields}.")

CLOCKS = ("zone", "zone_rule", "zone_changes")


def faults(drafts: Drafts) -> Iterator[Fault]:
    """A missing or second site; a site without a clock or with several."""
    sites = list(drafts.of("site"))
    if not sites:
        yield Fault("site", None, None, NONE())
    for extra in sites[1:]:
        yield extra.fault(None, MORE())
    for draft in sites:
        clocks = [field for field in CLOCKS if draft.has(field) and (draft.text(field) or field not in draft.values)]
        if not clocks:
            yield draft.fault("zone", NO_CLOCK())
        elif len(clocks) > 1:
            yield draft.fault(clocks[1], TWO_CLOCKS(fields=", ".join(clocks)))
