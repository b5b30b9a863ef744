"""Runs the steps on the connection that the ledger has open, inside its transaction."""

from __future__ import annotations

from alembic import context

from quoting.ledger.tables import METADATA

connection = context.config.attributes["connection"]
context.configure(connection=connection, target_metadata=METADATA, render_as_batch=True)
context.run_migrations()
