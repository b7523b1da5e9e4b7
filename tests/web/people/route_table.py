"""What each route answers whom, at a site that is closed to strangers. A route that is not here fails the test.

`nobody` is not signed in; `stranger` manages a site of another team. Codes are HTTP's: 401 nobody is signed in, 403 the
role does not allow it, 404 as if there were nothing, to those who may not even read.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any
from uuid import uuid4

from web.people.crew import BESIDE

WHO = ("nobody", "stranger", "crew", "lead", "manager")
"""From those who may least to those who may most: whoever is refused leaves things as they were for the next."""

READS = (404, 404, 200, 200, 200)
NOTHING = (404, 404, 404, 404, 404)
SIGNED_IN_READS = (401, 404, 200, 200, 200)
EVERYBODY = (200, 200, 200, 200, 200)
SIGNED_IN = (401, 200, 200, 200, 200)
THEIR_OWN = (401, 204, 204, 204, 204)
MANAGERS = (401, 404, 403, 403, 200)
MANAGERS_MAKE = (401, 404, 403, 403, 201)
MANAGERS_END = (401, 404, 403, 403, 204)
OF_SOMEBODY = (401, 404, 404, 404, 204)
"""Whoever manages nothing of a person's is told that there is no such person."""


@dataclass(frozen=True)
class Ids:
    """What stands ready: somebody with the role `crew`, their device, an open invitation, an edit that is held."""

    person: str
    device: str
    invitation: str
    held: str
    code: str


@dataclass(frozen=True)
class Row:
    """One route with one method: where to send what, and what each of `WHO` is answered."""

    rule: str
    method: str
    expected: tuple[int, ...]
    path: Callable[[Ids], str] = field(default=lambda _ids: "")
    body: Callable[[Ids], dict[str, Any]] = field(default=lambda _ids: {})

    @property
    def key(self) -> tuple[str, str]:
        """What names it in the app's own map."""
        return self.rule, self.method


def _row(line: str, expected: tuple[int, ...], at: str = "", /, **body: Any) -> Row:
    method, rule = line.split(" ")
    path = (at or rule).replace("<site_id>", BESIDE)
    return Row(rule, method, expected, lambda ids: _filled(path, ids), lambda ids: _filled(body, ids))


def _filled(given: Any, ids: Ids) -> Any:
    if isinstance(given, dict):
        return {name: _filled(value, ids) for name, value in given.items()}
    if isinstance(given, list):
        return [_filled(value, ids) for value in given]
    named = {"<person_id>": ids.person, "<device_id>": ids.device, "<invitation_id>": ids.invitation,
             "<edit_id>": ids.held, "<code>": ids.code}  # fmt: skip
    for name, value in named.items():
        given = given.replace(name, value) if isinstance(given, str) else given
    return given


def planting(edit: str = "") -> dict[str, Any]:
    """A push that adds a planting to the site; `edit` is the id of the edit."""
    new, about = str(uuid4()), "hydrozones"
    added = {"id": edit or str(uuid4()), "kind": "add", "table": about, "record": new, "field": None, "seen": None}
    now = {"table": about, "id": new, "name": "Roses"}
    return {"sets": [{"id": str(uuid4()), "site": BESIDE, "edits": [{**added, "now": now, "format": 1}]}]}


