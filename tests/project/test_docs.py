"""What the two pages say is there, and what is there is said."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from pengan.engine.document.tables import TABLES
from project.reference import PAGE, every_command, with_reference
from project.sources import ROOT, our_files, our_texts

README = ROOT / "README.md"
VARIABLE = re.compile(r"\bPENGAN_[A-Z_]+\b")


def both_pages() -> str:
    return README.read_text("utf-8") + PAGE.read_text("utf-8")


def test_the_reference_is_in_step_with_the_code() -> None:
    """If it is not: .venv/bin/python tests/project/reference.py"""
    page = PAGE.read_text("utf-8")
    assert with_reference(page) == page


def test_every_variable_that_the_code_reads_is_described_and_no_other() -> None:
    read = {
        name
        for path, text in our_texts()
        if path.parts[0] in {"server", "pwa"} and path.suffix in {".py", ".ts", ".tsx"}
        for name in VARIABLE.findall(text)
    }
    assert set(VARIABLE.findall(both_pages())) == read


def test_every_command_that_the_pages_name_exists() -> None:
    named = set(re.findall(r"(?:`|\n *)(?:pengan|python3 server) ([a-z]+)\b", both_pages()))
    assert named <= set(every_command())
    assert {"night", "check", "import"} <= named


def test_every_file_that_the_pages_name_exists() -> None:
    """Paths with a folder in them; what is made by a build or a start is not looked for."""
    made = ("data", "server/pengan/web/app", "server/pengan/words/compiled", "pwa/generated", "pwa/node_modules")
    named = set(re.findall(r"[`(]((?:server|pwa|tests|fixtures|translations|\.ci)/[\w./-]*\w/?)[`)]", both_pages()))
    ours = {str(path) for path in our_files()} | {str(folder) for path in our_files() for folder in path.parents}
    missing = [name for name in sorted(named) if name.rstrip("/") not in ours and not name.startswith(made)]
    assert not missing


@pytest.mark.parametrize("page", [README, PAGE], ids=lambda page: page.name)
def test_every_link_inside_the_project_leads_somewhere(page: Path) -> None:
    targets = re.findall(r"\]\((?!https?:)([^)#]+)", page.read_text("utf-8"))
    assert not [target for target in targets if not (ROOT / target).exists()]


def test_every_table_has_its_word_explained() -> None:
    page = PAGE.read_text("utf-8")
    assert not [table.table for table in TABLES if f"`{table.table}`" not in page]


def test_the_readme_names_the_system_packages_that_ci_installs() -> None:
    installed = re.findall(r"missing\+=\(([\w-]+)\)", (ROOT / ".ci" / "run").read_text("utf-8"))
    assert installed
    assert not [package for package in installed if f"`{package}`" not in README.read_text("utf-8")]
