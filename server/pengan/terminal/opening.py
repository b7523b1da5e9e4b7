"""Opens the files commands are given, and says clearly what is wrong with one."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from pengan.engine.document.document import Document
from pengan.engine.document.fault import DocumentFaults, Fault
from pengan.engine.document.json_text import data_in
from pengan.engine.document.read import read_document
from pengan.engine.plan.sheet import NightSheet
from pengan.engine.plan.sheet_json import sheet_from_json
from pengan.words import _, isolate, ngettext, say
from pengan.words.reader import current_reader

STANDARD_INPUT = "-"


def open_bytes(path: str) -> bytes:
    """What is in a file, or on standard input for `-`. Ends the command with one line where nothing can be read."""
    try:
        return sys.stdin.buffer.read() if path == STANDARD_INPUT else Path(path).read_bytes()
    except FileNotFoundError:
        raise stopped(_("There is no file {path}.", path=path)) from None
    except IsADirectoryError:
        raise stopped(_("{path} is a folder, not a file.", path=path)) from None
    except OSError as fault:
        reason = fault.strerror or type(fault).__name__
        raise stopped(_("{path} cannot be read: {reason}", path=path, reason=reason)) from None


def open_document(path: str) -> Document:
    """The site document in a file. Ends the command with every fault, one a line, if it has any."""
    with faults_told(path):
        return read_document(open_data(path))


def open_data(path: str) -> object:
    """The JSON in a file. Ends the command where it is none."""
    content = open_bytes(path)
    with faults_told(path):
        return data_in(content)


def open_sheet(path: str) -> NightSheet:
    """The night sheet in a file. Ends the command where it is none."""
    data = open_data(path)
    try:
        return sheet_from_json(data if isinstance(data, dict) else {})
    except (AttributeError, KeyError, TypeError, ValueError):
        raise stopped(_("{path} is not a night sheet. pengan night --json writes one.", path=path)) from None


@contextmanager
def faults_told(path: str) -> Iterator[None]:
    """Within the block, a file that has faults ends the command with all of them, one a line, and their count."""
    try:
        yield
    except DocumentFaults as found:
        for line in fault_lines(found.faults):
            click.echo(line, err=True)
        count = len(found.faults)
        raise stopped(ngettext("{count} fault in {file}.", "{count} faults in {file}.", count, file=path)) from None


def fault_lines(faults: Iterable[Fault]) -> Iterator[str]:
    """Each fault as `table/record field: what is wrong`, in the reader's language."""
    reader = current_reader()
    for fault in faults:
        record = "/".join(part for part in (fault.table, fault.record) if part)
        place = " ".join(part for part in (record, fault.field) if part)
        sentence = say(fault.message, reader)
        yield _("{place}: {sentence}", place=isolate(place, reader), sentence=sentence) if place else sentence


def stopped(text: str) -> click.ClickException:
    """What to raise to end the command with one line on standard error and status 1."""
    return click.ClickException(text)
