"""The tables as they are now; how a bench came to have them is in ``migrations``."""

from __future__ import annotations

from sqlalchemy import Boolean, Column, ForeignKey, Integer, MetaData, String, Table, Text, UniqueConstraint

# The newest migration; a test holds it to the scripts.
SCHEMA = "0001"
# "DOUG" in SQLite's header, so that a bench is known from any other SQLite file.
APPLICATION_ID = 0x444F5547

metadata = MetaData()

document = Table(
    "document",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("kind", String(20), nullable=False),
    Column("name", String(100), nullable=False),
    Column("key", String(200), nullable=False),
    UniqueConstraint("kind", "key", name="document_key"),
)

version = Table(
    "version",
    metadata,
    Column("document_id", Integer, ForeignKey("document.id"), primary_key=True),
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("text", Text, nullable=False),
    Column("who", String(100), nullable=False),
    Column("at", String(40), nullable=False),
    Column("note", Text, nullable=False),
    Column("origin", Integer, nullable=False),
    Column("removed", Boolean, nullable=False),
)

draft = Table(
    "draft",
    metadata,
    Column("kind", String(20), primary_key=True),
    Column("key", String(200), primary_key=True),
    Column("window", String(100), primary_key=True),
    Column("name", String(100), nullable=False),
    Column("text", Text, nullable=False),
    Column("based_on", Integer, nullable=True),
    Column("at", String(40), nullable=False),
)
