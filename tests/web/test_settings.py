"""Settings: each has a name, a default and a word of explanation; a wrong one is named."""

from __future__ import annotations

from dataclasses import fields
from datetime import UTC, datetime
from pathlib import Path

import pytest

from pengan.web.settings import Settings, settings_from


def test_without_an_environment_everything_has_a_default() -> None:
    assert settings_from({}) == Settings()
    assert Settings().database_url.startswith("sqlite:////")


def test_every_setting_is_read_from_its_name() -> None:
    given = settings_from(
        {
            "PENGAN_DATABASE": "postgresql+psycopg://somewhere/pengan",
            "PENGAN_DATA": "elsewhere",
            "PENGAN_FIRST_DOCUMENT": "site.json",
            "PENGAN_APP": "built",
            "PENGAN_NOW": "2026-10-24T23:30:00+01:00",
            "PENGAN_EFFORT": "12",
        }
    )
    assert given == Settings(
        database="postgresql+psycopg://somewhere/pengan",
        data=Path("elsewhere"),
        first_document=Path("site.json"),
        app=Path("built"),
        now=datetime(2026, 10, 24, 22, 30, tzinfo=UTC),
        effort=12,
    )
    assert given.database_url == "postgresql+psycopg://somewhere/pengan"


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("PENGAN_NOW", "tonight"),
        ("PENGAN_NOW", "2026-10-24T23:30:00"),
        ("PENGAN_EFFORT", "0"),
        ("PENGAN_EFFORT", "much"),
        ("PENGAN_LOG", "everything"),
        ("PENGAN_JOBS", "-1"),
        ("PENGAN_WORKERS", "0"),
        ("PENGAN_WEATHER_SERVICE", "the-radio"),
        ("PENGAN_WEATHER_SERVICE", "met-norway"),
        ("PENGAN_WEATHER_CONTACT", "water@example.org\r\nCookie: x"),
        ("PENGAN_WEATHER_CONTACT", "água@example.org"),
    ],
)
def test_a_setting_that_cannot_be_read_is_named(name: str, text: str) -> None:
    with pytest.raises(ValueError, match=name):
        settings_from({name: text})


def test_a_weather_service_is_asked_in_somebodys_name() -> None:
    """Without a contact it is a fault (above): the services' terms ask for one."""
    given = settings_from({"PENGAN_WEATHER_SERVICE": "MET-Norway", "PENGAN_WEATHER_CONTACT": "water@example.org"})
    assert (given.weather_service, given.weather_contact) == ("met-norway", "water@example.org")
    assert settings_from({}).weather_service == ""


def test_every_setting_says_what_it_is_for() -> None:
    told = [(item.metadata["name"], item.metadata["help"]) for item in fields(Settings)]
    assert all(name.startswith("PENGAN_") and len(text) > 20 for name, text in told)
    assert len({name for name, _ in told}) == len(told)


def test_how_it_serves_is_read_too() -> None:
    given = settings_from(
        {
            "PENGAN_JOBS": "0",
            "PENGAN_WORKERS": "4",
            "PENGAN_LISTEN": "0.0.0.0",
            "PENGAN_TLS_KEY": "key.pem",
            "PENGAN_LOG": "DEBUG",
        }
    )
    assert (given.jobs, given.workers, given.listen) == (0, 4, "0.0.0.0")
    assert (given.tls_key, given.log) == (Path("key.pem"), "debug")
