"""Documents with their versions, and drafts."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make the first tables."""
    op.create_table(
        "document",
        sa.Column("id", sa.Integer, primary_key=True),
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("name", sa.String(100), nullable=False),
        sa.Column("key", sa.String(200), nullable=False),
        sa.UniqueConstraint("kind", "key", name="document_key"),
    )
    op.create_table(
        "version",
        sa.Column("document_id", sa.Integer, sa.ForeignKey("document.id"), primary_key=True),
        sa.Column("number", sa.Integer, primary_key=True, autoincrement=False),
        sa.Column("text", sa.Text, nullable=False),
        sa.Column("who", sa.String(100), nullable=False),
        sa.Column("at", sa.String(40), nullable=False),
        sa.Column("note", sa.Text, nullable=False),
        sa.Column("origin", sa.Integer, nullable=False),
        sa.Column("removed", sa.Boolean, nullable=False),
    )
    op.create_table(
        "draft",
        sa.Column("kind", sa.String(20), primary_key=True),
        sa.Column("key", sa.String(200), primary_key=True),
        sa.Column("window", sa.String(100), primary_key=True),
        sa.Column("name", sa.String(100), nullable=False),
        sa.Column("text", sa.Text, nullable=False),
        sa.Column("based_on", sa.Integer, nullable=True),
        sa.Column("at", sa.String(40), nullable=False),
    )
    if op.get_bind().dialect.name == "sqlite":
        _keep_versions()


def _keep_versions() -> None:
    """Have the database itself refuse to change or delete a version, and sign the file as a bench."""
    for verb in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER version_kept_from_{verb.lower()} BEFORE {verb} ON version "
            "BEGIN SELECT RAISE(ABORT, 'a version is never changed or deleted'); END"
        )
    op.execute(f"PRAGMA application_id = {0x444F5547}")
