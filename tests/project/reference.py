"""The reference part of DEVELOPERS.md, written from the code itself.

`.venv/bin/python tests/project/reference.py` writes it anew; a test fails while it is out of step.
"""

from __future__ import annotations

import importlib
import pkgutil
import re
import sys
from collections.abc import Callable, Iterator
from dataclasses import MISSING, Field, fields
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
PAGE = ROOT / "DEVELOPERS.md"
sys.path.insert(0, str(ROOT / "server"))

import click  # noqa: E402

from pengan import commands  # noqa: E402
from pengan.engine.document.fields import Kind, kind_of  # noqa: E402
from pengan.engine.document.tables import TABLES  # noqa: E402
from pengan.web.app import create_app  # noqa: E402
from pengan.web.settings import Settings  # noqa: E402


def command_lines() -> Iterator[str]:
    """One row a command, with its arguments and options."""
    yield from ("| command | what it does | options |", "|---|---|---|")
    for name, command in sorted(every_command().items()):
        arguments = [param.human_readable_name.upper() for param in command.params if isinstance(param, click.Argument)]
        options = [param.opts[0] for param in command.params if isinstance(param, click.Option)]
        what = " ".join((command.help or "").split("\n\n")[0].split())
        yield f"| `{' '.join(['pengan', name, *arguments])}` | {what} | {', '.join(f'`{item}`' for item in options)} |"


def every_command() -> dict[str, click.Command]:
    """The commands as they were written, by name."""
    names = [module.name for module in pkgutil.iter_modules(commands.__path__)]
    modules = {name.rstrip("_"): importlib.import_module(f"{commands.__name__}.{name}") for name in names}
    return {
        name: next(item for item in vars(module).values() if isinstance(item, click.Command))
        for name, module in modules.items()
    }


def setting_lines() -> Iterator[str]:
    """One row a setting of the server."""
    yield from ("| variable | without it | what it is |", "|---|---|---|")
    for item in fields(Settings):
        default = item.default.relative_to(ROOT) if _is_ours(item.default) else item.default
        shown = "" if default in (None, "") else f"`{default}`"
        yield f"| `{item.metadata['name']}` | {shown} | {item.metadata['help']} |"


def _is_ours(default: object) -> bool:
    return isinstance(default, Path) and default.is_relative_to(ROOT)


OPEN_API = "What this server answers, described as OpenAPI 3.1."
"""The one view that flask-smorest brings along."""


def route_lines() -> Iterator[str]:
    """One row a route of the server."""
    yield from ("| route | what it answers |", "|---|---|")
    with TemporaryDirectory() as folder:
        app = create_app(Settings(data=Path(folder)))
    for rule in sorted(app.url_map.iter_rules(), key=lambda rule: rule.rule):
        methods = ", ".join(sorted((rule.methods or set()) - {"HEAD", "OPTIONS"}))
        view = app.view_functions[rule.endpoint]
        what = (view.__doc__ or "").strip().split("\n")[0] if view.__module__.startswith("pengan.") else OPEN_API
        yield f"| `{methods} {rule.rule}` | {what} |"


def field_lines() -> Iterator[str]:
    """A heading and a table for each table of the document."""
    for table in TABLES:
        yield from (f"#### `{table.table}`", "", " ".join((table.__doc__ or "").split()), "")
        yield from ("| field | holds | what it is |", "|---|---|---|")
        for item in fields(table):
            kind = kind_of(item)
            yield f"| `{item.name}` | {_holds(item, kind)} | {kind.about} |"
        yield ""


def _holds(item: Field[Any], kind: Kind) -> str:
    parts = [f"id of `{kind.table}`" if kind.table else kind.name.replace("_", " "), _bounds(kind), kind.unit or ""]
    if kind.choices:
        parts = [", ".join(f"`{choice}`" for choice in kind.choices)]
    if kind.required:
        parts.append("**required**")
    elif item.default not in (None, "", MISSING):
        parts.append(f"default `{item.default}`")
    return "; ".join(part for part in parts if part)


def _bounds(kind: Kind) -> str:
    if kind.least is None or kind.most is None or kind.name == "id":
        return ""
    if kind.name == "text":
        return f"up to {kind.most:g} letters"
    return f"{kind.least:,g} to {kind.most:,g}" if kind.most < 1e6 else f"{kind.least:g} to {int(kind.most):,}"


SECTIONS: dict[str, Callable[[], Iterator[str]]] = {
    "commands": command_lines,
    "settings": setting_lines,
    "routes": route_lines,
    "fields": field_lines,
}


def with_reference(page: str) -> str:
    """The page with every section between its two marks written from the code."""
    for name, lines in SECTIONS.items():
        written = f"<!-- {name}: from the code -->\n\n" + "\n".join(lines()).strip() + f"\n\n<!-- end of {name} -->"
        marks = re.compile(rf"<!-- {name}: from the code -->.*?<!-- end of {name} -->", re.DOTALL)
        page, count = marks.subn(lambda _found, text=written: text, page)
        if count != 1:
            raise ValueError(f"DEVELOPERS.md needs one section {name}, found {count}")
    return page


if __name__ == "__main__":
    PAGE.write_text(with_reference(PAGE.read_text("utf-8")), "utf-8")
