"""What the engine says: a stable code, its parameters, and the English template they belong to.

The engine never writes a finished sentence. A `Saying` is declared once, beside the rule that
uses it; calling it makes a `Message`, which travels in sheets and faults as `{"code", "params"}`.
`pengan.words` (and the app) put it into a language where a person reads it.

The end of a parameter's name tells what it is, so that every reader gets their own units:

| name ends in | value | read as |
|---|---|---|
| `_lpm` | litres per minute | a flow |
| `_l` | litres | a volume |
| `_s` | seconds | a duration |
| `_at` | instant: whole seconds since 1970-01-01T00:00Z | a local time of the site |
| `_clock` | `HH:MM` on the site's wall | a clock time |
| `_date` | `YYYY-MM-DD` | a calendar date |
| `_ma`, `_mm`, `_kpa`, `_m2`, `_pct` | as named | the quantity |
| `_count` | whole number | a count |
| `site`, `supply`, `controller`, `hydrozone`, `station` | record id | the record's name |
| `program`, `turn`, `window`, `closure`, `asked` | record id | the record's name |
| anything else | text or number | as it stands |
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

Param = str | int | float | None


@dataclass(frozen=True, slots=True)
class Message:
    """One thing said: the code of a `Saying` and the values for its placeholders."""

    code: str
    params: Mapping[str, Param]

    def as_json(self) -> dict[str, object]:
        """The shape it has in sheets, faults and API answers: `{"code": …, "params": {…}}`."""
        return {"code": self.code, "params": dict(sorted(self.params.items()))}


@dataclass(frozen=True, slots=True)
class Saying:
    """A sentence the engine can say. `many` and `count` are set where it has a plural form."""

    code: str
    template: str
    many: str | None = None
    count: str | None = None

    def __call__(self, **params: Param) -> Message:
        return Message(self.code, MappingProxyType(params))


_sayings: dict[str, Saying] = {}
SAYINGS: Mapping[str, Saying] = MappingProxyType(_sayings)


def saying(code: str, template: str) -> Saying:
    """Declare a sentence. Translators find it by the keyword `saying:2`."""
    return _declare(Saying(code, template))


def saying_plural(code: str, one: str, many: str, *, count: str) -> Saying:
    """Declare a sentence that changes with the number in the parameter `count`."""
    return _declare(Saying(code, one, many, count))


def _declare(new: Saying) -> Saying:
    if _sayings.setdefault(new.code, new) != new:
        raise ValueError(f"two sayings share the code {new.code!r}")
    return new
