"""Gives records of a book ids that are the same when the book comes again: from the table and the number or name."""

from __future__ import annotations

import hashlib
import re
import unicodedata
from collections.abc import Iterable

from .entries import Entry
from .folding import fold
from .naming import BY_NAME

_LONGEST = 48
_PLAIN = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_OWN_NAMES = {"stations": ("number", "name")}
_BY_RELATION = {
    "turns": ("program", "station"),
    "apart": ("station", "other"),
    "asked": ("night", "program", "station", "at"),
}
_NAMELESS = ("windows", "closures")


def name_entries(entries: Iterable[Entry]) -> None:
    """Give an id to each entry that has none. Entries known by their relations need those resolved before."""
    taken: set[tuple[str, str]] = set()
    waiting = []
    for entry in entries:
        if entry.id:
            taken.add((entry.table, entry.id))
        else:
            waiting.append(entry)
    for entry in waiting:
        entry.values = {"id": _free(entry, taken), **entry.values}


def by_relation(table: str) -> bool:
    """Whether records of the table have no name of their own."""
    return table in _BY_RELATION


def _free(entry: Entry, taken: set[tuple[str, str]]) -> str:
    """The entry's id, with a count behind it where the book says the same name again."""
    stem = f"{BY_NAME[entry.table].__name__.lower()}-{slug(_key(entry))}"
    name, count = stem, 1
    while (entry.table, name) in taken:
        count += 1
        name = f"{stem}-{count}"
    taken.add((entry.table, name))
    return name


def _key(entry: Entry) -> str:
    """What the record is known by."""
    if entry.table in _BY_RELATION:
        return " ".join(str(entry.values.get(name, "")) for name in _BY_RELATION[entry.table])
    names = [str(entry.values[name]) for name in _OWN_NAMES.get(entry.table, ("name",)) if name in entry.values]
    if not names and entry.table in _NAMELESS:
        return " ".join(f"{name} {value}" for name, value in sorted(entry.values.items()))
    return names[0] if names else ""


def slug(text: str) -> str:
    """Plain letters and figures with `-` between; a hash behind where other letters or length were lost.

    The hash is the first eight hex digits of the SHA-256 of the folded text.
    """
    folded = fold(text)
    ascii_only = unicodedata.normalize("NFKD", folded).encode("ascii", "ignore").decode("ascii")
    plain = re.sub(r"[^a-z0-9]+", "-", ascii_only).strip("-")
    if plain == folded.replace(" ", "-") and len(plain) <= _LONGEST and _PLAIN.fullmatch(plain):
        return plain
    digest = hashlib.sha256(folded.encode("utf-8", "surrogatepass")).hexdigest()[:8]
    return f"{plain[: _LONGEST - 9].strip('-')}-{digest}".strip("-")
