"""Inch hardware: a job in inches has no other, or a centre bolt on request; holes, names and dry fit go by it."""

from __future__ import annotations

import json
import re
from dataclasses import replace

import numpy as np
import pytest

from geometry.hardware.fittings import IN_INCHES, METRIC
from geometry.plane.contour import rectangle
from jigs.asked.jobfile import load, parse
from jigs.dryfit.bolts import (
    BOLTS,
    bolt_in,
    is_screw,
    pin_in,
    pins_in,
    screw_checks,
    thread_checks,
    thread_of,
)
from jigs.dryfit.model import Drawn, Drill
from jigs.dryfit.torus import dry_fit
from jigs.forms.solve import solve
from jigs.forms.work import work
from jigs.parts.part import Lettering
from jigs.parts.probes import HoleDiameter
from jigs.plans.torus import TorusPlan
from jigs.render.listing import listing_text
from jigs.render.work_json import work_json
from jigs.sets.rack import draw
from tests.conftest import CONFIGS
from tests.unset import jigs_made
from tests.work.reading import work_for

HOOP = """\
unit = "in"
[form]
outer_diameter = 10
tube_diameter = "2 1/16"
wedge_rings = 14
segments = 8
core_opening = "9/16"
least_wall = "1/8"
[bolts]
centre = "{bolt}"
"""


EXAMPLES = ("quoit", "trellis", "tumbler")
METRIC_NAME = re.compile(r"\bM(4|5|6|8|10|12)\b")
METRIC_HOLES = (METRIC.bolt_hole, METRIC.screw_hole, METRIC.pin)


@pytest.mark.parametrize("name", EXAMPLES)
def test_a_job_in_inches_is_bored_for_inch_hardware_and_names_no_other(name):
    proof = draw(solve(replace(load(CONFIGS / f"{name}.toml"), unit="in")))
    told = work(proof.plan, proof.parts, proof.notes)
    names = {goods.what for goods in told.goods}
    assert any("1/4-20" in one for one in names)
    assert not [one for one in names if METRIC_NAME.search(one)]
    assert not METRIC_NAME.search(json.dumps(work_json(told)))
    assert not METRIC_NAME.search(listing_text(told))
    lettering = [mark.text for part in proof.parts for mark in part.marks if isinstance(mark, Lettering)]
    assert not [text for text in lettering if METRIC_NAME.search(text)]
    sleds = [part for part in proof.parts if part.family in ("sled", "segments", "layup", "truing")]
    bored = [d for part in sleds for d in part.dimensions if isinstance(d.probe, HoleDiameter)]
    assert bored
    assert not [one for one in bored if one.value in METRIC_HOLES]


def test_the_dry_fit_reads_bolt_and_pin_of_either_system_by_their_holes():
    for sizes in (METRIC, IN_INCHES):
        bolt, pin, screw = (
            Drill((x, 0.0), d) for x, d in enumerate((sizes.bolt_hole, sizes.pin, sizes.screw_hole))
        )
        plate = Drawn("plate", rectangle(0, 0, 90, 90), (), (screw, pin, bolt), {}, np.zeros((0, 2)))
        assert bolt_in(plate) is bolt
        assert pin_in(plate) is pin
        assert pins_in(plate) == [pin]
        assert [d for d in plate.drills if is_screw(d)] == [screw]
        assert thread_of(bolt, BOLTS) == sizes.bolt
        assert all(check.fits for check in screw_checks("plate", [screw]))


def test_a_metric_hole_is_no_hole_for_an_inch_bolt():
    hole = Drill((0.0, 0.0), METRIC.bolt_hole)
    assert all(check.fits for check in thread_checks("plate", "bolt", [hole], METRIC.bolt))
    assert not any(check.fits for check in thread_checks("plate", "bolt", [hole], IN_INCHES.bolt))


@pytest.mark.parametrize(
    ("bolt", "hole", "brace"), [("3/8 in", 0.406 * 25.4, "5/16 in"), ("M10", 11.0, "M8")]
)
def test_the_centre_bolt_asked_for_sets_its_hole_and_the_braces_bolts(bolt, hole, brace):
    plan = solve(parse(HOOP.format(bolt=bolt), "hoop.toml"))
    assert isinstance(plan, TorusPlan)
    assert (plan.holding.bolt_hole, plan.holding.brace_bolt) == (pytest.approx(hole), brace)


def test_a_job_with_inch_bolts_names_no_metric_one_at_the_lathe_and_its_dry_fit_passes(tmp_path):
    file = tmp_path / "hoop.toml"
    file.write_text(HOOP.format(bolt="3/8 in"), encoding="utf-8")
    job = load(file)
    plan = solve(job)
    told = work_for(plan)
    lathe = [one for one in told.operations if one.place == "lathe"]
    bolts = {str(q.value) for one in lathe for q in one.settings if q.id == "bolt"}
    assert bolts == {"3/8-16", "5/16-18"}
    text = listing_text(told).partition("MOUNTING A")[2]
    assert not any(thread in text for thread in ("M8", "M10", "M12"))
    assert not dry_fit(job, jigs_made(job, tmp_path), sheets=False).misfits
