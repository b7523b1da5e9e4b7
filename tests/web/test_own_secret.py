"""The server's own secret: made once, for its user alone, the same for all processes."""

from __future__ import annotations

import stat
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import pytest

from pengan.web.app import create_app
from pengan.web.own_secret import BYTES, own_secret
from pengan.web.settings import Settings
from web.conftest import fresh_settings


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    """No server has started yet."""
    return fresh_settings(tmp_path)


def test_it_is_made_at_the_first_start_for_its_user_alone(settings: Settings) -> None:
    create_app(settings)
    file = settings.data / "secret"
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert stat.S_IMODE(settings.data.stat().st_mode) == 0o700
    assert len(file.read_bytes()) == BYTES
    before = file.read_bytes()
    create_app(settings)
    assert file.read_bytes() == before


def test_those_who_start_together_have_the_same(tmp_path: Path) -> None:
    with ThreadPoolExecutor(8) as many:
        found = {one.key for one in many.map(lambda _: own_secret(tmp_path / "secret"), range(8))}
    assert len(found) == 1
    assert [path.name for path in tmp_path.iterdir()] == ["secret"]


def test_its_place_can_be_chosen(settings: Settings, tmp_path: Path) -> None:
    create_app(replace(settings, secret_file=tmp_path / "kept" / "key"))
    assert (tmp_path / "kept" / "key").is_file()
    assert not (settings.data / "secret").exists()


def test_what_is_no_secret_stops_the_start(tmp_path: Path) -> None:
    (tmp_path / "secret").write_bytes(b"short")
    with pytest.raises(OSError):
        own_secret(tmp_path / "secret")


def test_one_text_hashes_differently_for_each_purpose_and_server(tmp_path: Path) -> None:
    one, other = own_secret(tmp_path / "one"), own_secret(tmp_path / "other")
    hashes = {one.hashed("a", "x"), one.hashed("b", "x"), one.hashed("a", "y"), other.hashed("a", "x")}
    assert len(hashes) == 4 and one.hashed("a", "x") in hashes
    assert str(one.key) not in repr(one)
