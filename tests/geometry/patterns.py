"""Random patterns of layups, and where each kind of them breaks."""

import math
from typing import NamedTuple

import numpy as np
from hypothesis import strategies as st

from geometry.blanks.pattern import Pattern
from geometry.blanks.planes import Mirrored, Plane
from geometry.bodies.torus import Blank

BLANK = Blank(18, 8, 41.0, 20.0, 115.0)
seeds = st.integers(0, 2**32 - 1)
planes: st.SearchStrategy[Plane] = st.sampled_from(("flat", "end", "face"))
mirrorings: st.SearchStrategy[Mirrored] = st.sampled_from(("none", "left and right", "up and down", "both"))
some_plies = st.lists(st.floats(0.4, 5.0), min_size=1, max_size=6).map(tuple)


@st.composite
def patterns(draw: st.DrawFn, plane: Plane | None = None, mirrored: Mirrored | None = None) -> Pattern:
    return Pattern(
        plies=draw(some_plies),
        angle=draw(st.floats(0.0, math.pi / 2)),
        plane=draw(planes) if plane is None else plane,
        mirrored=draw(mirrorings) if mirrored is None else mirrored,
        a=draw(st.floats(5.0, 40.0)),
        b=draw(st.floats(5.0, 40.0)),
        sanding=draw(st.floats(0.0, 0.5)),
        turned=draw(st.booleans()),
    )


class Breaks(NamedTuple):
    """Whether a pattern breaks at mitres, and at the joints between wedge rings."""

    mitres: bool
    wedges: bool


BREAKS: dict[tuple[Plane, Mirrored], Breaks] = {
    ("flat", "none"): Breaks(True, True),
    ("flat", "up and down"): Breaks(True, False),
    ("flat", "left and right"): Breaks(False, True),
    ("end", "none"): Breaks(False, True),
    ("end", "left and right"): Breaks(False, True),
    ("face", "none"): Breaks(True, False),
    ("face", "up and down"): Breaks(True, False),
}


def mostly(same: np.typing.NDArray[np.bool_]) -> bool:
    """All but a few that rounding moved from one ply to the next, or to the next segment."""
    return bool(same.mean() > 0.98)
