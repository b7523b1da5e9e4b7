"""The histories can fail: each of five faults put into the server on purpose is noticed."""

from __future__ import annotations

import pytest
from flask import Flask
from hypothesis.errors import FlakyFailure

from sync.faults import FAULTS
from sync.machine import run_histories

HISTORIES = 80  # at most; the first that fails ends it


@pytest.mark.parametrize("fault", FAULTS)
def test_a_fault_put_in_on_purpose_is_noticed(fault: str, one_server: Flask) -> None:
    with FAULTS[fault](), pytest.raises((AssertionError, FlakyFailure)):
        run_histories(lambda: one_server, HISTORIES, shortest=False)
