"""Plans to look at, solved once."""

from functools import cache
from pathlib import Path

from jigs.looks.form import form_of
from jigs.looks.spots import at_points
from jigs.looks.surface import surface_of
from jigs.looks.views import cameras, drawn
from tests.examples import plan_of_example

CONFIGS = Path(__file__).parents[3] / "configs"
TORUS, LAYUP, VASE, BEAKER = "garland", "trellis", "sorrel", "tumbler"
FORMS = (TORUS, LAYUP, VASE, BEAKER)


@cache
def planned(name):
    return plan_of_example(name)


@cache
def form(name):
    return form_of(planned(name))


@cache
def camera(name, view, size=240):
    plan = planned(name)
    return cameras(form(name).meridian, plan.kind == "vessel", size)[view]


def pictured(name, view, size=240, line=0.01, **how):
    """The picture; joints as hair lines, so that colours are those of the wood."""
    surface = surface_of(planned(name), **how)

    def paint(points, normals):
        return surface.colours(at_points(points, normals), line)

    return drawn(form(name).solid, camera(name, view, size), [paint])[0]
