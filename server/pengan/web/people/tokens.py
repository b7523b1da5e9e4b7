"""The secret a device proves itself with: `team.device.secret`, of which the server keeps only a hash of the secret.

256 random bits need no slow hash (OWASP ASVS 5.0, chapter on cryptography, from memory); the comparison takes the same
time whatever is compared, so that nothing can be guessed byte by byte.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
from dataclasses import dataclass
from uuid import uuid4

SECRET_BYTES = 32


@dataclass(frozen=True, slots=True)
class Token:
    """What a cookie says: whose device it is, and the secret."""

    team: str
    device: str
    secret: str

    def __str__(self) -> str:
        return f"{self.team}.{self.device}.{self.secret}"

    def hashed(self) -> str:
        """What is kept of the secret."""
        return hashlib.sha256(self.secret.encode()).hexdigest()

    def matches(self, kept: str) -> bool:
        """Whether this secret is the one kept, in constant time."""
        return hmac.compare_digest(self.hashed(), kept)


def new_id() -> str:
    """An id nobody can guess."""
    return str(uuid4())


def new_token(team: str) -> Token:
    """A new device's token."""
    return Token(team, new_id(), secrets.token_urlsafe(SECRET_BYTES))


def read_token(text: str) -> Token | None:
    """The token in a cookie, or None where it is none."""
    parts = text.split(".")
    return Token(*parts) if len(parts) == 3 and all(parts) and len(text) <= 300 and text.isascii() else None
