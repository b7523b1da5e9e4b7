"""`pengan watch`: a process that holds what the journal tells against what should flow."""

from __future__ import annotations

from threading import Event

import click

from pengan.terminal.signals import stop_on_signals, stop_with_input
from pengan.words import _


@click.command()
@click.option(
    "--with-parent", is_flag=True, help="Stop when standard input ends, as it does when whoever started this is gone."
)
def watch(with_parent: bool) -> None:
    """Watch every site's journal for breaks, leaks, dead valves and silence, open alarms, and tell phones of them."""
    from pengan.web.alarms.process import WatchProcess
    from pengan.web.push.process import Sender
    from pengan.web.push.queueing import queue_told
    from pengan.web.system.logs import log_to_stderr
    from pengan.web.system.opening import open_database, settings_here

    settings = settings_here()
    log_to_stderr(settings.log)
    stop = Event()
    stop_on_signals(stop)
    if with_parent:
        stop_with_input(stop)
    with open_database(settings) as database:
        click.echo(_("Watching the journals. Ctrl+C stops."), err=True)
        sender = Sender(settings, database, stop)
        sender.start()
        WatchProcess(settings, database, stop, queue_told).run()
        sender.join()
