"""The two lanes: the dough on the sheet's clock, and the cook's minutes opened out."""

from doughwright.publish.lanes._blocks import Block, LaneRow, blocks_of, lanes_sentence, lanes_table
from doughwright.publish.lanes._picture import lanes_svg

__all__ = ["Block", "LaneRow", "blocks_of", "lanes_sentence", "lanes_svg", "lanes_table"]
