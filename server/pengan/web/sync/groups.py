"""Field groups as the server keeps them: what has a version of its own, and a record's values in normal form."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import Field, fields
from typing import Any

from pengan.engine.document.fields import kind_of
from pengan.engine.document.groups import GROUPS as GROUPS
from pengan.engine.document.tables import TABLES
from pengan.engine.document.values import read_value

Values = dict[str, object]
"""A record's fields in normal form, without its id: what is at its default is left out."""

REMOVED_GROUP = "removed"
"""What stands for a record's being removed or not: versioned like a field."""

FIELDS: Mapping[str, Mapping[str, Field[Any]]] = {
    table.table: {item.name: item for item in fields(table) if item.name != "id"} for table in TABLES
}
"""Table → field → its declaration."""

_GROUP_OF = {
    table: {name: group for group, names in groups.items() for name in names} for table, groups in GROUPS.items()
}


def group_of(table: str, field: str) -> str | None:
    """The group that a field belongs to."""
    return _GROUP_OF.get(table, {}).get(field)


def value_in(table: str, group: str, values: Mapping[str, object]) -> object:
    """What a record has in a group: a plain value, or an object of the group's fields; None means the default."""
    names = GROUPS[table][group]
    return values.get(group) if names == (group,) else {name: values.get(name) for name in names}


def parts(table: str, group: str, value: object) -> dict[str, object] | None:
    """A group's value as fields in normal form; None where it has not the group's shape."""
    names = GROUPS[table][group]
    if names == (group,):
        return {group: normal(table, group, value)}
    if not isinstance(value, Mapping) or not set(value) <= set(names):
        return None
    return {name: normal(table, name, value.get(name)) for name in names}


def normal(table: str, field: str, given: object) -> object:
    """A field's value as it is kept: None for the default, whole amounts without a point. Unsound values stay."""
    if given is None:
        return None
    item = FIELDS[table][field]
    value, fault = read_value(kind_of(item), given)
    if fault is not None:
        return given
    if value == item.default:
        return None
    return int(value) if isinstance(value, float) and value.is_integer() else value


def with_parts(values: Mapping[str, object], new: Mapping[str, object]) -> Values:
    """The values with some replaced; None takes a field back to its default."""
    return {name: value for name, value in {**values, **new}.items() if value is not None}


def record_values(table: str, given: Mapping[str, object]) -> Values:
    """A new record's values. What is no field of its table stays, for the domain's rules to name it."""
    known = FIELDS[table]
    named = {name: value for name, value in given.items() if name not in ("table", "id")}
    return with_parts(
        {}, {name: normal(table, name, value) if name in known else value for name, value in named.items()}
    )
