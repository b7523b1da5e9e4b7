"""What a record refers to exists."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields

from ...message import saying
from ..draft import Drafts
from ..fault import Fault
from ..fields import kind_of
from ..tables import TABLES

UNKNOWN = saying("fault.unknown_ref", "There is no {given} among the {table}.")

REFS = {
    table.table: {item.name: kind_of(item).table or "" for item in fields(table) if kind_of(item).name == "ref"}
    for table in TABLES
}
"""Table → field → the table it points to."""


def faults(drafts: Drafts) -> Iterator[Fault]:
    """Every reference to a record that is not there."""
    known = {(draft.table, draft.id) for draft in drafts.all}
    for draft in drafts.all:
        for field, table in REFS[draft.table].items():
            given = draft.text(field)
            if given and (table, given) not in known:
                yield draft.fault(field, UNKNOWN(given=given, table=table))
