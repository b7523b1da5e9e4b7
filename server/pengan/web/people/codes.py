"""Short codes that a person reads off a screen, a label or a telephone line, and types in.

21 signs, none of which looks or sounds much like another, and no vowels, so that no code is a word. Ten of them are
44 bits: with the attempts counted, guessing one while it is good is out of reach.
"""

from __future__ import annotations

import re
import secrets

ALPHABET = "34679CDFGHJKMNPRTVWXY"
LENGTH, GROUP = 10, 5


def new_code() -> str:
    """A new code, as it is shown: `PF4RG-9KTDM`."""
    signs = "".join(secrets.choice(ALPHABET) for _ in range(LENGTH))
    return "-".join(signs[start : start + GROUP] for start in range(0, LENGTH, GROUP))


def bare(typed: str) -> str:
    """A code as somebody typed it, without the case, hyphens and spaces that do not matter."""
    return re.sub(r"[\s\-–—_.]+", "", typed).upper()
