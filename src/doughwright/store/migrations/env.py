"""Run by alembic: migrates over the connection it is handed, inside the transaction already begun there."""

from __future__ import annotations

from alembic import context

context.configure(connection=context.config.attributes["connection"])
context.run_migrations()
