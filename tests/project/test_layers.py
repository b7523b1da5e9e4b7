"""The rooms of the house: who may import whom, and what the engine may not touch."""

from __future__ import annotations

import ast
import re
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from project.sources import ROOT, Module, imports, modules, our_files

ENGINE, WORDS, EXCHANGE, WEB = "pengan.engine", "pengan.words", "pengan.exchange", "pengan.web"
FIELD, FIELD_LINE = "pengan.field", "pengan.field.line"
TERMINAL, ENTRY = "pengan.terminal", {"pengan", "pengan.cli", "pengan.commands", "pengan.__main__"}
PHONE_PACKAGES = {"tzdata", "astral"}
MAY_IMPORT = {
    ENGINE: {ENGINE},
    WORDS: {ENGINE, WORDS},
    FIELD_LINE: {ENGINE, FIELD, FIELD_LINE},
    FIELD: {ENGINE, WORDS, FIELD},
    EXCHANGE: {ENGINE, WORDS, EXCHANGE},
    WEB: {ENGINE, WORDS, FIELD, EXCHANGE, WEB},
    TERMINAL: {ENGINE, WORDS, TERMINAL},
}
BUILD_TIME = {"ground.build": "pengan", "ground.build_hook": "hatchling"}

# What would make two machines disagree, or would not run on a phone.
OUTSIDE_WORLD = {
    "asyncio", "concurrent", "ctypes", "getpass", "glob", "http", "io", "locale", "logging", "multiprocessing", "os",
    "pathlib", "platform", "queue", "secrets", "select", "shutil", "signal", "socket", "ssl", "subprocess", "tempfile",
    "threading", "time", "urllib", "uuid",
}  # fmt: skip
OUTSIDE_CALLS = {"open", "input", "print", "exec", "eval", "__import__", "hash"}
CLOCK_CALLS = {"now", "today", "utcnow", "fromtimestamp", "localtime", "astimezone"}


def room_of(name: str) -> str | None:
    return next((room for room in MAY_IMPORT if name == room or name.startswith(f"{room}.")), None)


def engine() -> list[Module]:
    return [module for module in modules() if room_of(module.name) == ENGINE]


@pytest.mark.parametrize("room", MAY_IMPORT)
def test_a_room_imports_only_the_rooms_below_it(room: str) -> None:
    faults = [
        f"{module.path}:{line} imports {name}"
        for module in modules()
        if room_of(module.name) == room
        for name, line in imports(module)
        if name.split(".")[0] in {"pengan", "ground"} and room_of(name) not in MAY_IMPORT[room]
    ]
    assert not faults, "\n".join(faults)


def test_every_module_has_a_room() -> None:
    """A new folder of `pengan` names its room here, or it is part of the way in."""
    ours = [module.name for module in modules() if module.name.split(".")[0] == "pengan"]
    assert not [
        name for name in ours if room_of(name) is None and name not in ENTRY and not name.startswith("pengan.commands.")
    ]


def test_the_engine_needs_only_the_standard_library_and_what_travels_to_the_phone() -> None:
    allowed = sys.stdlib_module_names | PHONE_PACKAGES | {"pengan"}
    faults = [
        f"{module.path}:{line} imports {name}"
        for module in engine()
        for name, line in imports(module)
        if name.split(".")[0] not in allowed
    ]
    assert not faults, "\n".join(faults)


def test_the_engine_touches_no_clock_file_network_or_thread() -> None:
    faults = [fault for module in engine() for fault in touches(module)]
    assert not faults, "\n".join(faults)


def touches(module: Module) -> Iterator[str]:
    """Where a module reaches outside of its arguments."""
    for name, line in imports(module):
        if name.split(".")[0] in OUTSIDE_WORLD:
            yield f"{module.path}:{line} imports {name}"
        if name.split(".")[0] == "random" and name not in {"random", "random.Random"}:
            yield f"{module.path}:{line} imports {name}"
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Call) and (called := outside_call(node)):
            yield f"{module.path}:{node.lineno} calls {called}"


def outside_call(node: ast.Call) -> str | None:
    """The name of a call that asks the machine for something, `Random()` without a seed among them."""
    name, attribute = getattr(node.func, "id", ""), getattr(node.func, "attr", "")
    if name in OUTSIDE_CALLS or attribute in CLOCK_CALLS:
        return name or attribute
    if "Random" in (name, attribute):
        return None if node.args else "Random without a seed"
    if attribute and getattr(getattr(node.func, "value", None), "id", "") == "random":
        return f"random.{attribute}"
    return None


@pytest.mark.parametrize(
    "source",
    [
        "import os",
        "from time import monotonic",
        "from random import random",
        "import random\nrandom.shuffle([])",
        "import datetime\ndatetime.datetime.now()",
        "from random import Random\nRandom()",
        "open('x')",
    ],
)
def test_the_engine_check_notices(source: str) -> None:
    """The check above can fail: each of these reaches outside."""
    assert list(touches(Module("pengan.engine.x", Path("x.py"), ast.parse(source), False)))


def test_the_check_of_a_plan_shares_no_line_with_the_solver() -> None:
    faults = [
        f"{module.path}:{line} imports {name}"
        for module in engine()
        for name, line in imports(module)
        for one, other in [
            ("pengan.engine.check", "pengan.engine.plan.solve"),
            ("pengan.engine.plan.solve", "pengan.engine.check"),
        ]
        if module.name.startswith(one) and name.startswith(other)
    ]
    assert not faults, "\n".join(faults)


def test_routes_never_touch_the_database() -> None:
    routes = [module for module in modules() if module.name.startswith(WEB) and module.path.name == "routes.py"]
    assert routes
    faults = [
        f"{module.path}:{line} imports {name}"
        for module in routes
        for name, line in imports(module)
        if name.split(".")[0] == "sqlalchemy" or "models" in name.split(".") or name.startswith(f"{WEB}.database")
    ]
    assert not faults, "\n".join(faults)


def test_the_ground_floor_needs_nothing_but_the_standard_library() -> None:
    faults = [
        f"{module.path}:{line} imports {name}"
        for module in modules()
        if module.name == "__main__" or module.name.split(".")[0] == "ground"
        for name, line in imports(module)
        if name.split(".")[0] not in sys.stdlib_module_names | {"ground", BUILD_TIME.get(module.name)}
    ]
    assert not faults, "\n".join(faults)


def test_screens_never_touch_storage_or_the_line() -> None:
    screens = [path for path in our_files() if path.parts[0] == "pwa" and path.suffix == ".tsx"]
    assert screens
    reach = re.compile(r"\b(fetch|indexedDB|localStorage|sessionStorage|XMLHttpRequest|WebSocket|EventSource)\b")
    faults = [
        f"{path}:{number} {line.strip()}"
        for path in screens
        if ".test." not in path.name
        for number, line in enumerate((ROOT / path).read_text("utf-8").splitlines(), 1)
        if reach.search(line)
    ]
    assert not faults, "\n".join(faults)
