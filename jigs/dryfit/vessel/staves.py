"""What cuts staves: do staves cut so close to a ring, leaning as the wall wants?"""

from __future__ import annotations

from math import asin, atan, cos, degrees, hypot, nan, sin, sqrt, tan

from geometry.blanks.staves import StaveBand, fit_staves
from jigs.asked.job import Job
from jigs.dryfit.bench import ANGLE, SLACK, STRAIGHT_ON, slots, square_fence_checks
from jigs.dryfit.bolts import on_pins_checks, pins_in
from jigs.dryfit.files import Files
from jigs.dryfit.hold_down import Place, foot_places, hold_checks, pad_of
from jigs.dryfit.model import Check, Drawn, near
from jigs.dryfit.saw_guides import level_handle_checks, run_out_checks, runner_checks
from jigs.dryfit.vessel.rings import FACED
from jigs.dryfit.vessel.work import Work

LEAN = 0.1  # degrees


def stave_checks(work: Work, files: Files) -> list[Check]:
    """Tilt t and taper g of staves that lean s: sin t = cos s · sin m, tan g = sin s · tan m.

    Both together give the mitre m of the joints' planes, which all pass through the axis.
    """
    wish, band = work.job.staves, _band(work)
    if wish is None or band is None:
        return []
    tilt_plate = files.drawn("stave-tilt-plate")
    tilt, turn = _off_upright(tilt_plate), first_taper(work.job, files)
    mitre = asin(sqrt((sin(tilt) ** 2 + tan(turn) ** 2) / (1 + tan(turn) ** 2)))
    lean, whole = asin(min(1.0, tan(turn) / tan(mitre))), 2 * wish.count * mitre
    return [
        tilt_plate.near("all joints of the staves together", degrees(whole), 360.0, 2 * wish.count * ANGLE, "deg"),
        near("stave-stop-1", "staves lean with the wall", degrees(lean), degrees(abs(band.lean)), LEAN, "deg"),
        *stave_sled_checks(work.job, files, band, tilt),
    ]  # fmt: skip


def _off_upright(plate: Drawn) -> float:
    """Of its longest leaning edge."""
    edge = _leaning(plate)
    return atan(abs(edge[0] / edge[1]))


def _leaning(plate: Drawn) -> tuple[float, float]:
    """Across and up the longest edge that is neither level nor upright."""
    steps = [(e.end[0] - e.start[0], e.end[1] - e.start[1]) for e in plate.straight() if e.length > 10]
    return max(
        (step for step in steps if min(abs(step[0]), abs(step[1])) > 0.01),
        key=lambda step: step[0] ** 2 + step[1] ** 2,
        default=(0.0, 1.0),
    )


def _band(work: Work) -> StaveBand | None:
    """Of the thinnest staves that hold the wall and its allowance, as high as they are cut."""
    wish, allowance = work.job.staves, work.job.rings.turning_allowance
    if wish is None:
        return None
    high = wish.high if wish.high < work.height else work.height + min(allowance, FACED)
    return fit_staves(
        lambda low, top: work.section.needs(low, top, allowance) or (nan, nan), wish.low, high, wish.count
    ).grown(work.job.rings.flattening)


LINE = "blade, piece's side"
WIDTH = 0.1  # mm, of a stave
LEAST_TOE = 2.9  # mm under a stave's end
OVER = 1.5  # mm of a stop over the stave: what a finger is relieved by

Point = tuple[float, float]


def _left(job: Job) -> bool:
    """Whether the sled is drawn for a blade that tilts to the left: all of it is then mirrored."""
    return job.workshop.saw.tilts == "left"


def _faced(job: Job, files: Files, name: str) -> Drawn:
    """As for a blade that leans over to +x, the stave on -x."""
    return files.facing(f"stave-{name}", _left(job))


def first_taper(job: Job, files: Files) -> float:
    """By which the side of the first stop turns the boards."""
    _, corner, end = _corner(_faced(job, files, "stop-1"))
    return atan((end[0] - corner[0]) / (end[1] - corner[1]))


def _corner(stop: Drawn) -> tuple[Point, Point, Point]:
    """The toe's end, the corner that a stave lies in, the side's end: the one corner that is no bulge."""
    points = [(float(x), float(y)) for x, y in stop.outline.points]
    for a, b, c in zip(points, [*points[1:], points[0]], [*points[2:], *points[:2]], strict=True):
        if (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) < -1.0:
            return a, b, c
    raise ValueError(f"{stop.name} has no corner for a stave")


