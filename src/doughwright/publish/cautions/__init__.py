"""Cautions: what can hurt somebody in a recipe and a kitchen, computed by a table of rules with sources."""

from doughwright.publish.cautions._find import FINDERS, Caution, cautions
from doughwright.publish.cautions._table import RULES

__all__ = ["FINDERS", "RULES", "Caution", "cautions"]
