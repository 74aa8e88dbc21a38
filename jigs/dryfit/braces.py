"""The braces on the waste flat, their heels on blocks, one bolt for each through the board."""

from __future__ import annotations

from math import degrees, hypot, pi

import numpy as np
import shapely
from shapely import affinity

from geometry.hardware.fittings import bolt_diameter, clearance_hole
from geometry.plane.edges import FloatArray
from jigs.asked.job import TorusJob
from jigs.dryfit.files import Files
from jigs.dryfit.holding import brace_bolt
from jigs.dryfit.model import Check, Drawn, Plate, near
from jigs.dryfit.mountings import Held

SLACK = 0.02  # mm
OVER = 0.1  # mm, of a bolt hole over another
HEEL_LOWER = 0.5  # mm: a strap whose heel is as high presses on its block alone


def brace_checks(job: TorusJob, files: Files, at: Held) -> list[Check]:
    """Strap, block layers and pad, laid on the board and on the waste flat."""
    strap, pad = files.drawn("brace-strap"), files.plate("brace-pad")
    drawn = [strap, *([files.drawn("brace-block-layer")] if files.has("brace-block-layer") else [])]
    channel = files.drawn("channel-section")
    circle = [hypot(*d.centre) for d in files.drawn("support-board-layer").drills if hypot(*d.centre) > 1]
    bolt = brace_bolt(job)
    edge, major = min(channel.outline.bounds[2], at.board_radius), job.form.major_radius
    shapes = {plate.name: np.asarray(plate.shape.exterior.coords) for plate in drawn} | {
        pad.name: pad.outline
    }
    return [
        *_strap_checks(job, strap, at, len(circle)),
        *(c for plate in drawn for c in _bolt_checks(bolt, plate, major, circle)),
        *_pad_bolt(bolt, pad, strap),
        *(c for name, points in shapes.items() for c in _rim_checks(job, name, points, edge)),
        *(
            c
            for name, points in shapes.items()
            if name != strap.name
            for c in _under_checks(job, name, points, strap)
        ),
        *_height_checks(job, pad, channel, at),
    ]


def _strap_checks(job: TorusJob, strap: Drawn, at: Held, count: int) -> list[Check]:
    tip = [e for e in strap.straight() if abs(e.midpoint[0]) < 1 and e.apart[0] < 0.5]
    ends = [p[0] for e in tip for p in (e.start, e.end)]
    major, width = job.form.major_radius, strap.outline.bounds[3] - strap.outline.bounds[1]
    turned = affinity.rotate(strap.shape, 360 / max(1, count), origin=(-major, 0.0))
    return [
        strap.counted("finger's end found", len(tip), 1),
        *strap.all_near("finger's end over the tube's middle", ends, 0.0, SLACK),
        strap.check("reaches over the waste flat's outer half by", at.flat_outer - max(ends), 3.0),
        strap.near("width, bolts of wood", width / bolt_diameter(brace_bolt(job)), 4.0, 0.05, "bolts"),
        strap.near("lies about its middle line", sum(strap.outline.bounds[1::2]), 0.0, SLACK),
        strap.check("gap between neighbours", float(strap.shape.distance(turned)), 1.0),
        *_lean_checks(strap),
    ]


def _lean_checks(plate: Drawn) -> list[Check]:
    """The long sides run along the brace."""
    sides = [e for e in plate.straight() if e.apart[0] > e.apart[1]]
    turns = [degrees(e.heading(0.0)) % 180 for e in sides]
    return [plate.near("side's lean", (turn + 90) % 180 - 90, 0.0, SLACK, "deg") for turn in turns]


def _bolt_checks(bolt: str, plate: Drawn, major: float, circle: list[float]) -> list[Check]:
    """Its one hole over the board layer's."""
    found = [(major + d.centre[0], d.centre[1], d.diameter) for d in plate.drills]
    at = float(np.mean(circle)) if circle else 0.0
    return [
        plate.counted("bolt holes", len(found), 1),
        *plate.all_near("bolt hole over the board's circle", [hypot(x, y) for x, y, _ in found], at, OVER),
        *plate.all_near("bolt hole on its middle line", [y for _, y, _ in found], 0.0, OVER),
        *plate.all_near(f"bolt hole ({bolt})", [wide for *_, wide in found], clearance_hole(bolt), SLACK),
    ]


def _pad_bolt(bolt: str, pad: Plate, strap: Drawn) -> list[Check]:
    """The pad's printed hole, round in chords, under the strap's."""
    rings = [shapely.Polygon(ring) for ring in pad.face.interiors]
    pairs = list(zip(rings, strap.drills, strict=False))
    wide = [2 * (ring.area / pi) ** 0.5 for ring in rings]
    return [
        pad.counted("bolt holes", len(rings), 1),
        *pad.all_near(
            "bolt hole under the strap's",
            [float(ring.centroid.distance(shapely.Point(d.centre))) for ring, d in pairs],
            0.0,
            OVER,
        ),
        *pad.all_near(f"bolt hole ({bolt})", wide, clearance_hole(bolt), SLACK),
    ]


def _rim_checks(job: TorusJob, name: str, points: FloatArray, edge: float) -> list[Check]:
    """Nothing past the board's edge; the heel's end is an arc about the axis."""
    out = np.hypot(points[:, 0] + job.form.major_radius, points[:, 1])
    heel = out[out > out.max() - 0.6]
    return [
        Check(name, "inside the board's edge", edge - float(out.max()), 0.5),
        near(name, "heel's end along the board's edge", float(np.ptp(heel)), 0.0, SLACK),
        Check(
            name, "clear of the lathe's bed", job.workshop.lathe.swing_over_bed / 2 - float(out.max()), 0.0
        ),
    ]


def _under_checks(job: TorusJob, name: str, points: FloatArray, strap: Drawn) -> list[Check]:
    """Block and pad: outside the sanded rim, inner end on the strap's line, the heel on all of them."""
    out = np.hypot(points[:, 0] + job.form.major_radius, points[:, 1])
    rim = job.form.major_radius + job.form.tube_radius + job.gauges.stages[-1]
    strap_out = np.hypot(strap.outline.points[:, 0] + job.form.major_radius, strap.outline.points[:, 1])
    line = float(strap.lines["the block's inner end"][:, 0].mean()) + job.form.major_radius
    shape = shapely.Polygon(points)
    inner = float(shape.distance(shapely.Point(-job.form.major_radius, 0.0)))
    heel = strap.shape.intersection(shapely.box(line - job.form.major_radius + 0.5, -1e3, 1e3, 1e3))
    return [
        Check(name, "clear of the sanded rim", inner - rim, 0.5),
        near(name, "inner end on the strap's line", inner, line, 0.05),
        near(name, "outer end under the strap's", float(out.max()), float(strap_out.max()), 0.05),
        Check(
            name, "of the heel not borne", 1 - heel.intersection(shape).area / heel.area, -0.02, 0.02, "parts"
        ),
    ]


def _height_checks(job: TorusJob, pad: Plate, channel: Drawn, at: Held) -> list[Check]:
    """Block layers and pad end a little under the waste flat, so that the strap presses on the flat.

    A pad that is planed from wood has no thickness in its file.
    """
    if pad.land is None:
        return []
    height = -at.face - float(channel.outline.points[:, 1].max())
    layers = round((height - pad.thickness) / job.workshop.boards.thickness)
    made = layers * job.workshop.boards.thickness + pad.thickness
    return [
        pad.near(f"with {layers} block layers, under the waste flat", height - made, HEEL_LOWER, SLACK),
        pad.check("thickness", pad.thickness, 2.0 - SLACK),
    ]
