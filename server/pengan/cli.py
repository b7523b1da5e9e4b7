"""The command line: `pengan COMMAND`. Each command is a file of `pengan/commands`, imported only when it is called."""

from __future__ import annotations

import importlib
import pkgutil

import click

from . import commands
from .terminal.spoken import SpokenGroup, spoken


class _Commands(SpokenGroup):
    """Finds `pengan NAME` in `commands/NAME.py` (`commands/NAME_.py` where Python keeps the word to itself)."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return sorted(_modules())

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        name = _modules().get(cmd_name)
        if name is None:
            return None
        module = importlib.import_module(f"{commands.__name__}.{name}")
        return spoken(next(item for item in vars(module).values() if isinstance(item, click.Command)))


def _modules() -> dict[str, str]:
    found = (module.name for module in pkgutil.iter_modules(commands.__path__))
    return {name.rstrip("_"): name for name in found}


@click.command(cls=_Commands)
@click.version_option(package_name="pengan", message="%(prog)s %(version)s")
def main() -> None:
    """Pengan works out a site's watering, night by night, and keeps a crew in step with it."""
