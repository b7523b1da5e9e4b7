"""No function, module or component grows past the size at which people stop reading it."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from project.sources import ROOT, our_files

FUNCTION_LINES = 60
MODULE_LINES = 500
COMPONENT_LINES = 150

# May only shrink: whatever stands here is measured anew, and an entry that is no longer needed fails.
EXCEPTIONS: dict[str, int] = {}


WRITTEN_BY_A_PROGRAM = "Not written by hand."
"""In the first line of a file that nobody reads from end to end: its generator is what has to stay small."""


def code() -> Iterator[tuple[Path, str]]:
    for path in our_files():
        if path.suffix in {".py", ".ts", ".tsx", ".css"}:
            text = (ROOT / path).read_text("utf-8")
            if WRITTEN_BY_A_PROGRAM not in text.partition("\n")[0]:
                yield path, text


def functions(path: Path, text: str) -> Iterator[tuple[str, int]]:
    """Each function of a Python file and its lines, decorators and docstring included."""
    for node in ast.walk(ast.parse(text, str(path))):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            first = min([node.lineno, *(item.lineno for item in node.decorator_list)])
            yield f"{path}::{node.name}", (node.end_lineno or node.lineno) - first + 1


def page_functions(path: Path, text: str) -> Iterator[tuple[str, int]]:
    """Each named function of a formatted TypeScript file: from its first line to the brace that closes its indent."""
    lines = text.splitlines()
    opening = re.compile(r"^(\s*)(?:export )?(?:default )?(?:async )?(?:function\*?|const) (\w+)\b.*\{$")
    for first, line in enumerate(lines):
        if found := opening.match(line):
            closing = re.compile(rf"^{found[1]}\}}")
            ends = (index for index in range(first + 1, len(lines)) if closing.match(lines[index]))
            yield f"{path}::{found[2]}", next(ends, first) - first + 1


def oversized() -> Iterator[tuple[str, int, int]]:
    """Name, size and limit of whatever is too large."""
    for path, text in code():
        measured = functions(path, text) if path.suffix == ".py" else page_functions(path, text)
        yield from ((name, size, FUNCTION_LINES) for name, size in measured if size > FUNCTION_LINES)
        lines = len(text.splitlines())
        limit = COMPONENT_LINES if path.suffix == ".tsx" and ".test." not in path.name else MODULE_LINES
        if lines > limit:
            yield str(path), lines, limit


def test_nothing_is_too_large_to_read() -> None:
    faults = [
        f"{name} has {size} lines; {limit} is the limit"
        for name, size, limit in oversized()
        if size > EXCEPTIONS.get(name, 0)
    ]
    assert not faults, "\n".join(faults)


def test_no_exception_is_larger_than_it_needs_to_be() -> None:
    """An exception that shrank, or is gone, leaves the list."""
    sizes = {name: size for name, size, _limit in oversized()}
    assert sizes == {name: size for name, size in sizes.items() if name not in EXCEPTIONS} | EXCEPTIONS


def test_the_measure_sees_a_long_function() -> None:
    body = "\n".join("    pass" for _ in range(FUNCTION_LINES))
    assert list(functions(Path("a.py"), f"def long():\n{body}\n")) == [("a.py::long", FUNCTION_LINES + 1)]
    lines = "\n".join("  f();" for _ in range(FUNCTION_LINES))
    assert list(page_functions(Path("a.ts"), f"export function long() {{\n{lines}\n}}\n")) == [
        ("a.ts::long", FUNCTION_LINES + 2)
    ]
