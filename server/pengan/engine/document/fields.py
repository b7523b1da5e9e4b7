"""Kinds of field a record can have. Each says what is allowed; `read` and the JSON Schema follow it."""

from __future__ import annotations

from dataclasses import MISSING, Field, dataclass, field
from typing import Any


@dataclass(frozen=True, slots=True)
class Kind:
    """What a field holds. `name` is one of text, whole, number, choice, ref, clock, date, month_day, moment, id.

    `about` is the field's description, in English, one line: the JSON Schema and the documentation carry it.
    `least` and `most` bound a number, or the length of a text. `unit` is the base unit named in the
    field's own name (`run_s` → `s`). `table` is where a `ref` points. `choices` are a `choice`'s words.
    """

    name: str
    about: str = ""
    required: bool = False
    least: float | None = None
    most: float | None = None
    unit: str | None = None
    table: str | None = None
    choices: tuple[str, ...] = ()


def kind_of(item: Field[Any]) -> Kind:
    """The `Kind` a dataclass field was declared with."""
    kind: Kind = item.metadata["kind"]
    return kind


def _field(kind: Kind, default: Any) -> Any:
    if kind.required:
        default = MISSING
    return field(default=default, metadata={"kind": kind})


def record_id() -> Any:
    """A record's own id: 1 to 64 of letters, digits, `-`, `_` and `.`.

    Made by whoever adds the record (UUIDv7 on phones).
    """
    return _field(Kind("id", "The record's own id, unique in its table.", required=True, least=1, most=64), None)


def text(about: str, *, required: bool = False, most: int = 200) -> Any:
    """Text a person typed. Missing means empty."""
    return _field(Kind("text", about, required=required, least=1 if required else 0, most=most), "")


def whole(
    about: str, *, least: int, most: int, unit: str | None = None, default: int | None = None, required: bool = False
) -> Any:
    """A whole number between `least` and `most`."""
    return _field(Kind("whole", about, required=required, least=least, most=most, unit=unit), default)


def amount(
    about: str,
    *,
    least: float,
    most: float,
    unit: str | None = None,
    default: float | None = None,
    required: bool = False,
) -> Any:
    """A finite number between `least` and `most`, in its base unit."""
    return _field(Kind("number", about, required=required, least=least, most=most, unit=unit), default)


def choice(about: str, *choices: str, default: str | None = None, required: bool = False) -> Any:
    """One word out of a fixed list."""
    return _field(Kind("choice", about, required=required, choices=choices), default)


def ref(table: str, about: str, *, required: bool = False) -> Any:
    """The id of a record in another table."""
    return _field(Kind("ref", about, required=required, least=1, most=64, table=table), None)


def clock(about: str) -> Any:
    """A time on the site's wall: `HH:MM`, `HH:MM:SS`, `sunrise`, `sunset`, `sunset-00:30`, `sunrise+01:15`."""
    return _field(Kind("clock", about), None)


def moment(about: str) -> Any:
    """A local date and time: `YYYY-MM-DDTHH:MM`."""
    return _field(Kind("moment", about), None)


def date_(about: str, *, required: bool = False) -> Any:
    """A calendar date: `YYYY-MM-DD`."""
    return _field(Kind("date", about, required=required), None)


def month_day(about: str) -> Any:
    """A day of every year: `MM-DD`."""
    return _field(Kind("month_day", about), None)
