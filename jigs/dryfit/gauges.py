"""Every gauge laid on the work, in the place where it is used."""

from __future__ import annotations

from math import isnan, radians, sin

import numpy as np

from geometry.plane.edges import FloatArray
from jigs.asked.job import TorusJob
from jigs.dryfit.files import Files, stages_of
from jigs.dryfit.model import Check, Plate, depth, gaps, moved
from jigs.dryfit.ring import half_sizes, place, seen, widths

SLACK = 0.02  # mm
EARLY = 0.035  # mm that a flat plate may ride high in the hole


def gauge_checks(job: TorusJob, files: Files, apothem: float) -> list[Check]:
    """The profile gauges of every stage, the channel gauge and the retainer gauge."""
    found: list[Check] = []
    for stage, offset in stages_of(job):
        found += _outer(job, files.plate(f"outer-gauge-{stage}"), offset, apothem)
        found += _hole(job, files.plate(f"hole-gauge-{stage}"), offset)
    return [*found, *_channel(job, files), *_retainer(job, files)]


def edge_of(job: TorusJob, points: FloatArray, more: float) -> tuple[FloatArray, FloatArray]:
    """Distance from the finished tube, and angle in degrees, of the boundary near one so much larger: vertices and
    middles."""
    both = np.concatenate([points, (points + np.roll(points, -1, axis=0)) / 2])
    off, turn = seen(job.form, both)
    close = np.abs(off - more) < 0.6
    return off[close], turn[close]


def edge_checks(job: TorusJob, plate: Plate, more: float, arc: tuple[float, float]) -> list[Check]:
    """The working edge, from one angle to another (degrees), lies off the tube so much larger by the fit."""
    off, turn = edge_of(job, plate.outline, more + job.gauges.fit)
    inside = ((turn - arc[0]) % 360) <= (arc[1] - arc[0])
    gap = off[inside] - more if inside.any() else np.array([np.inf])
    reach = np.sort((turn[inside] - arc[0]) % 360)
    holes = float(np.diff([0.0, *reach, arc[1] - arc[0]]).max())
    nearest = float(seen(job.form, plate.outline)[0].min()) - more
    return [
        plate.near("least gap to the work", float(gap.min()), job.gauges.fit, SLACK),
        plate.near("most gap to the work", float(gap.max()), job.gauges.fit, SLACK),
        plate.check("widest part of the arc without an edge", holes, 0.0, 8.0, "deg"),
        plate.check("nearest place of the plate", nearest, job.gauges.fit - SLACK),
    ]


def high_check(plate: Plate, what: str, radius: float, lean: float = 1.0) -> list[Check]:
    """How high a flat plate rides in a round hollow; where its edge is left to the file, nothing."""
    if plate.land is None:
        return []
    return [plate.check(f"rides high {what} by", plate.land**2 * lean / (8 * radius), 0.0, EARLY)]


def _outer(job: TorusJob, plate: Plate, more: float, apothem: float) -> list[Check]:
    board = -apothem + job.form.turning_allowance  # not known where the set has no sled's jaw to read it from
    low = float(plate.outline[:, 1].min()) - board
    return [
        *edge_checks(job, plate, more, (-35.0, 90.0)),
        *([] if isnan(board) else [plate.check("clear of the first board", low, 0.5)]),
        plate.check("stays on the rim's side", float(plate.outline[:, 0].min()), -SLACK),
    ]


def _hole(job: TorusJob, plate: Plate, more: float) -> list[Check]:
    form = job.form
    opening = 2 * (form.major_radius - form.tube_radius - form.turning_allowance)
    rim = half_sizes(form)[1] + form.turning_allowance
    far = opening / 2 + form.major_radius + float(plate.outline[plate.outline[:, 1] < rim, 0].min())
    return [
        *edge_checks(job, plate, more, (90.0, 215.0)),
        plate.check("passes the hole with", passing_room(job, plate), 0.5),
        plate.check("clear of the hole's far side", far, 0.5),
        plate.check("stays on the hole's side", -float(plate.outline[:, 0].max()), -SLACK),
        *high_check(plate, "in the hole", opening / 2),
    ]


def passing_room(job: TorusJob, plate: Plate) -> float:
    """How far a gauge may stand aside, one way or the other, while it is lowered into the rough hole.

    What is below the tube's centre passes the narrowest place; what is above it passes wider ones only.
    """
    more, across = job.form.turning_allowance, 2 * job.form.major_radius
    heights = np.arange(float(plate.outline[:, 1].min()) + 0.25, half_sizes(job.form)[1] + more, 0.5)
    wall = widths(job.form, more, np.maximum(heights, 0.0))
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
    contact = job.workshop.holding.contact
    lean = sin(radians(contact))  # of the outer wall at its rim
    out, _ = place(job.form, job.form.lining, 90 - contact)
    arc = _arc_of(job, plate)
    return [
        plate.check("stands in the board by", depth(laid, board), 0.0, SLACK),
        plate.check("shoulders off the board by", float(laid.distance(board)), 0.0, SLACK),
        *_gap_checks(job, plate, arc + np.array((job.form.major_radius, 0.0)), board),
        *high_check(plate, "on the outer wall", job.form.major_radius + out, lean),
    ]


def _arc_of(job: TorusJob, plate: Plate) -> FloatArray:
    """Of a gauge that fits where the finished tube lies in its lining."""
    points = plate.outline
    both = np.concatenate([points, (points + np.roll(points, -1, axis=0)) / 2])
    return both[np.abs(seen(job.form, both)[0] - job.form.lining + job.gauges.fit) < 0.6]


def _gap_checks(job: TorusJob, plate: Plate, arc: FloatArray, work: object) -> list[Check]:
    """Gap of the working arc, its two ends left out, to what it gauges."""
    if len(arc) < 8:
        return [plate.check("points on its working edge", len(arc), 8, unit="pieces")]
    found = np.sort(gaps(arc, work))  # type: ignore[arg-type]
    return [
        plate.near("least gap to the work", float(np.quantile(found, 0.1)), job.gauges.fit, SLACK),
        plate.near("usual gap to the work", float(np.median(found)), job.gauges.fit, SLACK),
    ]


def _retainer(job: TorusJob, files: Files) -> list[Check]:
    plate, plug = files.plate("retainer-gauge"), files.drawn("retainer-section").shape
    laid = moved(plate.face, job.form.major_radius)
    arc = _arc_of(job, plate)
    return [
        plate.check("stands in the plug by", depth(laid, plug), 0.0, SLACK),
        plate.check("hook off the plug's front by", float(laid.distance(plug)), 0.0, SLACK),
        plate.check("past the plug's back by", max(0.0, laid.bounds[3] - plug.bounds[3]), 0.0, SLACK),
        *_gap_checks(job, plate, arc + np.array((job.form.major_radius, 0.0)), plug),
    ]
