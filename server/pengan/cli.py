"""The command line: `pengan COMMAND`. Each command is a file of `pengan/commands`, imported only when it is called."""

from __future__ import annotations

import importlib
import pkgutil

import click

from . import commands


class _Commands(click.Group):
    """Finds `pengan NAME` in `commands/NAME.py` (`commands/NAME_.py` where Python keeps the word to itself)."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return sorted(module.name.rstrip("_") for module in pkgutil.iter_modules(commands.__path__))

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in self.list_commands(ctx):
            return None
        names = {module.name.rstrip("_"): module.name for module in pkgutil.iter_modules(commands.__path__)}
        module = importlib.import_module(f"{commands.__name__}.{names[cmd_name]}")
        return next(item for item in vars(module).values() if isinstance(item, click.Command))


@click.command(cls=_Commands)
@click.version_option(package_name="pengan")
def main() -> None:
    """Pengan works out a site's watering, night by night, and keeps a crew in step with it."""
