"""`pengan schema document|sheet`: the file formats, as JSON Schema 2020-12."""

from __future__ import annotations

import json

import click

from pengan.engine.document.schema import document_schema
from pengan.engine.plan.sheet_json import sheet_schema


@click.command()
@click.argument("what", type=click.Choice(("document", "sheet")))
def schema(what: str) -> None:
    """Print the JSON Schema of a site document or of a night sheet."""
    made = document_schema() if what == "document" else sheet_schema()
    click.echo(json.dumps(made, ensure_ascii=False, indent=2))
