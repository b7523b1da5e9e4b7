"""Making `.venv` and installing Pengan into it, only where something has changed since the last time."""

from __future__ import annotations

import importlib.util
import json
import sys
from collections.abc import Iterable

from .fault import GroundFault, _
from .fingerprint import fingerprint
from .house import ROOT, VENV, program
from .node import node_on_path
from .progress import run_with_progress
from .web_app import is_built

_STAMP = VENV / "pengan.json"
_LOG = VENV / "install.log"
_RECIPE = ("pyproject.toml", "server/ground")
_NO_NETWORK = (
    "NewConnectionError",
    "Failed to establish a new connection",
    "Temporary failure in name resolution",
    "ConnectTimeoutError",
    "Network is unreachable",
    "EAI_AGAIN",
    "ENOTFOUND",
    "ECONNREFUSED",
    "ETIMEDOUT",
)
"""How pip and npm word it, the first four and the last four."""


def ensure_installed(extras: Iterable[str] = ()) -> None:
    """Make the virtual environment and install what is missing from it. Raises GroundFault with one clear line."""
    wanted = {*extras, *_node_extra()}
    if not _is_installed(wanted):
        _make_venv()
        _tell(_("Installing packages and building the app. The first time this takes a minute or two."))
        had = _stamp_extras()
        _install(sorted(wanted | had))
        _STAMP.write_text(json.dumps({"recipe": _recipe(), "extras": sorted(wanted | had)}), "utf-8")
    elif not is_built():
        _tell(_("Building the app anew."))
        _run([str(program("python")), "-m", "ground.build"], _("The app could not be built."))


def _node_extra() -> tuple[str, ...]:
    """The extra that brings Node in a wheel, where PATH has none that can build the app."""
    return () if node_on_path() else ("node",)


def _is_installed(extras: set[str]) -> bool:
    return program("python").exists() and _stamp().get("recipe") == _recipe() and extras <= _stamp_extras()


def _recipe() -> str:
    """What the installation follows from; the folder is part of it, since an editable install points at it."""
    return f"{fingerprint(ROOT, _RECIPE)} {ROOT}"


def _stamp() -> dict[str, object]:
    try:
        stamp = json.loads(_STAMP.read_text("utf-8"))
    except (OSError, ValueError):
        return {}
    return stamp if isinstance(stamp, dict) else {}


def _stamp_extras() -> set[str]:
    extras = _stamp().get("extras")
    return {str(extra) for extra in extras} if isinstance(extras, list) else set()


def _make_venv() -> None:
    """Make `.venv` where it is missing, or was made by a Python that is gone."""
    if program("python").exists():
        return
    missing = [name for name in ("venv", "ensurepip") if not _importable(name)]
    if missing:
        raise GroundFault(
            _("This Python lacks {module}. On Debian and Ubuntu, install the package python3-venv.", module=missing[0])
        )
    _tell(_("Making the virtual environment .venv."))
    _run([sys.executable, "-m", "venv", "--clear", str(VENV)], _("The virtual environment .venv could not be made."))


def _importable(name: str) -> bool:
    try:
        return importlib.util.find_spec(name) is not None
    except ValueError:
        return False


def _install(extras: list[str]) -> None:
    target = f"{ROOT}[{','.join(extras)}]" if extras else str(ROOT)
    pip = [str(program("python")), "-m", "pip", "--disable-pip-version-check", "--no-input", "install", "--editable"]
    _run([*pip, target], _("The packages could not be installed."))


def _run(command: list[str], failure: str) -> None:
    """Run it, its words in the install log. Raises GroundFault with `failure` and the cause, if it is a known one."""
    exit_code, said = run_with_progress(command)
    if VENV.is_dir():
        _LOG.write_text(said, "utf-8")
    if exit_code == 0:
        return
    if any(word in said for word in _NO_NETWORK):
        raise GroundFault(_("{failure} The package registry did not answer: is there a network?", failure=failure))
    if not VENV.is_dir():
        raise GroundFault(_("{failure} The reason: {reason}", failure=failure, reason=said.strip().replace("\n", " ")))
    raise GroundFault(_("{failure} The reason is in {log}.", failure=failure, log=_LOG.relative_to(ROOT).as_posix()))


def _tell(line: str) -> None:
    print(line, file=sys.stderr, flush=True)
