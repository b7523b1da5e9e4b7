"""`pengan check FILE`: is this a site's document, and if not, everything that is wrong with it."""

from __future__ import annotations

from pathlib import Path

import click
from babel.lists import format_list

from pengan.engine.document.document import Document
from pengan.engine.document.fault import DocumentFaults, Fault
from pengan.exchange.document_file import document_in
from pengan.words import _, current_reader, isolate, ngettext, say


@click.command()
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
def check(file: Path) -> None:
    """Check a site's document and report every fault at once."""
    try:
        document = document_in(file)
    except DocumentFaults as found:
        _report(file, found.faults)
        raise SystemExit(1) from found
    except OSError as failed:
        raise click.FileError(str(file), failed.strerror) from failed
    click.echo(_summary(document))


def _report(file: Path, faults: tuple[Fault, ...]) -> None:
    for fault in faults:
        click.echo(_line(fault), err=True)
    click.echo(ngettext("{count} fault in {file}.", "{count} faults in {file}.", len(faults), file=file.name), err=True)


def _line(fault: Fault) -> str:
    """The place, then what is wrong there: `stations/s12 flow_lpm: …`, named as in the file."""
    record = "/".join(part for part in (fault.table, fault.record) if part)
    place = " ".join(part for part in (record, fault.field) if part)
    sentence = say(fault.message)
    return _("{place}: {sentence}", place=isolate(place, current_reader()), sentence=sentence) if place else sentence


def _summary(document: Document) -> str:
    counts = [
        ngettext("{count} supply", "{count} supplies", len(document.supplies)),
        ngettext("{count} controller", "{count} controllers", len(document.controllers)),
        ngettext("{count} station", "{count} stations", len(document.stations)),
        ngettext("{count} program", "{count} programs", len(document.programs)),
        ngettext("{count} turn", "{count} turns", len(document.turns)),
    ]
    reader = current_reader()
    listed = format_list(counts, locale=reader.locale)
    return _("{site} is sound: {counts}.", site=isolate(document.site.name, reader), counts=listed)
