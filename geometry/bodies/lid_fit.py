"""How a lid's flange fits into the mouth of its pot, while both move with the air. Radii and gaps in mm.

Wood hardly moves along its grain. So a disc of solid wood changes its radius across the grain by a share of that
radius; a ring whose grain runs round it keeps the length of its middle line, and each of its two faces moves by half
of what the ring's width changes. Shares are of a width, by the tangential coefficient, the larger.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, pi, sqrt

from geometry.records import Record

STIFF = 10.0  # along the grain over across it, at least; 10 to 23 of hardwoods (Wood Handbook, from memory)


def as_narrow(outer: float, inner: float) -> float:
    """The width of the narrow ring whose faces move as does the outer one of a ring between these radii.

    Up to 0.48 of the radius, where it closes over the middle: there its grain holds the rim best. A thin
    cylindrically orthotropic ring that swells across its grain, both faces free: r u'' + u' - STIFF u / r = e (1 - v)
    (Lekhnitskii, Anisotropic Plates, from memory), whose u at the rim has no v left in it.
    """
    k, share = sqrt(STIFF), inner / outer
    if share > 0.999:
        return outer - inner
    rim = (k - 1 - 2 * k * share ** (k + 1) + (k + 1) * share ** (2 * k)) / (
        (k * k - 1) * (1 - share ** (2 * k))
    )
    return float(2 * outer * rim)


def outer_sag(radius: float, inner: float, segments: int) -> float:
    """What straight grain adds to the narrow ring's width for a face turned round it, outside.

    In the middle of a segment more wood lies outside the straight line from joint to joint: the arc's height, which is
    counted at what a plane elastic segment between its mitres gives at most, by finite elements in the tests.
    """
    return 2 * (1.4 if inner > 0.8 * radius else 2.2) * _arc_height(radius, segments)


def inner_sag(radius: float, segments: int) -> float:
    """The same of a mouth, which closes most at the joints."""
    return 2 * 0.6 * _arc_height(radius, segments)


def _arc_height(radius: float, segments: int) -> float:
    return radius * (1 - cos(pi / segments))


def held_out(radius: float, wall: float) -> float:
    """How far along a thin tube, its grain round it, what spreads its end still does: a quarter wave of bending.

    The wave of a tube is 2 pi sqrt(radius wall) / (3 (1 - v^2))^(1/4) (Timoshenko, from memory); along the axis wood is
    bent across its grain, which makes it shorter by STIFF^(1/4).
    """
    return 1.2 * sqrt(radius * wall / sqrt(STIFF))


def widened(width: float, radius: float, under: Iterable[tuple[float, float]]) -> float:
    """The width as which a rim moves that a shoulder or a dome carries: `under` is how far away and how wide level.

    What swells along a wall that leans spreads its end, less with the distance; by finite elements in the tests.
    """
    reach = held_out(radius, width)
    return max(
        (
            width + (level - width) * (1 - away / reach)
            for away, level in under
            if away < reach and level > width
        ),
        default=width,
    )


class RimWood(Record):
    """The wood at a turned face: solid, or a ring that moves as a narrow one `width` wide; its shares from fitting to
    the ends. `round` of the ring's radius moves as solid wood does, since its grain does not run round.
    """

    solid: bool
    width: float
    shrinks: float
    swells: float
    round: float = 0.0

    def grown(self, radius: float) -> float:
        """By how much an outer face of this radius moves out, the wood at its wettest."""
        return (radius if self.solid else self.width / 2 + self.round) * self.swells

    def shrunk(self, radius: float) -> float:
        """By how much an outer face of this radius moves in, the wood at its driest."""
        return (radius if self.solid else self.width / 2 + self.round) * self.shrinks

    def closed(self, radius: float) -> float:
        """By how much a mouth of this radius gets smaller at most: solid wood as it dries, a ring as it swells."""
        if self.solid:
            return radius * self.shrinks
        return max(self.width * self.swells / 2, self.round * self.shrinks)

    def opened(self, radius: float) -> float:
        """By how much a mouth of this radius gets wider at most."""
        if self.solid:
            return radius * self.swells
        return max(self.width * self.shrinks / 2, self.round * self.swells)


class LidFit(Record):
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
