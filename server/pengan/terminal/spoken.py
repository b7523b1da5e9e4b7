"""Commands in the reader's language: help, options and errors, whoever wrote the command.

A command is written in plain English: `pengan.words.sentences` finds its docstring, `help="…"` and `metavar="…"`.
When it is called it is copied with its texts translated, and given the options every command has:
`--language`, `--units` and `--hours`.
"""

from __future__ import annotations

import copy
import os
import sys
from collections.abc import Mapping, Sequence
from typing import Any

import click

from pengan.words import N_, Reader, WordsFault, _, reader_for, reading, say
from pengan.words.choosing import LANGUAGE_NAMES, read_units
from pengan.words.languages import match, shipped
from pengan.words.reader import HOUR_CYCLES

from .click_sentences import speak_for_click

_SHARED = {"--language": "language", "--units": "units", "--hours": "hour_cycle"}


class SpokenGroup(click.Group):
    """A group that finds out who reads before Click does anything, so that even its errors are in their language."""

    def main(self, args: Sequence[str] | None = None, *rest: Any, **extra: Any) -> Any:
        """Runs the command line for the reader its options, or the environment, name."""
        speak_for_click()
        arguments = list(sys.argv[1:] if args is None else args)
        with reading(reader_wanted(arguments, os.environ)):
            return super().main(arguments, *rest, **extra)

    def invoke(self, ctx: click.Context) -> Any:
        """What a command cannot read is one line in the reader's language, wherever it is noticed."""
        try:
            return super().invoke(ctx)
        except WordsFault as fault:
            raise click.ClickException(say(fault.message)) from fault

    def format_help_text(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The group is made once, so its help is translated where it is shown."""
        formatter.write_paragraph()
        with formatter.indentation():
            formatter.write_text(_(self.help) if self.help else "")

    def get_params(self, ctx: click.Context) -> list[click.Parameter]:
        """Options are made at import; their help is translated anew each time."""
        self._help_option = None
        return [_spoken_param(param) for param in [*_shared_options(), *super().get_params(ctx)]]

    def collect_usage_pieces(self, ctx: click.Context) -> list[str]:
        """What stands behind the name in the line of usage."""
        return [_(_OPTIONS), _(_COMMAND)]


def reader_wanted(arguments: Sequence[str], environ: Mapping[str, str]) -> Reader:
    """The reader the command line asks for. What it asks for wrongly is reported later, by the option itself."""
    wanted = {name: _value_of(option, arguments) for option, name in _SHARED.items()}
    try:
        return reader_for(**wanted, environ=environ)
    except WordsFault:
        return reader_for(wanted["language"], environ={name: environ.get(name, "") for name in LANGUAGE_NAMES})


def _value_of(option: str, arguments: Sequence[str]) -> str | None:
    for argument, after in zip(arguments, [*arguments[1:], ""], strict=False):
        if argument == option:
            return after or None
        if argument.startswith(f"{option}="):
            return argument.removeprefix(f"{option}=") or None
    return None


def spoken(command: click.Command) -> click.Command:
    """A copy of a command in the reader's language, with the shared options it does not declare itself."""
    made = copy.copy(command)
    made.help = _(command.help) if command.help else None
    made.short_help = _(command.short_help) if command.short_help else None
    made.epilog = _(command.epilog) if command.epilog else None
    made.options_metavar = _(_OPTIONS)
    own = {name for param in command.params for name in param.opts}
    shared = [option for option in _shared_options() if not own & set(option.opts)]
    made.params = [_spoken_param(param) for param in [*command.params, *shared]]
    return made


def _shared_options() -> list[click.Option]:
    """They only check and describe: what they say was read before, by `reader_wanted`."""
    return [
        click.Option(
            ["--language"],
            metavar="LANGUAGE",
            expose_value=False,
            callback=_check_language,
            help=N_("Language to read in, such as es or en-GB. Without it: PENGAN_LANGUAGE, then LANG."),
        ),
        click.Option(
            ["--units"],
            metavar="UNITS",
            expose_value=False,
            envvar="PENGAN_UNITS",
            callback=_check_units,
            help=N_(
                "Units to read in: metric, us, imperial, or single ones such as metric,flow=m3h. "
                "Without it: PENGAN_UNITS, then the language's region."
            ),
        ),
        click.Option(
            ["--hours"],
            type=click.Choice(HOUR_CYCLES),
            expose_value=False,
            envvar="PENGAN_HOURS",
            help=N_("Clock to read: 12 or 24 hours. Without it: PENGAN_HOURS, then the language's custom."),
        ),
    ]


def _check_language(_ctx: click.Context, _param: click.Parameter, value: str | None) -> str | None:
    if value is not None and match(value) is None:
        known = ", ".join(shipped())
        raise click.BadParameter(_("{language} is not among the languages here: {known}.", language=value, known=known))
    return value


def _check_units(_ctx: click.Context, _param: click.Parameter, value: str | None) -> str | None:
    try:
        read_units(value or "")
    except WordsFault as fault:
        raise click.BadParameter(say(fault.message)) from fault
    return value


def _spoken_param(param: click.Parameter) -> click.Parameter:
    made = copy.copy(param)
    if isinstance(made, click.Option) and made.name != "help":
        made.help = _(made.help) if made.help else None
    if made.metavar or not isinstance(made.type, click.Choice):
        made.metavar = _metavar(made)
    made.type = copy.copy(made.type)
    made.type.name = _(_TYPES.get(made.type.name, made.type.name))
    return made


_OPTIONS, _COMMAND = N_("[OPTIONS]"), N_("COMMAND [ARGUMENTS]…")
_TYPES = {
    "integer": N_("whole number"),
    "integer range": N_("whole number"),
    "float": N_("number"),
    "float range": N_("number"),
}
_KINDS = {"TEXT": N_("TEXT"), "FILE": N_("FILE"), "PATH": N_("PATH"), "DIRECTORY": N_("DIRECTORY")}
_ARGUMENTS = (N_("BOOK"), N_("FOLDER"), N_("SITE"), N_("STATION"), N_("WHAT"))
"""What the commands call their arguments, for the translators."""
_NUMBER = N_("NUMBER")


def _metavar(param: click.Parameter) -> str | None:
    """The word in capitals that stands for what is to be typed."""
    if param.metavar:
        return _(param.metavar)
    if isinstance(param, click.Option) and (param.is_flag or param.count):
        return None
    if isinstance(param, click.Argument):
        return _((param.name or "").upper())
    if isinstance(param.type, click.types.IntParamType | click.types.FloatParamType):
        return _(_NUMBER)
    return _(_KINDS.get(param.type.name.upper(), "TEXT"))
