"""A server with people, and what tests ask of it: codes, browsers, people who came in."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Any

from flask import Flask
from flask.testing import FlaskClient

from pengan.engine.clock.instants import Instant
from pengan.web.extensions import KEY, Shared
from pengan.web.people.invitations import invite_from_the_server
from pengan.web.people.rights import Role

SITE, BESIDE = "quinta-das-mares", "beside"


@dataclass
class Server:
    """The app, and what a test asks of it."""

    app: Flask

    @property
    def shared(self) -> Shared:
        """What its requests share."""
        shared: Shared = self.app.extensions[KEY]
        return shared

    @property
    def now(self) -> Instant:
        """The instant at which its clock stands."""
        assert self.shared.settings.now is not None
        return Instant(int(self.shared.settings.now.timestamp()))

    def later(self, **by: float) -> None:
        """Let time pass."""
        settings = self.shared.settings
        assert settings.now is not None
        self.app.extensions[KEY] = replace(self.shared, settings=replace(settings, now=settings.now + timedelta(**by)))

    def code(self, role: Role, site: str = SITE) -> str:
        """A code from the server's own command line."""
        with self.shared.database.session() as session:
            invited = invite_from_the_server(session, self.shared.secret, site, role, None, self.now, 72)
        return invited.code

    def browser(self, ip: str = "192.0.2.1") -> FlaskClient:
        """A browser with no cookie."""
        client = self.app.test_client()
        client.environ_base["REMOTE_ADDR"] = ip
        return client

    def person(self, role: Role, site: str = SITE, name: str = "Maria") -> FlaskClient:
        """A browser in which somebody came in."""
        client = self.browser()
        answer = client.post("/api/invitations/join", json=joining(self.code(role, site), name))
        assert answer.status_code == 201, answer.text
        return client


def joining(code: str, name: str = "Maria", **more: object) -> dict[str, object]:
    """What somebody sends who comes in by a code."""
    return {"code": code, "name": name, "language": "es", "device_name": "phone", **more}


def me(client: FlaskClient) -> dict[str, Any]:
    """Who is signed in."""
    answer = client.get("/api/session")
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json
    return found
