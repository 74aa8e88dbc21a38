"""A base that floats: a solid disc whose tongue lies loose in a groove, with room to move as wood does.

The groove is turned into the top of the lowest ring, round an opening, and closed by the ring above, whose opening is
as wide. The disc lies on the ledge that is left under the groove; its upper face, between the lips of the ring above,
is the floor. Heights over the foot and radii from the axis, mm; moisture moves a width by a share of it.
"""

from __future__ import annotations

from math import pi

from geometry.records import Record

# Common practice, no source, all of them; mm.
LEAST_LEDGE = 3.0
BEARS = 2.0  # of the tongue on its ledge, the disc at its driest and pushed to the other side
ROOM = 0.25  # round the disc at its wettest
THIN_ROOM = 0.3  # over the tongue at its wettest
CENTRED = 0.5  # by which the ring above may be glued off the axis
# Of a ring's outer radius, at most, times what its wood swells or shrinks: by so much an opening in it closes or opens,
# however wide; as a plane elastic ring of segments, by finite elements in the tests of a lid's fit.
CLOSES = 0.16


class FloatingBase(Record):
    """`shrinks` and `swells` are shares of a width, `thickens` of a thickness, from when the disc is fitted."""

    opening: float  # radius of the foot's hollow, on whose edge the disc lies, and of the ring above
    ledge: float  # height of the disc's lower face: thickness of the ledge
    joint: float  # height at which the ring above closes the groove
    floor: float  # height of the disc's upper face
    shrinks: float
    swells: float
    thickens: float
    closes: float = 0.0  # by how much at most the rings round it close, radius, from when it is fitted
    opens: float = 0.0  # and open

    @property
    def tongue(self) -> float:
        """Radius of the disc as fitted: it still bears when it is driest, its rings are open and it lies quite to one
        side."""
        bears = self.opening + BEARS + ROOM + self.closes + 2 * self.opens
        return bears / (1 - 2 * self.shrinks - self.swells)

    @property
    def groove(self) -> float:
        """Radius of the groove, which the disc never fills."""
        return self.tongue * (1 + self.swells) + ROOM + self.closes

    @property
    def field(self) -> float:
        """Radius of what stands up between the lips of the ring above."""
        return (self.opening - ROOM - CENTRED - self.closes) / (1 + self.swells)

    @property
    def depth(self) -> float:
        """Of the groove."""
        return self.joint - self.ledge

    @property
    def tongue_thickness(self) -> float:
        return (self.depth - THIN_ROOM) / (1 + self.thickens)

    @property
    def thickness(self) -> float:
        """Of the disc in its middle."""
        return self.floor - self.ledge

    @property
    def lip(self) -> float:
        """Height of the ring above where it holds the tongue down."""
        return self.floor - self.joint

    @property
    def room(self) -> float:
        """Round the tongue, as fitted: what is left to either side when the disc lies in the middle."""
        return self.groove - self.tongue

    @property
    def volume(self) -> float:
        """Of the disc, mm³."""
        return pi * (
            self.tongue**2 * self.tongue_thickness + self.field**2 * (self.thickness - self.tongue_thickness)
        )


def widest_opening(most_groove: float, shrinks: float, swells: float, closes: float, opens: float) -> float:
    """Radius of the opening whose groove reaches to `most_groove`."""
    tongue = (most_groove - ROOM - closes) / (1 + swells)
    return tongue * (1 - 2 * shrinks - swells) - BEARS - ROOM - closes - 2 * opens
