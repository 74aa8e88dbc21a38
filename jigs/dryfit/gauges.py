"""Every gauge laid on the work, in the place where it is used."""

from __future__ import annotations

from math import degrees, radians, sin

import numpy as np

from geometry.arcs import FloatArray
from geometry.torus import rings_in_check
from jigs.dryfit.check import Check, near
from jigs.dryfit.files import Drawn, Files, Printed
from jigs.dryfit.section import depth, gaps, moved
from jigs.job import Job

SLACK = 0.02  # mm
ANGLE = 0.02  # degrees
EARLY = 0.035  # mm that a flat plate may ride high in the hole


def gauge_checks(job: Job, files: Files, apothem: float) -> list[Check]:
    """The profile gauges of every stage, the channel gauge and the retainer gauge."""
    found: list[Check] = []
    last = len(job.gauges.stages) - 1
    for i, offset in enumerate(job.gauges.stages):
        stage = "finished" if i == last else f"stage-{i + 1}"
        size = job.form.tube_radius + offset
        found += _outer(job, files.printed(f"outer-gauge-{stage}"), size, apothem)
        found += _hole(job, files.printed(f"hole-gauge-{stage}"), size)
    return [*found, *_channel(job, files), *_retainer(job, files)]


def _edge(points: FloatArray, size: float) -> tuple[FloatArray, FloatArray]:
    """Distance from the tube's centre, and angle in degrees, of the boundary near a circle: vertices and middles."""
    both = np.concatenate([points, (points + np.roll(points, -1, axis=0)) / 2])
    off = np.hypot(both[:, 0], both[:, 1])
    close = np.abs(off - size) < 0.6
    return off[close], np.degrees(np.arctan2(both[close, 1], both[close, 0])) % 360


def _edge_checks(job: Job, plate: Printed, size: float, arc: tuple[float, float]) -> list[Check]:
    off, turn = _edge(plate.outline, size)
    inside = ((turn - arc[0]) % 360) <= (arc[1] - arc[0])
    gap = off[inside] - size if inside.any() else np.array([np.inf])
    reach = np.sort((turn[inside] - arc[0]) % 360)
    holes = float(np.diff([0.0, *reach, arc[1] - arc[0]]).max())
    nearest = float(np.hypot(*plate.outline.T).min()) - size
    return [
        near(plate.name, "least gap to the work", float(gap.min()), job.gauges.fit, SLACK),
        near(plate.name, "most gap to the work", float(gap.max()), job.gauges.fit, SLACK),
        Check(plate.name, "widest part of the arc without an edge", holes, 0.0, 8.0, "deg"),
        Check(plate.name, "nearest place of the plate", nearest, job.gauges.fit - SLACK),
    ]


def _outer(job: Job, plate: Printed, size: float, apothem: float) -> list[Check]:
    board = -apothem + job.form.turning_allowance
    return [
        *_edge_checks(job, plate, size, (-35.0, 90.0)),
        Check(plate.name, "clear of the first board", float(plate.outline[:, 1].min()) - board, 0.5),
        Check(plate.name, "stays on the rim's side", float(plate.outline[:, 0].min()), -SLACK),
    ]


def _hole(job: Job, plate: Printed, size: float) -> list[Check]:
    form = job.form
    opening = 2 * (form.major_radius - form.tube_radius - form.turning_allowance)
    rim = form.tube_radius + form.turning_allowance
    far = opening / 2 + form.major_radius + float(plate.outline[plate.outline[:, 1] < rim, 0].min())
    return [
        *_edge_checks(job, plate, size, (90.0, 215.0)),
        Check(plate.name, "passes the hole with", opening - _widest(plate, rim), 0.5),
        Check(plate.name, "clear of the hole's far side", far, 0.5),
        Check(plate.name, "stays on the hole's side", -float(plate.outline[:, 0].max()), -SLACK),
        Check(plate.name, "rides high in the hole by", plate.land**2 / (8 * opening / 2), 0.0, EARLY),
    ]


def _widest(plate: Printed, below: float) -> float:
    """Widest slice across, below the rim."""
    outline = plate.outline
    heights = np.arange(outline[:, 1].min() + 0.25, below, 0.5)
    return max(_slice(outline, height) for height in heights.tolist())


def _slice(outline: FloatArray, height: float) -> float:
    ends = np.roll(outline, -1, axis=0)
    crosses = (outline[:, 1] > height) != (ends[:, 1] > height)
    a, b = outline[crosses], ends[crosses]
    x = a[:, 0] + (b[:, 0] - a[:, 0]) * (height - a[:, 1]) / (b[:, 1] - a[:, 1])
    return float(np.ptp(x)) if len(x) else 0.0


