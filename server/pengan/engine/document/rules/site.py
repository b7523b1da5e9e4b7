"""A document has exactly one site, and the site exactly one clock that exists."""

from __future__ import annotations

from collections.abc import Iterator

from ...clock.zones import clock_faults
from ...message import saying
from ..draft import Draft, Drafts
from ..fault import Fault
from ..tables import Site

NONE = saying("fault.no_site", "The record of the site is missing.")
MORE = saying("fault.more_sites", "A document has one site, but this is another.")

CLOCKS = ("zone", "zone_rule", "zone_changes")


def faults(drafts: Drafts) -> Iterator[Fault]:
    """A missing or second site, and everything wrong with a site's clock."""
    sites = list(drafts.of("site"))
    if not sites:
        yield Fault("site", None, None, NONE())
    for extra in sites[1:]:
        yield extra.fault(None, MORE())
    for draft in sites:
        yield from _faults_of_clock(draft)


def _faults_of_clock(draft: Draft) -> Iterator[Fault]:
    """A clock field that is no text at all has its own fault already; the site does not lack a clock as well."""
    unsound = any(draft.has(field) and field not in draft.values for field in CLOCKS)
    zone, rule, changes = (draft.text(field) for field in CLOCKS)
    if unsound and not (zone or rule or changes):
        return
    for fault in clock_faults(Site(id=draft.id, name=draft.id, zone=zone, zone_rule=rule, zone_changes=changes)):
        yield draft.fault(fault.field or "zone", fault.message)
