"""What the server itself changes in a document: as edits, so that the history tells of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from uuid import uuid4

from sqlalchemy.orm import Session

from pengan.engine.document.tables import FORMAT

from ..sites.models import SiteCopy
from .arriving import Arriving, same
from .groups import GROUPS, REMOVED_GROUP, Values, value_in
from .judging import Judgement
from .pushing import lock
from .taking import Sender, take
from .verdicts import Verdict
from .working import FIRST_VERSION, Held, Key, kept

Wanted = Mapping[Key, Values]


def put_records(session: Session, site: str, records: Sequence[Mapping[str, object]], sender: Sender) -> SiteCopy:
    """Make the site's records these, which are those of a valid document. Belongs to the caller's transaction.

    The revision rises only if something changes.
    """
    copy = lock(session, site)
    if copy is None:
        copy = SiteCopy(site=site, format=FORMAT, revision=0, counter=0, kept_from=0, next_order=0)
        session.add(copy)
        session.flush()
    work = kept.of(session, copy)
    wanted = {
        (str(record["table"]), str(record["id"])): {
            name: value for name, value in record.items() if name not in ("table", "id")
        }
        for record in records
    }
    changed: dict[Key, Held] = {}
    verdicts = [*_removals(work.records, wanted, changed), *_changes(work.records, wanted, changed)]
    if verdicts:
        copy.format = FORMAT
        take(session, copy, work, str(uuid4()), Judgement(verdicts, changed, {}), sender)
    return copy


def edit_records(
    session: Session, site: str, wanted: Callable[[Mapping[Key, Held]], Wanted], sender: Sender
) -> SiteCopy | None:
    """Give some of a site's records other values, as one set; None where nothing changes, or there is no such site.

    `wanted` is asked under the site's lock, with the records as they stand. Whoever asks answers for it that the
    document stays a valid one. Belongs to the caller's transaction.
    """
    copy = lock(session, site)
    if copy is None:
        return None
    work = kept.of(session, copy)
    changed: dict[Key, Held] = {}
    verdicts = list(_changes(work.records, wanted(work.records), changed))
    if not verdicts:
        return None
    take(session, copy, work, str(uuid4()), Judgement(verdicts, changed, {}), sender)
    return copy


def _removals(records: Mapping[Key, Held], wanted: Wanted, changed: dict[Key, Held]) -> Iterator[Verdict]:
    for key, held in records.items():
        if not held.removed and key not in wanted:
            version = held.version(REMOVED_GROUP)
            changed[key] = held.marked(True)
            edit = _edit("remove", key, seen=dict(held.versions))
            yield Verdict(edit, "taken", REMOVED_GROUP, version, version + 1, False)


def _changes(records: Mapping[Key, Held], wanted: Wanted, changed: dict[Key, Held]) -> Iterator[Verdict]:
    for key, values in wanted.items():
        held = records.get(key)
        if held is None:
            changed[key] = Held(values)
            yield Verdict(_edit("add", key, now=values), "taken", None, 0, FIRST_VERSION)
            continue
        if held.removed:
            version = held.version(REMOVED_GROUP)
            held = changed[key] = held.marked(False)
            yield Verdict(_edit("restore", key, seen=version), "taken", REMOVED_GROUP, version, version + 1, True)
        yield from _differences(key, held, values, changed)


def _differences(key: Key, held: Held, values: Values, changed: dict[Key, Held]) -> Iterator[Verdict]:
    for group in GROUPS[key[0]]:
        before, now = value_in(key[0], group, held.values), value_in(key[0], group, values)
        if same(before, now):
            continue
        version = held.version(group)
        held = changed[key] = held.raised(group)
        edit = _edit("set", key, group, seen=version, was=before, now=now)
        yield Verdict(edit, "taken", group, version, version + 1, before)
    if key in changed:
        changed[key] = replace(held, values=values)


def _edit(
    kind: str, key: Key, field: str | None = None, *, seen: object = None, was: object = None, now: object = None
) -> Arriving:
    return Arriving(str(uuid4()), kind, key[0], key[1], field, seen, was, now, FORMAT)
