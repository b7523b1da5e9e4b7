"""Logs as one JSON object a line, without anything that says who somebody is.

A line holds what happened in our own fixed words and, out of a list of harmless things, what it happened to: route
patterns instead of addresses, kinds of faults instead of their text, which may quote what people typed. Where a fault
arose is told by file, line and function.
"""

from __future__ import annotations

import json
import logging
import sys
import traceback
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

HARMLESS = (
    "request",
    "method",
    "route",
    "status",
    "code",
    "ms",
    "bytes",
    "site",
    "stage",
    "sheets",
    "nights",
    "entries",
    "worker",
    "sites",
    "unparked",
    "forgotten",
)
"""What a line may carry besides its words."""
OURS = "pengan"


class JsonLines(logging.Formatter):
    """One line a record. Of what other libraries say only the template is kept, never what they filled in."""

    def format(self, record: logging.LogRecord) -> str:
        """The record as JSON."""
        line: dict[str, Any] = {
            "at": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "from": record.name,
            "event": str(record.msg),
        }
        line.update({name: vars(record)[name] for name in HARMLESS if name in vars(record)})
        if record.exc_info and record.exc_info[0] is not None:
            line["fault"] = record.exc_info[0].__name__
            line["where"] = _where(record.exc_info[2])
        return json.dumps(line, ensure_ascii=False, default=str)


def log_to_stderr(level: str = "") -> None:
    """Send every log of this process to the error stream. Without a level: `info`, but `warning` on a terminal, where
    somebody sits who did not ask for a line a request."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(JsonLines())
    root = logging.getLogger()
    root.handlers[:] = [handler]
    root.setLevel(logging.WARNING)
    logging.getLogger(OURS).setLevel((level or ("warning" if sys.stderr.isatty() else "info")).upper())


def for_granian() -> dict[str, Any]:
    """The same for the server's own log, which it sets up by itself, in the shape of `logging.config.dictConfig`.

    Its warnings are hints about settings, given again at every start."""
    return {
        "version": 1,
        "disable_existing_loggers": False,
        "formatters": {"lines": {"()": f"{__name__}.{JsonLines.__name__}"}},
        "handlers": {"lines": {"class": "logging.StreamHandler", "formatter": "lines", "stream": "ext://sys.stderr"}},
        "loggers": {"_granian": {"handlers": ["lines"], "level": "ERROR", "propagate": False}},
    }


def _where(trace: Any) -> list[str]:
    return [f"{Path(frame.filename).name}:{frame.lineno} {frame.name}" for frame in traceback.extract_tb(trace)]
