from doughwright.science.yeast import Array

LANES: int

def wait(
    arrays: tuple[Array, Array, Array, Array, Array, Array, Array, Array, Array, Array | None],
    kinds: tuple[int, int],
    growth: tuple[float, float],
    stepping: tuple[float, float, float, float, float, float],
    lanes: tuple[int, int],
    /,
) -> None: ...
