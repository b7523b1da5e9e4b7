"""The page's types of the API are those of the server."""

from __future__ import annotations

from project.api_types import TYPES, definitions, written


def test_the_pages_types_are_in_step_with_the_server() -> None:
    """Else: `.venv/bin/python tests/project/api_types.py`."""
    assert TYPES.read_text(encoding="utf-8") == written()


def test_inner_definitions_stand_beside_the_schema_they_belong_to() -> None:
    run = {"type": "object", "properties": {"end": {"$ref": "#/components/schemas/Clock"}}}
    sheet = {"properties": {"runs": {"items": {"$ref": "#/$defs/run"}}}, "$defs": {"run": run}}
    assert definitions({"Sheet": sheet}) == {
        "Sheet": {"properties": {"runs": {"items": {"$ref": "#/definitions/SheetRun"}}}},
        "SheetRun": {"type": "object", "properties": {"end": {"$ref": "#/definitions/Clock"}}},
    }
