"""The torus in the turned boards: channel, retainer, and the holes of their layers."""

from __future__ import annotations

from math import asin, atan2, degrees, hypot

import numpy as np

from geometry.hardware.fittings import CLEARANCE, bolt_diameter, clearance_hole, fittings_for, in_inches
from geometry.plane.edges import FloatArray
from jigs.asked.job import Form, TorusJob
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, Drawn, gaps, near
from jigs.dryfit.ring import angle_at, place, places

SLACK = 0.02  # mm
GLUED = 0.05  # mm, of a board's layers together


def holding_checks(job: TorusJob, files: Files) -> list[Check]:
    """Channel, retainer and layers against the finished torus and each other."""
    channel, plug = files.drawn("channel-section"), files.drawn("retainer-section")
    board_layer, plug_layer = files.drawn("support-board-layer"), files.drawn("retainer-layer")
    return [
        *_channel(job, channel),
        *_retainer(job, plug, channel),
        *_bores(channel, plug, board_layer, plug_layer),
        *_layer(job, board_layer, channel),
        Check(
            "retainer", "layer over the plug", _diameter(plug_layer) - 2 * plug.outline.bounds[2], 2.0, 30.0
        ),
    ]


def _channel(job: TorusJob, channel: Drawn) -> list[Check]:
    form, wish = job.form, job.workshop.holding
    contact = wish.contact - 1
    flank = {
        "inner": _tube(form, 270 - contact, 270 - contact / 2),
        "outer": _tube(form, 270 + contact / 2, 270 + contact),
    }
    bears = {side: gaps(points, channel.shape) for side, points in flank.items()}
    ring = gaps(_tube(form, 0, 360, 1441), channel.shape)
    under = gaps(_tube(form, 269, 271), channel.shape)
    low = channel.outline.bounds[1]
    groove = min(
        y for x, y in channel.outline.points if abs(x - form.major_radius) < form.tube_radius and y > low + 1
    )
    swing = job.workshop.lathe.swing_over_bed - 2 * channel.outline.bounds[2]
    high, layer = channel.outline.bounds[3] - low, job.workshop.boards.thickness
    layers = max(1, round(high / layer))
    return [
        near("channel", f"height of {layers} layers", high, layers * layer, GLUED),
        Check("channel", "torus stands in the board by", max(0.0, -float(ring.min())), 0.0, SLACK),
        *(
            near("channel", f"{side} flank, least gap", float(gap.min()), form.lining, SLACK)
            for side, gap in bears.items()
        ),
        *(
            near("channel", f"{side} flank, most gap", float(gap.max()), form.lining, SLACK)
            for side, gap in bears.items()
        ),
        Check("channel", "relief under the torus", float(under.min()), 0.15),
        Check("channel", "solid board below", groove - low, wish.solid_under - SLACK),
        Check("channel", "board within the lathe's swing", swing, 0.0),
    ]


def _retainer(job: TorusJob, plug: Drawn, channel: Drawn) -> list[Check]:
    form, wish = job.form, job.workshop.holding
    heights = [place(form, 0.0, degrees(asin(sine)))[1] for sine in (0.52, 0.83)]
    low, high = (angle_at(form, form.lining, height) for height in heights)
    band = gaps(_tube(form, 180 - high, 180 - low), plug.shape)
    ring = gaps(_tube(form, 0, 360, 1441), plug.shape)
    face = float(channel.outline.points[:, 1].max())
    neck = min(x for x, y in plug.outline.points if x > plug.outline.bounds[0] + 1)
    return [
        Check("retainer", "stands in the torus by", max(0.0, -float(ring.min())), 0.0, SLACK),
        near("retainer", "rim, least gap", float(band.min()), form.lining, SLACK),
        near("retainer", "rim, most gap", float(band.max()), form.lining, SLACK),
        near("retainer", "room round its neck", form.hole_diameter / 2 - neck, wish.neck_clearance, 0.1),
        near("retainer", "clear of the board", plug.outline.bounds[1] - face, wish.board_clearance, 0.1),
    ]


def _tube(form: Form, start: float, end: float, count: int = 721) -> FloatArray:
    """Points (count, 2) of the finished tube where it lies, between two angles in degrees."""
    return np.asarray(places(form, 0.0, np.linspace(start, end, count)) + np.array((form.major_radius, 0.0)))


def _bores(channel: Drawn, plug: Drawn, board_layer: Drawn, plug_layer: Drawn) -> list[Check]:
    bores = {
        "board section": 2 * channel.outline.bounds[0],
        "retainer section": 2 * plug.outline.bounds[0],
        "board layer": _centre_hole(board_layer),
        "retainer layer": _centre_hole(plug_layer),
    }
    known = [fits["medium"] for fits in CLEARANCE.values()]
    usual = min(known, key=lambda hole: abs(hole - sorted(bores.values())[1]))
    return [near("centre bolt", f"hole in the {name}", bore, usual, SLACK) for name, bore in bores.items()]


def brace_bolt(job: TorusJob) -> str:
    """The thread of the braces' bolts."""
    asked = job.workshop.bolts.centre
    sizes = job.fittings if asked is None else fittings_for(in_inches(asked))
    return sizes.brace


def _centre_hole(layer: Drawn) -> float:
    """Diameter of the hole at the centre; 0 where there is none."""
    return max((d.diameter for d in layer.drills if hypot(*d.centre) < SLACK), default=0.0)


def _diameter(layer: Drawn) -> float:
    x0, y0, x1, y1 = layer.outline.bounds
    return min(x1 - x0, y1 - y0)


def _layer(job: TorusJob, layer: Drawn, channel: Drawn) -> list[Check]:
    braces = [d for d in layer.drills if hypot(*d.centre) > 1.0]
    turns = sorted(degrees(atan2(d.centre[1], d.centre[0])) % 360 for d in braces)
    steps = np.diff([*turns, turns[0] + 360]) if turns else np.array([])
    circle = sorted(hypot(*d.centre) for d in braces)
    board, bolt = 2 * channel.outline.bounds[2], brace_bolt(job)
    even = 360 / max(1, len(braces))
    return [
        Check("board layer", "over the turned board", _diameter(layer) - board, 1.0, 20.0),
        *(
            near("board layer", f"brace hole ({bolt})", d.diameter, clearance_hole(bolt), SLACK)
            for d in braces
        ),
        *(near("board layer", "brace holes on one circle", r, circle[0], 0.05) for r in circle),
        *(near("board layer", "brace holes evenly spread", float(step), even, 0.05, "deg") for step in steps),
        *(
            Check(
                "board layer",
                "brace hole from the board's edge",
                board / 2 - r,
                2 * bolt_diameter(bolt) - 0.05,
            )
            for r in circle[-1:]
        ),
    ]
