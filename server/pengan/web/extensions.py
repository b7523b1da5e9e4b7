"""What requests share: the database, the clock, the settings and the API's description."""

from __future__ import annotations

import time
from dataclasses import dataclass
from typing import cast

from flask import Flask, current_app, g
from flask_smorest import Api
from sqlalchemy.orm import Session
from werkzeug.exceptions import HTTPException

from pengan.engine.clock.instants import Instant

from .database import Database
from .own_secret import OwnSecret
from .problem_shape import ProblemSchema
from .problems import http_problem
from .settings import Settings

KEY = "pengan"
PROBLEM_TYPE = "application/problem+json"


@dataclass(frozen=True, slots=True)
class Shared:
    """What one app holds for all its requests."""

    settings: Settings
    database: Database
    secret: OwnSecret


class ProblemApi(Api):
    """The API's description and parsing; failures take the same shape as everywhere else."""

    ERROR_SCHEMA = ProblemSchema

    def _register_responses(self) -> None:
        """Describe failures under the media type that they have; everything else stays plain JSON."""
        self.DEFAULT_RESPONSE_CONTENT_TYPE = PROBLEM_TYPE
        super()._register_responses()
        del self.DEFAULT_RESPONSE_CONTENT_TYPE

    def handle_http_exception(self, error: HTTPException) -> object:
        """Answer a failure raised while a request was parsed."""
        return http_problem(error)


def share(app: Flask, shared: Shared) -> None:
    """Hand the shared things to the app; each request's session is closed when the request ends."""
    app.extensions[KEY] = shared
    app.teardown_appcontext(_close_session)


def shared() -> Shared:
    """What the current app shares."""
    return cast(Shared, current_app.extensions[KEY])


def session() -> Session:
    """The current request's database session."""
    if "session" not in g:
        g.session = shared().database.session()
    return cast(Session, g.session)


def _close_session(_error: BaseException | None) -> None:
    opened = g.pop("session", None)
    if opened is not None:
        opened.close()


def now() -> Instant:
    """The instant it is: the machine's clock, or where the settings made it stand still."""
    fixed = shared().settings.now
    return Instant(int(fixed.timestamp() if fixed else time.time()))
