"""The moments of a recipe's days: when it begins, its last wait, and when the dough is judged."""

from __future__ import annotations

from collections.abc import Sequence

from doughwright.errors import Fault, NoAnswerError
from doughwright.forecast._course import Course, Mark
from doughwright.forecast._dough import Dough
from doughwright.recipe.model import BAKES, Recipe
from doughwright.recipe.types import WHEN_UNSAID


def clock_of(recipe: Recipe) -> float:
    """The hour of the day at which a recipe's first step begins, by when it is eaten."""
    hour, _, minute = (recipe.makes.eat or WHEN_UNSAID).time.partition(":")
    lasting = sum(step.lasts or 0.0 for step in recipe.steps) / 3600.0
    return (float(hour) + float(minute) / 60.0 - lasting) % 24.0


def last_wait(course: Course, before: int) -> int | None:
    """Which mark begins the last wait before a mark."""
    waits = [index for index in range(before) if _is_wait(course.marks[index])]
    return waits[-1] if waits else None


def _is_wait(mark: Mark) -> bool:
    return mark.step is not None and mark.step.waits


def judged_mark(recipe: Recipe, course: Course) -> int:
    """When shaping begins (round, rectangle), the first bake (tin, ball), else the end of the last wait."""
    wanted = ("shape",) if recipe.shape in ("round", "rectangle") else BAKES
    marks = course.marks
    found = [index for index, mark in enumerate(marks) if mark.step is not None and mark.step.do in wanted]
    if found:
        return found[-1]
    last = last_wait(course, len(marks) - 1)
    return len(marks) - 1 if last is None else last + 1


def last_mark_of(course: Course, verbs: Sequence[str]) -> Mark | None:
    """The course just before the last of these verbs."""
    found = [mark for mark in course.marks if mark.step is not None and mark.step.do in verbs]
    return found[-1] if found else None


def dough_of(mark: Mark) -> Dough:
    """The dough at a mark; raises ``NoAnswerError`` where it is not mixed yet."""
    if mark.dough is None:
        raise NoAnswerError(
            Fault("the dough is judged before it is mixed", try_="Put its mix step before the others")
        )
    return mark.dough
