"""The list of threats in DEVELOPERS.md names tests that exist, and the server's code keeps to what the list says."""

from __future__ import annotations

import ast
import re
from functools import cache
from pathlib import Path

import pytest

from project.sources import ROOT, imports, modules

PAGE = ROOT / "DEVELOPERS.md"
ITEM = re.compile(r"\d{1,2}\.\d{1,2}\.\d{1,2}")
RUNNERS = {"pickle", "marshal", "shelve", "yaml", "subprocess", "pty", "code"}
CALLERS = {"requests", "httpx", "aiohttp", "urllib3", "urllib.request", "http.client", "smtplib", "ftplib"}
STARTS_OURS = {("server/pengan/web/ahead/children.py", "subprocess")}
"""It starts our own job process, with words of ours alone."""
ASKS = {
    *(("server/pengan/web/need/fetching/asking.py", name) for name in ("urllib.request", "http.client")),
    ("server/pengan/web/push/calling.py", "requests"),
}
"""The places that call somebody: a weather service, where the operator has named it, and known push services."""
TEXT_RUNNERS = {"eval", "exec", "compile", "system", "popen"}


def rows() -> list[list[str]]:
    """The cells of each row of the list."""
    text = PAGE.read_text("utf-8")
    listed = text[text.index("<!-- threats:") : text.index("<!-- end of threats -->")]
    lines = [line for line in listed.splitlines() if line.startswith("|")][2:]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines]


@cache
def names_in(file: Path) -> frozenset[str]:
    tree = ast.parse(file.read_text("utf-8"))
    return frozenset(node.name for node in ast.walk(tree) if isinstance(node, ast.FunctionDef))


def test_every_threat_has_its_item_what_stands_against_it_and_a_test_that_exists() -> None:
    assert len(rows()) > 50
    missing = []
    for items, threat, against, test in rows():
        assert all(ITEM.fullmatch(item) for item in items.split(", ")), items
        assert threat and against
        file, name = test.strip("`").split("::")
        path = ROOT / "tests" / file
        if not path.is_file() or name not in names_in(path):
            missing.append(test)
    assert not missing


def test_the_items_left_open_are_not_claimed() -> None:
    """What is done otherwise is told in full below the list."""
    text = PAGE.read_text("utf-8").split("<!-- end of threats -->")[1]
    told = re.findall(r"^- \*\*([\d.]+)\*\*", text, re.MULTILINE)
    claimed = {item for items, *_ in rows() for item in items.split(", ")}
    assert {"6.3.3", "6.2.8", "6.5.2", "7.3.2"} <= set(told)
    assert not {"6.3.3", "6.2.8", "6.5.2", "7.3.2"} & claimed


def test_the_server_runs_no_text_and_calls_nobody() -> None:
    """No shell, no pickle, no `eval`, and no library that opens a line to somebody else."""
    rooms = ("pengan.web", "pengan.engine", "pengan.words", "pengan.exchange")
    served = [module for module in modules() if module.name.startswith(rooms)]
    assert len(served) > 150
    faults = [
        f"{module.path}:{line} imports {name}"
        for module in served
        for name, line in imports(module)
        if (name.split(".")[0] in RUNNERS | CALLERS or name in CALLERS)
        and (module.path.as_posix(), name) not in STARTS_OURS | ASKS
    ]
    for module in served:
        for node in ast.walk(module.tree):
            if isinstance(node, ast.Call):
                called = getattr(node.func, "id", "") or _of_module(node.func)
                if called in TEXT_RUNNERS:
                    faults.append(f"{module.path}:{node.lineno} calls {called}")
    assert not faults, "\n".join(faults)


def _of_module(called: ast.expr) -> str:
    """`system` of `os.system`; methods of other things may be called like that."""
    if (
        isinstance(called, ast.Attribute)
        and isinstance(called.value, ast.Name)
        and called.value.id in {"os", "builtins"}
    ):
        return called.attr
    return ""


@pytest.mark.parametrize("source", ["eval('1')", "import os\nos.system('ls')"])
def test_the_check_notices(source: str) -> None:
    calls = [node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Call)]
    assert (getattr(calls[0].func, "id", "") or _of_module(calls[0].func)) in TEXT_RUNNERS
