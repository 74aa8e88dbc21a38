"""The floating base by its gauges: what they would pass leaves wall, bears when dry, and never fills its groove."""

from __future__ import annotations

from math import hypot

import shapely

from jigs.asked.woods import tangential_of
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, Plate, spans
from jigs.dryfit.vessel.work import Work

SLACK = 0.02  # mm
BEARS, WALL, LEDGE, LIP, TONGUE = 1.8, 4.0, 3.0, 3.0, 3.0  # mm, least
UPWARD = 0.1  # mm of room over the tongue, least
STEP = 0.01  # mm
CLOSES = 0.15  # of the foot's radius times what ring 1 swells or shrinks: by so much it closes or opens


def floating_checks(work: Work, files: Files) -> list[Check]:
    """The groove gauge in the section, then the disc that its tongue gauge passes."""
    gauge, slot, heights = files.plate("groove-gauge"), files.plate("tongue-gauge"), work.job.rings.heights
    joint = float(heights[0]) - work.job.rings.turning_allowance
    deep = _depth(gauge)
    groove, opening = (_round(gauge, y) for y in (-deep / 2, -deep - STEP))
    ledge, floor = work.job.foot.recess_depth, work.section.inner.bottom
    outside = min(work.section.outer.radii(ledge, joint)[0], work.section.outer.radius_at(joint))
    thin = _slot(slot)
    return [
        gauge.near("opening on the foot's hollow", 2 * opening, work.job.foot.recess_diameter, SLACK),
        gauge.near("ledge under the groove", joint - deep, ledge, SLACK),
        gauge.check("ledge", ledge, LEDGE),
        gauge.check("lip over the groove", floor - joint, LIP),
        gauge.check(
            "wall outside the groove", outside - groove, max(WALL, work.job.rings.least_glue) - SLACK
        ),
        gauge.check("lies on its ledge, driest and pushed aside", _bears(work, groove, opening), BEARS),
        slot.check("room over the tongue, wettest", deep - thin * (1 + _thickens(work)), UPWARD),
        slot.check("tongue", thin, TONGUE),
    ]


def _round(gauge: Plate, y: float) -> float:
    """Radius of the round hole that the plate touches at a height: with the corners of its thickness."""
    x0, _, x1, _ = gauge.face.intersection(shapely.box(-1e4, y - STEP / 2, 1e4, y + STEP / 2)).bounds
    return hypot((x1 - x0) / 2, gauge.thickness / 2)


def _depth(gauge: Plate) -> float:
    """Of the upper step, below the arms at y = 0: where its width changes."""
    low = gauge.face.bounds[1]
    below = sorted({round(y, 4) for _, y in gauge.face.exterior.coords if low + STEP < y < -STEP})
    return -below[-1]


def _slot(gauge: Plate) -> float:
    """Width of the slot in the plate's left edge."""
    below, above = spans(gauge.face, gauge.face.bounds[0] + 0.5, 1)
    return above[0] - below[1]


def _bears(work: Work, groove: float, opening: float) -> float:
    """Of the largest tongue that the wettest air does not jam: what lies on the ledge when it is dry and off centre."""
    share, wish = _share(work), work.job.floating
    ring = max(map(tangential_of, work.job.rings.woods(1)))
    moves = CLOSES * work.section.foot_radius * ring
    closes, opens = moves * (wish.wettest - wish.moisture), moves * (wish.moisture - wish.driest)
    tongue = (groove - closes) / (1 + share * (wish.wettest - wish.moisture))
    dry = tongue * (1 - share * (wish.moisture - wish.driest))
    return dry - (groove + opens - dry) - (opening + opens)


def _thickens(work: Work) -> float:
    wish = work.job.floating
    return 0.0 if wish.grain == "upright" else _share(work) * (wish.wettest - wish.moisture)


def _share(work: Work) -> float:
    """Of a width, for each per cent of moisture."""
    return tangential_of(work.job.floating.species or work.job.rings.woods(1)[0])
