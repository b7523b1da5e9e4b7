"""Which languages people can read Pengan in, and which of them a wish like `es_MX.UTF-8` means.

English is the language the sentences are written in. Every other language is one folder under
`translations/`; adding the folder adds the language. Two made-up languages help us test: `en-XA`
(accented, longer, in brackets) shows text that escaped translation, `ar-XB` runs right to left.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

from babel import Locale, UnknownLocaleError

SOURCE = "en"
ACCENTED = "en-XA"
MIRRORED = "ar-XB"
PSEUDO = (ACCENTED, MIRRORED)

COMPILED = Path(__file__).parent / "compiled"
ROOT = Path(__file__).parents[3]
TRANSLATIONS = ROOT / "translations"


def po_file(language: str) -> Path:
    """Where the translators' file of a language lies in the source tree."""
    return TRANSLATIONS / language / "LC_MESSAGES" / "messages.po"


@cache
def shipped() -> tuple[str, ...]:
    """The languages people can choose, English first, then by tag."""
    found = {path.stem for path in COMPILED.glob("*.mo")}
    found |= {path.parts[-3] for path in TRANSLATIONS.glob("*/LC_MESSAGES/messages.po")}
    return (SOURCE, *sorted(found - {SOURCE}))


def tag_of(wish: str) -> str:
    """A language tag out of what people, browsers and `LANG` write: `es_MX.UTF-8` → `es-MX`."""
    return wish.split(".")[0].split("@")[0].strip().replace("_", "-")


def match(wish: str) -> str | None:
    """The tag to read in, its region kept, if its language is shipped: `es-MX` → `es-MX`, `xx` → None."""
    tag = tag_of(wish)
    for pseudo in PSEUDO:
        if tag.lower() == pseudo.lower():
            return pseudo
    if tag in {"C", "POSIX", ""}:
        return SOURCE if tag else None
    try:
        locale = Locale.parse(tag, sep="-")
    except (UnknownLocaleError, ValueError):
        return match(tag.rsplit("-", 1)[0]) if "-" in tag else None
    return str(locale).replace("_", "-") if catalogue_tag(tag) else None


def catalogue_tag(tag: str) -> str | None:
    """Which catalogue serves a tag: the closest shipped one, `pt-BR` before `pt`; None where there is none."""
    if tag in PSEUDO:
        return tag
    parts = tag.split("-")
    candidates = ("-".join(parts[:length]) for length in range(len(parts), 0, -1))
    by_lower = {language.lower(): language for language in shipped()}
    return next((by_lower[name.lower()] for name in candidates if name.lower() in by_lower), None)


@cache
def locale_of(tag: str) -> Locale:
    """The CLDR data for a tag; a made-up language borrows the data of the language it is made from."""
    if tag in PSEUDO:
        tag = tag.split("-")[0]
    return Locale.parse(tag, sep="-")


def direction(tag: str) -> str:
    """`rtl` or `ltr`."""
    return "rtl" if locale_of(tag).text_direction == "rtl" else "ltr"


def likely_territory(tag: str) -> str | None:
    """The region a tag itself names. We do not guess: plain `en` is nobody's country."""
    return None if tag in PSEUDO else locale_of(tag).territory


def own_name(tag: str) -> str:
    """A language as its own speakers write it: `español`."""
    if tag in PSEUDO:
        return tag
    name = locale_of(tag).get_display_name(tag.replace("-", "_"))
    return name or tag
