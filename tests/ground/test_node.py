"""Which Node builds the app, and that either kind does."""

from __future__ import annotations

import os
import shutil
import tomllib
from pathlib import Path

import pytest

from checkout import check_out, python, without_node
from ground.build_hook import PenganBuildHook
from ground.house import ROOT
from ground.node import WHEEL, new_enough, node_in_wheel, node_on_path


def node_folder(folder: Path, version: str) -> str:
    """A folder with a Node that only knows its version, and an npm."""
    folder.mkdir()
    for name, line in (("node", f"echo {version}"), ("npm", "exit 0")):
        (folder / name).write_text(f"#!/bin/sh\n{line}\n")
        (folder / name).chmod(0o755)
    return str(folder)


@pytest.mark.parametrize("version", [(20, 19, 0), (20, 20, 2), (22, 12, 0), (24, 0, 0), (25, 1, 0)])
def test_vite_runs_on_these_versions(version: tuple[int, ...]) -> None:
    """Vite 8.3's own package.json: `engines.node` is `^20.19.0 || >=22.12.0`."""
    assert new_enough(version)


@pytest.mark.parametrize("version", [(18, 20, 8), (20, 18, 3), (21, 7, 3), (22, 11, 0), None])
def test_vite_does_not_run_on_these_versions(version: tuple[int, ...] | None) -> None:
    assert not new_enough(version)


def test_an_old_node_on_path_is_passed_over(tmp_path: Path) -> None:
    assert node_on_path(node_folder(tmp_path / "old", "v18.20.8")) is None


def test_a_node_that_does_not_say_its_version_is_passed_over(tmp_path: Path) -> None:
    assert node_on_path(node_folder(tmp_path / "odd", "hello")) is None


def test_a_node_that_is_new_enough_is_taken_from_path(tmp_path: Path) -> None:
    found = node_on_path(node_folder(tmp_path / "new", "v22.12.0"))
    assert found is not None
    assert found.node == tmp_path / "new" / "node"
    assert found.environment()["PATH"].split(os.pathsep)[0] == str(tmp_path / "new")


def test_the_build_asks_for_the_wheel_only_where_path_has_no_node(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    hook = PenganBuildHook.__new__(PenganBuildHook)
    monkeypatch.setenv("PATH", node_folder(tmp_path / "new", "v24.1.0"))
    assert hook.dependencies() == []
    monkeypatch.setenv("PATH", node_folder(tmp_path / "old", "v16.0.0"))
    assert hook.dependencies() == [WHEEL]


def test_the_wheel_is_the_one_that_the_project_names() -> None:
    extras = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]["optional-dependencies"]
    assert extras["node"] == [WHEEL]


@pytest.mark.parametrize("way", ["the wheel", pytest.param("PATH", marks=pytest.mark.journey)])
def test_the_app_is_built_with_node_from(way: str, tmp_path: Path) -> None:
    """From nothing but the sources: npm's packages, the translations, the page.

    Only what the planner's packing has kept is taken over: it is found by its content, whichever Node packed it, and
    packing takes most of a minute.
    """
    checkout = check_out(tmp_path / "checkout")
    kept = Path("pwa", "generated", "planner")
    shutil.copytree(ROOT / kept, checkout / kept)
    path = without_node(tmp_path / "programs")
    if way == "PATH":
        path = f"{a_node_on_path(tmp_path / 'bin')}{os.pathsep}{path}"
    done = python(checkout, "-m", "ground.build", PATH=path, PYTHONPATH=str(checkout / "server"))
    assert done.returncode == 0, done.stdout + done.stderr
    page = (checkout / "server" / "pengan" / "web" / "app" / "index.html").read_text("utf-8")
    assert "<script" in page
    assert list((checkout / "server" / "pengan" / "words" / "compiled").glob("*.mo"))


def a_node_on_path(folder: Path) -> Path:
    """Where the system's Node lies; where it has none, a folder through which the wheel's is reached as if it were."""
    if found := node_on_path():
        return found.node.parent
    wheel = node_in_wheel()
    assert wheel is not None
    folder.mkdir()
    for name, command in (("node", [str(wheel.node)]), ("npm", wheel.npm)):
        (folder / name).write_text(f'#!/bin/sh\nexec {" ".join(command)} "$@"\n')
        (folder / name).chmod(0o755)
    return folder
