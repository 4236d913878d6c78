"""From a recipe's run in many kitchens to what its fan shows, on the band of the same days."""

from __future__ import annotations

from doughwright.forecast.elsewhere.results import Elsewhere
from doughwright.publish.band import Band
from doughwright.publish.fan._model import LEVELS, Fan, Landing


def fan_of(elsewhere: Elsewhere, band: Band, named: tuple[Landing, ...] = ()) -> Fan:
    """The fan on a band's axis; ``named`` are the cook's own kitchens."""
    columns = elsewhere.quantiles
    time = tuple(columns["time"].values)
    judged = elsewhere.judged_at.value
    share = elsewhere.share
    return Fan(
        clock=band.clock,
        start=band.start,
        end=band.end,
        kitchens=elsewhere.kitchens,
        time=time,
        quantiles=tuple(tuple(columns[str(level)].values) for level in LEVELS),
        percentiles=tuple(elsewhere.percentiles.values),
        shares=(share.young.value or 0.0, share.ripe.value or 0.0, share.past.value or 0.0),
        judged_at=time[-1] if judged is None else judged,
        target=elsewhere.target,
        judged_word=band.judged_word,
        states=tuple(elsewhere.states),
        named=named,
        stays=band.stays,
    )
