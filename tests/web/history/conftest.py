"""The same site as for the tests of sync."""

from __future__ import annotations

from web.sync.conftest import database, tables_on_postgres, world

__all__ = ["database", "tables_on_postgres", "world"]
