"""`pengan schema document|sheet|entries|orders`: the file formats and messages, as JSON Schema 2020-12."""

from __future__ import annotations

import json

import click

from pengan.engine.document.schema import document_schema
from pengan.engine.journal.orders import orders_schema
from pengan.engine.journal.schema import entries_schema
from pengan.engine.plan.sheet_json import sheet_schema

SCHEMAS = {"document": document_schema, "sheet": sheet_schema, "entries": entries_schema, "orders": orders_schema}


@click.command()
@click.argument("what", type=click.Choice(tuple(SCHEMAS)))
def schema(what: str) -> None:
    """Print the JSON Schema of a site document, of a night sheet, of entries told to a journal, or of orders."""
    click.echo(json.dumps(SCHEMAS[what](), ensure_ascii=False, indent=2))
