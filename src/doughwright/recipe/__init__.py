"""The recipe document and what it means: text, dataclasses, formula, scaling."""