PROFILE = {"name": "A", "language": "en"}
JOINING = {**PROFILE, "device_name": "phone"}
SUBSCRIPTION = {"endpoint": "https://localhost/push/1", "keys": {"p256dh": "A" * 87, "auth": "A" * 22}}
ROWS = (
    _row("GET /", EVERYBODY),
    _row("GET /<path:path>", EVERYBODY, "/anything"),
    _row("GET /health", EVERYBODY),
    _row("GET /ready", EVERYBODY),
    _row("GET /metrics", (404, 404, 404, 404, 404)),
    _row("GET /api/openapi.json", EVERYBODY),
    _row("GET /api/reference", EVERYBODY),
    _row("GET /api/reference.css", EVERYBODY),
    _row("GET /api/health", EVERYBODY),
    _row("GET /api/clock", EVERYBODY),
    _row("GET /api/about", SIGNED_IN),
    _row("GET /api/sites", EVERYBODY),
    _row("GET /api/sites/<site_id>/document", READS),
    _row("GET /api/sites/<site_id>/nights", READS),
    _row("GET /api/sites/<site_id>/nights/<night>", READS, "/api/sites/<site_id>/nights/tonight"),
    _row("GET /api/sites/<site_id>/nights/<night>/clock", READS, "/api/sites/<site_id>/nights/tonight/clock"),
    _row("GET /api/sites/<site_id>/nights/tonight/catch-up", SIGNED_IN_READS),
    # That night is over: whoever may accept is told so.
    _row(
        "POST /api/sites/<site_id>/nights/tonight/catch-up",
        (401, 404, 403, 409, 409),
        id="a-rest-of-it",
        night="2026-01-01",
        at=0,
        way="keep",
    ),
    _row("GET /api/sites/<site_id>/notices", READS),
    _row("GET /api/sites/<site_id>/need/<night>", READS, "/api/sites/<site_id>/need/tonight"),
    # Who may read is told that there is no such turn, no such hydrozone.
    _row("GET /api/sites/<site_id>/need/<night>/turns/<turn_id>", NOTHING, "/api/sites/<site_id>/need/tonight/turns/x"),
    _row(
        "GET /api/sites/<site_id>/need/<night>/turns/<turn_id>/table.csv",
        NOTHING,
        "/api/sites/<site_id>/need/tonight/turns/x/table.csv",
    ),
    _row(
        "GET /api/sites/<site_id>/need/hydrozones/<hydrozone_id>/season",
        NOTHING,
        "/api/sites/<site_id>/need/hydrozones/x/season",
    ),
    _row(
        "GET /api/sites/<site_id>/need/hydrozones/<hydrozone_id>/season.csv",
        NOTHING,
        "/api/sites/<site_id>/need/hydrozones/x/season.csv",
    ),
    _row("GET /api/sites/<site_id>/need/suggestions", READS),
    _row("GET /api/sites/<site_id>/need/budget/<year>", READS, "/api/sites/<site_id>/need/budget/2026"),
    _row(
        "GET /api/sites/<site_id>/need/budget/<year>/table.csv",
        READS,
        "/api/sites/<site_id>/need/budget/2026/table.csv",
    ),
    _row("GET /api/sites/<site_id>/weather-stations", MANAGERS),
    _row("POST /api/sites/<site_id>/weather-stations", MANAGERS_MAKE, name="Mast by the pond"),
    _row(
        "DELETE /api/sites/<site_id>/weather-stations/<weather_station_id>",
        (401, 404, 403, 403, 404),
        "/api/sites/<site_id>/weather-stations/none",
    ),
    # Only a station's own token opens it, no person's cookie.
    _row("POST /api/weather/readings", (401, 401, 401, 401, 401)),
    _row("GET /api/sites/<site_id>/journal", SIGNED_IN_READS),
    _row("POST /api/sites/<site_id>/journal", SIGNED_IN_READS, entries=[]),
    _row("GET /api/sites/<site_id>/journal/table.csv", SIGNED_IN_READS),
    # No JSON either, and so turned away; `tests/web/journal/test_bringing.py` brings real files in every role.
    _row("POST /api/sites/<site_id>/journal/table.csv", (415, 415, 415, 415, 415)),
    _row("GET /api/sites/<site_id>/journal/aside", SIGNED_IN_READS),
    # Only a reporter's own token opens it, no person's cookie.
    _row("POST /api/journal/entries", (401, 401, 401, 401, 401)),
    _row("GET /api/sites/<site_id>/reporters", MANAGERS),
    _row("POST /api/sites/<site_id>/reporters", MANAGERS_MAKE, name="Cabinet by the gate"),
    _row(
        "DELETE /api/sites/<site_id>/reporters/<reporter_id>",
        (401, 404, 403, 403, 404),
        "/api/sites/<site_id>/reporters/none",
    ),
    _row("GET /api/sites/<site_id>/alarms", READS),
    # There is no such alarm: whoever may do this is told so.
    _row(
        "PUT /api/sites/<site_id>/alarms/<alarm_id>/seen",
        (401, 404, 404, 404, 404),
        "/api/sites/<site_id>/alarms/none/seen",
    ),
    _row(
        "PUT /api/sites/<site_id>/alarms/<alarm_id>/explained",
        (401, 404, 404, 404, 404),
        "/api/sites/<site_id>/alarms/none/explained",
        kind="fault",
    ),
    _row(
        "PUT /api/sites/<site_id>/alarms/<alarm_id>/ended",
        (401, 404, 403, 404, 404),
        "/api/sites/<site_id>/alarms/none/ended",
    ),
    _row("GET /api/sites/<site_id>/used", READS),
    _row("GET /api/sites/<site_id>/used/table.csv", READS),
    _row("GET /api/sites/<site_id>/used/table.xlsx", READS),
    # There is no such photo: who may see it is told so. Photos are no JSON, and turned away before anybody is asked;
    # `tests/web/photos` sends real ones in every role.
    _row(
        "GET /api/sites/<site_id>/photos/<photo_id>",
        (401, 404, 404, 404, 404),
        "/api/sites/<site_id>/photos/none-of-them",
    ),
    _row(
        "PUT /api/sites/<site_id>/photos/<photo_id>",
        (415, 415, 415, 415, 415),
        "/api/sites/<site_id>/photos/none-of-them",
    ),
    _row("GET /api/push/key", EVERYBODY),
    # No push service of ours: whoever is signed in is told so.
    _row("PUT /api/push/subscription", (401, 422, 422, 422, 422), **SUBSCRIPTION),
    _row("DELETE /api/push/subscription", THEIR_OWN),
    _row("GET /api/push/wishes", SIGNED_IN),
    _row("PUT /api/push/wishes", SIGNED_IN, least="grave"),
    _row("GET /api/sites/<site_id>/history", SIGNED_IN_READS),
    _row("GET /api/sites/<site_id>/history/document", READS),
    # Nothing of that name can be undone: who may undo is told so.
    _row("POST /api/sites/<site_id>/history/undo", (401, 404, 403, 404, 404), which="none"),
    # A phone whose person is signed out is told so, and keeps its outbox.
    _row("POST /api/sync/hello", (200, 404, 200, 200, 200), protocol=1, site=BESIDE),
    _row("POST /api/sync/pull", READS, site=BESIDE),
    _row("POST /api/sync/push", SIGNED_IN, **planting()),
    _row("GET /api/sync/revision", READS, f"/api/sync/revision?site={BESIDE}"),
    _row("GET /api/sync/nudges", READS, f"/api/sync/nudges?site={BESIDE}"),
    _row("POST /api/sync/sites/<site_id>/waiting/<edit_id>", MANAGERS, decision="decline"),
    _row("GET /api/session", SIGNED_IN),
    _row("POST /api/session", (403, 403, 403, 403, 403), name="x", password="y", device_name="z"),
    _row("DELETE /api/session", THEIR_OWN),
    _row("PUT /api/session/profile", SIGNED_IN, **PROFILE),
    # The stranger manages a site too, and has a password like every manager.
    _row("PUT /api/session/password", (401, 204, 403, 403, 409), name="one name", password="oleander terrace pump 7"),
    _row("GET /api/devices", SIGNED_IN),
    _row("DELETE /api/devices", THEIR_OWN),
    _row("POST /api/devices/code", (401, 201, 201, 201, 201)),
    _row("DELETE /api/devices/<device_id>", (401, 404, 404, 404, 404)),
    _row("GET /api/people", SIGNED_IN_READS, f"/api/people?site={BESIDE}"),
    _row("DELETE /api/people/<person_id>", OF_SOMEBODY),
    _row("PUT /api/people/<person_id>/role", MANAGERS_END, site=BESIDE, role="lead"),
    _row("POST /api/people/<person_id>/code", (401, 404, 404, 404, 201)),
    _row("GET /api/people/<person_id>/devices", (401, 404, 404, 404, 200)),
    _row("DELETE /api/people/<person_id>/devices/<device_id>", OF_SOMEBODY),
    _row("GET /api/invitations", MANAGERS, f"/api/invitations?site={BESIDE}"),
    _row("POST /api/invitations", MANAGERS_MAKE, site=BESIDE, role="manager"),
    _row("DELETE /api/invitations/<invitation_id>", OF_SOMEBODY),
    _row("POST /api/invitations/join", (403, 403, 403, 403, 403), **JOINING, code="NO-SUCH"),
)
