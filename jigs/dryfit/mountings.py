"""What stands beside the work in each mounting, as drawn; and the first board under the blank.

Sections lie in the plane through the axis: x from the axis, y = 0 at the tube's centre, y away from the board.
"""

from __future__ import annotations

from math import cos, hypot, isfinite, pi, tan

import shapely
from shapely import affinity

from geometry.blanks.flats import flat_after, half_width_at
from geometry.bodies.torus import outer_flat
from geometry.records import Record
from jigs.asked.job import TorusJob
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, moved, near, spans
from jigs.dryfit.ring import CutRing, half_sizes, place

SLACK = 0.05  # mm
TAIL = 35.0  # degrees past the equator that mounting A turns
SCRIBED_INSIDE = 1.0  # mm at least from the scribed circle to the first board's edge


class Held(Record):
    """The blank glued to its first board: where the board's face and its flat's two edges are."""

    face: float  # y of the board's face, and of the flat
    spigot: float  # y of its top
    spigot_radius: float
    board_radius: float
    centre: float  # of the rings from the axis
    flat_inner: float  # from the tube's centre towards the axis
    flat_outer: float


def held(job: TorusJob, files: Files, ring: CutRing, apothem: float) -> Held:
    """The first board's levels, and the blank's flat sanded down to its face. Raises ValueError without a ring."""
    if not isfinite(ring.outer_radius + apothem):
        raise ValueError("the sled cuts no ring")
    board = files.drawn("first-board-section")
    level = [
        e for e in board.straight() if e.apart[1] < 0.01 and e.midpoint[1] > board.outline.bounds[1] + 1.0
    ]
    top, face = sorted(level, key=lambda e: -e.midpoint[1])[:2]
    n = job.form.segments
    centre = ring.outer_radius - outer_flat(apothem, n)
    flat, shift = flat_after(apothem, n, apothem + face.midpoint[1]), centre - job.form.major_radius
    return Held(
        face=face.midpoint[1],
        spigot=top.midpoint[1],
        spigot_radius=top.ends[2],
        board_radius=board.outline.bounds[2],
        centre=centre,
        flat_inner=flat / 2 - shift,
        flat_outer=flat / 2 + shift,
    )


def first_board_checks(job: TorusJob, files: Files, ring: CutRing, apothem: float) -> list[Check]:
    """The board glued up of whole layers; the blank over its spigot and on its scribed circle."""
    board, at, wish = (
        files.drawn("first-board-section"),
        held(job, files, ring, apothem),
        job.workshop.holding,
    )
    low, thick = board.outline.bounds[1], job.workshop.boards.thickness
    n = max(1, round((at.spigot - low) / thick))
    inner = at.centre - half_width_at(apothem, job.form.segments, -at.face - (at.spigot - at.face))
    x, w = job.form.major_radius + at.flat_outer, pi / job.form.wedge_rings
    corner = hypot(x, x * tan(w) - job.form.ring_spacer / 2 / cos(w))
    scribed = float(board.lines["scribed circle"][:, 0].mean())
    finished = half_sizes(job.form)[1] + job.gauges.stages[-1]
    bores = (board.outline.bounds[0], files.drawn("channel-section").outline.bounds[0])
    return [
        near("first board", f"height of {n} layers", at.spigot - low, n * thick, SLACK),
        near("first board", "height of the spigot", at.spigot - at.face, wish.spigot_height, SLACK),
        near(
            "first board",
            "spigot inside the blank's inner flats",
            inner - at.spigot_radius,
            wish.spigot_clearance,
            SLACK,
        ),
        near("first board", "scribed circle on the blank's outer corners", scribed, corner, SLACK),
        Check("first board", "board past the scribed circle", at.board_radius - scribed, SCRIBED_INSIDE),
        Check("first board", "wood between the finished tube and the board", -at.face - finished, -SLACK),
        Check("first board", "sanded off the flat", apothem + at.face, -SLACK),
        Check(
            "first board", "width of the flat for glue", at.flat_inner + at.flat_outer, wish.least_flat - 0.1
        ),
        near("first board", "bore as the channel board's", 2 * bores[0], 2 * bores[1], SLACK),
        Check(
            "first board",
            "within the lathe's swing",
            job.workshop.lathe.swing_over_bed - 2 * at.board_radius,
            0.0,
        ),
    ]


class Mounting(Record):
    """Everything solid beside the work, on both sides of the axis, by name; `waste` is of the work itself."""

    name: str
    things: dict[str, shapely.Polygon]
    waste: shapely.Polygon


def mountings(job: TorusJob, files: Files, at: Held) -> dict[str, Mounting]:
    """Mountings A, C and D."""
    first = {"first board": files.drawn("first-board-section").shape}
    channel = {"channel board": files.drawn("channel-section").shape}
    retainer = {"retainer": files.drawn("retainer-section").shape}
    braces = brace_sections(job, files, at)
    return {
        "a": Mounting("a", _both(first), _first_waste(job, at)),
        "c": Mounting("c", _both(channel | braces), _second_waste(job, at)),
        "d": Mounting("d", _both(channel | retainer), shapely.Polygon()),
    }


def brace_sections(job: TorusJob, files: Files, at: Held) -> dict[str, shapely.Polygon]:
    """A brace along its middle: strap on the waste flat, block and pad under its heel."""
    strap, pad = files.drawn("brace-strap"), files.plate("brace-pad")
    major, flat, thick = job.form.major_radius, -at.face, job.workshop.boards.thickness
    face = float(files.drawn("channel-section").outline.points[:, 1].max())
    (x0, x1), (b0, b1) = _along(strap.shape), _along(pad.face)
    return {
        "brace": shapely.box(major + x0, flat, major + x1, flat + thick),
        "brace's block": shapely.box(major + b0, face, major + b1, flat),
    }


def _along(plate: shapely.Polygon) -> tuple[float, float]:
    """Where a plate begins and ends on the line y = 0."""
    on_line = spans(plate, 0.0)
    return on_line[0][0], on_line[-1][1]


def _both(side: dict[str, shapely.Polygon]) -> dict[str, shapely.Polygon]:
    across = {f"{name} across": affinity.scale(shape, -1, 1, origin=(0, 0)) for name, shape in side.items()}
    return side | across


def _first_waste(job: TorusJob, at: Held) -> shapely.Polygon:
    """Between the ends of what mounting A turns and the board; turned straight back to it outside."""
    end, low = place(job.form, job.gauges.stages[-1] + job.gauges.fit, -TAIL)
    box = shapely.box(-max(end, at.flat_inner), at.face, max(end, at.flat_outer), low)
    return moved(box, job.form.major_radius)


def _second_waste(job: TorusJob, at: Held) -> shapely.Polygon:
    """Under the waste flat, as far as the tool room before the braces' fingers."""
    box = shapely.box(-job.workshop.holding.tool_room, 0.0, at.flat_outer, -at.face)
    return moved(box, job.form.major_radius)
