"""Figures for whoever watches over the server, in Prometheus' text format: requests, and the queue of sites to plan.

Requests are counted across all worker processes through files in the folder `PROMETHEUS_MULTIPROC_DIR`, which
`pengan serve` makes and empties at its start; without it, this process alone is counted. The queue is asked of the
database at each look, so it is the same whichever process answers.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from prometheus_client import CollectorRegistry, Counter, Gauge, Histogram, generate_latest
from prometheus_client.multiprocess import MultiProcessCollector

from ..ahead.waiting import Waiting

FOLDER = "PROMETHEUS_MULTIPROC_DIR"
CONTENT_TYPE = "text/plain; version=0.0.4; charset=utf-8"
BUCKETS = (0.002, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10)


@dataclass(frozen=True, slots=True)
class Meters:
    """What is counted, and where."""

    registry: CollectorRegistry
    requests: Counter
    seconds: Histogram


@cache
def meters() -> Meters:
    """This process's meters, made when first asked for."""
    registry = CollectorRegistry()
    return Meters(
        registry,
        Counter("pengan_requests", "Requests answered.", ("method", "route", "status"), registry=registry),
        Histogram(
            "pengan_request_seconds",
            "Time from a request's arrival to its answer.",
            ("route",),
            registry=registry,
            buckets=BUCKETS,
        ),
    )


def count_request(method: str, route: str, status: int, seconds: float) -> None:
    """Count one request."""
    own = meters()
    own.requests.labels(method, route, str(status)).inc()
    own.seconds.labels(route).observe(seconds)


def figures(waiting: Waiting) -> bytes:
    """All figures as text."""
    own = meters()
    counted = CollectorRegistry() if FOLDER in os.environ else own.registry
    if FOLDER in os.environ:
        MultiProcessCollector(counted)  # type: ignore[no-untyped-call]
    queue = CollectorRegistry()
    for name, text, value in _queue(waiting):
        Gauge(name, text, registry=queue).set(value)
    return generate_latest(counted) + generate_latest(queue)


def _queue(waiting: Waiting) -> Iterator[tuple[str, str, float]]:
    yield "pengan_sites", "Sites whose nights are planned ahead.", waiting.sites
    yield "pengan_sites_due", "Sites with an edit or a noon that nobody has planned yet.", waiting.due
    yield "pengan_sites_polish", "Sites whose tonight waits for a better sheet.", waiting.polish
    yield "pengan_sites_claimed", "Sites that a job process is planning.", waiting.claimed
    yield "pengan_sites_failing", "Sites whose last planning failed.", waiting.failing
