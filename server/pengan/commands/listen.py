"""`pengan listen`: hears a site's reporters at an MQTT broker."""

from __future__ import annotations

import os
import time
from threading import Event

import click

from pengan.terminal.opening import stopped
from pengan.terminal.signals import stop_on_signals
from pengan.words import _


@click.command()
def listen() -> None:
    """Hear reporters at the MQTT broker of PENGAN_MQTT, and write what they tell into the journals of their sites."""
    from sqlalchemy.exc import SQLAlchemyError

    from pengan.web.journal.broker import broker_of
    from pengan.web.journal.listening import Listener, name_at_the_broker
    from pengan.web.own_secret import own_secret
    from pengan.web.system.logs import log_to_stderr
    from pengan.web.system.opening import open_database, settings_here

    settings = settings_here()
    if not settings.mqtt:
        raise stopped(_("There is no broker to listen at: set {name}.", name="PENGAN_MQTT"))
    try:
        broker, name = broker_of(settings), name_at_the_broker(own_secret(settings.secret_path))
    except ValueError as fault:
        raise stopped(str(fault)) from None
    except OSError as fault:
        reason = os.strerror(fault.errno or 0)
        raise stopped(_("{path} cannot be read: {reason}", path=str(fault.filename), reason=reason)) from None
    log_to_stderr(settings.log)
    stop, fixed = Event(), settings.now
    stop_on_signals(stop)
    try:
        with open_database(settings) as database:
            click.echo(_("Listening at {address}. Ctrl+C stops.", address=settings.mqtt), err=True)
            Listener(database, broker, name, lambda: int(fixed.timestamp() if fixed else time.time()), stop).run()
    except SQLAlchemyError as fault:
        raise stopped(_("The database cannot be used: {reason}", reason=str(fault).splitlines()[0])) from None
