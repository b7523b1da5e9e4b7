"""Alembic's way in: it runs the steps on the connection that `steps.py` hands over."""

from __future__ import annotations

from alembic import context

from pengan.web.database import Base

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Base.metadata,
    transaction_per_migration=False,
)
context.run_migrations()
