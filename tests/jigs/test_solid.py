import sys
from dataclasses import replace

import numpy as np
import pytest

from jigs.files.mesh import part_mesh
from jigs.files.solid import solid
from tests.jigs.plates import RADIUS, SLOPE, bevelled, gauge, wedge

PLATES = [gauge(), bevelled(), bevelled(0.0), wedge()]


@pytest.fixture(scope="module", autouse=True)
def _kernel():
    pytest.importorskip("cadquery")


@pytest.mark.parametrize("plate", PLATES, ids=["gauge", "bevelled", "sharp", "wedge"])
def test_mesh_and_solid_agree_in_volume_area_and_bounds(plate):
    exact, mesh = solid(plate), part_mesh(plate, marks=False)
    assert exact.isValid()
    assert mesh.volume == pytest.approx(exact.Volume(), rel=1e-4)
    assert np.linalg.norm(mesh.normals, axis=1).sum() / 2 == pytest.approx(exact.Area(), rel=1e-4)
    box = exact.BoundingBox()
    assert mesh.vertices.min(axis=0) == pytest.approx([box.xmin, box.ymin, box.zmin], abs=0.005)
    assert mesh.vertices.max(axis=0) == pytest.approx([box.xmax, box.ymax, box.zmax], abs=0.005)


def test_arcs_stay_arcs():
    edges = solid(gauge()).Edges()
    radii = sorted(edge.radius() for edge in edges if edge.geomType() == "CIRCLE")
    assert radii == pytest.approx([3] * 4 + [RADIUS] * 2)


def test_a_bevel_runs_between_two_true_arcs():
    faces = [face.Edges() for face in solid(bevelled()).Faces()]
    radii = [sorted(edge.radius() for edge in edges if edge.geomType() == "CIRCLE") for edges in faces]
    assert any(found == pytest.approx([RADIUS, RADIUS + SLOPE]) for found in radii)


def test_the_volume_is_that_of_the_contours():
    area = gauge().outline.area + sum(hole.area for hole in gauge().holes)
    assert solid(gauge()).Volume() == pytest.approx(area * 4, rel=1e-9)


def test_a_part_without_thickness_is_refused():
    with pytest.raises(ValueError, match="no thickness"):
        solid(replace(gauge(), thickness=0.0))


def test_a_missing_kernel_is_said_plainly(monkeypatch):
    monkeypatch.setitem(sys.modules, "cadquery", None)
    with pytest.raises(RuntimeError, match="CadQuery, which cannot be loaded"):
        solid(gauge())
