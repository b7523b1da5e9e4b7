"""The first document: the demo site is open to everybody, one's own to nobody who was not let in."""

from __future__ import annotations

import json
import os
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from pengan.web.app import create_app
from pengan.web.settings import DEMO, Settings
from web.conftest import fresh_settings


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    """No server has started yet."""
    return fresh_settings(tmp_path)


def test_ones_own_first_document_is_closed(settings: Settings, tmp_path: Path, demo_data: dict[str, Any]) -> None:
    own = tmp_path / "own.json"
    own.write_text(json.dumps(demo_data), encoding="utf-8")
    client = create_app(replace(settings, first_document=own)).test_client()
    assert client.get("/api/sites").json == []
    assert client.get("/api/sites/quinta-das-mares/document").status_code == 404


def test_the_demo_site_is_known_however_its_path_is_written(settings: Settings) -> None:
    client = create_app(replace(settings, first_document=Path(os.path.relpath(DEMO)))).test_client()
    assert len(client.get("/api/sites").json) == 1


def test_a_site_that_was_there_before_stays_as_open_as_it_was(settings: Settings, tmp_path: Path) -> None:
    """Another first document, at a later start, opens and closes nothing."""
    create_app(settings)
    missing = replace(settings, first_document=tmp_path / "none.json")
    assert len(create_app(missing).test_client().get("/api/sites").json) == 1
