"""How the inner gauges pass the mouth, and how deep they get."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import sqrt

from geometry.bodies.section import Section
from geometry.lathe.inside_reach import Reach, beyond_back, reach
from geometry.plane.profile import Profile
from geometry.records import dataclass
from jigs.asked.vessel_job import VesselJob
from jigs.stages.gauging.plan.vessel import FloatingGauges
from jigs.stages.stack.plan import StackPlan

ARM = 12.0  # mm of the plate on the ring
NOSE = 6.0  # mm of the step that enters the opening, at most
OVER_TONGUE = 0.1  # mm that the slot is wider
PAST = 1.0  # mm that it is deeper than the rebate

PLAY = 2.0  # on either side of the gauge while it passes
LEAST_WIDTH = 12.0  # of a plate that stays stiff
LEAST_DEPTH = 10.0  # of a gauge that is worth having
LEFT_OUT = 1.0  # of height over the floor that is not worth telling


@dataclass(frozen=True, eq=False)
class Inside:
    """Working edges by stage, None where no gauge passes, and what they have in common."""

    edges: tuple[Profile | None, ...]
    low: float
    back: float
    width: float
    unguided: tuple[float, float] | None

    @property
    def any(self) -> bool:
        return any(edge is not None for edge in self.edges)


def inside_of(section: Section, offsets: Sequence[float], fit: float, plate: float) -> Inside:
    """The inner gauges' edges, as deep as all of them get that pass the mouth with plates of this thickness."""
    floor, height = section.inner.bottom, section.height
    whole = [beside(section, offset + fit) for offset in offsets]
    passes = [_passes(section, edge, offset, plate) for edge, offset in zip(whole, offsets, strict=True)]
    reached = [one for one in passes if one]
    if not reached:
        return Inside((None,) * len(offsets), height, 0.0, 0.0, (floor, height))
    back, width = max(one.back for one in reached), min(one.width for one in reached)
    edges = _edges(whole, passes, back)
    low = max(edge.bottom for edge in edges if edge)
    over = floor + offsets[0] + fit
    return Inside(edges, low, back, width, (floor, low) if low > over + LEFT_OUT else None)


def _passes(section: Section, edge: Profile | None, offset: float, plate: float) -> Reach | None:
    """How far a gauge gets at its stage, where that is far enough."""
    hollow = beside(section, offset)
    found = reach(hollow, edge, PLAY, LEAST_WIDTH, plate) if hollow and edge else None
    return found if found and section.height - found.low >= LEAST_DEPTH else None


def _edges(
    whole: Sequence[Profile | None], passes: Sequence[Reach | None], back: float
) -> tuple[Profile | None, ...]:
    """The edges down to the depth that all reach, where that is not the floor, and from the back on."""
    pairs = [(edge, one) for edge, one in zip(whole, passes, strict=True) if edge and one]
    deep = all(one.low <= edge.bottom + 1e-6 for edge, one in pairs)
    low = max(one.low for _, one in pairs)
    return tuple(
        beyond_back(edge if deep else edge.between(low, edge.top), back) if edge and one else None
        for edge, one in zip(whole, passes, strict=True)
    )


@lru_cache(maxsize=16)  # of gauges and of the work at each stage
def beside(section: Section, distance: float) -> Profile | None:
    """The inside moved into the hollow, up to the rim; lengthened first, so that it goes round the rim's arris,
    and the foot's where there is no floor.

    None where the wood fills the hollow.
    """
    inner, height = section.inner, section.height
    try:
        past = 2.0 * distance + 1.0
        moved = inner.spanning(inner.bottom - (past if section.through else 0.0), height + past).beside(
            -distance
        )
        return moved.spanning(inner.bottom if section.through else moved.bottom, height)
    except ValueError:
        return None


def floating_gauges(job: VesselJob, stack: StackPlan, plate: float) -> FloatingGauges | None:
    """None where no base floats."""
    if stack.floating is None:
        return None
    base = stack.floating.base
    return FloatingGauges(
        groove=_across(base.groove, plate),
        depth=base.depth,
        opening=_across(base.opening, plate),
        nose=min(NOSE, base.ledge + job.rings.turning_allowance / 2),
        arm=ARM,
        slot=base.tongue_thickness + OVER_TONGUE,
        slot_depth=base.tongue - base.field + PAST,
    )


def _across(radius: float, plate: float) -> float:
    """Width of a plate that touches a round hole with the corners of its thickness."""
    return 2 * sqrt(radius**2 - (plate / 2) ** 2)
