"""Where things stand in the house."""

from __future__ import annotations

import os
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
VENV = ROOT / ".venv"
PWA = ROOT / "pwa"
COMPILED = ROOT / "server" / "pengan" / "words" / "compiled"
APP = ROOT / "server" / "pengan" / "web" / "app"


def program(name: str) -> Path:
    """A program of the virtual environment: `python`, `pengan`, `ruff`."""
    return VENV / ("Scripts" if os.name == "nt" else "bin") / (f"{name}.exe" if os.name == "nt" else name)
