"""How a lid's flange fits into the mouth of its pot, while both move with the air. Radii and gaps in mm.

Wood hardly moves along its grain. So a disc of solid wood changes its radius across the grain by a share of that
radius; a ring whose grain runs round it keeps the length of its middle line, and each of its two faces moves by half
of what the ring's width changes. Shares are of a width, by the tangential coefficient, the larger.
"""

from __future__ import annotations

from geometry.records import dataclass


@dataclass(frozen=True)
class RimWood:
    """The wood at a turned face: solid, or a ring of segments `width` wide; its shares from fitting to the ends."""

    solid: bool
    width: float
    shrinks: float
    swells: float

    def grown(self, radius: float) -> float:
        """By how much an outer face of this radius moves out, the wood at its wettest."""
        return radius * self.swells if self.solid else self.width * self.swells / 2

    def shrunk(self, radius: float) -> float:
        """By how much an outer face of this radius moves in, the wood at its driest."""
        return radius * self.shrinks if self.solid else self.width * self.shrinks / 2

    def closed(self, radius: float) -> float:
        """By how much a mouth of this radius gets smaller at most: solid wood as it dries, a ring as it swells."""
        return radius * self.shrinks if self.solid else self.width * self.swells / 2

    def opened(self, radius: float) -> float:
        """By how much a mouth of this radius gets wider at most."""
        return radius * self.swells if self.solid else self.width * self.shrinks / 2


@dataclass(frozen=True)
class LidFit:
    """A flange in a mouth. `least` is the gap all round that is left at the worst."""

    mouth: float  # least radius of the pot's inside, as far down as the flange reaches
    least: float
    pot: RimWood
    lid: RimWood

    @property
    def flange(self) -> float:
        """Radius to turn: at its largest it leaves `least` in the mouth at its smallest."""
        room = self.mouth - self.least - self.pot.closed(self.mouth)
        return room / (1 + self.lid.swells) if self.lid.solid else room - self.lid.grown(room)

    @property
    def gap(self) -> float:
        """All round, as fitted."""
        return self.mouth - self.flange

    @property
    def widest(self) -> float:
        """All round, the flange at its smallest in the mouth at its widest."""
        return self.gap + self.pot.opened(self.mouth) + self.lid.shrunk(self.flange)
