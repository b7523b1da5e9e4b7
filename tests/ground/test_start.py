"""`python3 server` on a machine that lacks something says so in one line, and starts at once where it lacks nothing."""

from __future__ import annotations

import ast
import os
import re
import signal
import socket
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from urllib.request import urlopen

import pytest

from checkout import check_out, python, run
from ground.house import ROOT, program

PRETEND = """import runpy, sys
{pretence}
sys.argv = ["{name}"]
runpy.run_path("{name}", None, "__main__")
"""


@pytest.fixture(scope="module")
def checkout(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return check_out(tmp_path_factory.mktemp("checkout"))


@pytest.fixture
def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


def one_line(done: subprocess.CompletedProcess[str]) -> str:
    """The last line on stderr of a program that failed; no traceback before it."""
    assert done.returncode == 1, done.stdout + done.stderr
    assert "Traceback" not in done.stderr
    return done.stderr.splitlines()[-1]


@pytest.mark.parametrize("name", ["server", "tests"])
def test_an_old_python_is_told_so(name: str) -> None:
    pretence = "sys.version_info = (3, 8, 19, 'final', 0)"
    done = python(ROOT, "-c", PRETEND.format(pretence=pretence, name=name))
    assert one_line(done) == "Pengan needs Python 3.11 or newer. This is Python 3.8."


@pytest.mark.parametrize("name", ["server", "tests"])
def test_an_old_python_can_read_the_file_that_tells_it(name: str) -> None:
    """Nothing newer than Python 3.0: no f-string, no annotation, no `:=`."""
    tree = ast.parse((ROOT / name / "__main__.py").read_text("utf-8"), feature_version=(3, 4))
    newer = (ast.JoinedStr, ast.AnnAssign, ast.NamedExpr, ast.AsyncFunctionDef, ast.Match)
    assert not [node for node in ast.walk(tree) if isinstance(node, newer)]


@pytest.mark.parametrize("module", ["venv", "ensurepip"])
def test_a_python_without_venv_is_told_which_package_brings_it(module: str, checkout: Path) -> None:
    done = python(checkout, "-c", PRETEND.format(pretence=f"sys.modules['{module}'] = None", name="server"))
    assert one_line(done) == f"This Python lacks {module}. On Debian and Ubuntu, install the package python3-venv."


def test_no_network_is_said_in_one_line(checkout: Path) -> None:
    nowhere = {"PIP_CONFIG_FILE": os.devnull, "PIP_INDEX_URL": "http://127.0.0.1:9/", "PIP_RETRIES": "1"}
    line = one_line(python(checkout, "server", **nowhere))
    assert line == "The packages could not be installed. The package registry did not answer: is there a network?"


def test_a_taken_port_is_said_in_one_line(tmp_path: Path) -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]
        command = [str(program("python")), "-m", "pengan", "serve", "--port", str(port)]
        done = run(command, ROOT, {"PENGAN_DATA": str(tmp_path)})
    assert f"Port {port} is taken by another program." in one_line(done)


@pytest.mark.parametrize(
    ("setting", "value", "said"),
    [
        ("PENGAN_EFFORT", "much", "PENGAN_EFFORT"),
        ("PENGAN_DATABASE", "nonsense", "The database cannot be used"),
        ("PENGAN_DATABASE", "postgresql+psycopg://nobody@127.0.0.1:9/none", "The database cannot be used"),
        ("PENGAN_FIRST_DOCUMENT", "README.md", "README.md cannot be loaded as the first site."),
    ],
)
def test_a_setting_that_cannot_be_used_is_said_in_one_line(
    setting: str, value: str, said: str, tmp_path: Path, free_port: int
) -> None:
    command = [str(program("python")), "-m", "pengan", "serve", "--port", str(free_port)]
    assert said in one_line(run(command, ROOT, {"PENGAN_DATA": str(tmp_path), setting: value}))


def test_a_second_start_serves_the_page_and_makes_nothing_anew(tmp_path: Path, free_port: int) -> None:
    """How long it takes is for the benchmark `start` to say."""
    said = []
    for line in served(tmp_path, free_port):
        said.append(line)
        if found := re.search(r"http://127\.0\.0\.1:\d+/", line):
            assert urlopen(found[0], timeout=10).status == 200
            break
    assert "Pengan is at" in said[-1]
    assert not any("Installing" in line or "Making" in line for line in said)


def served(data: Path, port: int) -> Iterator[str]:
    """What `python3 server` prints and complains of, line by line. It is ended when the reader has seen enough."""
    environment = {**os.environ, "PENGAN_DATA": str(data), "PENGAN_LANGUAGE": "en"}
    command = [sys.executable, "server", "--port", str(port)]
    with subprocess.Popen(
        command, cwd=ROOT, env=environment, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    ) as server:
        try:
            assert server.stdout is not None
            yield from server.stdout
        finally:
            server.send_signal(signal.SIGTERM)
            server.wait(timeout=20)
