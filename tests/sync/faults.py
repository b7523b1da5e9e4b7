"""Five faults put into the server on purpose, one at a time: the histories have to notice each of them.

The seam is the names below. Where one of them moves, the fault that stands on it fails to be put in, and says so.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from itertools import count
from typing import Any
from unittest.mock import patch

from pengan.web.sync import finding, judging, operations, pulling, seen


@contextmanager
def receipts_off() -> Iterator[None]:
    """An edit that arrives again is not known any more: it is judged and written as if it were another one."""
    take_set, numbers = operations.take_set, count(1)
    arrived: set[str] = set()

    def forgetful(session: Any, actor: Any, arriving: Any, sender: Any) -> Any:
        names = {}
        for edit in arriving.edits:
            key = f"{arriving.site}/{edit.id}"
            names[edit.id] = f"again{next(numbers)}" if key in arrived else edit.id
            arrived.add(key)
        renamed = [replace(edit, id=names[edit.id]) for edit in arriving.edits]
        given = take_set(session, actor, replace(arriving, edits=renamed), sender)
        return [{**answer, "id": edit.id} for edit, answer in zip(arriving.edits, given, strict=True)]

    with patch.object(operations, "take_set", forgetful):
        yield


@contextmanager
def versions_ignored() -> Iterator[None]:
    """Whatever an edit says it has seen, it counts as having seen the newest."""
    with patch.object(seen.Seen, "version", lambda _self, _key, _group, _seen, current: current):
        yield


@contextmanager
def scope_off() -> Iterator[None]:
    """A phone's copy counts as good whatever has happened to its person's role."""
    with patch.object(operations, "scope_of", _no_scope), patch.object(pulling, "scope_of", _no_scope):
        yield


@contextmanager
def removal_check_off() -> Iterator[None]:
    """Nobody looks whether a record is removed."""
    with patch.object(finding.Finder, "gone", lambda _self, _edit: None):
        yield


@contextmanager
def validation_off() -> Iterator[None]:
    """The domain's rules are not asked."""
    with patch.object(judging, "faults_of", lambda _draft: ()):
        yield


def _no_scope(_session: Any, _copy: Any, _actor: Any) -> str:
    return "any"


FAULTS: dict[str, Callable[[], Any]] = {
    "receipts off": receipts_off,
    "versions ignored": versions_ignored,
    "scope off": scope_off,
    "removal check off": removal_check_off,
    "validation off": validation_off,
}
