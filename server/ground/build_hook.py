"""Hatchling's build hook: a wheel, and an editable install, carry the compiled translations and the built app.

Hatchling loads this file by its path, outside any package.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from ground.build import build
from ground.node import WHEEL, node_on_path


class PenganBuildHook(BuildHookInterface[Any]):
    """Compiles `translations/` and builds `pwa/` before the files are gathered."""

    PLUGIN_NAME = "custom"

    def dependencies(self) -> list[str]:
        """Node comes from a wheel only where PATH has none that can build the app."""
        return [] if node_on_path() else [WHEEL]

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Called by hatchling before each build; `version` is `standard` or `editable`."""
        build()
