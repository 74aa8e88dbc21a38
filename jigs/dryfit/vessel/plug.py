"""The plug that holds the vessel by its mouth: into the mouth, against the wood, on its gauge and its discs."""

from __future__ import annotations

from collections.abc import Iterator
from math import degrees, sqrt

import numpy as np
import shapely

from geometry.plane.edges import FloatArray
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, Drawn, deepest, depth, near
from jigs.dryfit.vessel.outside import coordinates, round_holes
from jigs.dryfit.vessel.work import Work

HAIR = 1e-6  # mm
SLACK = 0.02  # mm
TAPER = 0.02  # degrees
BEARS = 5.0  # mm, least length of what bears, or that goes into the mouth
CLEAR = 5.0  # mm, least from the rim to a flange that it does not stand on
ON_RIM = (
    SLACK,
    2.0,
)  # mm from where the taper jams to where the rim stands: a small mouth's mitres bear little
FREE = 0.1  # mm, least round a spigot that only centres
OFF_END = 0.02  # mm
INWARD = 0.05  # sine of a corner's turn
HOLE = 0.1  # mm
BED = 1.0  # mm, of wood that is turned off a disc


def plug_checks(work: Work, files: Files) -> list[Check]:
    """The section in the vessel, then what it is turned and gauged by."""
    section = files.drawn("mouth-plug-section")
    side = _side(section, work.height)
    return [
        section.check("stands in the wood by", depth(section.shape, _half(work)), 0.0, SLACK),
        section.check("passes the mouth with", _passing(work, side), work.job.reversing.lining - SLACK),
        section.check("over the floor", section.outline.bounds[1] - work.section.inner.bottom, 1.0),
        *_bearing_checks(work, section, side),
        *_gauge_checks(work, files, section, side),
        *_disc_checks(files, section),
    ]


def _half(work: Work) -> shapely.Polygon:
    """The finished wood right of the axis."""
    right = work.solid.intersection(shapely.box(0.0, -1e4, 1e4, 1e4))
    return right if isinstance(right, shapely.Polygon) else work.solid


def _side(section: Drawn, rim: float) -> FloatArray:
    """Points (m, 2) of the plug's side, from its tip's corner up to the rim's height."""
    bore, low, _, _ = section.outline.bounds
    box = shapely.box(bore + HAIR, low + HAIR, 1e4, rim - HAIR)
    points = coordinates(shapely.segmentize(section.shape.exterior.intersection(box), 0.1))
    return points[np.argsort(points[:, 1], kind="stable")]


def _passing(work: Work, side: FloatArray) -> float:
    """How far every place of the side clears what it passes on its way in, level."""
    inner = np.asarray(shapely.segmentize(work.inside(0.0), 0.1).coords)
    narrow = np.minimum.accumulate(inner[::-1, 0])[::-1]
    at = np.searchsorted(inner[:, 1], side[:, 1])
    clear = at < len(inner)
    return float((narrow[at[clear]] - side[clear, 0]).min())


def _bearing_checks(work: Work, section: Drawn, side: FloatArray) -> list[Check]:
    """The rim against the flange, and the side against the wood: the inside's twin, jammed, or free of it."""
    face, lining = _face(section) - work.height, work.job.reversing.lining
    away = shapely.distance(shapely.points(side), work.inside(0.0))
    twin = side[np.abs(away - lining) < SLACK]
    long = float(np.hypot(*np.diff(twin, axis=0).T).sum())
    if long >= BEARS - 0.5 and face > CLEAR:
        return [
            section.check("side on the inside for", long, BEARS - 0.2),
            section.check("flange clear of the rim", face, CLEAR),
        ]
    rim = (work.section.rim_radius + work.section.mouth_radius) / 2
    mouth = shapely.Point(work.inside(0.0).coords[-1]).distance(shapely.LineString(side)) - lining
    return [
        section.check("reaches into the mouth", work.height - float(side[0, 1]), BEARS - SLACK),
        section.check("flange past the rim's middle", section.outline.bounds[2] - rim, 0.0),
        *(
            [section.check("spigot free of the mouth", float(mouth), FREE, 1.0)]
            if abs(face) < SLACK
            else _jam_checks(work, section, side, float(mouth), face)
        ),
    ]


