"""Profile gauges as parts: their edges, their files, what they say."""

import io
from functools import cache

import numpy as np
import pytest
import shapely

from geometry.plane.profile import profile
from geometry.plane.sample import sample
from jigs.files.stl import read_stl, write_stl
from jigs.parts.probes import ProfileForm
from tests.jigs.vessel.gauge_jobs import JOBS
from tests.unset import unlettered

every_vessel = pytest.mark.parametrize("name", JOBS)


def all_parts(plan):
    return [*plan.outside, *plan.rail, *plan.inside, *plan.wall]


def dense(of, pitch=1.0):
    """Points along an open profile, its chords within 0.0005 mm, and its unit normals to the right of travel."""
    points, normals = [], []
    for edge in of.edges():
        chords = abs(edge.angle) / (2 * np.arccos(1 - 0.0005 / max(edge.radius, 0.01))) if edge.is_arc else 1
        for t in np.linspace(0.0, 1.0, max(4, int(edge.length / pitch), int(np.ceil(chords)) + 1)):
            heading = edge.heading(t)
            points.append(edge.point_at(t))
            normals.append((np.sin(heading), -np.cos(heading)))
    return np.array(points), np.array(normals)


def region(*contours, within=0.001):
    outline, *holes = (sample(contour, within) for contour in contours)
    return shapely.Polygon(outline, holes)


def form(part):
    rows = next(d.probe.rows for d in part.dimensions if isinstance(d.probe, ProfileForm))
    return profile(*rows)


@cache
def reread(part):
    """Its file read back; without letters, which nothing measures."""
    stream = io.BytesIO()
    write_stl(unlettered(part), stream)
    stream.seek(0)
    return read_stl(stream)


def stage_parts(plan):
    """Each stage with its outer pieces, from the faceplate up."""
    parts, count = plan.outside, len(plan.gauges.pieces)
    return [(stage, parts[k * count : (k + 1) * count]) for k, stage in enumerate(plan.gauges.stages)]
