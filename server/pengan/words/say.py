"""Puts what the engine says into a reader's language, with their units, times and the site's names."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable, Mapping

from .. import engine
from ..engine.message import SAYINGS, Message, Param, Saying
from .durations import write_duration
from .figures import write_figure
from .isolates import isolate
from .moments import write_clock, write_date, write_time
from .names import NAMED, Names, NoNames
from .quantities import write
from .reader import Reader, current_reader
from .units import BASE_SUFFIXES

NOTHING = "—"


class UnknownSaying(LookupError):
    """A message whose code no part of this engine declares: it was made by another version."""


def say(message: Message, reader: Reader | None = None, names: Names | None = None) -> str:
    """The message as one sentence. Raises `UnknownSaying` for a code that is declared nowhere."""
    reader = reader or current_reader()
    spoken = _declared(message.code)
    template = _template(spoken, message.params, reader)
    shown = {name: _shown(name, value, reader, names or NoNames()) for name, value in message.params.items()}
    return template.format_map(shown)


def _declared(code: str) -> Saying:
    if code not in SAYINGS:
        import_every_saying()
    if code not in SAYINGS:
        raise UnknownSaying(code)
    return SAYINGS[code]


def import_every_saying() -> None:
    """Imports all of the engine, so that every sentence it can say is declared."""
    for module in pkgutil.walk_packages(engine.__path__, f"{engine.__name__}."):
        importlib.import_module(module.name)


def _template(spoken: Saying, params: Mapping[str, Param], reader: Reader) -> str:
    if spoken.many is None or spoken.count is None:
        return reader.gettext(spoken.template)
    count = params[spoken.count]
    return reader.catalogue.ngettext(spoken.template, spoken.many, int(count or 0))


def _shown(name: str, value: Param, reader: Reader, names: Names) -> str:
    """One parameter as this reader sees it; the end of its name tells what it is."""
    if value is None:
        return NOTHING
    last = name.rpartition("_")[2]
    if last in NAMED:
        return isolate(names.name(last, str(value)), reader)
    writer = _WRITERS.get(last)
    if writer is not None and ("_" in name or last in _WHOLE_NAMES):
        return isolate(writer(value, reader, names), reader)
    return isolate(str(value), reader) if isinstance(value, str) else write_figure(value, 3, reader)


def _at(value: Param, reader: Reader, names: Names) -> str:
    wall, mark = names.local(int(value or 0))
    return write_time(wall, reader) + mark


def _amount(quantity: str) -> Callable[[Param, Reader, Names], str]:
    return lambda value, reader, _names: write(quantity, float(value or 0), reader)


_WHOLE_NAMES = frozenset({"at", "count", "date", "clock"})
_WRITERS: Mapping[str, Callable[[Param, Reader, Names], str]] = {
    **{suffix: _amount(quantity) for suffix, quantity in BASE_SUFFIXES.items()},
    "s": lambda value, reader, _names: write_duration(float(value or 0), reader),
    "at": _at,
    "clock": lambda value, reader, _names: write_clock(str(value), reader),
    "date": lambda value, reader, _names: write_date(str(value), reader),
    "pct": lambda value, reader, _names: write_percent(float(value or 0), reader),
    "count": lambda value, reader, _names: write_figure(float(value or 0), 0, reader),
}


def write_percent(value: float, reader: Reader) -> str:
    """Per cent as the reader's language writes it, with one decimal at most."""
    return reader.gettext("{figure} %", figure=write_figure(value, 1, reader))
