"""A vessel cut at a height into two tiers, each a section of its own that opens at the joint. Lengths mm."""

from __future__ import annotations

import numpy as np

from geometry.bodies.section import Section
from geometry.plane.profile import Profile

LEFT = 0.5  # of the waste over the rim, that the upper tier's inside does not reach into


def lower_tier(section: Section, joint: float) -> Section:
    """What is under the joint, as it stands. Raises ValueError where the joint is not over the floor."""
    if not section.inner.bottom < joint < section.height:
        raise ValueError(f"a joint at {joint:.6g} mm is not in the hollow")
    return Section(
        section.outer.between(0.0, joint),
        section.inner.between(section.inner.bottom, joint),
        section.recess_radius,
        section.recess_depth,
    )


def upper_tier(section: Section, joint: float, waste: float) -> Section:
    """What is over the joint, upside down: height 0 is `waste` over the rim, and the inside ends in that waste.

    Raises ValueError where the joint is not over the floor.
    """
    if not section.inner.bottom < joint < section.height:
        raise ValueError(f"a joint at {joint:.6g} mm is not in the hollow")
    foot = section.height + waste
    outer, inner = (
        _turned_over(_raised(side, joint, section.height, waste), foot)
        for side in (section.outer, section.inner)
    )
    floor = waste - LEFT
    rows = np.vstack(([0.0, floor, 0.0], inner.spanning(floor, inner.top).vertices))
    return Section(outer, Profile(rows))


def _raised(side: Profile, joint: float, rim: float, waste: float) -> Profile:
    """A side from the joint up, straight on through the waste over the rim."""
    kept = side.between(joint, rim).vertices
    return Profile(np.vstack((kept, [(kept[-1, 0], rim + waste, 0.0)])))


def _turned_over(side: Profile, foot: float) -> Profile:
    """Upside down; it rises again."""
    rows = side.reversed().vertices.copy()
    rows[:, 1] = foot - rows[:, 1]
    rows[:, 2] *= -1.0
    return Profile(rows)
