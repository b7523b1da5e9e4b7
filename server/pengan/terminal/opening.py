"""Opens the files commands are given, and says clearly what is wrong with one."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import click

from pengan.engine.document.document import Document
from pengan.engine.document.fault import DocumentFaults, Fault
from pengan.engine.document.read import read_document
from pengan.words import _, isolate, ngettext, say
from pengan.words.reader import current_reader

STANDARD_INPUT = "-"


def open_json(path: str) -> Any:
    """The JSON in a file, or from standard input for `-`. Ends the command with one clear line if there is none."""
    try:
        text = sys.stdin.read() if path == STANDARD_INPUT else Path(path).read_text(encoding="utf-8")
        return json.loads(text)
    except FileNotFoundError:
        raise stopped(_("There is no file {path}.", path=path)) from None
    except IsADirectoryError:
        raise stopped(_("{path} is a folder, not a file.", path=path)) from None
    except UnicodeDecodeError:
        raise stopped(_("{path} is not text in UTF-8.", path=path)) from None
    except json.JSONDecodeError as fault:
        raise stopped(
            _("{path} is not JSON: line {line}, column {column}.", path=path, line=fault.lineno, column=fault.colno)
        ) from None
    except RecursionError:
        raise stopped(_("{path} is nested too deeply to be a document.", path=path)) from None
    except OSError as fault:
        raise stopped(
            _("{path} cannot be read: {reason}", path=path, reason=fault.strerror or type(fault).__name__)
        ) from None


def open_document(path: str) -> Document:
    """The site document in a file. Ends the command with every fault, one a line, if it has any."""
    try:
        return read_document(open_json(path))
    except DocumentFaults as found:
        for line in fault_lines(found.faults):
            click.echo(line, err=True)
        count = len(found.faults)
        raise stopped(ngettext("{path} has {count} fault.", "{path} has {count} faults.", count, path=path)) from None


def fault_lines(faults: Iterable[Fault]) -> Iterator[str]:
    """Each fault as `table record field: what is wrong`, in the reader's language."""
    reader = current_reader()
    for fault in faults:
        place = " ".join(part for part in (fault.table, fault.record, fault.field) if part)
        text = say(fault.message, reader)
        yield _("{place}: {text}", place=isolate(place, reader), text=text) if place else text


def stopped(text: str) -> click.ClickException:
    """What to raise to end the command with one line on standard error and status 1."""
    return click.ClickException(text)
