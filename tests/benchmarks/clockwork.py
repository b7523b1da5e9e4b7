"""Times a call, natively on one core: processor time of this process, the least of several tries."""

from __future__ import annotations

from collections.abc import Callable
from time import process_time
from typing import TypeVar

T = TypeVar("T")


def timed(call: Callable[[], T], tries: int = 1) -> tuple[T, float]:
    """What the call gives, and the processor seconds of its quickest try (other work on the machine does not count)."""
    quickest = float("inf")
    for _ in range(tries):
        began = process_time()
        result = call()
        quickest = min(quickest, process_time() - began)
    return result, quickest
