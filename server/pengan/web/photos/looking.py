"""What a photo is by its own content, whatever its sender calls it, and whether all of it is there.

Sources: JPEG's marker segments, ITU-T T.81, annex B.1.1.3 (start and end of image); PNG's signature and last chunk,
ISO/IEC 15948, clauses 5.2 and 11.2.5; WebP's container, RFC 9649, section 2.4; digests of a body, RFC 9530, section 2.
"""

from __future__ import annotations

import base64
import hashlib
import re

from pengan.engine.message import Message, saying

MOST_BYTES = 1024 * 1024
KINDS = ("image/jpeg", "image/png", "image/webp")

no_picture = saying("photos.no_picture", "This is no picture that can be kept here: JPEG, PNG or WebP.")
half_a_picture = saying("photos.half", "Only a part of this photo arrived. It is sent again.")
other_kind = saying("photos.other_kind", "This was sent as {given}, but it is {kind}.")
other_sum = saying("photos.other_sum", "What arrived is not what was sent: the checksums differ.")

_SUM = re.compile(r"(?:^|,)\s*sha-256=:([A-Za-z0-9+/=]{44}):\s*(?:,|$)")


def fault_of(content: bytes, given: str, digest: str | None) -> Message | None:
    """What is wrong with a photo that was sent as `given`, with its `Content-Digest` if it had one; None: nothing."""
    kind = kind_of(content)
    if kind is None:
        return no_picture()
    if kind != given:
        return other_kind(given=given, kind=kind)
    if not is_whole(content, kind):
        return half_a_picture()
    if digest is not None and not agrees(content, digest):
        return other_sum()
    return None


def kind_of(content: bytes) -> str | None:
    """Its type by its first bytes; None: none of those taken here."""
    if content.startswith(b"\xff\xd8\xff"):
        return "image/jpeg"
    if content.startswith(b"\x89PNG\r\n\x1a\n"):
        return "image/png"
    return "image/webp" if content[:4] == b"RIFF" and content[8:12] == b"WEBP" else None


def is_whole(content: bytes, kind: str) -> bool:
    """Whether it ends as its type ends."""
    if kind == "image/jpeg":
        return content.endswith(b"\xff\xd9")
    if kind == "image/png":
        return content.endswith(b"\0\0\0\0IEND\xaeB`\x82")
    return int.from_bytes(content[4:8], "little") + 8 == len(content)


def agrees(content: bytes, digest: str) -> bool:
    """Whether a `Content-Digest` names the SHA-256 of the content. One that cannot be read agrees with nothing."""
    found = _SUM.search(digest)
    return found is not None and found[1] == base64.b64encode(hashlib.sha256(content).digest()).decode()
