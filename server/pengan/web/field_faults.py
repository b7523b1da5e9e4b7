"""What a schema found wrong with a request, in our own words: marshmallow's English becomes codes and fields."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from pengan.engine.document.fault import Fault
from pengan.engine.message import Message, Saying, saying

MOST = 100
"""A request that is wrong all through is not answered with more than it brought."""

needed = saying("web.field_needed", "This is needed.")
not_empty = saying("web.field_not_empty", "This cannot be left empty.")
unknown = saying("web.field_unknown", "Nothing of that name is known here.")
not_text = saying("web.field_not_text", "This has to be text.")
not_whole = saying("web.field_not_whole", "This has to be a whole number.")
not_number = saying("web.field_not_number", "This has to be a number.")
not_flag = saying("web.field_not_flag", "This has to be true or false.")
not_list = saying("web.field_not_list", "This has to be a list.")
not_object = saying("web.field_not_object", "This has to be an object with named fields.")
not_right = saying("web.field_not_right", "This cannot be taken.")
not_one_of = saying("web.field_not_one_of", "This has to be one of {choices}.")
too_long = saying("web.field_too_long", "This is too long: {most} is the most.")
too_short = saying("web.field_too_short", "This is too short: {least} is the least.")
length_out_of_range = saying("web.field_length", "The length of this has to lie between {least} and {most}.")
out_of_range = saying("web.field_out_of_range", "This has to lie between {least} and {most}.")
too_small = saying("web.field_too_small", "This has to be {least} or more.")
too_big = saying("web.field_too_big", "This has to be {most} or less.")

_PLAIN: Mapping[str, Saying] = {
    "Missing data for required field.": needed,
    "Field may not be null.": not_empty,
    "Unknown field.": unknown,
    "Not a valid string.": not_text,
    "Not a valid utf-8 string.": not_text,
    "Not a valid integer.": not_whole,
    "Not a valid number.": not_number,
    "Special numeric values (nan or infinity) are not permitted.": not_number,
    "Number too large.": not_number,
    "Not a valid boolean.": not_flag,
    "Not a valid list.": not_list,
    "Not a valid mapping type.": not_object,
    "Invalid input type.": not_object,
    "Invalid type.": not_object,
    "Invalid value.": not_right,
    "Not a valid UUID.": not_right,
}
_NUMBER = r"-?[\d.]+"
_WITH_VALUES: tuple[tuple[re.Pattern[str], Saying], ...] = (
    (re.compile(r"Must be one of: (?P<choices>.+)\."), not_one_of),
    (re.compile(rf"Longer than maximum length (?P<most>{_NUMBER})\."), too_long),
    (re.compile(rf"Shorter than minimum length (?P<least>{_NUMBER})\."), too_short),
    (re.compile(rf"Length must be between (?P<least>{_NUMBER}) and (?P<most>{_NUMBER})\."), length_out_of_range),
    (
        re.compile(
            rf"Must be greater than or equal to (?P<least>{_NUMBER}) and less than or equal to (?P<most>{_NUMBER})\."
        ),
        out_of_range,
    ),
    (re.compile(rf"Must be greater than or equal to (?P<least>{_NUMBER})\."), too_small),
    (re.compile(rf"Must be less than or equal to (?P<most>{_NUMBER})\."), too_big),
)


def field_faults(messages: object) -> tuple[Fault, ...]:
    """The faults in what webargs hands on (by location, then field, then index), as `sets.0.id`."""
    if not isinstance(messages, Mapping):
        return ()
    found = [
        Fault(None, None, ".".join(path) or None, in_our_words(text))
        for below in messages.values()
        for path, text in _leaves(below, ())
    ]
    return tuple(found[:MOST])


def _leaves(below: object, path: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], str]]:
    if isinstance(below, Mapping):
        for name, deeper in below.items():
            yield from _leaves(deeper, path if name == "_schema" else (*path, str(name)[:80]))
    elif isinstance(below, list | tuple):
        for item in below:
            yield from _leaves(item, path)
    else:
        yield path, str(below)


def in_our_words(text: str) -> Message:
    """What marshmallow said, as a message with a code."""
    if plain := _PLAIN.get(text):
        return plain()
    for pattern, said in _WITH_VALUES:
        if match := pattern.fullmatch(text.rstrip(".") + "."):
            return said(**{name: _value(name, text) for name, text in match.groupdict().items()})
    return not_right()


def _value(name: str, text: str) -> str | float:
    return text if name == "choices" else float(text.rstrip("."))
