from doughwright.science.yeast import Array

LANES: int
BAKE_LANES: int

def wait(
    arrays: tuple[Array, Array, Array, Array, Array, Array, Array, Array, Array, Array | None],
    kinds: tuple[int, int],
    growth: tuple[float, float],
    stepping: tuple[float, float, float, float, float, float],
    lanes: tuple[int, int],
    /,
) -> None: ...
def bake(
    arrays: tuple[Array | None, ...],
    kinds: bytes,
    lifted: bool,
    stepping: tuple[float, float, float],
    lanes: tuple[int, int],
    /,
) -> None: ...
