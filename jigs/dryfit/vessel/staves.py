"""What cuts staves: do staves cut so close to a ring, leaning as the wall wants?"""

from __future__ import annotations

from math import asin, atan, degrees, nan, sin, sqrt, tan

from geometry.blanks.staves import StaveBand, fit_staves
from jigs.dryfit.bench import ANGLE
from jigs.dryfit.check import Check, near
from jigs.dryfit.files import Files
from jigs.dryfit.plates import Drawn
from jigs.dryfit.vessel.rings import FACED
from jigs.dryfit.vessel.stave_sled import first_taper, stave_sled_checks
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
    lean = asin(min(1.0, tan(turn) / tan(mitre)))
    return [
        near(tilt_plate.name, "all joints of the staves together", degrees(2 * wish.count * mitre), 360.0,
             2 * wish.count * ANGLE, "deg"),
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
