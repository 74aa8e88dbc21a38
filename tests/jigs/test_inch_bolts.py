"""Inch bolts on request: the lathe's fixtures are bored for them, told by their names, and fit."""

from __future__ import annotations

import pytest

from jigs.asked.jobfile import load, parse
from jigs.dryfit.run import dry_fit
from jigs.forms.solve import solve
from jigs.forms.torus.plan import TorusPlan
from jigs.render.listing import listing_text
from jigs.sets.make import make
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


@pytest.mark.parametrize(("bolt", "hole", "brace"), [("3/8 in", 10.2, "5/16 in"), ("M10", 11.0, "M8")])
def test_the_centre_bolt_asked_for_sets_its_hole_and_the_braces_bolts(bolt, hole, brace):
    plan = solve(parse(HOOP.format(bolt=bolt), "hoop.toml"))
    assert isinstance(plan, TorusPlan)
    assert (plan.holding.bolt_hole, plan.holding.brace_bolt) == (hole, brace)


def test_a_job_with_inch_bolts_names_no_metric_one_at_the_lathe_and_its_dry_fit_passes(tmp_path):
    file = tmp_path / "hoop.toml"
    file.write_text(HOOP.format(bolt="3/8 in"), encoding="utf-8")
    job = load(file)
    plan = solve(job)
    told = work_for(plan)
    lathe = [one for one in told.operations if one.place == "lathe"]
    bolts = {str(q.value) for one in lathe for q in one.settings if q.id == "bolt"}
    assert bolts == {"3/8 in", "5/16 in"}
    text = listing_text(told).partition("MOUNTING A")[2]
    assert not any(thread in text for thread in ("M8", "M10", "M12"))
    assert not dry_fit(job, make(job, tmp_path).folder).misfits
