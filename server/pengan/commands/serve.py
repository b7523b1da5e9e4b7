"""`pengan serve`: the web app under a production server, with the processes that plan and watch."""

from __future__ import annotations

import json
import multiprocessing
import os
import socket
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Thread
from typing import TYPE_CHECKING, Any

import click

from pengan.words import _

if TYPE_CHECKING:
    from flask import Flask
    from granian.server.common import AbstractServer

    from pengan.web.settings import Settings

PORT = 8484
ATTEMPTS, PAUSE_S = 600, 0.05
MOST_HINTS = 3
STOP_WITHIN_S = 15
"""How long requests may take to be finished when the server is told to stop; then they are cut off."""
COUNTS = "PROMETHEUS_MULTIPROC_DIR"


@click.command()
@click.option(
    "--port", type=click.IntRange(1, 65535), default=PORT, envvar="PENGAN_PORT", help="The port to answer at."
)
def serve(port: int) -> None:
    """Serve the sites to browsers and phones, work their nights out ahead, and watch their journals."""
    from pengan.web.ahead.children import WATCH, Children
    from pengan.web.system.logs import log_to_stderr
    from pengan.web.system.opening import settings_here

    settings = settings_here()
    log_to_stderr(settings.log)
    _check_free(settings.listen, port)
    _check_tls(settings)
    os.environ["PENGAN_PORT"] = str(port)
    with TemporaryDirectory(prefix="pengan-counts-", ignore_cleanup_errors=True) as counts:
        os.environ[COUNTS] = counts  # before anything that counts is imported
        _check_app(settings)
        # The same everywhere, and no worker inherits a lock or a database connection from this process.
        multiprocessing.set_start_method("spawn", force=True)
        with Children(settings.jobs), Children(settings.watch, WATCH):
            _server(settings, port).serve()


def _server(settings: Settings, port: int) -> AbstractServer[Any]:
    from granian import Granian
    from granian.constants import Interfaces
    from granian.log import LogLevels

    from pengan.web.system.logs import for_granian

    return Granian(
        f"{__name__}:app",
        address=settings.listen,
        port=port,
        interface=Interfaces.WSGI,
        factory=True,
        workers=settings.workers,
        blocking_threads=settings.threads,
        respawn_failed_workers=True,
        workers_kill_timeout=STOP_WITHIN_S,
        ssl_cert=settings.tls_certificate,
        ssl_key=settings.tls_key,
        log_level=LogLevels.error,
        log_dictconfig=for_granian(),
    )


def app() -> Flask:
    """Made in each serving process. A thread tells the address as soon as somebody answers there, not before."""
    from pengan.web.app import create_app
    from pengan.web.settings import settings_from
    from pengan.web.system.logs import log_to_stderr

    settings = settings_from(os.environ)
    log_to_stderr(settings.log)
    made = create_app(settings)
    Thread(target=_tell_when_answered, args=(settings, made), daemon=True).start()
    return made


def _lines(settings: Settings, made: Flask) -> list[str]:
    address = _address(settings)
    return [_("Pengan is at {address}", address=address), *_first_steps(settings, made, address)]


def _address(settings: Settings) -> str:
    scheme = "https" if settings.tls_certificate else "http"
    return f"{scheme}://{_shown(settings.listen)}:{os.environ['PENGAN_PORT']}/"


def _first_steps(settings: Settings, made: Flask, address: str) -> list[str]:
    """How to become a manager, for the first sites that have none; into the demo site, a way in at once."""
    from pengan.web.extensions import KEY
    from pengan.web.people.teams import without_manager

    with made.extensions[KEY].database.session() as session:
        sites = without_manager(session)[:MOST_HINTS]
    demo = _demo_site(settings)
    return [_way_in(made, site, address) if site == demo else _way_to_ask(site) for site in sites]


def _demo_site(settings: Settings) -> str | None:
    """The id of the demo site, where it is what was loaded first."""
    if not settings.shows_demo or not settings.first_document.is_file():
        return None
    from pengan.engine.document.read import read_document

    return read_document(json.loads(settings.first_document.read_text(encoding="utf-8"))).site.id


def _way_in(made: Flask, site: str, address: str) -> str:
    """The address by which one comes into the demo site, which is nobody's secret, as its first manager."""
    from pengan.engine.clock.instants import Instant
    from pengan.web.extensions import KEY
    from pengan.web.people.invitations import address_of, invite_from_the_server

    shared = made.extensions[KEY]
    fixed = shared.settings.now
    now = Instant(int(fixed.timestamp() if fixed else time.time()))
    with shared.database.session() as session:
        hours = shared.settings.invitation_hours
        invited = invite_from_the_server(session, shared.secret, site, "manager", None, now, hours)
    base = shared.settings.address or address
    return _("To come in as the manager of the demo site: {address}", address=address_of(base, invited.code))


def _way_to_ask(site: str) -> str:
    called = os.environ.get("PENGAN_CALLED", "pengan")
    return _(
        "Nobody manages {site} yet. To do so: {command}", site=site, command=f"{called} invite {site} --role manager"
    )


def _tell_when_answered(settings: Settings, made: Flask) -> None:
    port = int(os.environ["PENGAN_PORT"])
    for _attempt in range(ATTEMPTS):
        with socket.socket() as caller:
            if caller.connect_ex((_near(settings.listen), port)) == 0:
                _say_once(settings, made)
                return
        time.sleep(PAUSE_S)


def _say_once(settings: Settings, made: Flask) -> None:
    """Say it in the first of several workers that gets here."""
    mark = Path(os.environ[COUNTS]) / "said"
    try:
        mark.touch(exist_ok=False)
    except FileExistsError:
        return
    for line in _lines(settings, made):
        click.echo(line)
    sys.stdout.flush()


def _near(address: str) -> str:
    """Where this machine itself reaches the server."""
    return "127.0.0.1" if address == "0.0.0.0" else address


def _shown(address: str) -> str:
    return socket.gethostname() if address == "0.0.0.0" else address


def _check_app(settings: Settings) -> None:
    """Make the app once before anything serves, so that what is wrong with the settings is one line."""
    from sqlalchemy.exc import SQLAlchemyError

    from pengan.engine.document.fault import DocumentFaults
    from pengan.web.app import create_app

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


def _check_tls(settings: Settings) -> None:
    import ssl

    if bool(settings.tls_certificate) != bool(settings.tls_key):
        raise click.ClickException(
            _(
                "{one} and {other} belong together: set both, or neither.",
                one="PENGAN_TLS_CERTIFICATE",
                other="PENGAN_TLS_KEY",
            )
        )
    if settings.tls_certificate and settings.tls_key:
        try:
            ssl.create_default_context(ssl.Purpose.CLIENT_AUTH).load_cert_chain(
                settings.tls_certificate, settings.tls_key
            )
        except OSError as fault:
            raise click.ClickException(
                _("The certificate or its key cannot be used: {reason}", reason=fault.strerror or str(fault))
            ) from fault


def _check_free(address: str, port: int) -> None:
    with socket.socket() as probe:
        if os.name != "nt":  # on Windows the option would let two programs share the port
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((address, port))
        except OSError as fault:
            raise click.ClickException(
                _("Port {port} is taken by another program. Choose another with --port or PENGAN_PORT.", port=str(port))
            ) from fault
