"""From the OpenAPI document to what a person reads: calls by subject, and the shapes they speak of."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

Spec = Mapping[str, Any]
METHODS = ("get", "post", "put", "patch", "delete")


@dataclass(frozen=True, slots=True)
class Answer:
    """What comes back: HTTP's status (or `default`), the words for it and the shape of its body, if it has one."""

    status: str
    meaning: str
    shape: str | None


@dataclass(frozen=True, slots=True)
class Call:
    """One route with one method. `takes` is the shape of its body; `parameters` are (name, where it stands, about)."""

    method: str
    path: str
    summary: str
    parameters: tuple[tuple[str, str, str], ...]
    takes: str | None
    answers: tuple[Answer, ...]


@dataclass(frozen=True, slots=True)
class Subject:
    """What belongs together in the description: its name, what it is about, its calls in order."""

    name: str
    about: str
    calls: tuple[Call, ...]


def subjects(spec: Spec) -> list[Subject]:
    """Every call of the description, under its first tag."""
    calls = list(_calls(spec))
    return [
        Subject(tag["name"], tag.get("description", ""), tuple(call for name, call in calls if name == tag["name"]))
        for tag in spec.get("tags", ())
    ]


def shapes(spec: Spec) -> list[tuple[str, str]]:
    """Every shape by name, as JSON Schema on several lines."""
    found = spec.get("components", {}).get("schemas", {})
    return [(name, json.dumps(found[name], indent=2, ensure_ascii=False)) for name in sorted(found)]


def _calls(spec: Spec) -> Iterator[tuple[str, Call]]:
    for path, item in spec.get("paths", {}).items():
        for method in METHODS:
            if method in item:
                call = item[method]
                yield call["tags"][0], _call(spec, path, method, call, item.get("parameters", []))


def _call(spec: Spec, path: str, method: str, call: Spec, shared: list[Spec]) -> Call:
    parameters = [_resolved(spec, one) for one in (*shared, *call.get("parameters", []))]
    return Call(
        method=method.upper(),
        path=path,
        summary=call.get("summary", ""),
        parameters=tuple((one["name"], one["in"], one.get("description", "")) for one in parameters),
        takes=_shape(call.get("requestBody", {})),
        answers=tuple(_answer(status, _resolved(spec, one)) for status, one in call.get("responses", {}).items()),
    )


def _answer(status: str, answer: Spec) -> Answer:
    return Answer(status, answer.get("description", ""), _shape(answer))


def _resolved(spec: Spec, part: Spec) -> Spec:
    """The part itself, or what its `$ref` points at within the document."""
    found: Any = part
    while "$ref" in found:
        steps = found["$ref"].removeprefix("#/").split("/")
        found = spec
        for step in steps:
            found = found[step]
    return found  # type: ignore[no-any-return]


def _shape(part: Spec) -> str | None:
    """The name of the shape that a body has; of a list, that of its items."""
    for content in part.get("content", {}).values():
        schema = content.get("schema", {})
        reference = schema.get("$ref") or schema.get("items", {}).get("$ref")
        if reference:
            return str(reference).rpartition("/")[2]
    return None