def stave_sled_checks(job: Job, files: Files, band: StaveBand, tilt: float) -> list[Check]:
    """Fence, handle, runner, exit block, hold-down, stops; the taper and the width of the second cut."""
    base, fence = _faced(job, files, "base"), _faced(job, files, "fence")
    sheet, saw, tall = job.workshop.boards.sheet, job.workshop.saw, band.thickness
    blade, found = float(base.lines[LINE][:, 0].mean()), slots(base, STRAIGHT_ON)
    at_fence = sorted((s for s in found if s.u[1] > -SLACK), key=lambda s: s.s)
    grip = sorted((s for s in found if s not in at_fence), key=lambda s: s.s)
    beside = saw.slot_distance + saw.slot_width / 2
    kept = blade - sheet * tan(tilt)
    slot = kept + saw.kerf / cos(tilt) + beside if _left(job) else kept - beside
    wide = max(y for cut in (1, 2) for _, y in _corner(_faced(job, files, f"stop-{cut}")))
    hold, finger = _faced(job, files, "hold"), files.drawn("stave-finger")
    place = Place(fence, hold, (finger,), -1, blade, (tall,), wide)
    turned, block = (files.facing(f"stave-{name}", not _left(job)) for name in ("base", "exit-block"))
    return [
        *square_fence_checks(job, base, fence, LINE, found, at_fence),
        *level_handle_checks(job, files.drawn("stave-handle"), grip, blade),
        *runner_checks(job, base, files.drawn("stave-runner"), slot),
        *run_out_checks(job, turned, block, LINE, (0.0, tall), tilt),
        *hold_checks(job, files, place, "stave-cam", "stave-lever"),
        *(check for cut in (1, 2) for check in _stop_checks(job, files, base, cut, tall)),
        *(check for cut in (1, 2) for check in _finger_checks(job, files, cut, place, band.stock_length)),
        *_width_checks(job, files, blade, band, tilt),
    ]  # fmt: skip


def _stop_checks(job: Job, files: Files, base: Drawn, cut: int, tall: float) -> list[Check]:
    """On its pins, lower than the stave, clear of blade and fence."""
    stop = _faced(job, files, f"stop-{cut}")
    toe, _, _ = _corner(stop)
    blade = float(base.lines[LINE][:, 0].mean())
    return [
        *on_pins_checks(stop.name, pins_in(stop), pins_in(base)),
        stop.check("toe clear of the blade", blade - toe[0], job.workshop.sled.clear_of_blade - SLACK),
        stop.check("stands before the fence", stop.outline.bounds[1], 0.5),
        stop.check("stave over it, or lower by", tall - job.workshop.boards.sheet, -OVER),
    ]


def _finger_checks(job: Job, files: Files, cut: int, place: Place, long: float) -> list[Check]:
    """The finger on the wood, which lies askew between its stop's toe and its other end."""
    toe, corner, _ = _corner(_faced(job, files, f"stop-{cut}"))
    slope = (toe[1] - corner[1]) / (toe[0] - corner[0])
    ends = [corner[1] + slope * (x - corner[0]) for foot in foot_places(place) for x in foot]
    start, end = pad_of(place.fingers[0])
    beyond = long * hypot(1.0, slope)
    return [
        place.fingers[0].check(f"on the stave, in from its end on stop {cut}", start - max(ends), 1.0),
        place.fingers[0].check(
            f"on the stave, in from its far end, stop {cut}", min(ends) + beyond - end, 1.0
        ),
    ]


def _width_checks(job: Job, files: Files, blade: float, band: StaveBand, tilt: float) -> list[Check]:
    """The second stop turns the stave as far the other way; between it and the blade is the narrow end.

    The blade is over by the stave's thickness at its top; the sawn edge, which leans as far, bears on the stop's top.
    """
    taper, tall = first_taper(job, files), band.thickness
    first, second = _faced(job, files, "stop-1"), _faced(job, files, "stop-2")
    toe, corner, end = _corner(second)
    side = atan((corner[0] - end[0]) / (end[1] - corner[1]))
    under = max(0.0, tall - job.workshop.boards.sheet) * tan(tilt)
    turn = _rise(toe, corner)
    top = blade + tall * tan(tilt)
    found = (top - corner[0]) / cos(turn) + under / cos(side - turn)
    widths = (band.outer_width(band.low), band.outer_width(band.high))
    narrow = min(widths) - 2 * tall * abs(tan(band.lean)) * tan(taper)
    return [
        first.near("toe square to its side", degrees(_rise(*_corner(first)[:2])), -degrees(taper), ANGLE, "deg"),
        second.near("toe turned as far the other way", degrees(turn), degrees(taper), ANGLE, "deg"),
        second.near("side turned by both tapers", degrees(side), 2 * degrees(taper), 2 * ANGLE, "deg"),
        second.near("outer face at the narrow end", found, narrow, WIDTH),
        second.check("toe under the stave", toe[0] - corner[0], LEAST_TOE),
    ]  # fmt: skip


def _rise(toe: Point, corner: Point) -> float:
    """Of a toe towards the blade."""
    return atan((toe[1] - corner[1]) / (toe[0] - corner[0]))
