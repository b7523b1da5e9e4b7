"""Every sentence the code can say, found in the source of Python and TypeScript without running any of it."""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_file

from .languages import ROOT

_PYTHON: Mapping[str, tuple[int, ...]] = {
    "_": (1,), "N_": (1,), "gettext": (1,), "ngettext": (1, 2), "N_plural": (1, 2),
    "saying": (2,), "saying_plural": (2, 3),
}  # fmt: skip
_PAGE: Mapping[str, tuple[int, ...]] = {"t": (1,), "tn": (1, 2)}
_TRANSLATORS = ("Translators:",)

PLACEHOLDER = re.compile(r"\{(\w+)(?:![rs])?\}")


@dataclass(frozen=True, slots=True)
class Declared:
    """A `saying` as it stands in the source, for those who cannot import it: the app, and a build."""

    code: str
    template: str
    many: str | None
    count: str | None


def template_catalogue(root: Path = ROOT, files: Callable[[Path], Iterator[Path]] | None = None) -> Catalog:
    """All sentences with the files they come from, sorted, as translators' tools expect them."""
    catalogue = Catalog(project="Pengan", charset="utf-8", fuzzy=False)
    for path in (files or source_files)(root):
        keywords = _PYTHON if path.suffix == ".py" else _PAGE
        method, options = ("python", {}) if path.suffix == ".py" else ("javascript", {"jsx": "yes"})
        found = extract_from_file(method, path, keywords, _TRANSLATORS, options, strip_comment_tags=True)
        for line, message, comments, _context in found:
            catalogue.add(message, locations=[(path.relative_to(root).as_posix(), line)], auto_comments=comments)
        for text, line in _command_texts(path):
            catalogue.add(text, locations=[(path.relative_to(root).as_posix(), line)])
    return catalogue


def _command_texts(path: Path) -> Iterator[tuple[str, int]]:
    """What commands say about themselves: docstrings of functions decorated by Click, and `help` and `metavar`."""
    if path.suffix != ".py" or not (path.parent.name == "commands" or path.name in {"cli.py", "spoken.py"}):
        return
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.FunctionDef) and any("click" in ast.dump(item) for item in node.decorator_list):
            yield from ((text, node.lineno) for text in [ast.get_docstring(node)] if text)
        if isinstance(node, ast.keyword) and node.arg in {"help", "metavar"} and isinstance(node.value, ast.Constant):
            yield str(node.value.value), node.value.lineno


def source_files(root: Path = ROOT) -> Iterator[Path]:
    """The files sentences can stand in, in a fixed order."""
    for room in ("ground", "pengan"):
        yield from sorted((root / "server" / room).rglob("*.py"))
    page = [path for suffix in ("ts", "tsx") for path in (root / "pwa" / "src").rglob(f"*.{suffix}")]
    yield from sorted(path for path in page if ".test." not in path.name)


def page_files(root: Path = ROOT) -> Iterator[Path]:
    """The files whose sentences the page can show: its own, the engine's, the server's, the units'."""
    rooms = [root / "pwa", *(root / "server" / "pengan" / room for room in ("engine", "web", "words"))]
    return (path for path in source_files(root) if any(path.is_relative_to(room) for room in rooms))


def first_files(root: Path = ROOT) -> Iterator[Path]:
    """The files whose sentences the page's first screen can show: its own, the night sheet's, the units'."""
    rule = json.loads((root / "pwa" / "build" / "first-screen.json").read_text(encoding="utf-8"))
    told = (root / "server" / "pengan" / "engine" / "plan", root / "server" / "pengan" / "words" / "units.py")
    for path in page_files(root):
        text = path.as_posix()
        first = re.search(rule["rooms"], text) or re.search(rule["words"], text)
        if any(path.is_relative_to(room) for room in told) or (first and not re.search(rule["later"], text)):
            yield path


def declared_sayings(root: Path = ROOT, files: Callable[[Path], Iterator[Path]] | None = None) -> list[Declared]:
    """Every `saying(...)` and `saying_plural(...)` of the Python source, by code."""
    python = (path for path in (files or source_files)(root) if path.suffix == ".py")
    found = [saying for path in python for saying in _sayings_in(ast.parse(path.read_text(encoding="utf-8")))]
    return sorted(found, key=lambda saying: saying.code)


def _sayings_in(tree: ast.Module) -> Iterator[Declared]:
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Name):
            continue
        texts = [arg.value for arg in node.args if isinstance(arg, ast.Constant) and isinstance(arg.value, str)]
        if node.func.id == "saying" and len(texts) == 2:
            yield Declared(texts[0], texts[1], None, None)
        if node.func.id == "saying_plural" and len(texts) == 3:
            yield Declared(texts[0], texts[1], texts[2], _count(node))


def _count(node: ast.Call) -> str | None:
    values = (keyword.value for keyword in node.keywords if keyword.arg == "count")
    return next((str(value.value) for value in values if isinstance(value, ast.Constant)), None)
