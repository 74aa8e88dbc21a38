"""What the angle, the plies or the segment would have to be for whole repeats from seam to seam.

With i repeats along `across` of side a and j along `up` of side b, tan(angle) = i·up/(j·across) and the repeat is
1/sqrt((i/across)² + (j/up)²): along a side the repeat shows as repeat/sin(angle) or repeat/cos(angle). Where one
side alone counts, one of these is enough.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from math import acos, asin, atan2, cos, hypot, log

from geometry.blanks.layup import Layup
from geometry.blanks.planes import Plane
from geometry.records import replace
from jigs.stages.layup.plan import Closing

SHOWN = 3  # of each kind
ANGLE_STEP = 0.5  # radians; a change of the angle by so much is as far off as e-fold sizes
FARTHEST = 1.5  # e-fold; what is farther off is no help
_LEAST = 1e-6


def closings_of(layup: Layup, plane: Plane, across: float, up: float) -> tuple[Closing, ...]:
    """Several of each kind, the nearest first; none where no ply crosses a seam, or none is near."""
    by_a, by_b = plane != "end" and layup.sine > 0, plane != "face" and layup.cosine > 0
    by = {(True, True): _by_both, (True, False): _by_a, (False, True): _by_b}.get((by_a, by_b))
    if by is None:
        return ()
    now = Closing("angle", 0, 0, layup.angle, layup.sheet, across, up)
    found = [closing for closing in by(layup, across, up) if _far(now, closing) <= FARTHEST]
    found.sort(key=lambda closing: (closing.what, _far(now, closing)))
    kinds = [list(group)[:SHOWN] for _, group in groupby(found, key=lambda closing: closing.what)]
    kinds.sort(key=lambda group: _far(now, group[0]))
    return tuple(closing for group in kinds for closing in group)


def _far(now: Closing, then: Closing) -> float:
    """How much has to change."""
    sizes = ((now.repeat, then.repeat), (now.across, then.across), (now.up, then.up))
    return abs(then.angle - now.angle) / ANGLE_STEP + sum(abs(log(b / a)) for a, b in sizes)


def _near(repeats: float) -> range:
    """Whole numbers about it."""
    return range(max(1, int(repeats) - 1), int(repeats) + 3)


def _by_both(layup: Layup, across: float, up: float) -> Iterator[Closing]:
    angle, sheet = layup.angle, layup.sheet
    for i in _near(across / layup.period_a):
        yield from _with_sheet(sheet, i, across, up)
        yield from _with_angle(layup, i, across, up)
        for j in _near(up / layup.period_b):
            sizes = i * layup.period_a, j * layup.period_b
            yield Closing("segment", i, j, angle, sheet, *sizes)
            repeat = 1 / hypot(i / across, j / up)
            yield Closing("angle and plies", i, j, atan2(i * up, j * across), repeat, across, up)


def _with_sheet(sheet: float, i: int, across: float, up: float) -> Iterator[Closing]:
    """The angle for this sheet; `up` gives way."""
    if not _LEAST < i * sheet / across < 1 - _LEAST:
        return
    angle = asin(i * sheet / across)
    j = max(1, round(up * cos(angle) / sheet))
    yield Closing("angle", i, j, angle, sheet, across, j * sheet / cos(angle))


def _with_angle(layup: Layup, i: int, across: float, up: float) -> Iterator[Closing]:
    """The plies for this angle; `up` gives way."""
    sheet = across * layup.sine / i
    j = max(1, round(up * layup.cosine / sheet))
    yield Closing("ply thickness", i, j, layup.angle, sheet, across, j * sheet / layup.cosine)


def _by_a(layup: Layup, across: float, up: float) -> Iterator[Closing]:
    """Side a alone; the angle stays where the plies run along b."""
    sheet = layup.sheet
    for i in _near(across / layup.period_a):
        yield Closing("segment", i, 0, layup.angle, sheet, i * layup.period_a, up)
        yield Closing("ply thickness", i, 0, layup.angle, across * layup.sine / i, across, up)
        if layup.cosine and i * sheet < across:
            yield Closing("angle", i, 0, asin(i * sheet / across), sheet, across, up)


def _by_b(layup: Layup, across: float, up: float) -> Iterator[Closing]:
    """Side b alone; the angle stays where the plies run along a."""
    sheet = layup.sheet
    for j in _near(up / layup.period_b):
        yield Closing("segment", 0, j, layup.angle, sheet, across, j * layup.period_b)
        yield Closing("ply thickness", 0, j, layup.angle, up * layup.cosine / j, across, up)
        if layup.sine and j * sheet < up:
            yield Closing("angle", 0, j, acos(j * sheet / up), sheet, across, up)


def at_radius(closing: Closing, per_radius: float, least: float, most: float) -> Closing:
    """The closing with the torus's radius at which it ends whole, where that is on the finished form.

    Per mm of radius the side b shows `per_radius`.
    """
    radius = closing.up / per_radius
    return replace(closing, radius=radius) if least <= radius <= most else closing
