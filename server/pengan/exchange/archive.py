"""Looks at a book's file before it is opened: is it an .xlsx at all, and can opening it do harm?

An .xlsx is a zip of XML parts (ECMA-376, part 2). A zip can unpack to far more than its size, and XML can
declare entities that grow without end; spreadsheet programs write neither. `zipfile` never inflates more than
the size a member declares, so the declared sizes can be relied on as bounds.
"""

from __future__ import annotations

import zipfile
import zlib
from pathlib import Path

from . import sayings
from .grid import MOST_ROWS
from .report import BookFault

MEGABYTE = 1_000_000
MOST_FILE = 50 * MEGABYTE
MOST_PART = 64 * MEGABYTE
MOST_UNPACKED = 200 * MEGABYTE
MOST_PARTS = 2_000
_PROLOG = 4_096
_DAMAGE = (zipfile.BadZipFile, zlib.error, NotImplementedError, EOFError, OSError, ValueError, RuntimeError)

_COMPOUND_FILE = bytes.fromhex("D0CF11E0A1B11AE1")  # MS-CFB section 2.2: header signature
_ENCRYPTED = "EncryptedPackage".encode("utf-16-le")  # MS-OFFCRYPTO section 2.3.4.4: the stream's name
_OPEN_DOCUMENT = b"mimetypeapplication/vnd.oasis.opendocument"


def look_over(path: Path) -> None:
    """Raise `BookFault` if the file is no .xlsx, is locked, or is not fit to be opened."""
    if path.stat().st_size > MOST_FILE:
        raise BookFault(sayings.LARGE_FILE(path=path.name, limit_mb=MOST_FILE // MEGABYTE))
    _refuse_other_kinds(path)
    try:
        with zipfile.ZipFile(path) as archive:
            _refuse_locked(archive, path)
            _refuse_large(archive, path)
            _refuse_declarations(archive, path)
    except _DAMAGE as error:
        raise BookFault(sayings.DAMAGED_BOOK(path=path.name)) from error


def _refuse_other_kinds(path: Path) -> None:
    with path.open("rb") as file:
        start = file.read(MEGABYTE)
    if start.startswith(_COMPOUND_FILE):
        locked = _ENCRYPTED in start or _ENCRYPTED in _tail(path)
        raise BookFault((sayings.LOCKED_BOOK if locked else sayings.OLD_BOOK)(path=path.name))
    if _OPEN_DOCUMENT in start[:200]:
        raise BookFault(sayings.OTHER_BOOK(path=path.name))
    if not start.startswith(b"PK"):
        raise BookFault(sayings.NOT_A_BOOK(path=path.name))


def _tail(path: Path) -> bytes:
    """The file's last megabyte: where the directory of a large compound file often is."""
    with path.open("rb") as file:
        file.seek(max(0, path.stat().st_size - MEGABYTE))
        return file.read()


def _refuse_locked(archive: zipfile.ZipFile, path: Path) -> None:
    names = set(archive.namelist())
    if any(member.flag_bits & 1 for member in archive.infolist()):
        raise BookFault(sayings.LOCKED_BOOK(path=path.name))
    if "xl/workbook.bin" in names:
        raise BookFault(sayings.OTHER_BOOK(path=path.name))
    if "[Content_Types].xml" not in names:
        raise BookFault(sayings.NOT_A_BOOK(path=path.name))


def _refuse_large(archive: zipfile.ZipFile, path: Path) -> None:
    sizes = [member.file_size for member in archive.infolist()]
    if len(sizes) > MOST_PARTS or max(sizes) > MOST_PART or sum(sizes) > MOST_UNPACKED:
        message = sayings.LARGE_UNPACKED(path=path.name, limit_mb=MOST_PART // MEGABYTE, row_count=MOST_ROWS)
        raise BookFault(message)


def _refuse_declarations(archive: zipfile.ZipFile, path: Path) -> None:
    """Refuse parts with a document type declaration: it stands before the first element, or nowhere."""
    for member in archive.infolist():
        if not member.filename.endswith((".xml", ".rels")):
            continue
        with archive.open(member) as part:
            prolog = part.read(_PROLOG).replace(b"\0", b"")
        if b"<!DOCTYPE" in prolog or b"<!ENTITY" in prolog or (prolog and not _has_element(prolog)):
            raise BookFault(sayings.UNSAFE_BOOK(path=path.name))


def _has_element(prolog: bytes) -> bool:
    return any(prolog[at + 1 : at + 2].isalpha() for at, byte in enumerate(prolog) if byte == ord("<"))
