"""`pengan jobs`: a process that works nights out ahead."""

from __future__ import annotations

from threading import Event

import click

from pengan.terminal.signals import stop_on_signals, stop_with_input
from pengan.words import _


@click.command()
@click.option(
    "--with-parent", is_flag=True, help="Stop when standard input ends, as it does when whoever started this is gone."
)
def jobs(with_parent: bool) -> None:
    """Work out every site's nights ahead, beside the server; as many of these may run as there are processors."""
    from pengan.web.ahead.process import JobProcess
    from pengan.web.system.logs import log_to_stderr
    from pengan.web.system.opening import open_database, settings_here

    settings = settings_here()
    log_to_stderr(settings.log)
    stop = Event()
    stop_on_signals(stop)
    if with_parent:
        stop_with_input(stop)
    with open_database(settings) as database:
        click.echo(_("Working nights out ahead. Ctrl+C stops."), err=True)
        JobProcess(settings, database, stop).run()
