"""A recipe in many kitchens, invented: a spread that grows round the example's own course."""

from __future__ import annotations

import math
from functools import cache
from statistics import NormalDist

from doughwright.publish.fan import LEVELS, Fan, Landing
from tests.publish._example import band

SPREAD = 0.28


@cache
def fan() -> Fan:
    shown = band()
    hours = [0.25 * at for at in range(int(shown.judged_at * 4))]
    times = (*(hour for hour in hours if hour < shown.judged_at - 0.01), shown.judged_at)

    def gained(hour: float) -> float:
        return shown.course.at(hour, before=True)[2] - 1.0

    def level(percent: float) -> tuple[float, ...]:
        far = NormalDist().inv_cdf(percent / 100.0) * SPREAD
        return tuple(1.0 + gained(hour) * math.exp(far * min(1.0, hour / 6.0)) for hour in times)

    ends = tuple(level(at + 0.5)[-1] for at in range(100))
    young = sum(one < shown.target[0] for one in ends)
    past = sum(one > shown.target[1] for one in ends)
    return Fan(
        clock=shown.clock,
        start=shown.start,
        end=shown.end,
        kitchens=10_000,
        time=times,
        quantiles=tuple(level(one) for one in LEVELS),
        percentiles=ends,
        shares=(float(young), float(100 - young - past), float(past)),
        judged_at=shown.judged_at,
        target=shown.target,
        named=(
            Landing("Warm flat", 2.7, "past"),
            Landing("Mountain cabin", 1.44, "young"),
            Landing("Boathouse", 1.6, "ripe"),
            Landing("Student kitchen", 1.9, "ripe"),
        ),
        stays=shown.stays,
    )
