"""Blocks too short to be held, in a row on a rail of scrap: together they are a strip for the saw.

The rail is as thick as the strip, so that it lies flat whichever way it is turned, and runs along one side of the
blocks; behind the last one stands a block of scrap for the hold-down. Every block is cut by itself, once at each
end, so that the saw never parts a joint between blocks. Distances without a formula are common practice, no
source. Lengths mm.
"""

from __future__ import annotations

from math import ceil

from geometry.records import Record

WIDTH = 25.0  # of the rail
LONGEST = 600.0  # of it: longer ones want support beyond the table
BETWEEN = 3.0  # of blocks, beyond two cuts: room for a knife-line and the glue that comes out
LEAST_FACE = 150.0  # mm2 that glue a block to its rail


class BlockRail(Record):
    """Rails for so many blocks of one size."""

    blocks: int
    block: float  # along the rail: the segment's outer edge as cut
    thickness: float  # of blocks and rail
    slant: float  # what one cut takes along the rail
    held: float  # behind the last block, for the hold-down

    @property
    def gap(self) -> float:
        """Between two blocks: the last cut of the one, then the first of the next."""
        return 2 * self.slant + BETWEEN

    @property
    def most(self) -> int:
        """Blocks on a rail at most; one even where that takes a longer rail."""
        return max(1, int((LONGEST - self.gap - self.held) // (self.block + self.gap)))

    @property
    def rails(self) -> int:
        return ceil(self.blocks / self.most)

    @property
    def each(self) -> int:
        """Blocks on a rail, shared as evenly as can be; on the last one fewer."""
        return ceil(self.blocks / self.rails)

    @property
    def length(self) -> float:
        """Of a rail: a gap before every block, and what is held."""
        return self.each * (self.block + self.gap) + self.gap + self.held

    @property
    def face(self) -> float:
        """What glues a block to the rail, mm2."""
        return self.block * self.thickness