def _jam_checks(work: Work, section: Drawn, side: FloatArray, mouth: float, face: float) -> list[Check]:
    """A taper that jams in the mouth's edge, shortly before the rim stands on the flange."""
    lean = degrees(np.arctan2(side[-1, 0] - side[0, 0], side[-1, 1] - side[0, 1]))
    return [
        section.near("taper", lean, work.job.reversing.taper, TAPER, "deg"),
        section.near("side at the mouth's edge, off the lining", mouth, 0.0, SLACK),
        section.check("rim short of the flange when it jams", face, *ON_RIM),
    ]


def _face(section: Drawn) -> float:
    """Height of the flange's front: the level edge out to its rim that is not its back."""
    right, top = section.outline.bounds[2], section.outline.bounds[3]
    level = [
        e
        for e in section.straight()
        if e.apart[1] < 1e-6 and e.ends[2] > right - 1e-6 and e.midpoint[1] < top - 1.0
    ]
    return min(e.midpoint[1] for e in level)


def _gauge_checks(work: Work, files: Files, section: Drawn, side: FloatArray) -> list[Check]:
    """Its hook on the plug's front, its edge off the side by the fit."""
    gauge, plug = files.plate("mouth-plug-gauge"), section.shape
    outline, tip = coordinates(shapely.segmentize(gauge.face.exterior, 0.1)), section.outline.bounds[1]
    top = gauge.face.bounds[3]
    beside = _facing(side, tip + OFF_END, top - OFF_END, work.job.gauges.fit)
    bad = np.abs(shapely.distance(shapely.points(beside), gauge.face.exterior) - work.job.gauges.fit)
    return [
        gauge.check("stands in the plug by", deepest(outline, plug), 0.0, SLACK),
        gauge.near("edge off the plug's side, farthest from its fit", bad.max(initial=0.0), 0.0, SLACK),
        gauge.check("places beside its edge", len(beside), 3, unit="pieces"),
        gauge.near("hook on the plug's front", _hook(outline, tip, float(side[0, 0])), 0.0, SLACK),
    ]


def _facing(side: FloatArray, low: float, top: float, fit: float) -> FloatArray:
    """Places on the side that face the gauge's edge: square to the side, `fit` off it, they meet it between its ends.

    Left out are those nearer to its hook, and beside a corner that the side makes inward, where its edge is cut short.
    """
    step = np.diff(side, axis=0)
    long = np.hypot(*step.T)
    step, middle = step[long > HAIR] / long[long > HAIR, None], ((side[1:] + side[:-1]) / 2)[long > HAIR]
    across = step[:-1, 0] * step[1:, 1] - step[:-1, 1] * step[1:, 0]
    corners = middle[:-1][across < -INWARD]
    foot = middle + fit * np.column_stack((step[:, 1], -step[:, 0]))
    beside = np.hypot(*(middle[:, None] - corners[None]).T).min(axis=0, initial=np.inf) < fit + 1.0
    over_hook = middle[:, 1] > low + fit
    return np.asarray(middle[(foot[:, 1] > low) & (foot[:, 1] < top) & over_hook & ~beside])


def _hook(outline: FloatArray, tip: float, corner: float) -> float:
    """How far the hook's face is off the plug's front."""
    own = outline[outline[:, 0] < corner - 0.5]
    face = own[own[:, 0] > own[:, 0].min() + 0.5] if len(own) else own
    upper = face[face[:, 1] > tip - 2.0]
    return float(np.abs(upper[:, 1] - tip).max()) if len(upper) else float("inf")


def _disc_checks(files: Files, section: Drawn) -> Iterator[Check]:
    """Discs as large as the section needs, their holes as its bore."""
    bore, right = section.outline.bounds[0], section.outline.bounds[2]
    face = _face(section)
    before = shapely.clip_by_rect(section.shape, *section.outline.bounds[:2], right, face - SLACK)
    neck = float(before.bounds[2])  # a steep side is widest where it meets the flange
    for name, radius in (("mouth-plug-layer", neck), ("mouth-plug-flange-layer", right)):
        plate = files.plate(name)
        (middle, hole), *_ = round_holes(plate) or [((np.nan, np.nan), np.nan)]
        size = sqrt(shapely.Polygon(plate.face.exterior).area / np.pi)
        yield near(name, "hole off the middle", float(np.hypot(*middle)), 0.0, HOLE)
        yield near(name, "hole as wide as the section's bore", hole, 2 * bore, HOLE)
        yield Check(name, "wood to turn round the section", size - radius, BED, 10.0)
