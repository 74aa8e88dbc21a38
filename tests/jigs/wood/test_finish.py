"""Surfaces and weights, by hand where they can be."""

from math import isnan, pi

import pytest

from jigs.plans.torus import TorusPlan
from jigs.plans.vessel import VesselPlan
from tests.jigs.wood.whole_jobs import ALL, plan_of, torus, vessel

each = pytest.mark.parametrize("name", ALL)


@each
def test_some_wood_is_turned_away_and_some_left(name):
    blank, finished = wood(plan_of(name))
    assert 0 < finished < blank


def wood(plan):
    """In the blank, and in the finished form."""
    weights = plan.wood.finish.weights
    return sum(one.blank for one in weights), sum(one.finished for one in weights)


@each
def test_the_woods_sum_to_the_blank_and_to_the_finished_form(name):
    plan = plan_of(name)
    blank, finished = wood(plan)
    if isinstance(plan, TorusPlan):
        assert blank == pytest.approx(plan.blank.volume, rel=1e-9)
        assert finished == pytest.approx(plan.torus_volume - plan.blank.core_volume, rel=1e-9)
    else:
        assert blank == pytest.approx(plan.stack.wood, rel=1e-9)
        assert finished == pytest.approx(sum(volume for _, volume, _ in plan.stack.weights), rel=1e-9)


def test_a_torus_of_maple_weighs_what_its_volume_gives():
    plan = torus()
    (weight,) = plan.wood.finish.weights
    density = 1000 * 0.63 * 1.12  # kg/m3 of sugar maple at 12 %: Wood Handbook, as in jigs.asked.woods
    major, tube = (250 - 54) / 2, 27.0
    solid = 2 * pi**2 * major * tube**2
    assert weight.after == pytest.approx((solid - plan.blank.core_volume) * density * 1e-6)
    assert weight.before == pytest.approx(plan.blank.volume * density * 1e-6)
    assert plan.wood.finish.area == pytest.approx(4 * pi**2 * major * tube)


def test_two_woods_that_take_turns_round_every_ring_share_the_torus():
    weights = {weight.species: weight for weight in plan_of("two woods").wood.finish.weights}
    maple, walnut = weights["maple"], weights["walnut"]
    # They change places from ring to ring, of which there are as many of each.
    assert maple.blank == pytest.approx(walnut.blank)
    assert maple.finished == pytest.approx(walnut.finished)


def test_a_wood_at_the_rim_has_more_of_the_torus_than_one_at_the_hole():
    plan = torus('species = [["ash", "maple", "maple", "maple", "maple", "maple", "walnut", "maple"]]')
    weights = {weight.species: weight for weight in plan.wood.finish.weights}
    below = weights["ash"]  # the first flat is straight down
    hole = weights["walnut"]  # the seventh, after three quarters of a turn, points at the axis
    assert hole.blank < below.blank
    assert hole.finished < below.finished


def test_a_wood_that_is_not_known_is_not_weighed():
    plan = torus('species = "bog oak"')
    (weight,) = plan.wood.finish.weights
    assert isnan(weight.before)
    assert isnan(weight.after)
    assert weight.finished > 0


@pytest.mark.parametrize("name", ["sorrel", "tumbler", "bowl", "bottle", "staved"])
def test_a_vessel_weighs_after_turning_what_its_stack_says(name):
    plan = plan_of(name)
    assert isinstance(plan, VesselPlan)
    found = {weight.species: (weight.finished, weight.after) for weight in plan.wood.finish.weights}
    for species, volume, grams in plan.stack.weights:
        assert found[species] == pytest.approx((volume, grams))


def test_plies_have_their_share_of_the_thickness():
    for name in ("plied torus", "plied vase"):
        plan = plan_of(name)
        weights = {weight.species: weight for weight in plan.wood.finish.weights}
        assert isnan(weights["black"].after)
        plies = [weights[ply].blank for ply in ("walnut", "black")]
        assert plies[0] == pytest.approx(2 * plies[1])
    torus_weights = {weight.species: weight for weight in plan_of("plied torus").wood.finish.weights}
    assert torus_weights["maple"].finished == pytest.approx(4 * torus_weights["black"].finished)


def test_the_wood_of_strips_is_weighed_as_theirs():
    plan = vessel("bottle")
    weights = {weight.species: weight for weight in plan.wood.finish.weights}
    strips = sum(
        layer.ring.volume - layer.ring.wood_volume for layer in plan.stack.layers if layer.kind == "segments"
    )
    assert weights["walnut"].blank == pytest.approx(strips)
