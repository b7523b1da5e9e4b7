"""Everything the API's description promises, tried with data made from that same description, sound and unsound.

No answer is a failure of the server, and each has a status, a type and a shape that the description names.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
import schemathesis.openapi
from flask import Flask
from hypothesis import HealthCheck, given, settings
from schemathesis import GenerationMode
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_headers_conformance,
    response_schema_conformance,
    status_code_conformance,
)

from sync.world import Grounds, new_grounds

EXAMPLES = 8  # of each operation, for each of the two kinds of data and either person
CHECKS = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_headers_conformance,
    response_schema_conformance,
]
PLAIN = {"Accept-Encoding": "identity"}
ENDLESS = "/api/sync/nudges"
"""A stream of events goes on for a minute; it has tests of its own."""


@pytest.fixture
def description(one_server: Flask) -> Any:
    """The API's own description of itself."""
    return schemathesis.openapi.from_wsgi("/api/openapi.json", one_server)


def operations(description: Any) -> Iterator[Any]:
    """Every operation that is described."""
    for found in description.get_all_operations():
        operation = found.ok()
        if operation.path != ENDLESS:
            yield operation


@pytest.mark.parametrize("mode", [GenerationMode.POSITIVE, GenerationMode.NEGATIVE], ids=["sound", "unsound"])
@pytest.mark.parametrize("who", ["ana", "nobody"])
def test_every_answer_is_as_described(description: Any, one_server: Flask, mode: GenerationMode, who: str) -> None:
    faults = []
    tried = 0
    for operation in operations(description):
        if mode is GenerationMode.NEGATIVE and not (operation.body or operation.query):
            continue  # nothing in it can be unsound
        tried += 1
        try:
            try_one(operation, mode, new_grounds(one_server), who)
        except (Exception, BaseExceptionGroup) as fault:  # noqa: BLE001  (all operations are reported at once)
            faults.append(f"{operation.label}: {fault}")
    assert not faults, "\n\n".join(faults)
    assert tried > 12


def try_one(operation: Any, mode: GenerationMode, grounds: Grounds, who: str) -> None:
    """One operation, with a site that is there and with whatever else is made up."""
    cookies = {} if who == "nobody" else {"pengan": grounds.members[who].token}

    @settings(max_examples=EXAMPLES, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
    @given(case=operation.as_strategy(generation_mode=mode))
    def ask(case: Any) -> None:
        if "site_id" in (case.path_parameters or {}) and mode is GenerationMode.POSITIVE:
            case.path_parameters["site_id"] = grounds.site
        case.call_and_validate(checks=CHECKS, cookies=cookies, headers=PLAIN)

    ask()
