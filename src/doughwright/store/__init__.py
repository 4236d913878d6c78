"""The bench on the disk: recipes and kitchens as text, every version of each, in one SQLite file.

    with open_bench("saltmarsh") as bench:
        first = bench.save("recipe", "pie.toml", text, expected=None, note="as cooked on Sunday")
        bench.save("recipe", "pie.toml", changed, expected=first.number)
        bench.undo("recipe", "pie.toml")

The store never reads the documents: a text that does not parse is kept like any other.
"""

from doughwright.store._bench import Bench, open_bench
from doughwright.store._errors import BenchError, ConflictError
from doughwright.store._records import Draft, Exported, Imported, Kind, Version

__all__ = [
    "Bench",
    "BenchError",
    "ConflictError",
    "Draft",
    "Exported",
    "Imported",
    "Kind",
    "Version",
    "open_bench",
]
