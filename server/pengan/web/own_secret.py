"""The server's own secret: made at the first start, in a file that only the server's user can read.

It keys the hashes of short codes and of what attempts are counted by, so that a stolen database alone tells neither.
Every process of one server needs the same file. Where it is lost, open invitations stop working; nothing else does.
"""

from __future__ import annotations

import hashlib
import hmac
import os
import secrets
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import mkstemp

BYTES = 32


@dataclass(frozen=True, slots=True)
class OwnSecret:
    """Keyed hashes. The key shows in no log."""

    key: bytes = field(repr=False)

    def hashed(self, purpose: str, text: str) -> str:
        """The keyed hash of a text; the same text under another purpose gives another."""
        return hmac.new(self.key, f"{purpose}\0{text}".encode(), hashlib.sha256).hexdigest()


def own_secret(file: Path) -> OwnSecret:
    """The secret in the file, made where there is none. Raises `OSError` where it cannot be read or made.

    Two processes that start together end up with the same one: the file is linked in place whole, or not at all.
    """
    made_once(file, lambda: secrets.token_bytes(BYTES))
    key = file.read_bytes()
    if len(key) != BYTES:
        raise OSError(0, "not a secret of this server", str(file))
    return OwnSecret(key)


def made_once(file: Path, content: Callable[[], bytes]) -> None:
    """Make a file that only its owner can read, where there is none. Of two who do so at once one is first.

    Raises `OSError` where it cannot be made.
    """
    if file.exists():
        return
    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    handle, beside = mkstemp(dir=file.parent)  # readable and writable by its owner alone
    try:
        with os.fdopen(handle, "wb") as written:
            written.write(content())
            written.flush()
            os.fsync(written.fileno())
        _put(Path(beside), file)
    finally:
        Path(beside).unlink(missing_ok=True)


def _put(beside: Path, file: Path) -> None:
    try:
        os.link(beside, file)
    except FileExistsError:
        return  # another process was first: its secret is the one
    except OSError:  # a disk without links
        if not file.exists():
            os.replace(beside, file)