def _channel(job: Job, files: Files) -> list[Check]:
    plate, board = files.printed("channel-gauge"), files.drawn("channel-section").shape
    laid = moved(plate.face, job.form.major_radius)
    radius = job.form.tube_radius + job.form.lining
    lean = sin(radians(job.workshop.holding.contact))  # of the outer wall at its rim
    early = plate.land**2 * lean / (8 * (job.form.major_radius + radius * lean))
    arc = _arc_of(plate, radius - job.gauges.fit)
    return [
        Check(plate.name, "stands in the board by", depth(laid, board), 0.0, SLACK),
        Check(plate.name, "shoulders off the board by", float(laid.distance(board)), 0.0, SLACK),
        *_gap_checks(job, plate, arc + np.array((job.form.major_radius, 0.0)), board),
        Check(plate.name, "rides high on the outer wall by", early, 0.0, EARLY),
    ]


def _arc_of(plate: Printed, radius: float) -> FloatArray:
    points = plate.outline
    both = np.concatenate([points, (points + np.roll(points, -1, axis=0)) / 2])
    arc = both[np.abs(np.hypot(both[:, 0], both[:, 1]) - radius) < 0.6]
    return arc if len(arc) else both[:0]


def _gap_checks(job: Job, plate: Printed, arc: FloatArray, work: object) -> list[Check]:
    """Gap of the working arc, its two ends left out, to what it gauges."""
    if len(arc) < 8:
        return [Check(plate.name, "points on its working edge", len(arc), 8, unit="pieces")]
    found = np.sort(gaps(arc, work))  # type: ignore[arg-type]
    return [
        near(plate.name, "least gap to the work", float(np.quantile(found, 0.1)), job.gauges.fit, SLACK),
        near(plate.name, "usual gap to the work", float(np.median(found)), job.gauges.fit, SLACK),
    ]


def _retainer(job: Job, files: Files) -> list[Check]:
    plate, plug = files.printed("retainer-gauge"), files.drawn("retainer-section").shape
    laid = moved(plate.face, job.form.major_radius)
    arc = _arc_of(plate, job.form.tube_radius + job.form.lining - job.gauges.fit)
    return [
        Check(plate.name, "stands in the plug by", depth(laid, plug), 0.0, SLACK),
        Check(plate.name, "hook off the plug's face by", float(laid.distance(plug)), 0.0, SLACK),
        *_gap_checks(job, plate, arc + np.array((job.form.major_radius, 0.0)), plug),
    ]


def plate_checks(job: Job, files: Files, included: float) -> list[Check]:
    """The angle plates against the cuts they set and the rings as the sled cuts them (radians)."""
    n = job.form.segments
    tilt, joint, corner = (files.drawn(name) for name in ("tilt-plate", "joint-plate", "check-corner"))
    rings = rings_in_check(job.form.wedge_rings)
    return [
        near("tilt plate", "off upright", _lean(tilt), 180 / n, ANGLE, "deg"),
        near("tilt plate", "all mitres together", 2 * n * _lean(tilt), 360, 0.04 * n, "deg"),
        near("joint plate", "angle", _taper(joint), 360 / n, ANGLE, "deg"),
        near(
            "check corner",
            f"against {rings} rings from the sled",
            _inside(corner),
            degrees(included) * rings,
            0.04,
            "deg",
        ),
    ]


def _lean(plate: Drawn) -> float:
    """Angle of the leaning edge from upright: the longest that is neither level nor upright."""
    leaning = [
        e for e in plate.straight() if min(abs(e.start[0] - e.end[0]), abs(e.start[1] - e.end[1])) > 0.01
    ]
    edge = max(leaning, key=lambda e: e.length)
    return float(np.degrees(np.arctan2(edge.end[0] - edge.start[0], edge.end[1] - edge.start[1]) % np.pi))


def _taper(plate: Drawn) -> float:
    """Between the level edge and the leaning one."""
    leaning = [
        e for e in plate.straight() if min(abs(e.start[0] - e.end[0]), abs(e.start[1] - e.end[1])) > 0.01
    ]
    edge = max(leaning, key=lambda e: e.length)
    return float(np.degrees(np.arctan2(edge.end[1] - edge.start[1], edge.end[0] - edge.start[0])) % 180)


def _inside(plate: Drawn) -> float:
    """Inside angle of the two edges that run to the relieved corner."""
    relief = next(e for e in plate.outline.edges() if e.is_arc)
    apex = np.array(relief.centre)
    arms = [np.array(p) - apex for p in (relief.start, relief.end)]
    runs = [e for e in plate.straight() if relief.start in (e.start, e.end) or relief.end in (e.start, e.end)]
    turns = [np.arctan2(e.end[1] - e.start[1], e.end[0] - e.start[0]) for e in runs]
    turned = float(np.degrees(turns[0] - turns[1])) % 180
    seen = float(
        np.degrees(np.arccos(np.clip(arms[0] @ arms[1] / (np.hypot(*arms[0]) * np.hypot(*arms[1])), -1, 1)))
    )
    return turned if abs(turned - seen) < 90 else 180 - turned
