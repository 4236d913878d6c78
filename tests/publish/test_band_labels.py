"""Words over the band stand so that no leader crosses a word."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from doughwright.publish.band._labels import Label, placed

WORDS = st.sampled_from(
    ["fold", "mix dough", "into the fridge", "divide, ball", "shape, par-bake, dress, bake"]
)
LABELS = st.lists(st.tuples(st.floats(34.0, 931.0), WORDS), min_size=1, max_size=9)


def label(x: float, words: str) -> Label:
    return Label(x, x, "07:40", words)


def extent(one: Label) -> tuple[float, float]:
    return (one.x - one.width, one.x) if one.leftwards else (one.x, one.x + one.width)


def test_the_earlier_of_a_group_stands_higher() -> None:
    """So that its leader ends above the others' words."""
    rows = placed([label(100.0, "mix dough"), label(140.0, "fold")], 0.0, 932.0)
    assert [(one.words, one.row) for one in rows] == [("mix dough", 1), ("fold", 0)]


def test_at_the_right_edge_words_run_left_and_the_later_stands_higher() -> None:
    """Nothing passes the edge."""
    rows = placed([label(880.0, "divide, ball"), label(925.0, "shape")], 0.0, 932.0)
    assert all(one.leftwards for one in rows)
    assert rows[1].row > rows[0].row


def test_the_same_again_shares_a_label() -> None:
    """ "fold, again 09:35"."""
    rows = placed([label(100.0, "fold"), label(130.0, "fold")], 0.0, 932.0)
    assert [one.words for one in rows] == ["fold, again 07:40"]


def test_more_than_four_share_lines() -> None:
    """Six close together stand in four lines."""
    rows = placed([label(100.0 + 12.0 * n, f"step {n}") for n in range(6)], 0.0, 932.0)
    assert max(one.row for one in rows) == 3


def test_words_too_long_for_either_side_are_shortened() -> None:
    """On a phone only the first and the last of a chain are said."""
    rows = placed([label(155.0, "shape, par-bake, dress, bake")], 0.0, 300.0)
    assert rows[0].words == "shape, bake"


@pytest.mark.property
@given(LABELS)
def test_no_two_words_overlap_and_no_leader_crosses_one(drawn: list[tuple[float, str]]) -> None:
    """Whatever is done when: words of a row keep apart, and a leader passes below no other word."""
    rows = placed([label(x, words) for x, words in drawn], 0.0, 932.0)
    for one in rows:
        for other in rows:
            low, high = extent(other)
            if one is other:
                continue
            if one.row == other.row:
                assert extent(one)[1] <= low + 0.1 or high <= extent(one)[0] + 0.1
            if one.row > other.row:
                assert not low + 0.1 < one.x < high - 0.1
