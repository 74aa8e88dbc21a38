"""Gap gauges, calliper sticks and mouth sticks against the section's diameters."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan2, hypot, nan, pi

import numpy as np

from geometry.plane.edges import Edge, FloatArray
from geometry.plane.profile import Profile
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, Plate, spans
from jigs.dryfit.vessel.work import Work

SLACK = 0.03  # mm
HAIR = 1e-4  # mm
STILL = 1e-9  # mm of radius
SWING = 0.5  # mm of radius that a wide or narrow place stands out by, at least
SAME = 0.01  # mm, of one step
LEAST_STICK = 10.0  # mm, width of the narrowest mouth stick


def sizes_checks(work: Work, files: Files) -> list[Check]:
    """Every one of them."""
    heights = _heights(work)
    found: list[Check] = []
    for kind, check in (("gap-gauge", _gap_checks), ("calliper-stick", _calliper_checks)):
        for name in _named(files, kind):
            found += check(work, files.plate(name), heights[name.removeprefix(f"{kind}-")])
    sticks = [files.plate(name) for name in files.numbered("mouth-stick")]
    covered = len(_named(files, "gap-gauge")) + len(_named(files, "calliper-stick"))
    return [
        *found,
        Check("gap gauges and sticks", "stations found", covered, 2, unit="pieces"),
        *mouth_checks(work, sticks),
    ]


def _named(files: Files, kind: str) -> list[str]:
    """Parts of a kind, whole or in pieces."""
    stems = {n[:-2] if n[-2:-1] == "-" and n[-1].isalpha() else n for n in files.names()}
    return sorted(name for name in stems if name.startswith(f"{kind}-"))


def _heights(work: Work) -> dict[str, float]:
    """Heights of the stations by the names they have in files."""
    chain = _shape(work.section.outer)
    stated = {f"station-{k}": z for k, z in enumerate(work.job.outside.stations, 1)}
    widest = float(chain[chain[:, 0].argmax(), 1])
    foot = "foot" if work.job.lid is None else "top"
    return {foot: 0.0, "rim": work.height, "widest": widest, **stated, **_turns(chain)}


def _shape(outer: Profile) -> FloatArray:
    """Places (k, 2) on a profile between which its radius only grows or only falls."""
    places = [outer.start]
    for edge in outer.edges():
        places += [edge.point_at(t) for t in _summits(edge)] + [edge.end]
    return np.array(places)


def _summits(edge: Edge) -> list[float]:
    """Where along an arc it is farthest from the axis or nearest to it, beside its ends."""
    if not edge.is_arc:
        return []
    (x, y), (cx, cy) = edge.start, edge.centre
    turns = [(side - atan2(y - cy, x - cx)) % (2 * pi) for side in (0.0, pi)]
    along = [(turn if edge.angle > 0 else turn - 2 * pi) / edge.angle for turn in turns]
    return sorted(t for t in along if 0.0 < t < 1.0)


def _turns(chain: FloatArray) -> dict[str, float]:
    """Where an outside is wider or narrower than above and below; of a straight stretch its middle.

    What turns back by less than the swing is no such place.
    """
    found: list[tuple[float, float]] = []  # height, + for a wide place
    way, low, high = 0.0, chain[0], chain[0]  # the farthest place so far: from `low` to `high` at one radius
    for place in chain[1:]:
        run = float(place[0] - high[0])
        if abs(run) < STILL:
            high = place
        elif way * run > 0 or abs(run) >= SWING:
            if way * run < 0:
                found.append((float(low[1] + high[1]) / 2, way))
            way, low, high = float(np.sign(run)), place, place
    kinds = {1.0: "wide-place", -1.0: "narrow-place"}
    named: dict[str, float] = {}
    for height, sign in found:
        number = sum(name.startswith(kinds[sign]) for name in named) + 1
        named[kinds[sign] + (f"-{number}" if number > 1 else "")] = height
    return named


def _diameter(work: Work, offset: float, low: float, high: float) -> float:
    """The largest over these heights, with so much left on the work."""
    held = work.needs(_within(work, low), _within(work, high), offset)
    return 2 * held[1] if held else nan


def _within(work: Work, z: float) -> float:
    """The nearest height in the wood."""
    return min(max(z, HAIR), work.height - HAIR)


def _gap_checks(work: Work, plate: Plate, z: float) -> list[Check]:
    """The last stage's gap below, the one before above: what the plate's thickness covers, and the fit."""
    low, high = z - plate.thickness / 2, z + plate.thickness / 2
    _, y0, _, y1 = plate.face.bounds
    middle = spans(plate.face, 0.0, 1)
    foot, top = middle[0][0], middle[-1][1]
    stages = work.job.gauges.stages
    ends = [(stages[-1], foot, y0), *((before, top, y1) for before in stages[-2:-1])]
    found = []
    for offset, root, tip in ends:
        size = _diameter(work, offset, low, high)
        found += [
            *_legs(plate, size + 2 * work.job.gauges.fit, [root + (tip - root) * t for t in (0.3, 0.7)]),
            plate.check(f"goes on past the middle of {size:.2f} by", abs(tip - root) - size / 2, 1.0),
        ]
    return found


def _legs(plate: Plate, gap: float, heights: list[float]) -> Iterator[Check]:
    for y in heights:
        parts = spans(plate.face, y)
        wide = parts[1][0] - parts[0][1] if len(parts) == 2 else np.nan
        yield plate.near(f"gap over a diameter, meant {gap:.2f}", wide, gap, SLACK)


def _calliper_checks(work: Work, plate: Plate, z: float) -> list[Check]:
    """A step for each stage, the largest first, all from the straight end."""
    stages, top = work.job.gauges.stages, plate.face.bounds[3]
    found = []
    for k, offset in enumerate(stages):
        size = _diameter(work, offset, z, z)
        for share in (0.2, 0.8):
            parts = spans(plate.face, top * (k + share) / len(stages))
            low, high = parts[0] if len(parts) == 1 else (np.nan, np.nan)
            found += [
                plate.near(f"step for a diameter of {size:.2f}", high - low, size, SLACK),
                plate.near("straight end", low, 0.0, SLACK),
            ]
    return found


def mouth_checks(work: Work, sticks: list[Plate]) -> list[Check]:
    """Ends in the order of the stages: the corners of each touch the round mouth together."""
    mouths = [(offset, mouth_across(work, offset)) for offset in work.job.gauges.stages]
    ends = [(plate, end) for plate in sticks for end in _ends(plate)]
    missing = mouths[: len(mouths) - len(ends)]
    thick = sticks[0].thickness if sticks else 0.0
    sheet = thick or work.job.workshop.boards.sheet
    widest = max((size for _, size in missing), default=0.0)
    enters = hypot(LEAST_STICK, sheet)
    return [
        Check("mouth sticks", "mouth too narrow for one left out", widest, 0.0, enters + SLACK),
        Check("mouth sticks", "ends found", len(ends), 0, len(mouths), "pieces"),
        *(
            plate.near(f"corners in a mouth of {size:.2f}", hypot(x1 - x0, plate.thickness), size, SLACK)
            for (plate, (x0, x1)), (_, size) in zip(ends, mouths[len(missing) :], strict=False)
        ),
        *(plate.near("end about the middle", x0 + x1, 0.0, 2 * SLACK) for plate, (x0, x1) in ends),
    ]


def mouth_across(work: Work, offset: float) -> float:
    """Diameter; nothing where the wood fills it."""
    held = work.needs(work.height - HAIR, work.height - HAIR / 2, offset)
    return 2 * held[0] if held else nan


def _ends(plate: Plate) -> list[tuple[float, float]]:
    """From and to of the upper end, if there is one, then of the lower one; tongues at the narrower sides."""
    _, y0, _, y1 = plate.face.bounds
    lower, upper = spans(plate.face, y0 + 3.0)[0], spans(plate.face, y1 - 3.0)[0]
    web = spans(plate.face, (y0 + y1) / 2)[0]
    has_upper = abs(upper[1] - web[1]) > SAME
    return [*([upper] if has_upper else []), lower]
