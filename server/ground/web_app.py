"""Building the app: `pwa/` becomes static files that the server hands out, made anew only where its sources changed."""

from __future__ import annotations

import subprocess
import sys

from .engine_archive import gather_engine
from .fault import GroundFault, _
from .fingerprint import fingerprint
from .house import APP, PWA, ROOT
from .node import Node, find_node

SOURCES = (
    "pwa",
    "translations",
    "pyproject.toml",
    "server/ground/engine_archive.py",
    "server/pengan/__init__.py",
    "server/pengan/engine",
    "server/pengan/words",
)
"""The app carries the translations, the units, the engine's sentences and the engine itself; `pyproject.toml` says
with which zone data."""

_STAMP = APP / ".sources"
_PACKAGES_STAMP = PWA / "node_modules" / ".pengan"


def sources_fingerprint() -> str:
    """What the app would be built from now."""
    return fingerprint(ROOT, SOURCES)


def is_built() -> bool:
    """Whether the built app is there and made from the sources as they stand."""
    return _STAMP.is_file() and _STAMP.read_text("ascii") == sources_fingerprint()


def build_web_app() -> None:
    """Build the app where it is missing or out of date. Raises GroundFault with npm's words at its end."""
    if is_built():
        return
    before = sources_fingerprint()
    node = find_node()
    install_packages(node)
    gather_engine()
    run_npm(node, "run", "build")
    _STAMP.write_text(before, "ascii")


def install_packages(node: Node) -> None:
    """Bring `pwa/node_modules` in step with its lock file."""
    wanted = fingerprint(ROOT, ("pwa/package.json", "pwa/package-lock.json"))
    if _PACKAGES_STAMP.is_file() and _PACKAGES_STAMP.read_text("ascii") == wanted:
        return
    run_npm(node, "ci", "--no-audit", "--no-fund")
    _PACKAGES_STAMP.write_text(wanted, "ascii")


def run_npm(node: Node, *words: str) -> None:
    """Run npm in `pwa/`. What it prints goes to stderr, and only where it fails."""
    done = subprocess.run(
        [*node.npm, *words], cwd=PWA, env=node.environment(), stdin=subprocess.DEVNULL, capture_output=True, text=True
    )
    if done.returncode:
        sys.stderr.write(done.stdout + done.stderr)
        raise GroundFault(_("The app could not be built: npm {words} failed.", words=" ".join(words)))
