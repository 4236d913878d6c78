"""Doughwright: develop, prove and publish recipes made from slow yeasted doughs."""

__all__ = ["__version__"]

__version__ = "0.1.0"
