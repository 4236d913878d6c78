"""The compiled loops and their NumPy twins: many pieces of dough waiting, side by side in lanes."""
