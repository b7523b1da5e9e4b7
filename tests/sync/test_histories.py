"""Histories that nobody thought of: a crew's phones, a real server, and everything that can go wrong in between."""

from __future__ import annotations

from collections.abc import Callable

from flask import Flask

from sync.machine import run_histories

HISTORIES = 30  # on each of the two databases; `python tests/sync --histories 10000` for more


def test_all_twelve_promises_hold_whatever_happens(made: Callable[[], Flask]) -> None:
    run_histories(made, HISTORIES)
