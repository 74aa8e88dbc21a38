"""Width forks, hole sticks and the outer stick against every stage's size, in the first mounting."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import hypot, sqrt

import numpy as np
import shapely

from geometry.plane.edges import FloatArray
from geometry.records import Record
from jigs.asked.job import TorusJob
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, Plate, counted, depth, moved, spans
from jigs.dryfit.mountings import Mounting
from jigs.dryfit.ring import half_sizes, widths

SLACK = 0.02  # mm
SAME = 0.01  # mm, of one step
CLEAR = 0.5  # mm


class Step(Record):
    """One step of a fork or stick: heights from and to, and the two sides that bear."""

    low: float
    high: float
    left: float
    right: float


def sizes_checks(job: TorusJob, files: Files, first: Mounting, apothem: float) -> list[Check]:
    """Every step of every fork and stick, and each gauge clear of the first board."""
    forks = [files.plate(name) for name in files.numbered("width-fork")]
    sticks = [files.plate(name) for name in files.numbered("hole-stick")]
    return [
        *_fork_checks(job, forks, first, apothem),
        *_stick_checks(job, sticks, first),
        *_outer_checks(job, files.plate("outer-stick")),
    ]


def _tubes(job: TorusJob) -> list[float]:
    return [job.form.tube_radius + stage for stage in job.gauges.stages]


def _short(job: TorusJob, tube: float, plate: Plate) -> float:
    """How far short of the hole's wall a flat plate across it stops."""
    hole = job.form.major_radius - tube
    return hole - sqrt(hole**2 - (plate.thickness / 2) ** 2)


def steps(plate: Plate, gap: bool) -> list[Step]:
    """The steps from the tips up: the widths of the plate, or of the gap between its legs."""
    heights = np.unique(np.round(plate.outline[:, 1], 4))
    found: list[Step] = []
    for low, high in pairwise(heights):
        if high - low < 1.0:
            continue
        sides = [
            sides for y in (low + 0.2, high - 0.2) if (sides := _sides(plate, float(y), gap)) is not None
        ]
        if len(sides) < 2:
            break
        (a, b), (c, d) = sides
        last = found[-1] if found else Step(0.0, 0.0, np.nan, np.nan)
        same = abs(a - last.left) < SAME and abs(b - last.right) < SAME
        step = Step(last.low if same else float(low), float(high), min(a, c), max(b, d))
        found = [*found[:-1], step] if same else [*found, step]
    return found


def _sides(plate: Plate, y: float, gap: bool) -> tuple[float, float] | None:
    ends = spans(plate.face, y)
    if not gap:
        return (ends[0][0], ends[-1][1]) if ends else None
    return (ends[0][1], ends[1][0]) if len(ends) == 2 else None


def _fork_checks(job: TorusJob, forks: list[Plate], first: Mounting, apothem: float) -> list[Check]:
    """Every gap against its tube, the forks in the order of the stages."""
    wanted, found = _tubes(job), [(plate, step) for plate in forks for step in steps(plate, gap=True)]
    checks = [counted("width forks", "steps found", len(found), len(wanted))]
    for tube, (plate, step) in zip(wanted, found, strict=False):
        checks += [
            plate.near(f"outer leg on a tube of R {tube:.2f}", step.right, tube, SLACK),
            plate.near(
                f"inner leg on a tube of R {tube:.2f}", -step.left, tube + _short(job, tube, plate), SLACK
            ),
        ]
    return checks + [
        c for plate in forks for c in _fork_place(job, plate, steps(plate, gap=True), first, apothem)
    ]


def _fork_place(
    job: TorusJob, plate: Plate, found: list[Step], first: Mounting, apothem: float
) -> list[Check]:
    """Every step passes the widest place before the next shoulder rests; the plate clears all else."""
    hole = job.form.major_radius - job.form.tube_radius - job.gauges.stages[0]
    x0 = plate.face.bounds[0]
    reach = hypot(job.form.major_radius + x0, plate.thickness / 2)
    passes = [b.low - _rests(job, a, b) - a.low for a, b in pairwise(found)]
    return [
        *plate.all_within("step past the widest place", [*passes, -found[-1].low], CLEAR),
        plate.check(
            "inner leg in the hole, room", hole - (reach if job.form.major_radius + x0 < 0 else 0.0), CLEAR
        ),
        plate.check("bridge over the blank's front", found[-1].high - apothem, CLEAR),
        *_over_board(plate, moved(plate.face, job.form.major_radius), first),
    ]


def _rests(job: TorusJob, step: Step, following: Step) -> float:
    """How high on the tube that one step fits the shoulder of the next one rests."""
    more = max(0.0, step.right - job.form.tube_radius)
    heights = np.linspace(0.0, half_sizes(job.form)[1] + more, 4001)
    return float(heights[widths(job.form, more, heights) >= following.right].max(initial=0.0))


def _over_board(plate: Plate, laid: shapely.Polygon, first: Mounting) -> list[Check]:
    return [
        check
        for name, board in first.things.items()
        for check in (
            plate.check(f"stands in the {name} by", depth(laid, board), 0.0, SLACK),
            plate.check(f"clear of the {name}", float(laid.distance(board)), CLEAR),
        )
    ]


def _stick_checks(job: TorusJob, sticks: list[Plate], first: Mounting) -> list[Check]:
    """Every width against its hole; the handle above the steps is left out."""
    wanted, major = _tubes(job), job.form.major_radius
    found = [(plate, step) for plate in sticks for step in steps(plate, gap=False) if step.low < 0]
    checks = [counted("hole sticks", "steps found", len(found), len(wanted))]
    for tube, (plate, step) in zip(wanted, found, strict=False):
        half = major - tube - _short(job, tube, plate)
        checks += [
            plate.near(f"right side in a hole of {2 * (major - tube):.2f}", step.right, half, SLACK),
            plate.near(f"left side in a hole of {2 * (major - tube):.2f}", -step.left, half, SLACK),
        ]
    return checks + [check for plate in sticks for check in _over_board(plate, plate.face, first)]


def _outer_checks(job: TorusJob, plate: Plate) -> Iterator[Check]:
    """Both ends of each step against the rim, an arc about the axis."""
    _, low, _, high = plate.face.bounds
    band = (high - low) / len(job.gauges.stages)
    for k, tube in enumerate(_tubes(job)):
        heights = low + band * (k + np.linspace(0.1, 0.9, 9))
        out = _ends_off_axis(plate, heights)
        rim = job.form.major_radius + tube
        yield plate.near(f"least, on a rim of R {rim:.2f}", float(out.min()), rim, SLACK)
        yield plate.near(f"most, on a rim of R {rim:.2f}", float(out.max()), rim, SLACK)


def _ends_off_axis(plate: Plate, heights: FloatArray) -> FloatArray:
    sides = [(_sides(plate, float(y), False) or (np.nan, np.nan), float(y)) for y in heights]
    return np.array([hypot(x, y) for ends, y in sides for x in ends])
