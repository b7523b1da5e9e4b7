"""Click's own sentences are ours to translate, so the list must be that of the Click which is installed."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from pengan.terminal.click_sentences import PLURALS, SENTENCES

MODULES = ("core", "decorators", "exceptions", "formatting", "parser", "types")

# No command of ours can bring Click to say these: they are about mistakes in a command's code, or kinds of
# parameter, prompts and confirmations that we do not use.
NEVER_SAID = {
    "(dynamic)", "%(prog)s, version %(version)s", "Argument {name!r} takes {nargs} values.", "Choice({choices})",
    "Confirm the action without prompting.", "Do you want to continue?", "Missing {param_type}",
    "Missing parameter: {param_name}", "Name '{name}' defined twice", "Value must be an iterable.", "deprecated",
    "Arguments take exactly one parameter declaration, got {length}: {decls}.",
    "Boolean option {decl!r} cannot use the same flag for true/false.",
    "Could not determine name for option with declarations {decls!r}",
    "DeprecationWarning: The command {name!r} is deprecated.{extra_message}",
    "DeprecationWarning: The {param_type} {name!r} is deprecated.{extra_message}",
    "Invalid start character for option ({option})", "{value!r} is not a valid UUID.",
    "No options defined but a name was passed ({name}). Did you mean to declare an argument instead? Did you mean to "
    "pass '--{name}'?",
    "{len_type} values are required, but {len_value} was given.",
    "{len_type} values are required, but {len_value} were given.", "{name} {filename!r} is not executable.",
}  # fmt: skip


def _said(module: str) -> Iterator[str]:
    path = Path(str(click.__file__)).with_name(f"{module}.py")
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in {"_", "ngettext"}:
            yield from (arg.value for arg in node.args if isinstance(arg, ast.Constant) and isinstance(arg.value, str))


@pytest.mark.parametrize("module", MODULES)
def test_every_sentence_of_click_is_known(module: str) -> None:
    ours = {*SENTENCES, *(form for pair in PLURALS for form in pair)}
    assert set(_said(module)) - ours - NEVER_SAID == set()


def test_click_says_all_that_is_translated_for_it() -> None:
    said = {sentence for module in MODULES for sentence in _said(module)}
    listed = {*SENTENCES, *(form for pair in PLURALS for form in pair), *NEVER_SAID}
    assert listed - said == set()
