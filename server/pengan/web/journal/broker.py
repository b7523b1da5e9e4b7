"""The MQTT broker of the settings."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import urlsplit

from pengan.words.reader import _

from ..settings import Settings

PORTS = {"mqtt": 1883, "mqtts": 8883}
"""Registered with IANA for MQTT, and for MQTT over TLS."""


@dataclass(frozen=True, slots=True)
class Broker:
    """Where the broker is, and how one signs in there. `ca` vouches for it in the place of the system's list."""

    host: str
    port: int
    is_private: bool = False
    user: str | None = None
    password: str | None = field(default=None, repr=False)
    ca: Path | None = None


def broker_of(settings: Settings) -> Broker:
    """The broker. Raises `ValueError` with a sentence where its address is none, and `OSError` for the password's
    file."""
    try:
        parts = urlsplit(settings.mqtt)
        port = parts.port
    except ValueError:
        parts, port = urlsplit(""), None
    plain = not (parts.path.strip("/") or parts.query or parts.fragment or parts.username or parts.password)
    if parts.scheme not in PORTS or not parts.hostname or not plain:
        raise ValueError(
            _(
                "{name} must be like {example} or {other}, not “{given}”.",
                name="PENGAN_MQTT", example="mqtt://localhost:1883", other="mqtts://broker.example.org",
                given=settings.mqtt,
            )
        )  # fmt: skip
    file = settings.mqtt_password_file
    password = None if file is None else file.read_text(encoding="utf-8").rstrip("\r\n")
    user = settings.mqtt_user or None
    return Broker(
        parts.hostname, port or PORTS[parts.scheme], parts.scheme == "mqtts", user, password, settings.mqtt_ca
    )
