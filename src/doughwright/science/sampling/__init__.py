"""Sampling: even points, the normal distribution, and what explains a spread."""
