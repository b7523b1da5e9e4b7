"""`pengan template`: an empty book to fill in."""

from __future__ import annotations

from pathlib import Path

import click

from pengan.exchange.write_book import write_template
from pengan.words.choosing import reader_for
from pengan.words.reader import UNIT_SETS, _, reading


@click.command()
@click.argument("book", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--language", help="The language of headings, notes and lists.")
@click.option("--units", type=click.Choice(UNIT_SETS), help="The units of the headings.")
def template(book: Path, language: str | None, units: str | None) -> None:
    """Write an empty BOOK (.xlsx) with headings, notes and drop-down lists."""
    reader = reader_for(language, units)
    with reading(reader):
        if book.suffix.lower() != ".xlsx":
            raise click.ClickException(_("The book's name must end in .xlsx."))
        if book.exists():
            raise click.ClickException(_("{path} exists already and was left as it is.", path=str(book)))
        write_template(book, reader.language, reader.units)
        click.echo(_("Wrote {path}", path=str(book)), err=True)
