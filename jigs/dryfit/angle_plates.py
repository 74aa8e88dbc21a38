"""The angle plates against the cuts they set, and the rings as the sled cuts them."""

from __future__ import annotations

from math import degrees, hypot

import numpy as np

from geometry.bodies.torus import rings_in_check
from geometry.plane.contour import Edge
from jigs.asked.job import TorusJob
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, Drawn, near

ANGLE = 0.02  # degrees
THROUGH = 0.5  # mm


def plate_checks(job: TorusJob, files: Files, included: float) -> list[Check]:
    """The angle plates against the cuts they set and the rings as the sled cuts them (radians)."""
    n = job.form.segments
    tilt, joint, corner = (files.drawn(name) for name in ("tilt-plate", "joint-plate", "check-corner"))
    rings = rings_in_check(job.form.wedge_rings)
    return [
        near("tilt plate", "off upright", _lean(tilt), 180 / n, ANGLE, "deg"),
        near("tilt plate", "all mitres together", 2 * n * _lean(tilt), 360, 0.04 * n, "deg"),
        near("joint plate", "angle", bearing_angle(joint), 360 / n, ANGLE, "deg"),
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
    leaning = [e for e in plate.straight() if min(e.apart[0], e.apart[1]) > 0.01]
    edge = max(leaning, key=lambda e: e.length)
    return float(np.degrees(np.arctan2(edge.end[0] - edge.start[0], edge.end[1] - edge.start[1]) % np.pi))


def bearing_angle(plate: Drawn) -> float:
    """Between the two edges that leave a plate's short end, degrees."""
    edges = plate.straight()
    short = min(range(len(edges)), key=lambda k: edges[k].length)
    before, after = edges[short - 1], edges[(short + 1) % len(edges)]
    a, b = (np.subtract(*ends) for ends in ((before.start, before.end), (after.end, after.start)))
    return float(np.degrees(np.arccos(np.clip(a @ b / (np.hypot(*a) * np.hypot(*b)), -1, 1))))


def _inside(plate: Drawn) -> float:
    """Inside angle of the two longest edges that run to the torus axis, the drawing's origin."""
    arms = sorted((e for e in plate.straight() if off_axis(e) < THROUGH), key=lambda e: -e.length)[:2]
    a, b = (
        np.array(max(e.start, e.end, key=lambda p: hypot(*p))) - min(e.start, e.end, key=lambda p: hypot(*p))
        for e in arms
    )
    return float(np.degrees(np.arccos(np.clip(a @ b / (np.hypot(*a) * np.hypot(*b)), -1, 1))))


def off_axis(edge: Edge) -> float:
    """Distance of the origin from an edge's line."""
    (x0, y0), (x1, y1) = edge.start, edge.end
    return abs(x0 * y1 - x1 * y0) / edge.length
