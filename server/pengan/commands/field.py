"""`pengan field FILE`: a made-up field plays a night of the site, for a server to hear or to be printed."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import click

from pengan.engine.clock.fault import ClockFault
from pengan.engine.clock.nights import night_on
from pengan.engine.clock.sun import place_of
from pengan.engine.plan.sheet import NightSheet
from pengan.engine.plan.tonight import Tonight
from pengan.terminal.opening import open_bytes, open_document, open_sheet, stopped
from pengan.terminal.planning import Site, day_of, plan, site_of
from pengan.terminal.progress import Progress
from pengan.words import _, ngettext, read_duration, say
from pengan.words.moments import read_date
from pengan.words.reader import current_reader

if TYPE_CHECKING:
    from pengan.field.line.pace import Pace
    from pengan.field.line.sending import Sender
    from pengan.field.nature import Nature
    from pengan.field.told import Told
    from pengan.field.troubles import Trouble

MOST_SPEED = 100_000


@dataclass(frozen=True, slots=True)
class _Line:
    """Where what is played goes to."""

    to: str | None
    token_file: str | None
    mqtt_user: str | None
    mqtt_password_file: str | None
    ca_file: str | None


@click.command()
@click.argument("file")
@click.option("--date", "day", metavar="DATE", help="The date on which the night begins, such as 2026-11-25.")
@click.option("--sheet", metavar="SHEET", help="The night sheet to play. Without one, the night is worked out.")
@click.option(
    "--trouble",
    "typed",
    multiple=True,
    metavar="TROUBLE",
    help="What goes wrong: what it is, where, and its parts, such as “break north-main from=23:40 flow=80”. "
    "There are break, leak, stuck-open, dead, clogged, drift, stuck-meter, power, silent, shut and stop; their parts "
    "are from, until or for, flow, by, over and since. May be given several times.",
)
@click.option("--seed", type=click.IntRange(0, 2**31), default=1, help="Another number makes up another field.")
@click.option("--every", metavar="DURATION", default="1 min", help="How often each meter is read.")
@click.option(
    "--meter", "meters", multiple=True, metavar="SUPPLY", help="A supply that has a meter. Without any, all have one."
)
@click.option("--begin", metavar="TIME", help="Leave out what comes earlier in the night, such as 21:00.")
@click.option(
    "--speed", type=click.FloatRange(0.1, MOST_SPEED), help="Play so many times as fast, from the night's start on."
)
@click.option("--at-once", is_flag=True, help="Play the whole night without waiting.")
@click.option("--print", "printing", is_flag=True, help="Print what is told as JSON, one entry a line.")
@click.option(
    "--to", metavar="ADDRESS", help="The server, by https:// or http://, or an MQTT broker by mqtts:// or mqtt://."
)
@click.option("--token-file", metavar="FILE", help="The file with the token of a reporter of the site.")
@click.option("--mqtt-user", metavar="NAME", help="The name by which to sign in at the broker.")
@click.option("--mqtt-password-file", metavar="FILE", help="The file with the password for the broker.")
@click.option("--ca-file", metavar="FILE", help="The file with the certificate by which to know the server.")
def field(
    file: str, day: str | None, sheet: str | None, typed: tuple[str, ...], seed: int, every: str,
    meters: tuple[str, ...], begin: str | None, speed: float | None, at_once: bool, printing: bool, to: str | None,
    token_file: str | None, mqtt_user: str | None, mqtt_password_file: str | None, ca_file: str | None,
) -> None:  # fmt: skip
    """Play a night of the site in FILE as its valves and meters would tell of it. It opens no valve.

    The night goes by in real time; what lies in the past is told at once.
    """
    if printing == (to is not None):
        raise click.UsageError(_("Say where it goes: either --print, or --to with an address."))
    site = site_of(open_document(file), None)
    planned = _planned(site, day, sheet)
    tonight = _tonight(site, planned)
    troubles = [_trouble(text, tonight) for text in typed]
    begins = planned.starts if begin is None else _moment(begin, tonight)
    told = _tellings(tonight, planned, seed, troubles, _nature(tonight, every, meters), begins)
    pace = _pace(site, begins, speed, at_once)
    _play(told, pace, _sender(_Line(to, token_file, mqtt_user, mqtt_password_file, ca_file)))


def _planned(site: Site, day: str | None, sheet: str | None) -> NightSheet:
    """The sheet in the file, or tonight's as a server would work it out."""
    if sheet is None:
        return plan(site, day_of(site, day))
    found = open_sheet(sheet)
    if found.site != site.document.site.id:
        raise stopped(_("{path} is a sheet of another site.", path=sheet))
    return found


