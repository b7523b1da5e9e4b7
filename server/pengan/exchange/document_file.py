"""A site's document as a file of JSON: what people export, keep and send."""

from __future__ import annotations

from pathlib import Path

from pengan.engine.document.document import Document
from pengan.engine.document.json_text import data_in
from pengan.engine.document.read import read_document


def document_in(path: Path) -> Document:
    """The document in a file. Raises `DocumentFaults` with everything wrong with it, `OSError` if it cannot be read."""
    return read_document(data_in(path.read_bytes()))
