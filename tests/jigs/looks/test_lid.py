"""A lid as pictures show it: top up, its knob on it."""

import numpy as np
import pytest

from jigs.figures.colours import colour_of
from jigs.looks.lid import over, turned_over
from jigs.looks.solid import Rays, hits
from jigs.looks.spots import at_points
from jigs.looks.surface import surface_of
from tests.jigs.looks.looking import form, planned

LID = "acorn-lid"


def seen(radii):
    """What is met straight down at these distances from the axis, of the lid as it lies on its pot."""
    down = Rays(
        np.array([(radius, 0.0, 200.0) for radius in radii]), np.tile((0.0, 0.0, -1.0), (len(radii), 1))
    )
    return hits(turned_over(form(LID).solid), down)


def test_the_knob_stands_on_the_top_which_is_up():
    plan = planned(LID)
    knob, shoulder = plan.knob, plan.knob.profile.start[0]
    land = (max(shoulder, knob.widest / 2) + plan.section.foot_radius) / 2
    found = seen([1.0, land])
    assert found.points[:, 2] == pytest.approx([knob.height, 0.0], abs=0.02)
    assert found.normals[:, 2] == pytest.approx([1.0, 1.0])


def test_each_shows_its_own_wood():
    plan, surface = planned(LID), surface_of(planned(LID))
    land = (plan.knob.widest / 2 + plan.section.foot_radius) / 2
    found = seen([1.0, land])
    spots = at_points(over(found.points), over(found.normals))
    index = surface.woods.at(surface.places(spots))
    named = [colour_of(plan.knob.species), colour_of(plan.stack.layers[0].species[0])]
    assert surface.woods.palette[index].tolist() == [list(colour) for colour in named]


def test_what_is_turned_over_twice_is_as_it_was():
    solid = form(LID).solid
    again = turned_over(turned_over(solid))
    for name in ("z", "radii", "normals"):
        assert np.array_equal(getattr(again, name), getattr(solid, name))
