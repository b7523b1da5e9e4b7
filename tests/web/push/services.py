"""A push service of our own on this machine, and a browser's keys: it checks the sender and opens what is sent."""

from __future__ import annotations

import base64
import json
import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from threading import Thread
from typing import Any

import http_ece
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.utils import encode_dss_signature
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat


def text_of(data: bytes) -> str:
    return base64.urlsafe_b64encode(data).rstrip(b"=").decode()


def bytes_of(text: str) -> bytes:
    return base64.urlsafe_b64decode(text + "=" * (-len(text) % 4))


@dataclass
class Phone:
    """What a browser keeps of its subscription."""

    path: str
    key: ec.EllipticCurvePrivateKey = field(default_factory=lambda: ec.generate_private_key(ec.SECP256R1()))
    secret: bytes = field(default_factory=lambda: os.urandom(16))

    def subscription(self, service: str) -> dict[str, Any]:
        """As the browser's `toJSON` writes it."""
        point = self.key.public_key().public_bytes(Encoding.X962, PublicFormat.UncompressedPoint)
        keys = {"p256dh": text_of(point), "auth": text_of(self.secret)}
        return {"endpoint": service + self.path, "expirationTime": None, "keys": keys}

    def opened(self, body: bytes) -> dict[str, Any]:
        """What a message says (RFC 8291)."""
        plain = http_ece.decrypt(body, private_key=self.key, auth_secret=self.secret, version="aes128gcm")
        read: dict[str, Any] = json.loads(plain)
        return read


@dataclass
class Came:
    """One request as it came."""

    path: str
    headers: dict[str, str]
    body: bytes

    def claims(self) -> dict[str, Any]:
        """Who says that they send it (RFC 8292), once the signature is found to be theirs."""
        kind, _space, rest = self.headers["authorization"].partition(" ")
        assert kind == "vapid"
        parts = dict(part.strip().split("=", 1) for part in rest.split(","))
        head, claims, signature = parts["t"].split(".")
        raw = bytes_of(signature)
        der = encode_dss_signature(int.from_bytes(raw[:32], "big"), int.from_bytes(raw[32:], "big"))
        public = ec.EllipticCurvePublicKey.from_encoded_point(ec.SECP256R1(), bytes_of(parts["k"]))
        public.verify(der, f"{head}.{claims}".encode(), ec.ECDSA(SHA256()))
        read: dict[str, Any] = json.loads(bytes_of(claims))
        return read | {"key": parts["k"]}


@dataclass
class Service:
    """The service: what came, and what it answers (a status, and headers)."""

    address: str = ""
    came: list[Came] = field(default_factory=list)
    status: int = 201
    more: dict[str, str] = field(default_factory=dict)


@contextmanager
def push_service() -> Iterator[Service]:
    """On 127.0.0.1, at a port of its own, while the block lasts."""
    service = Service()

    class Handler(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            body = self.rfile.read(int(self.headers.get("Content-Length", "0")))
            service.came.append(Came(self.path, {name.lower(): text for name, text in self.headers.items()}, body))
            self.send_response(service.status)
            for name, text in service.more.items():
                self.send_header(name, text)
            self.end_headers()

        def do_GET(self) -> None:
            service.came.append(Came(f"GET {self.path}", {}, b""))
            self.send_response(200)
            self.end_headers()

        def log_message(self, *_words: object) -> None:
            """Say nothing."""

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    service.address = f"http://127.0.0.1:{server.server_port}"
    thread = Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield service
    server.shutdown()
    server.server_close()
    thread.join()
