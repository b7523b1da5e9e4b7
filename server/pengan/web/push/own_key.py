"""The key by which push services know this server (VAPID, RFC 8292): made at the first start, beside its secret.

Where it is lost, devices have to be asked anew; the page does so the next time it is opened.
"""

from __future__ import annotations

import base64
from pathlib import Path

from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    PublicFormat,
    load_pem_private_key,
)

from ..own_secret import made_once

NAME = "push-key.pem"


def own_push_key(secret_file: Path) -> ec.EllipticCurvePrivateKey:
    """The key beside the server's own secret, made where there is none. Raises `OSError` where it cannot be read."""
    file = secret_file.parent / NAME
    made_once(file, _new)
    key = load_pem_private_key(file.read_bytes(), None)
    if not isinstance(key, ec.EllipticCurvePrivateKey) or not isinstance(key.curve, ec.SECP256R1):
        raise OSError(0, "not a push key of this server", str(file))
    return key


def public_text(key: ec.EllipticCurvePrivateKey) -> str:
    """What a browser is given: the public point, as base64url without padding (RFC 8292, section 3.2)."""
    point = key.public_key().public_bytes(Encoding.X962, PublicFormat.UncompressedPoint)
    return base64.urlsafe_b64encode(point).rstrip(b"=").decode()


def _new() -> bytes:
    key = ec.generate_private_key(ec.SECP256R1())
    return key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
