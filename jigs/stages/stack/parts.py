"""Plates that fit the opening of a ring and take the tailstock's point, so that it is glued on centred."""

from __future__ import annotations

from math import cos, pi, sin, tan

from geometry.plane.contour import Contour, polygon
from jigs.parts.part import Line, Part
from jigs.parts.plate import Plate
from jigs.plans.vessel import VesselPlan
from jigs.stages.flat_rings.plan import CentringPlate
from jigs.words.quantity import ring_numbers

CORNER = 1.5  # mm clipped off each corner along its sides, for glue that was squeezed out


CLOSED_NOTES = (
    "Put it in the ring's opening, flush with its upper face, the live centre's point in its hole. Move the quill "
    "forward until the ring lies flat on the stack.",
)
THIN = "Of a ring thinner than the plate, flush with its lower face: else the plate holds it off the stack."
TURNED = (
    "Turn the work by hand: the ring's corners run alike, its joints lie over the middles of the segments below.",
)
OPEN_NOTES = (
    "For an open ring there are no halves and no band. Hold the plate on the flattened course below with the live "
    "centre's point.",
    "Glue each segment by its lower face, its inner flat on the plate's flat, its ends at the marks, a weight or light "
    "clamp on each: it bridges the gap below.",
    "Take the plate out before the glue sets. Flatten the course before the next.",
)
MARK = 6.0  # length of a mark at a segment's end


def centring_plates(plan: VesselPlan) -> list[Part]:
    """One plate for each size of opening that is large enough."""
    return [_plate(plan, plate) for plate in plan.ring_boards.centring]


def _plate(plan: VesselPlan, centring: CentringPlate) -> Part:
    plate, apothem, rings = Plate(plan, _outline(centring)), centring.apothem, centring.rings
    if centring.segments % 2 == 0:
        plate.gap("across flats", 2 * apothem, (0.0, -apothem), (0.0, apothem))
    plate.hole((0.0, 0.0), centring.hole, "hole for the point")
    plate.marks += _marks(centring)
    across, number = plan.job.show(2 * apothem).upper(), ring_numbers(rings)
    full = (f"CENTRES {number}", f"{across} ACROSS", "POINT IN THE HOLE")
    between = ("SEGMENTS BETWEEN MARKS",) if centring.gap else ()
    shorter = [(*lines, *between) for lines in (full, full[:1], (number,))]
    plate.letter(*full, *between, instead=(*shorter, (number,), (number.rpartition(" ")[2],)))
    turned = TURNED if plan.job.rings.turn is None else ()
    thin = (THIN,) if plan.thinnest_ring < plan.job.workshop.boards.sheet else ()
    return plate.part(
        f"centring-plate-ring-{'-'.join(map(str, rings))}",
        f"centres {number.lower()} on the tailstock's point",
        OPEN_NOTES if centring.gap else (*CLOSED_NOTES, *thin, *turned),
    )


def _outline(plate: CentringPlate) -> Contour:
    """A regular polygon, one flat straight down, its corners clipped."""
    half = plate.apothem * tan(pi / plate.segments) - CORNER
    places = []
    for k in range(plate.segments):
        angle = -pi / 2 + 2 * pi * k / plate.segments
        out, along = (cos(angle), sin(angle)), (-sin(angle), cos(angle))
        places += [
            (plate.apothem * out[0] + t * along[0], plate.apothem * out[1] + t * along[1])
            for t in (-half, half)
        ]
    return polygon(places)


def _marks(plate: CentringPlate) -> tuple[Line, ...]:
    """Where the segments of an open ring end, square to each flat."""
    found = []
    for k in range(plate.segments if plate.gap else 0):
        angle = -pi / 2 + 2 * pi * k / plate.segments
        for t in (-plate.inner_edge / 2, plate.inner_edge / 2):
            ends = [(d * cos(angle) - t * sin(angle), d * sin(angle) + t * cos(angle))
                    for d in (plate.apothem - 1.0, plate.apothem - MARK)]  # fmt: skip
            found.append(Line((ends[0], ends[1]), "end of a segment", witness=True))
    return tuple(found)
