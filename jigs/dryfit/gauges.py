"""Every gauge laid on the work, in the place where it is used."""

from __future__ import annotations

from math import isnan, radians, sin

import numpy as np

from geometry.plane.arcs import FloatArray
from jigs.asked.job import TorusJob
from jigs.dryfit.check import Check, near
from jigs.dryfit.files import Files
from jigs.dryfit.plates import Plate
from jigs.dryfit.section import depth, gaps, moved

SLACK = 0.02  # mm
EARLY = 0.035  # mm that a flat plate may ride high in the hole


def gauge_checks(job: TorusJob, files: Files, apothem: float) -> list[Check]:
    """The profile gauges of every stage, the channel gauge and the retainer gauge."""
    found: list[Check] = []
    last = len(job.gauges.stages) - 1
    for i, offset in enumerate(job.gauges.stages):
        stage = "finished" if i == last else f"stage-{i + 1}"
        size = job.form.tube_radius + offset
        found += _outer(job, files.plate(f"outer-gauge-{stage}"), size, apothem)
        found += _hole(job, files.plate(f"hole-gauge-{stage}"), size)
    return [*found, *_channel(job, files), *_retainer(job, files)]


def edge_of(points: FloatArray, size: float) -> tuple[FloatArray, FloatArray]:
    """Distance from the tube's centre, and angle in degrees, of the boundary near a circle: vertices and middles."""
    both = np.concatenate([points, (points + np.roll(points, -1, axis=0)) / 2])
    off = np.hypot(both[:, 0], both[:, 1])
    close = np.abs(off - size) < 0.6
    return off[close], np.degrees(np.arctan2(both[close, 1], both[close, 0])) % 360


def edge_checks(job: TorusJob, plate: Plate, size: float, arc: tuple[float, float]) -> list[Check]:
    """The working edge, from one angle to another (degrees), lies off the work of that radius by the fit."""
    off, turn = edge_of(plate.outline, size + job.gauges.fit)
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


def high_check(plate: Plate, what: str, radius: float, lean: float = 1.0) -> list[Check]:
    """How high a flat plate rides in a round hollow; where its edge is left to the file, nothing."""
    if plate.land is None:
        return []
    return [Check(plate.name, f"rides high {what} by", plate.land**2 * lean / (8 * radius), 0.0, EARLY)]


def _outer(job: TorusJob, plate: Plate, size: float, apothem: float) -> list[Check]:
    board = -apothem + job.form.turning_allowance  # not known where the set has no sled's jaw to read it from
    low = float(plate.outline[:, 1].min()) - board
    return [
        *edge_checks(job, plate, size, (-35.0, 90.0)),
        *([] if isnan(board) else [Check(plate.name, "clear of the first board", low, 0.5)]),
        Check(plate.name, "stays on the rim's side", float(plate.outline[:, 0].min()), -SLACK),
    ]


def _hole(job: TorusJob, plate: Plate, size: float) -> list[Check]:
    form = job.form
    opening = 2 * (form.major_radius - form.tube_radius - form.turning_allowance)
    rim = form.tube_radius + form.turning_allowance
    far = opening / 2 + form.major_radius + float(plate.outline[plate.outline[:, 1] < rim, 0].min())
    return [
        *edge_checks(job, plate, size, (90.0, 215.0)),
        Check(plate.name, "passes the hole with", passing_room(job, plate), 0.5),
        Check(plate.name, "clear of the hole's far side", far, 0.5),
        Check(plate.name, "stays on the hole's side", -float(plate.outline[:, 0].max()), -SLACK),
        *high_check(plate, "in the hole", opening / 2),
    ]


def passing_room(job: TorusJob, plate: Plate) -> float:
    """How far a gauge may stand aside, one way or the other, while it is lowered into the rough hole.

    What is below the tube's centre passes the narrowest place; what is above it passes wider ones only.
    """
    rough, across = job.form.tube_radius + job.form.turning_allowance, 2 * job.form.major_radius
    heights = np.arange(float(plate.outline[:, 1].min()) + 0.25, rough, 0.5)
    wall = np.sqrt(rough**2 - np.maximum(heights, 0.0) ** 2)
    sides = np.array([_slice(plate.outline, height) for height in heights.tolist()])
    return float((-wall - sides[:, 1]).min() - (wall - across - sides[:, 0]).max())


def _slice(outline: FloatArray, height: float) -> tuple[float, float]:
    """Where a level line enters and leaves the plate."""
    ends = np.roll(outline, -1, axis=0)
    crosses = (outline[:, 1] > height) != (ends[:, 1] > height)
    a, b = outline[crosses], ends[crosses]
    x = a[:, 0] + (b[:, 0] - a[:, 0]) * (height - a[:, 1]) / (b[:, 1] - a[:, 1])
    return float(x.min()), float(x.max())


def _channel(job: TorusJob, files: Files) -> list[Check]:
    plate, board = files.plate("channel-gauge"), files.drawn("channel-section").shape
    laid = moved(plate.face, job.form.major_radius)
    radius = job.form.tube_radius + job.form.lining
    lean = sin(radians(job.workshop.holding.contact))  # of the outer wall at its rim
    arc = _arc_of(plate, radius - job.gauges.fit)
    return [
        Check(plate.name, "stands in the board by", depth(laid, board), 0.0, SLACK),
        Check(plate.name, "shoulders off the board by", float(laid.distance(board)), 0.0, SLACK),
        *_gap_checks(job, plate, arc + np.array((job.form.major_radius, 0.0)), board),
        *high_check(plate, "on the outer wall", job.form.major_radius + radius * lean, lean),
    ]


def _arc_of(plate: Plate, radius: float) -> FloatArray:
    points = plate.outline
    both = np.concatenate([points, (points + np.roll(points, -1, axis=0)) / 2])
    arc = both[np.abs(np.hypot(both[:, 0], both[:, 1]) - radius) < 0.6]
    return arc if len(arc) else both[:0]


def _gap_checks(job: TorusJob, plate: Plate, arc: FloatArray, work: object) -> list[Check]:
    """Gap of the working arc, its two ends left out, to what it gauges."""
    if len(arc) < 8:
        return [Check(plate.name, "points on its working edge", len(arc), 8, unit="pieces")]
    found = np.sort(gaps(arc, work))  # type: ignore[arg-type]
    return [
        near(plate.name, "least gap to the work", float(np.quantile(found, 0.1)), job.gauges.fit, SLACK),
        near(plate.name, "usual gap to the work", float(np.median(found)), job.gauges.fit, SLACK),
    ]


def _retainer(job: TorusJob, files: Files) -> list[Check]:
    plate, plug = files.plate("retainer-gauge"), files.drawn("retainer-section").shape
    laid = moved(plate.face, job.form.major_radius)
    arc = _arc_of(plate, job.form.tube_radius + job.form.lining - job.gauges.fit)
    return [
        Check(plate.name, "stands in the plug by", depth(laid, plug), 0.0, SLACK),
        Check(plate.name, "hook off the plug's face by", float(laid.distance(plug)), 0.0, SLACK),
        *_gap_checks(job, plate, arc + np.array((job.form.major_radius, 0.0)), plug),
    ]