def _tonight(site: Site, planned: NightSheet) -> Tonight:
    try:
        night = night_on(site.clock, read_date(planned.night))
    except ClockFault as fault:
        raise stopped(say(fault.message)) from None
    return Tonight(site.document, night, site.clock, place_of(site.document.site))


def _tellings(
    tonight: Tonight, planned: NightSheet, seed: int, troubles: list[Trouble], nature: Nature, begins: int
) -> list[Told]:
    from pengan.field.play import tellings

    every = tellings(tonight.document, planned, seed, troubles, nature)
    return [told for told in every if told.at >= begins]


def _trouble(text: str, tonight: Tonight) -> Trouble:
    from pengan.field.asked_for import TroubleFault, read_trouble

    try:
        return read_trouble(text, tonight, current_reader())
    except TroubleFault as fault:
        raise stopped(say(fault.message)) from None


def _moment(text: str, tonight: Tonight) -> int:
    from pengan.field.asked_for import TroubleFault, moment_in

    try:
        return moment_in(text, tonight)
    except TroubleFault as fault:
        raise stopped(say(fault.message)) from None


def _nature(tonight: Tonight, every: str, meters: Sequence[str]) -> Nature:
    from pengan.field.asked_for import TroubleFault, supply_called
    from pengan.field.nature import Nature

    try:
        metered = frozenset(supply_called(name, tonight.document) for name in meters) or None
    except TroubleFault as fault:
        raise stopped(say(fault.message)) from None
    return Nature(read_every_s=max(1, read_duration(every, current_reader())), metered=metered)


def _pace(site: Site, begins: int, speed: float | None, at_once: bool) -> Pace:
    """Real time goes on from now; faster, it begins with what is played first."""
    from pengan.field.line.pace import AtOnce, Timed

    if at_once:
        return AtOnce()
    return Timed(site.now) if speed is None else Timed(begins, speed)


def _sender(line: _Line) -> Sender:
    from pengan.field.line.over_http import OverHttp
    from pengan.field.line.over_mqtt import PORTS, Broker, OverMqtt
    from pengan.field.line.printed import Printed
    from pengan.field.line.sending import SendingFault

    if line.to is None:
        return Printed(click.echo)
    scheme = urlsplit(line.to).scheme
    if scheme not in ("http", "https", *PORTS) or not urlsplit(line.to).hostname:
        raise stopped(_("“{address}” is no address of a server or a broker.", address=line.to))
    if line.token_file is None:
        raise click.UsageError(_("A server has to be shown the token of a reporter: give --token-file."))
    token = _secret(line.token_file)
    try:
        if scheme in PORTS:
            password = None if line.mqtt_password_file is None else _secret(line.mqtt_password_file)
            return OverMqtt(Broker(line.to, line.mqtt_user, password, line.ca_file), token)
        return OverHttp(line.to, token, line.ca_file)
    except SendingFault as fault:
        raise stopped(say(fault.message)) from None
    except OSError as fault:
        reason = fault.strerror or type(fault).__name__
        raise stopped(_("{path} cannot be read: {reason}", path=line.ca_file, reason=reason)) from None


def _secret(path: str) -> str:
    return open_bytes(path).decode("utf-8", "replace").strip()


def _play(told: Sequence[Told], pace: Pace, sender: Sender) -> None:
    """Send all of it, and say on standard error what became of it; Ctrl+C ends it in between."""
    from pengan.field.line.batches import batches
    from pengan.field.line.sending import SendingFault

    met: Counter[str] = Counter()
    progress = Progress(lambda count: ngettext("{count} entry told", "{count} entries told", count))
    try:
        with closing(sender):
            for bundle in batches(told, pace):
                met += sender.send(bundle)
                progress(met.total())
    except SendingFault as fault:
        raise stopped(say(fault.message)) from None
    except KeyboardInterrupt:
        pass
    finally:
        progress.end()
        for line in _ends(met):
            click.echo(line, err=True)


def _ends(met: Counter[str]) -> Iterator[str]:
    """What became of the entries, as far as the other side says."""
    yield ngettext("{count} entry told.", "{count} entries told.", met.total())
    if met["known"]:
        yield ngettext("{count} of them was known already.", "{count} of them were known already.", met["known"])
    if met["sent"]:
        yield ngettext("{count} of them was not answered.", "{count} of them were not answered.", met["sent"])
    if met["aside"]:
        yield ngettext(
            "{count} of them was kept aside; the site's journal says why.",
            "{count} of them were kept aside; the site's journal says why.",
            met["aside"],
        )
