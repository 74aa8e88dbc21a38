import io
from dataclasses import replace

import numpy as np
import pytest
import trimesh
from stl import Mesh as NumpyStl

from jigs.files.mesh import part_mesh
from jigs.files.stl import read_stl, write_stl
from jigs.parts.part import Dimension
from jigs.parts.probes import Thickness
from jigs.parts.readback import MeasureError, measure
from tests.jigs.plates import RADIUS, bevelled, gauge, wedge


def written(part):
    stream = io.BytesIO()
    write_stl(part, stream)
    return stream.getvalue()


def test_the_file_has_the_length_and_header_of_a_binary_stl():
    content = written(gauge())
    assert not content.startswith(b"solid")
    assert content[:80].isascii()
    assert len(content) == 84 + 50 * int.from_bytes(content[80:84], "little")


def test_other_readers_find_the_mesh_that_was_checked(tmp_path):
    path = tmp_path / "gauge.stl"
    write_stl(gauge(), path)
    mesh = part_mesh(gauge())
    seen = trimesh.load(path)
    assert (seen.is_watertight, seen.is_winding_consistent, seen.body_count) == (True, True, 1)
    assert len(seen.vertices) == len(mesh.vertices)
    assert seen.volume == pytest.approx(mesh.volume, rel=1e-9)
    assert NumpyStl.from_file(str(path)).get_mass_properties()[0] == pytest.approx(mesh.volume, rel=1e-5)


def test_normals_are_of_unit_length_and_face_outward():
    mesh = NumpyStl.from_file("", fh=io.BytesIO(written(gauge())), calculate_normals=False)
    assert np.linalg.norm(mesh.normals, axis=1) == pytest.approx(1, abs=1e-6)
    assert set(np.unique(mesh.normals[:, 2].round(6))) == {-1, 0, 1}
    floor = (mesh.vectors[:, :, 2] == 0).all(axis=1)
    assert (mesh.normals[floor, 2] == -1).all()


def test_the_same_part_gives_the_same_bytes():
    assert written(gauge()) == written(gauge())


def test_a_path_and_a_stream_get_the_same(tmp_path):
    write_stl(wedge(), tmp_path / "wedge.stl")
    assert (tmp_path / "wedge.stl").read_bytes() == written(wedge())


def test_every_vertex_and_chord_middle_of_the_working_edge_is_on_the_curve():
    vertices = trimesh.load(io.BytesIO(written(gauge())), file_type="stl").vertices
    ring = vertices[(vertices[:, 2] == 0) & (np.hypot(vertices[:, 0], vertices[:, 1] - 60) < RADIUS + 1)]
    ring = ring[np.argsort(np.arctan2(ring[:, 1] - 60.001, ring[:, 0]))]
    middles = (ring[1:] + ring[:-1]) / 2
    assert len(ring) > 50
    for points in (ring, middles):
        assert np.hypot(points[:, 0], points[:, 1] - 60) == pytest.approx(RADIUS, abs=0.01)


@pytest.mark.parametrize("part", [gauge(), bevelled(), wedge()], ids=["gauge", "bevelled", "wedge"])
def test_a_part_is_measured_back_to_its_nominal_dimensions(part):
    found = measure(part, read_stl(io.BytesIO(written(part))))
    assert [item.name for item in found] == [item.name for item in part.dimensions]
    for item in found:
        assert item.measured == pytest.approx(item.nominal, abs=0.01 if item.unit == "mm" else 0.001)


def test_the_outline_comes_first_and_runs_counter_clockwise():
    readback = read_stl(io.BytesIO(written(wedge())))
    areas = [contour.area for contour in readback.contours]
    assert areas[0] == pytest.approx(wedge().outline.area)
    assert sorted(areas[1:]) == pytest.approx(sorted(hole.area for hole in wedge().holes), rel=2e-3)


def test_a_coarse_mesh_is_an_error():
    stream = io.BytesIO()
    write_stl(gauge(), stream, deviation=0.02)
    stream.seek(0)
    with pytest.raises(MeasureError, match=r"outer-gauge: radius .* strays"):
        measure(gauge(), read_stl(stream))


@pytest.mark.parametrize("index", range(5))
def test_a_wrong_dimension_is_an_error_that_names_it(index):
    part = wedge()
    wrong = replace(part.dimensions[index], value=part.dimensions[index].value + 0.02)
    with pytest.raises(MeasureError, match=f"sled-wedge: {wrong.name} should be"):
        measure(replace(part, dimensions=(wrong,)), read_stl(io.BytesIO(written(part))))


def test_other_files_are_refused():
    content = written(gauge())
    for broken in (b"", b"solid x\nendsolid x\n", content[:-1], content[:5000]):
        with pytest.raises(ValueError, match="not a binary STL"):
            read_stl(io.BytesIO(broken))


def test_a_solid_that_is_no_plate_is_refused():
    tetrahedron = trimesh.creation.icosahedron().export(file_type="stl")
    with pytest.raises(ValueError, match="no plate"):
        read_stl(io.BytesIO(tetrahedron))


def test_thickness_leaves_the_raised_text_out():
    part = gauge(dimensions=(Dimension("thickness", 4, Thickness()),))
    assert measure(part, read_stl(io.BytesIO(written(part))))[0].measured == 4
