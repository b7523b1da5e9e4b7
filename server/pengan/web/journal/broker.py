"""The MQTT broker of the settings."""

from __future__ import annotations

import ssl
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
    """The broker. Raises `ValueError` with a sentence where its address is none or who should vouch for it is no
    certificate, and `OSError` for a file that cannot be read."""
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
    is_private = parts.scheme == "mqtts"
    ca = _certificate(settings.mqtt_ca) if is_private and settings.mqtt_ca is not None else None
    return Broker(parts.hostname, port or PORTS[parts.scheme], is_private, user, password, ca)


def _certificate(file: Path) -> Path:
    """The file, which is read anew with each connection, so that a certificate may be renewed."""
    content = file.read_bytes()
    try:
        ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT).load_verify_locations(cadata=content.decode("ascii"))
    except (ssl.SSLError, ValueError):
        told = _("{name}: {path} holds no certificate (PEM).", name="PENGAN_MQTT_CA", path=str(file))
        raise ValueError(told) from None
    return file
