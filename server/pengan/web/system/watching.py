"""What machines ask that watch over the server: is it alive, is it ready, how is it doing. No part of the API."""

from __future__ import annotations

import hmac
import time
from ipaddress import ip_address

from flask import Blueprint, Response, jsonify, request

from ..ahead.waiting import waiting
from ..extensions import now, session, shared
from ..problems import Problem, nothing_here
from .metrics import CONTENT_TYPE, figures
from .operations import is_ready

watch = Blueprint("watch", __name__)


@watch.get("/health")
def health() -> Response:
    """This process answers. It asks nobody else, so that a database in trouble does not get servers restarted."""
    return _never_kept(jsonify(status="ok"))


@watch.get("/ready")
def ready() -> Response:
    """The database answers and its tables are those of this version: requests may come."""
    well = is_ready(session())
    answer = _never_kept(jsonify(status="ready" if well else "not ready"))
    answer.status_code = 200 if well else 503
    return answer


@watch.get("/metrics")
def metrics() -> Response:
    """Figures in Prometheus' text format, for this machine alone or with the key of the settings."""
    if not _may_see(shared().settings.metrics_key):
        raise Problem(404, nothing_here())
    text = figures(waiting(session(), now(), int(time.time())))
    return _never_kept(Response(text, content_type=CONTENT_TYPE))


def _may_see(key: str) -> bool:
    """With a key, whoever has it. Without one, this machine, but not what a proxy on it passes on."""
    if key:
        given = request.headers.get("Authorization", "").encode()
        return hmac.compare_digest(given, f"Bearer {key}".encode())
    passed_on = any(name.lower().startswith(("x-forwarded", "forwarded")) for name, _value in request.headers)
    return not passed_on and _is_this_machine(request.remote_addr)


def _is_this_machine(address: str | None) -> bool:
    try:
        return address is not None and ip_address(address).is_loopback
    except ValueError:
        return False


def _never_kept(response: Response) -> Response:
    response.cache_control.no_store = True
    return response
