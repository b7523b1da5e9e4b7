"""The document's fields as data, beside the tables they come from."""

from __future__ import annotations

import json
from dataclasses import fields

import pytest

from pengan.engine.document.description import description
from pengan.engine.document.fields import kind_of
from pengan.engine.document.tables import TABLES, Record

DESCRIBED = json.loads(json.dumps(description()))["tables"]


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.table)
def test_every_field_stands_there_with_its_limits(table: type[Record]) -> None:
    described = DESCRIBED[table.table]["fields"]
    declared = {item.name: kind_of(item) for item in fields(table) if item.name != "id"}
    assert list(described) == list(declared)
    for name, kind in declared.items():
        said = described[name]
        assert (said["kind"], said.get("least"), said.get("most")) == (kind.name, kind.least, kind.most)
        assert said.get("required", False) == kind.required
        assert tuple(said.get("choices", ())) == kind.choices


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.table)
def test_every_field_is_in_one_group(table: type[Record]) -> None:
    grouped = [name for names in DESCRIBED[table.table]["groups"].values() for name in names]
    assert sorted(grouped) == sorted(DESCRIBED[table.table]["fields"])


def test_a_default_stands_there_where_there_is_one() -> None:
    assert DESCRIBED["programs"]["fields"]["rank"]["default"] == 5
    assert "default" not in DESCRIBED["turns"]["fields"]["run_s"]
    assert "default" not in DESCRIBED["programs"]["fields"]["name"]
