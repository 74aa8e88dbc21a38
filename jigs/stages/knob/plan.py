"""A lid's knob. Heights over the lid's top, mm."""

from __future__ import annotations

from functools import cached_property

import numpy as np

from geometry.plane.contour import Contour
from geometry.plane.profile import Profile
from geometry.records import Record


class KnobPlan(Record, eq=False):
    """The knob and the hole that it is glued into."""

    profile: Profile  # finished, from the lid's top up
    edge: Profile  # of its gauge, beside the finished profile
    species: str
    tenon: float  # diameter
    length: float  # of the tenon
    hole: float  # depth
    left: float  # of the lid's wood under the hole
    across: float  # of the square that it is turned from
    long: float
    lands: float  # of the lid's flat top beside the knob's foot, radially; less than nothing where it stands over

    @property
    def height(self) -> float:
        return self.profile.top

    @cached_property
    def contour(self) -> Contour:
        """Half its section, with its tenon in the hole."""
        half = self.tenon / 2
        under = [(0.0, -self.length, 0.0), (half, -self.length, 0.0), (half, 0.0, 0.0)]
        return Contour(np.array([*under, *self.profile.vertices.tolist(), (0.0, self.height, 0.0)]))

    @property
    def widest(self) -> float:
        """Diameter."""
        return 2 * self.profile.radii(self.profile.bottom, self.profile.top)[1]
