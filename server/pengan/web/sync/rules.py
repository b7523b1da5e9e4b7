"""The domain's rules on a change: the engine's own, run over what the change touches and what hangs together with it.

The document was valid before, so whatever is wrong now has to do with a record that changed. Each rule of the engine
looks at a record, at what it refers to, or at its like; `neighbourhood` gathers just those, so that a site of thousands
of stations is not read through for one edit. A test compares both ways of checking over random changes.
"""

from __future__ import annotations

from collections.abc import Mapping

from pengan.engine.document.fault import Fault
from pengan.engine.document.read import faults_across
from pengan.engine.document.rules.need_records import ALONE

from .working import Held, Key, Working, folded, targets


class Draft:
    """A site's records with a set's edits laid over them; nothing of it is in force."""

    def __init__(self, work: Working) -> None:
        self.work = work
        self.changed: dict[Key, Held] = {}

    def get(self, key: Key) -> Held | None:
        """The record as it would be."""
        return self.changed.get(key) or self.work.records.get(key)

    def put(self, key: Key, held: Held) -> None:
        """Lay a changed record over."""
        self.changed[key] = held

    def live(self, key: Key) -> Held | None:
        """The record as it would be, unless it is removed."""
        held = self.get(key)
        return None if held is None or held.removed else held


def faults_of(draft: Draft) -> tuple[Fault, ...]:
    """Every rule that the document would break: the fields' own first, then those across records."""
    near = neighbourhood(draft)
    faults: list[Fault] = []
    read = []
    for key, held in sorted(near.items(), key=lambda item: item[1].order):
        one, own = draft.work.read(key, held.values)
        read.append(one)
        faults.extend(own)
    return (*faults, *faults_across(read))


def neighbourhood(draft: Draft) -> Mapping[Key, Held]:
    """The records that the rules have to see together to judge the change."""
    start = _touched(draft)
    found: dict[Key, Held] = {}
    while start:
        key = start.pop()
        held = draft.live(key)
        if held is not None and key not in found:
            found[key] = held
            start.extend(targets(key[0], held.values))
    return found


def _touched(draft: Draft) -> list[Key]:
    """What changed, the site, and whoever a changed record may be at odds with."""
    work = draft.work
    if any(table == "site" for table, _id in draft.changed):  # the clock and the place concern every record
        return [*work.records, *draft.changed]
    keys = [("site", work.site), *draft.changed]
    for key, held in draft.changed.items():
        if held.removed or key[0] == "controllers":
            keys.extend(work.referrers.get(key, ()))
        elif key[0] == "stations":
            keys.extend(("stations", other) for other in work.numbers.get(folded(held.values), ()))
        elif key[0] in ALONE:
            keys.extend(other for other in work.records if other[0] == key[0])
    return keys
