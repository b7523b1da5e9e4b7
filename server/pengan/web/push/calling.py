"""One message handed to a push service: encrypted for the device, in this server's name, and never anywhere else."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import Any

import requests
from cryptography.hazmat.primitives.asymmetric import ec
from py_vapid import Vapid02  # type: ignore[import-untyped]
from pywebpush import WebPushException, webpush  # type: ignore[import-untyped]

PATIENCE_S = 10
KEPT_S = 4 * 3600
"""So long a push service keeps it for a phone that is off."""
LONGEST_WAIT_S = 3600


class Outcome(Enum):
    """What became of a message."""

    TAKEN = "taken"
    GONE = "gone"  # the device is not there any more
    LATER = "later"  # the service is busy, or cannot be reached
    NEVER = "never"  # it does not take this, however often it is sent


@dataclass(frozen=True, slots=True)
class Answer:
    """What became of it, and for how long the service asks to be left alone."""

    outcome: Outcome
    wait_s: int = 0


@dataclass(frozen=True, slots=True)
class Where:
    """A device's address at its push service, and its keys."""

    endpoint: str
    p256dh: str
    auth: str


class _Straight(requests.Session):
    """Follows no redirect: the address was looked at, another was not. Knows no password of this machine."""

    def __init__(self) -> None:
        super().__init__()
        self.trust_env = False

    def post(self, url: Any, data: Any = None, json: Any = None, **words: Any) -> requests.Response:
        """As a session does, without going elsewhere."""
        return super().post(url, data=data, json=json, **{**words, "allow_redirects": False})


def call(key: ec.EllipticCurvePrivateKey, contact: str, where: Where, text: str, urgent: bool, topic: str) -> Answer:
    """Hand it over. Nothing is raised: a service that does not answer as it should is asked again later, or never."""
    subscription = {"endpoint": where.endpoint, "keys": {"p256dh": where.p256dh, "auth": where.auth}}
    headers: dict[str, str | int | float] = {"Urgency": "high" if urgent else "normal", "Topic": topic}
    try:
        with _Straight() as line:
            webpush(
                subscription, text, Vapid02(key), {"sub": contact}, ttl=KEPT_S, timeout=PATIENCE_S, headers=headers,
                requests_session=line,
            )  # fmt: skip
    except WebPushException as fault:
        return _answer(fault.response)
    except requests.RequestException:
        return Answer(Outcome.LATER)
    except ValueError:  # keys that are none
        return Answer(Outcome.GONE)
    return Answer(Outcome.TAKEN)


def _answer(response: Any) -> Answer:
    """By the status codes of RFC 8030, sections 5 and 7.3; 404 and 410 are what services answer for one who left."""
    if response is None:
        return Answer(Outcome.NEVER)
    if response.status_code in (404, 410):
        return Answer(Outcome.GONE)
    if response.status_code in (408, 425, 429) or response.status_code >= 500:
        asked = response.headers.get("Retry-After", "")
        return Answer(Outcome.LATER, min(LONGEST_WAIT_S, int(asked)) if asked.isdecimal() and len(asked) < 9 else 0)
    return Answer(Outcome.NEVER)
