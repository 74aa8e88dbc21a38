import sys
from dataclasses import replace
from math import pi

import numpy as np
import pytest

from geometry.plane.contour import circle, rectangle
from jigs.files.mesh import part_mesh
from jigs.parts.assembly import wedge_of_work
from tests.jigs.exact import exact
from tests.jigs.plates import RADIUS, SLOPE, bevelled, gauge, part, wedge
from tests.jigs.shops import CONFIGS, shop

PLATES = [gauge(), bevelled(), bevelled(0.0), wedge()]


@pytest.fixture(scope="module", autouse=True)
def _kernel():
    pytest.importorskip("cadquery")


@pytest.mark.parametrize("plate", PLATES, ids=["gauge", "bevelled", "sharp", "wedge"])
def test_mesh_and_solid_agree_in_volume_area_and_bounds(plate):
    body, mesh = exact(plate), part_mesh(plate, marks=False)
    assert body.isValid()
    assert mesh.volume == pytest.approx(body.Volume(), rel=1e-4)
    assert np.linalg.norm(mesh.normals, axis=1).sum() / 2 == pytest.approx(body.Area(), rel=1e-4)
    box = body.BoundingBox()
    assert mesh.vertices.min(axis=0) == pytest.approx([box.xmin, box.ymin, box.zmin], abs=0.005)
    assert mesh.vertices.max(axis=0) == pytest.approx([box.xmax, box.ymax, box.zmax], abs=0.005)


def test_the_demos_meshes_agree_with_exact_solids_in_volume_area_and_bounds():
    for printed in shop(CONFIGS / "garland.toml").of("print"):
        body, own = exact(printed), part_mesh(printed, marks=False)
        assert body.isValid(), printed.name
        assert own.volume == pytest.approx(body.Volume(), rel=1e-4), printed.name
        area = np.linalg.norm(own.normals, axis=1).sum() / 2
        assert area == pytest.approx(body.Area(), rel=1e-4), printed.name
        box = body.BoundingBox()
        assert own.vertices.min(axis=0) == pytest.approx([box.xmin, box.ymin, box.zmin], abs=0.01), (
            printed.name
        )
        assert own.vertices.max(axis=0) == pytest.approx([box.xmax, box.ymax, box.zmax], abs=0.01), (
            printed.name
        )


def test_arcs_stay_arcs():
    edges = exact(gauge()).Edges()
    radii = sorted(edge.radius() for edge in edges if edge.geomType() == "CIRCLE")
    assert radii == pytest.approx([3] * 4 + [RADIUS] * 2)


def test_a_bevel_runs_between_two_true_arcs():
    faces = [face.Edges() for face in exact(bevelled()).Faces()]
    radii = [sorted(edge.radius() for edge in edges if edge.geomType() == "CIRCLE") for edges in faces]
    assert any(found == pytest.approx([RADIUS, RADIUS + SLOPE]) for found in radii)


def test_the_volume_is_that_of_the_contours():
    area = gauge().outline.area + sum(hole.area for hole in gauge().holes)
    assert exact(gauge()).Volume() == pytest.approx(area * 4, rel=1e-9)


def test_a_turned_part_is_its_section_revolved_upright():
    """Pappus: the area times the way of its middle."""
    ring = part(circle((60, 7), 20), process="turn", thickness=0.0, holes=(circle((60, 7), 5).cw(),))
    body = exact(ring)
    assert body.isValid()
    assert body.Volume() == pytest.approx(2 * pi * 60 * pi * (20**2 - 5**2), rel=1e-9)
    box = body.BoundingBox()
    assert (box.zmin, box.zmax) == pytest.approx((-13, 27), abs=1e-3)
    assert (box.xmax, box.ymax) == pytest.approx((80, 80), abs=1e-3)


def test_a_section_that_meets_its_axis_is_one_body():
    body = exact(part(rectangle(0, -5, 30, 12), process="turn", thickness=0.0))
    assert body.Volume() == pytest.approx(pi * 30**2 * 17, rel=1e-9)


def test_a_part_without_thickness_is_refused():
    with pytest.raises(ValueError, match="no thickness"):
        exact(replace(gauge(), thickness=0.0))


def test_a_missing_kernel_is_said_plainly(monkeypatch):
    monkeypatch.setitem(sys.modules, "OCP.gp", None)
    ring = wedge_of_work("ring", rectangle(20, -10, 40, 10), pi / 8, (), rectangle(22, -8, 38, 8))
    with pytest.raises(RuntimeError, match="CadQuery, which cannot be loaded"):
        exact(ring)
