"""What is read is what was written, whatever the order."""

from __future__ import annotations

import json
from typing import Any

from hypothesis import given, settings

from pengan.engine.document.read import faults_in, read_document
from pengan.engine.document.write import write_document
from valid_documents import documents


@given(documents())
@settings(max_examples=30)
def test_reading_what_was_written_gives_the_same_document(data: dict[str, Any]) -> None:
    document = read_document(data)
    written = write_document(document)
    assert read_document(json.loads(json.dumps(written))) == document
    assert write_document(read_document(written)) == written


@given(documents())
@settings(max_examples=30)
def test_every_field_that_was_set_is_written_unless_it_is_the_default(data: dict[str, Any]) -> None:
    written = {(row["table"], row["id"]): row for row in write_document(read_document(data))["records"]}  # type: ignore[attr-defined]
    for row in data["records"]:
        back = written[row["table"], row["id"]]
        assert back.items() <= row.items()
        for name in row.keys() - back.keys():
            assert row[name] in (None, "", 0, 1, 5, 100, "every_day", "earliest", "free", "town", "other"), name


@given(documents())
@settings(max_examples=30)
def test_the_order_of_records_in_other_tables_makes_no_difference(data: dict[str, Any]) -> None:
    by_table = {"format": 1, "records": sorted(data["records"], key=lambda row: row["table"])}
    assert faults_in(data) == ()
    assert read_document(by_table) == read_document(data)


def test_a_field_that_is_null_counts_as_not_set() -> None:
    site = {
        "table": "site",
        "id": "s",
        "name": "S",
        "zone": "UTC",
        "notes": None,
        "seasonal_pct": None,
        "finish_by": None,
    }
    document = read_document({"format": 1, "records": [site]})
    assert (document.site.notes, document.site.seasonal_pct, document.site.finish_by) == ("", 100, None)
