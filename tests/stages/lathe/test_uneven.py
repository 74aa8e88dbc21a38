"""What draws a blank off the axis, by its woods, and how heavy a wood is taken that is not known."""

from dataclasses import replace
from math import cos, hypot, pi, tan, tau

import numpy as np
import pytest

from geometry.lathe.turning import rough_speed_limits
from jigs.asked.jobfile import load, parse
from jigs.asked.woods import SPECIES, taken_heavy, unbalanced
from jigs.forms.solve import solve
from jigs.stages.held.strength import SIDE
from jigs.stages.mountings.steps.common import started
from jigs.work.lathe import UNEVEN
from tests.examples import CONFIGS
from tests.jigs.wood.wood_jobs import torus_text
from tests.work.test_vessel_speeds import half

HALVES = 'species = ["white oak", "basswood"]\nspread = true'


def torus(more):
    return solve(parse(torus_text(more), "loop.toml"))


def millwheel(*woods):
    """36 kg of blank and board hang on its bolts."""
    job = load(CONFIGS / "millwheel.toml")
    return replace(
        job, form=replace(job.form, species=tuple((wood,) for wood in woods), spread=len(woods) > 1)
    )


def test_what_a_heavy_side_pulls_with_hangs_on_the_bolts_too():
    """Its mountings are balanced, so a large one may pull with as much as it weighs: 0.9 g/cm³ of 16.8 litres."""
    even, halves = solve(millwheel("white oak")), solve(millwheel("white oak", "basswood"))
    pull = halves.off_axis * 1e-6 * (tau * halves.rim_speed[1] / 60) ** 2
    assert 140.0 < pull < 0.9e-6 * 9.81 * halves.blank.volume
    for one, other in zip(even.mountings.drawn, halves.mountings.drawn, strict=True):
        assert other.pull > 1.25 * one.pull


def test_a_torus_of_two_coloured_halves_turns_no_faster_than_its_glue_is_proven_for():
    plan = torus(HALVES)
    blank, half_turn = plan.blank, plan.blank.wedge_rings // 2
    across = np.linspace(-blank.apothem, blank.apothem, 401)
    x, z = np.meshgrid(across, across)
    flat = np.max(
        [x * cos(a) + z * np.sin(a) for a in tau * np.arange(blank.segments) / blank.segments - pi / 2],
        axis=0,
    )
    out = blank.centre + x[(flat < blank.apothem) & (flat > blank.core_apothem)]
    ring = (2 * tan(pi / blank.wedge_rings) * out**2).sum() * (across[1] - across[0]) ** 2  # mm³ times mm
    heavier = (SPECIES["white oak"].density - SPECIES["basswood"].density) * 1e-6
    turns = np.exp(1j * tau * np.arange(half_turn) / blank.wedge_rings)
    assert plan.off_axis == pytest.approx(heavier * ring * abs(turns.sum()), rel=0.03)
    slow, fast = plan.rim_speed
    assert SIDE * 0.98 < plan.off_axis * 1e-6 * (tau * fast / 60) ** 2 < SIDE * 1.01
    assert slow < fast < rough_speed_limits(2 * blank.swing_radius)[0]
    assert UNEVEN in started(plan, "first").how
    (told,) = [one for one in plan.notes if one.code == "heavy-side"]
    assert f"{fast} rpm" in told.message


def test_woods_that_go_round_in_turn_are_turned_as_one_wood_is():
    plan, one = torus('species = ["white oak", "basswood"]'), torus('species = "maple"')
    assert plan.off_axis == pytest.approx(0.0, abs=1e-6)
    assert plan.rim_speed == one.rim_speed
    assert UNEVEN not in started(plan, "first").how
    assert "heavy-side" not in {one.code for one in plan.notes}


def test_a_wood_not_known_is_taken_at_its_worst():
    light, heavy = 400.0, 1300.0
    for other in ("basswood", "white oak"):
        moment = unbalanced([(other, 3e6), ("ebony", -3e6)])
        own = SPECIES[other].density
        assert moment == pytest.approx(3.0 * max(own - light, heavy - own))
    pulls = [("maple", 2e6 + 1e6j), ("ebony", -1e6j), ("holly", -2e6)]
    worst = max(
        hypot(2 * maple - 2 * holly, maple - ebony)
        for maple in (SPECIES["maple"].density,)
        for ebony in (light, heavy)
        for holly in (light, heavy)
    )
    assert worst <= unbalanced(pulls) < 2 * worst
    lightest = 0.09 * 1120 * 5 / 6  # of balsa
    assert unbalanced([("maple", 3e6), ("balsa", -3e6)]) == pytest.approx(
        3.0 * (SPECIES["maple"].density - lightest)
    )
    known, unknown = half("basswood"), half("ebony")
    assert unknown.off_axis > 3 * known.off_axis
    assert unknown.rim_speed[1] < 0.6 * known.rim_speed[1]


def test_bolts_hold_the_weight_of_the_heaviest_wood_where_its_own_is_not_known():
    """Lignum vitae and blackwood, about 1260 kg/m³, are among the heaviest woods: published lists of heavy woods."""
    assert taken_heavy([("lignum vitae", 1e6)]) > 1.26 * 9.81
    assert taken_heavy([("lodgepole pine", 1e6)]) < 0.8 * 9.81
    assert taken_heavy([("longleaf pine", 1e6)]) > 1.15 * 0.59 * 1.12 * 9.81
    assert taken_heavy([("spruce", 1e6)]) == pytest.approx(0.448 * 7 / 6 * 9.81)
    assert all(taken_heavy([(name, 1e6)]) > 1.15 * one.density * 9.81e-3 for name, one in SPECIES.items())
    known, heavy = (solve(millwheel(wood)) for wood in ("white oak", "ebony"))
    for one, other in zip(known.mountings.drawn, heavy.mountings.drawn, strict=True):
        assert other.pull > 1.08 * one.pull
    (note,) = [one for one in heavy.notes if one.code == "unknown-wood"]
    assert "heaviest wood" in note.message
