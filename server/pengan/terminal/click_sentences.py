"""The sentences Click itself says, so that translators see them, and the hook that makes Click say them in the
reader's language. Click looks its texts up through gettext functions each of its modules imports; we put ours there.
A test compares this list with the Click that is installed.
"""

from __future__ import annotations

import click.core
import click.decorators
import click.exceptions
import click.formatting
import click.parser
import click.types

from pengan.words import N_, _
from pengan.words.reader import N_plural, current_reader

SENTENCES = (
    N_("Aborted!"),
    N_("Usage:"),
    N_("Options"),
    N_("Positional arguments"),
    N_("Commands"),
    N_("Missing command."),
    N_("env var: {var}"),
    N_("default: {default}"),
    N_("Show the version and exit."),
    N_("Show this message and exit."),
    N_("Error: {message}"),
    N_("Try '{command} {option}' for help."),
    N_("Invalid value: {message}"),
    N_("Invalid value for {param_hint}: {message}"),
    N_("Missing argument"),
    N_("Missing option"),
    N_("Missing parameter"),
    N_("No such option {name!r}."),
    N_("No such command {name!r}."),
    N_("unknown error"),
    N_("Could not open file {filename!r}: {message}"),
    N_("Option {name!r} does not take a value."),
    N_("Choose from:\n\t{choices}"),
    N_("{value!r} is not a valid {number_type}."),
    N_("{value} is not in the range {range}."),
    N_("file"),
    N_("directory"),
    N_("path"),
    N_("{name} {filename!r} does not exist."),
    N_("{name} {filename!r} is a file."),
    N_("{name} {filename!r} is a directory."),
    N_("{name} {filename!r} is not readable."),
    N_("{name} {filename!r} is not writable."),
    N_("{value!r} is not a valid boolean. Recognized values: {states}"),
)
PLURALS = (
    N_plural("Got unexpected extra argument ({args})", "Got unexpected extra arguments ({args})"),
    N_plural("Did you mean {possibility}?", "(Did you mean one of: {possibilities}?)"),
    N_plural("Option {name!r} requires an argument.", "Option {name!r} requires {nargs} arguments."),
    N_plural("{value!r} is not {choice}.", "{value!r} is not one of {choices}."),
    N_plural("{value!r} does not match the format {format}.", "{value!r} does not match the formats {formats}."),
    N_plural("Takes {nargs} values but 1 was given.", "Takes {nargs} values but {len} were given."),
)

_MODULES = (click.core, click.decorators, click.exceptions, click.formatting, click.parser, click.types)


def _ngettext(one: str, many: str, count: int) -> str:
    """Click fills the placeholders itself."""
    return current_reader().catalogue.ngettext(one, many, count)


def speak_for_click() -> None:
    """From now on Click's own texts come from our catalogues."""
    for module in _MODULES:
        for name, spoken in (("_", _), ("ngettext", _ngettext)):
            if hasattr(module, name):
                setattr(module, name, spoken)
