"""A server over either kind of database, as the journal's tests have it."""

from __future__ import annotations

from web.journal.conftest import manager, prepared, server

__all__ = ["manager", "prepared", "server"]
