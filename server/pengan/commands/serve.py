"""`pengan serve`: the web app under a production server, on this machine alone."""

from __future__ import annotations

import os
import socket
import sys
import time
from threading import Thread

import click
from flask import Flask

from pengan.words import _

ADDRESS = "127.0.0.1"
PORT = 8484
ATTEMPTS, PAUSE_S = 600, 0.05


@click.command()
@click.option(
    "--port", type=click.IntRange(1, 65535), default=PORT, envvar="PENGAN_PORT", help="The port to answer at."
)
def serve(port: int) -> None:
    """Serve the site's night to browsers on this machine."""
    from granian import Granian
    from granian.constants import Interfaces
    from granian.log import LogLevels

    _check_free(port)
    _check_app()
    os.environ["PENGAN_PORT"] = str(port)
    Granian(
        f"{__name__}:app",
        address=ADDRESS,
        port=port,
        interface=Interfaces.WSGI,
        factory=True,
        blocking_threads=4,
        log_level=LogLevels.warning,
    ).serve()


def app() -> Flask:
    """Made in the serving process. A thread tells the address as soon as somebody answers there, not before."""
    from pengan.web.app import create_app
    from pengan.web.settings import settings_from

    made = create_app(settings_from(os.environ))
    port = int(os.environ["PENGAN_PORT"])
    line = _("Pengan is at {address}", address=f"http://{ADDRESS}:{port}/")
    Thread(target=_tell_when_answered, args=(port, line), daemon=True).start()
    return made


def _tell_when_answered(port: int, line: str) -> None:
    for _attempt in range(ATTEMPTS):
        with socket.socket() as caller:
            if caller.connect_ex((ADDRESS, port)) == 0:
                click.echo(line)
                sys.stdout.flush()
                return
        time.sleep(PAUSE_S)


def _check_app() -> None:
    """Make the app once before anything serves, so that what is wrong with the settings is one line."""
    from sqlalchemy.exc import SQLAlchemyError

    from pengan.engine.document.fault import DocumentFaults
    from pengan.web.app import create_app
    from pengan.web.settings import settings_from

    try:
        settings = settings_from(os.environ)
    except ValueError as fault:
        raise click.ClickException(str(fault)) from fault
    try:
        create_app(settings)
    except (SQLAlchemyError, ImportError) as fault:
        reason = str(fault).splitlines()[0]
        raise click.ClickException(_("The database cannot be used: {reason}", reason=reason)) from fault
    except OSError as fault:
        raise click.FileError(str(fault.filename), fault.strerror) from fault
    except (DocumentFaults, ValueError) as fault:
        path = str(settings.first_document)
        raise click.ClickException(
            _("{path} cannot be loaded as the first site. pengan check {path} tells why.", path=path)
        ) from fault


def _check_free(port: int) -> None:
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((ADDRESS, port))
        except OSError as fault:
            raise click.ClickException(
                _("Port {port} is taken by another program. Choose another with --port or PENGAN_PORT.", port=str(port))
            ) from fault
