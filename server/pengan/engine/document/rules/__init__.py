"""Rules that look across fields and records. Adding one is adding a file here and naming it in `RULES`.

Each takes the drafts of a document and yields the faults it finds; none raises, whatever is in them.
"""

from collections.abc import Callable, Iterable

from ..draft import Drafts
from ..fault import Fault
from . import (
    apart,
    asked_runs,
    closures,
    day_rules,
    electricity,
    ids,
    need_records,
    place,
    references,
    site,
    station_numbers,
    supply_limits,
    supply_tree,
    windows,
)

RULES: tuple[Callable[[Drafts], Iterable[Fault]], ...] = (
    ids.faults,
    references.faults,
    site.faults,
    place.faults,
    supply_tree.faults,
    supply_limits.faults,
    electricity.faults,
    station_numbers.faults,
    day_rules.faults,
    windows.faults,
    closures.faults,
    apart.faults,
    asked_runs.faults,
    need_records.faults,
)
