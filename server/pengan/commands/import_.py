"""`pengan import`: a site's document out of the office's spreadsheet."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click

from pengan.exchange import sayings
from pengan.exchange.import_book import Imported, import_book
from pengan.exchange.naming import title
from pengan.exchange.remarks import lines
from pengan.exchange.vocabulary import SHEETS
from pengan.terminal.progress import Progress
from pengan.words import languages
from pengan.words.choosing import reader_for
from pengan.words.reader import UNIT_SETS, Reader, ngettext
from pengan.words.say import say


@click.command(name="import")
@click.argument("book", type=click.Path(path_type=Path))
@click.option("-o", "--output", type=click.Path(path_type=Path, dir_okay=False), help="Where the document goes.")
@click.option("--dry-run", is_flag=True, help="Say what is wrong and write nothing.")
@click.option("--language", help="The language of the book and of what is said about it.")
@click.option("--units", type=click.Choice(UNIT_SETS), help="Decides what a plain gallon is.")
def import_(book: Path, output: Path | None, dry_run: bool, language: str | None, units: str | None) -> None:
    """Read BOOK (an .xlsx file or a folder of CSV files) into a site's document."""
    reader = reader_for(language, units)
    progress = Progress(
        lambda count: ngettext("Reading the book: {count} row", "Reading the book: {count} rows", count)
    )
    try:
        imported = import_book(book, languages.match(language) if language else None, reader.units, progress)
    finally:
        progress.end()
    _tell(imported, reader)
    if not imported.sound:
        sys.exit(1)
    _finish(imported, output, dry_run, reader)


def _tell(imported: Imported, reader: Reader) -> None:
    """Notices, then faults, on the error stream: the document may be on the other."""
    report = imported.report
    if report.notices.count:
        click.echo(say(sayings.NOTICES_FOUND(notice_count=report.notices.count), reader), err=True)
        for line in lines(report.notices, reader, imported.names):
            click.echo(f"  {line}", err=True)
    if report.faults.count:
        click.echo(say(sayings.FAULTS_FOUND(fault_count=report.faults.count), reader), err=True)
        for line in lines(report.faults, reader, imported.names):
            click.echo(f"  {line}", err=True)


def _finish(imported: Imported, output: Path | None, dry_run: bool, reader: Reader) -> None:
    tables = _tables(imported, reader)
    if dry_run:
        click.echo(say(sayings.WOULD_IMPORT(tables=tables), reader), err=True)
        return
    text = json.dumps(imported.data, ensure_ascii=False, indent=1) + "\n"
    if output is None:
        click.echo(text, nl=False)
        return
    output.write_text(text, encoding="utf-8")
    click.echo(say(sayings.IMPORTED(tables=tables, path=str(output)), reader), err=True)


def _tables(imported: Imported, reader: Reader) -> str:
    """`Stations: 140, Programs: 24, …`."""
    counted = (
        sayings.TABLE_COUNT(table=title(SHEETS[table], reader), record_count=count)
        for table, count in imported.counts.items()
    )
    return ", ".join(say(message, reader) for message in counted)
