"""Finds the merged cells of a sheet, which a streaming reader does not report."""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterator

from openpyxl.utils.cell import coordinate_to_tuple

_MERGE = re.compile(rb'<(?:\w+:)?mergeCell\b[^>]*?\bref="([A-Z]{1,3}[0-9]{1,7}:[A-Z]{1,3}[0-9]{1,7})"')
_BLOCK = 1 << 20
_OVERLAP = 200
MOST_MERGES = 5_000

Merge = tuple[int, int, int, int]
"""First column, first row, last column, last row; counted from 1."""


def merges_in(archive: zipfile.ZipFile, part: str) -> list[Merge]:
    """The merged ranges of a worksheet part, at most `MOST_MERGES`."""
    found: dict[bytes, Merge] = {}
    for block in _blocks(archive, part):
        for reference in _MERGE.findall(block):
            if len(found) < MOST_MERGES:
                found[reference] = _corners(reference.decode("ascii"))
    return list(found.values())


def _corners(reference: str) -> Merge:
    first, last = (coordinate_to_tuple(corner) for corner in reference.split(":"))
    return first[1], first[0], last[1], last[0]


def _blocks(archive: zipfile.ZipFile, part: str) -> Iterator[bytes]:
    """The part in blocks that overlap, so that no tag is cut in two."""
    with archive.open(part) as stream:
        kept = b""
        while block := stream.read(_BLOCK):
            yield kept + block
            kept = block[-_OVERLAP:]
