"""Plates that set a saw's angles: the blade's tilt, and two fences to one another. Both are cut from sheet."""

from __future__ import annotations

from math import cos, degrees, pi, sin, tan

from geometry.plane.contour import Contour, polygon
from geometry.strokes.lettering import text_width
from jigs.parts.part import Lettering, Line, Part, Point
from jigs.parts.places import ENGRAVED, SAW_CAUTION, block_height, block_width, centred, lettered
from jigs.parts.plate import Plate, middle
from jigs.plans.plan import Plan

PLATE = 100.0  # long edge of an angle plate
PLATE_MOST = 130.0
FEW = 7  # segments; below it the joint plate is a sector
CLIPPED = 12.0  # off its corner
TILT_HEIGHT = 60.0
FOOT = 4.0  # clipped where the blade enters the table


def show_degrees(angle: float) -> str:
    """Degrees to three places, none that say nothing."""
    return f"{degrees(angle):.3f}".rstrip("0").rstrip(".") + "°"


def baseline(text: Lettering) -> tuple[Line, ...]:
    """Stands for a line of lettering where room is looked for."""
    x, y = text.origin
    length = text_width(text.text, text.height)
    up = (-sin(text.angle) * text.height / 2, cos(text.angle) * text.height / 2)
    start = (x + up[0], y + up[1])
    return (Line((start, (start[0] + length * cos(text.angle), start[1] + length * sin(text.angle)))),)


def tilt_plate(
    plan: Plan, tilt: float, name: str = "tilt-plate", work: str = "segments", says: tuple[str, ...] = ()
) -> Part:
    """Stands on the saw's table; its leaning edge sets the blade's tilt, its upright edge proves 90 degrees.

    `work` is what is cut; `says` is lettered after the angle.
    """
    lean = TILT_HEIGHT * tan(tilt)
    lines = (f"BLADE TILT {show_degrees(tilt)}", *says, "TABLE EDGE BELOW", *SAW_CAUTION)
    width = lean + block_width((plan.job.title.upper(), *lines), ENGRAVED) + 22
    foot, top = (FOOT * sin(tilt), FOOT * cos(tilt)), (lean, TILT_HEIGHT)
    plate = Plate(plan, polygon([(FOOT, 0.0), (width, 0.0), (width, TILT_HEIGHT), top, foot]))
    plate.hang((width, TILT_HEIGHT))
    blade = middle(top, foot)
    edge = centred("BLADE", (blade[0] + 5 * cos(tilt), blade[1] - 5 * sin(tilt)), 4.0, pi / 2 - tilt)
    plate.words += lettered(plate.outline, plate.holes, baseline(edge), (plan.job.title.upper(), *lines))
    plate.marks.append(edge)
    plate.angle("tilt from upright", degrees(tilt), blade, (width, TILT_HEIGHT / 2))
    plate.angle("table to blade", 90 - degrees(tilt), (width / 2, 0.0), blade)
    return plate.part(name, f"sets the blade's tilt for the {work}", _set_by(plan))


def _set_by(plan: Plan) -> tuple[str, str]:
    """On which side of the blade it stands; a bandsaw's table tilts, down on the right, instead of the blade."""
    if plan.segments_on == "bandsaw":
        return (
            "The bandsaw's table tilts down on the right: stand the plate on it on the left of the blade.",
            "Bring the leaning edge to the side of the blade, the saw unplugged. The upright edge proves the table "
            "square.",
        )
    return (
        f"Your blade's top tilts to the {plan.job.workshop.saw.tilts}: stand the plate on that side of it."
        f"{plan.job.tilt_assumed}",
        "Raise the blade, the saw unplugged. Bring the leaning edge to the plate of the blade, between the teeth. "
        "The upright edge proves the blade at 90°.",
    )


def joint_plate(plan: Plan, segments: int, name: str = "joint-plate") -> Part:
    """The angle between two neighbouring segments' ends, 360/n."""
    angle, thin = 2 * pi / segments, plan.job.workshop.sled.thin_end
    says = (f"JOINT {show_degrees(angle)} = 360/{segments}", "EDGES AT THE SHORT END TOUCH", *SAW_CAUTION)
    whole = (plan.job.title.upper(), *says)
    outline, slope = _sector(angle) if segments < FEW else _taper(whole, angle, thin)
    plate, (_, _, right, top) = Plate(plan, outline), outline.bounds
    plate.hang((right, top))
    plate.letter(*says)
    plate.angle("angle", degrees(angle), (right / 2, 0.0), slope)
    return plate.part(
        name,
        "the angle between the two ends of a segment; sets two fences to one another",
        ("Use the two edges that meet at the short end; that end only protects the point.",),
    )


def _taper(lines: tuple[str, ...], angle: float, thin: float) -> tuple[Contour, Point]:
    """A plate that grows from its thin end, and a point on its slope."""
    length = min(PLATE, (PLATE_MOST - thin) / tan(angle))
    length = max(length, block_width(lines, ENGRAVED) + 4 + _clear_of_slope(lines, angle, thin))
    thick = thin + length * tan(angle)
    outline = polygon([(0.0, 0.0), (length, 0.0), (length, thick), (0.0, thin)])
    return outline, (length / 2, thin + length / 2 * tan(angle))


def _sector(angle: float) -> tuple[Contour, Point]:
    """Two edges alike from a clipped corner, for angles too open for a slope, and a point on the second."""
    side = (cos(angle), sin(angle))
    near, far = ((d * side[0], d * side[1]) for d in (CLIPPED, PLATE))
    return polygon([(CLIPPED, 0.0), (PLATE, 0.0), far, near]), middle(near, far)


def _clear_of_slope(lines: tuple[str, ...], angle: float, thin: float) -> float:
    """Where along the plate a block at its foot gets under the slope."""
    return max(0.0, (block_height(lines, ENGRAVED) + 7 - thin) / tan(angle))
