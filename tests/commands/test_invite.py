"""`pengan invite`: the way in of a site's first manager."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from pengan.cli import main
from pengan.web.app import create_app
from pengan.web.settings import Settings

SITE = "quinta-das-mares"


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """The data folder of a server that was started once."""
    create_app(Settings(data=tmp_path / "data", effort=1))
    return tmp_path / "data"


def run(data: Path, *words: str, **environ: str) -> Result:
    given = {"PENGAN_DATA": str(data), "PENGAN_LANGUAGE": "en", **environ}
    return CliRunner().invoke(main, ["invite", *words], env=given)


def test_its_code_makes_the_first_manager(data: Path) -> None:
    told = run(data, SITE, "--role", "manager").output
    code = re.search(r"Code: (\S+)", told)
    assert code is not None
    body = {"code": code[1], "name": "Ana", "language": "en", "device_name": "desk"}
    answer = create_app(Settings(data=data)).test_client().post("/api/invitations/join", json=body)
    assert answer.status_code == 201
    assert answer.json["sites"] == [{"site": SITE, "role": "manager", "scope": 1}]


def test_it_tells_the_address_people_reach_the_server_at(data: Path) -> None:
    assert "http://127.0.0.1:8484/join#" in run(data, SITE, "--role", "crew").output
    assert (
        "https://water.example/join#"
        in run(data, SITE, "--role", "crew", PENGAN_ADDRESS="https://water.example").output
    )
    told = run(data, SITE, "--role", "crew", "--address", "https://a.example/", "--qr").output
    assert "https://a.example/join#" in told and "▄" in told


def test_a_site_that_is_not_there_is_one_line(data: Path) -> None:
    told = run(data, "nowhere", "--role", "manager")
    assert (told.exit_code, told.output) == (1, "Error: There is no site nowhere here.\n")
