"""Both ways to make a torus's rings, each as it would be if it were taken."""

from dataclasses import replace
from math import cos, pi, tan

import pytest

from tests.jigs.wood.whole_jobs import CONFIRMED, plan_of, torus

STAVES = ("staves", "staves of two woods")


@pytest.mark.parametrize("species", ["", 'species = [["maple", "walnut"], ["walnut", "maple"]]'])
def test_each_route_is_what_its_own_plan_comes_to(species: str):
    segments, staves = torus(species), torus(f"{species}\n{CONFIRMED}")
    taken, other = segments.wood.routes
    taken_other, other_other = staves.wood.routes
    assert taken.chosen
    assert not other.chosen
    assert (taken.route, other.route) == ("segments", "staves")
    assert replace(other, chosen=True) == taken_other
    assert replace(taken, chosen=False) == other_other


@pytest.mark.parametrize("name", ["garland", "millwheel", "quoit", "two woods", *STAVES])
def test_the_route_that_is_taken_is_the_plan(name):
    wood = plan_of(name).wood
    taken = wood.routes[0]
    assert taken.pieces == sum(lot.wanted for lot in wood.lots)
    assert taken.glue_area == wood.glue.area
    assert taken.weak_joints == sum(joint.count for joint in wood.grain.joints if joint.weak)
    assert taken.volume == pytest.approx(sum(of.volumes.stock for of in wood.classes))
    boards = [board for of in wood.classes for board in of.taken]
    assert taken.area == pytest.approx(sum(b.count * b.width * b.length for b in boards))
    assert taken.bought == sum(b.count for b in boards if b.bought)
    assert taken.longest == max(lot.longer for lot in wood.lots)
    assert not taken.short


def test_staves_are_fewer_and_longer_and_leave_joints_of_end_grain():
    segments, staves = torus().wood.routes
    assert staves.pieces < segments.pieces
    assert staves.cuts < segments.cuts
    assert staves.longest > segments.longest
    assert (segments.weak_joints, staves.weak_joints) == (0, 18)


def test_cuts_are_counted_by_hand():
    segments, staves = torus().wood.routes
    wood = torus().wood
    (of,) = wood.classes
    strips = sum(board.count * cut.strips for board in of.boards for cut in board.strips)
    cut = sum(board.count * cut.strips * cut.pieces for board in of.boards for cut in board.strips)
    assert segments.cuts == cut + strips
    plan = torus(CONFIRMED)
    (lot,), (of,) = plan.wood.lots, plan.wood.classes
    strips = sum(board.count * cut.strips for board in of.boards for cut in board.strips)
    cut = sum(board.count * cut.strips * cut.pieces for board in of.boards for cut in board.strips)
    tubes, rings = lot.count // 8, 18 + 1
    # A strip for m staves is cut m + 1 times, a stave has two bevels, a tube for m rings is cut m + 1 times.
    assert staves.cuts == cut + strips + 2 * lot.wanted + rings + tubes


def test_the_glue_of_both_is_counted_by_hand():
    plan = torus()
    segments, staves = plan.wood.routes
    blank = plan.blank
    end = (blank.apothem - blank.core_apothem) / cos(pi / 8)
    face = 8 * tan(pi / 8) * (blank.apothem**2 - blank.core_apothem**2) / cos(pi / 18)
    wide = plan.ring_cut.ring_thickness + plan.job.form.flattening  # as glued
    assert segments.glue_area == pytest.approx(19 * 8 * end * wide + 18 * face)
    # A tube is longer than its rings by the cuts and by what is held.
    assert staves.glue_area > 19 * 8 * end * plan.ring_cut.ring_thickness + 18 * face


def test_a_layup_has_no_other_route():
    assert plan_of("plied torus").wood.routes == ()
