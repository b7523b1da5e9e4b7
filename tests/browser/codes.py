"""Codes that let somebody in, made in the server's own data as `pengan invite` makes them, without its long start."""

from __future__ import annotations

from datetime import UTC, datetime

from playwright.sync_api import BrowserContext

from browser.standing import NOW, Standing
from pengan.engine.clock.instants import Instant
from pengan.web.database import Database
from pengan.web.own_secret import own_secret
from pengan.web.people.invitations import invite_from_the_server
from pengan.web.people.rights import Role
from pengan.web.settings import Settings

SITE = "quinta-das-mares"


def code_for(server: Standing, role: Role) -> str:
    """A code that lets one device in."""
    return code_in(Settings(data=server.folder, now=datetime.fromisoformat(NOW)), role)


def code_in(settings: Settings, role: Role) -> str:
    """The same for any server, by its settings."""
    database, instant = Database(settings.database_url), settings.now or datetime.now(UTC)
    now = Instant(int(instant.timestamp()))
    try:
        with database.session() as session:
            secret = own_secret(settings.secret_path)
            return invite_from_the_server(session, secret, SITE, role, None, now, settings.invitation_hours).code
    finally:
        database.engine.dispose()


def let_in(context: BrowserContext, server: Standing, role: Role, name: str, device: str = "Phone") -> None:
    """The phone joins as somebody new, before it has opened any page."""
    body = {"code": code_for(server, role), "name": name, "language": "en", "device_name": device}
    answer = context.request.post(f"{server.address}/api/invitations/join", data=body)
    assert answer.status == 201, answer.text()
