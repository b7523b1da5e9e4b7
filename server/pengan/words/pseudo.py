"""Made-up languages: every translated sentence is visibly changed, so a sentence that escaped stands out.

Placeholders like `{supply}` stay whole. No source of ours; the idea of accented and mirrored
test languages is common practice, no source.
"""

from __future__ import annotations

import re

_PLAIN = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
_ACCENTED = "áƀćđéƒğĥíĵķļɱñóþɋŕšţúṽŵẋýžÁƁĆĐÉƑĞĤÍĴĶĻṀÑÓÞɊŔŠŢÚṼŴẊÝŽ"
_ACCENTS = str.maketrans(_PLAIN, _ACCENTED)
_PLACEHOLDER = re.compile(r"(\{[^{}]*\})")
_WORD = re.compile(r"(\{[^{}]*\}|\w+)")

OPEN, CLOSE = "⟦", "⟧"
RIGHT_TO_LEFT, POP = "\u202e", "\u202c"


def accented(text: str) -> str:
    """The text with accents, a third longer, in brackets: `Night` → `⟦Ñíğĥţ ~~⟧`."""
    parts = _PLACEHOLDER.split(text)
    changed = "".join(part if part.startswith("{") else part.translate(_ACCENTS) for part in parts)
    return f"{OPEN}{changed} {'~' * max(1, len(text) // 3)}{CLOSE}"


def mirrored(text: str) -> str:
    """The text with every word forced to run right to left."""
    return _WORD.sub(_forced, text)


def _forced(word: re.Match[str]) -> str:
    found = word.group()
    return found if found.startswith("{") else f"{RIGHT_TO_LEFT}{found}{POP}"
