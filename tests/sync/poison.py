"""Pushes that no phone would send: a sound one with one thing in it made wrong, as bytes, and seeded."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable
from random import Random
from typing import Any

Row = dict[str, Any]
HUGE = 10**400
WRONG: tuple[object, ...] = (-1, 1.5, 2**63, HUGE, "\x00", "\ud800", "x" * 5000, [], [[]], {"a": {}}, True)
MANY = 10_000


def poisoned(sound: Row, random: Random, other_site: str) -> bytes:
    """The sound push, spoilt in one way."""
    push = copy.deepcopy(sound)
    spoil: Callable[[Row, Random], bytes] = random.choice(WAYS)
    if random.random() < 0.1:
        return _elsewhere(push, random, other_site)
    return spoil(push, random)


def _edit(push: Row, random: Random) -> Row:
    edit: Row = random.choice(random.choice(push["sets"])["edits"])
    return edit


def written(push: object) -> bytes:
    """As JSON, lone surrogates and all."""
    return json.dumps(push).encode("ascii")


def _wrong_type(push: Row, random: Random) -> bytes:
    """Something else where an id, a name or a number must stand."""
    edit = _edit(push, random)
    places = [(edit, name) for name in ("id", "kind", "table", "record", "field", "format", "phone_time", "settles")]
    places += [(push["sets"][0], name) for name in ("id", "site", "edits")] + [(push, "sets"), (push, "person")]
    place, name = random.choice(places)
    place[name] = random.choice([wrong for wrong in WRONG if _spoils(name, wrong)])
    return written(push)


def _spoils(name: str, wrong: object) -> bool:
    """A few wrong things are right in some places: a long name of a person, an odd time of the phone."""
    if name in ("phone_time", "person"):
        return not isinstance(wrong, str) or len(wrong) > 100
    return not (name == "format" and isinstance(wrong, int) and not isinstance(wrong, bool) and 0 < wrong < 2**31)


def _wrong_value(push: Row, random: Random) -> bytes:
    """A value that its field cannot have."""
    edit = _edit(push, random)
    wrong = random.choice([value for value in WRONG if value not in (1.5, True)])
    if isinstance(edit["now"], dict):
        edit["now"][random.choice(sorted(edit["now"]))] = wrong
    else:
        edit["now"] = wrong
    return written(push)


def _unknown(push: Row, random: Random) -> bytes:
    """A name that is not known there."""
    random.choice((push, push["sets"][0], _edit(push, random)))[f"extra{random.randrange(9)}"] = random.choice(WRONG)
    return written(push)


def _missing(push: Row, random: Random) -> bytes:
    """Without something it needs."""
    edit, first = _edit(push, random), push["sets"][0]
    places = [(push, "sets"), *((first, name) for name in ("id", "site", "edits"))]
    place, name = random.choice(
        places + [(edit, name) for name in ("id", "kind", "table", "record", "field", "format")]
    )
    del place[name]
    return written(push)


def _deep(push: Row, random: Random) -> bytes:
    """Nested past any reader's patience, in a place where a value may stand."""
    _edit(push, random)[random.choice(("now", "was", "seen", "id"))] = "HERE"
    depth = random.choice((60, 900, 4000))
    opening, closing = random.choice((("[", "]"), ('{"a":', "}")))
    return written(push).replace(b'"HERE"', (opening * depth + "1" + closing * depth).encode())


def _broken_bytes(push: Row, random: Random) -> bytes:
    """No JSON, or no UTF-8."""
    text = written(push)
    place = random.randrange(1, len(text))
    return random.choice(
        (
            text[:place],
            text.replace(b'"id": "', b'"id": "\xff\xfe\xc0', 1),
            text + text,
            *(b"", b"null", b"[]", b"7", b'"push"', b"NaN", b"\xef\xbb\xbf", b"<html></html>", b"\x00" * 40),
        )
    )


def _many(push: Row, random: Random) -> bytes:
    """More edits than a call may carry."""
    edit = _edit(push, random)
    push["sets"][0]["edits"] = [edit | {"id": f"n{n}"} for n in range(random.choice((101, 150, MANY)))]
    return written(push)


def _twice(push: Row, random: Random) -> bytes:
    """One name twice in an object: whoever reads it might take either."""
    return written(push).replace(b'"format": 1', b'"format": 1, "format": 1', 1)


def _elsewhere(push: Row, random: Random, other_site: str) -> bytes:
    """Speaks of a site that its sender has nothing to do with, or that is not there."""
    push["sets"][0]["site"] = random.choice((other_site, "no-such-site", "../../etc", "x" * 64))
    return written(push)


WAYS = (
    *(_wrong_type, _wrong_type, _wrong_type, _wrong_value, _wrong_value, _wrong_value),
    *(_unknown, _missing, _deep, _broken_bytes, _broken_bytes, _twice),
    _many,
)
