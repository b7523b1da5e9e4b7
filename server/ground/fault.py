"""What stops the house from being set up, said in one clear line."""

from __future__ import annotations

import gettext
import os
from functools import cache
from pathlib import Path

_COMPILED = Path(__file__).resolve().parents[1] / "pengan" / "words" / "compiled"

_WISHES = ("PENGAN_LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG")


class GroundFault(Exception):
    """Its text is the one line that the person at the shell reads."""


def _(template: str, **params: str) -> str:
    """A sentence in the shell's language, where its catalogue has been compiled already; else in English."""
    return _catalogue().gettext(template).format(**params)


@cache
def _catalogue() -> gettext.NullTranslations:
    wishes = (os.environ.get(name) for name in _WISHES)
    tag = next((wish for wish in wishes if wish), "").split(".")[0].replace("_", "-")
    for name in (tag, tag.split("-")[0]):
        compiled = _COMPILED / f"{name}.mo"
        if name and compiled.is_file():
            with compiled.open("rb") as file:
                return gettext.GNUTranslations(file)
    return gettext.NullTranslations()
