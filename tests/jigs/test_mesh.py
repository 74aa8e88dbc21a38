import numpy as np
import pytest
import trimesh
from hypothesis import given
from manifold3d import CrossSection, FillRule

from geometry.plane.contour import circle, rectangle
from jigs.files.caps import cap
from jigs.files.marks import bars, centre_lines
from jigs.files.mesh import Mesh, part_mesh, problems, prove_closed
from jigs.parts.part import Bevel, Lettering, Line
from tests.jigs.plates import RADIUS, SLOPE, bevelled, gauge, mouth, part, pierced, plates, wedge


def as_others_see_it(mesh):
    return trimesh.Trimesh(mesh.corners.reshape(-1, 3), np.arange(mesh.triangles.size).reshape(-1, 3))


def assert_sound(mesh):
    seen = as_others_see_it(mesh)
    assert seen.is_watertight
    assert seen.is_winding_consistent
    assert seen.body_count == 1
    assert seen.volume == pytest.approx(mesh.volume)
    assert seen.volume > 0


@given(plates())
def test_random_plates_are_closed_and_one_body(plate):
    assert_sound(part_mesh(plate))
    bare = part_mesh(plate, marks=False)
    area = plate.outline.area + sum(hole.area for hole in plate.holes)
    assert bare.volume == pytest.approx(area * plate.thickness, rel=1e-3)


@pytest.mark.parametrize("plate", [gauge(), bevelled(), bevelled(0.0), wedge()], ids=lambda plate: plate.name)
def test_plates_made_by_hand_are_closed_and_one_body(plate):
    assert_sound(part_mesh(plate))


def test_letters_that_stand_in_one_line_leave_no_flat_triangles():
    lines = tuple(Lettering("EEELLLHHHTTT", (-30, y), 4) for y in (-20, -12, -4, 4, 12))
    mesh = part_mesh(part(rectangle(-40, -30, 40, 30), marks=lines))
    assert_sound(mesh)
    assert np.linalg.norm(mesh.normals, axis=1).min() > 1e-7


MET = {
    "nothing": (Lettering("AB Q8", (-20, 0), 4), Lettering("R°", (0, -12), 5, 0.7)),
    "a line": (Lettering("AB Q8", (-20, 0), 4), Line(((-25, 3), (25, 3)), "across")),
    "other lettering": (Lettering("AB Q8", (-20, 0), 4), Lettering("AB Q8", (-19, 1), 4)),
    "what it only just clears": (Lettering("HH", (-20, 0), 4), Line(((-21.25, -5), (-21.25, 9)), "beside")),
    "nothing, being blank": (Lettering(" ", (0, 0), 4),),
}


@pytest.mark.parametrize("marks", MET.values(), ids=MET)
def test_lettering_adds_what_its_strokes_cover_whatever_it_meets(marks):
    plate = part(rectangle(-40, -30, 40, 30), marks=marks)
    mesh = part_mesh(plate)
    assert_sound(mesh)
    covered = CrossSection([bar for mark in marks for bar in bars(centre_lines(mark), 0.8)], FillRule.NonZero)
    added = mesh.volume - part_mesh(plate, marks=False).volume
    assert added == pytest.approx(plate.mark_height * covered.area(), rel=0.02)


def test_the_plate_keeps_size_and_marks_stand_on_it():
    mesh = part_mesh(gauge())
    assert mesh.vertices.min(axis=0).tolist() == [-60, -60, 0]
    assert mesh.vertices.max(axis=0) == pytest.approx([60, 60, 4.6])
    assert part_mesh(gauge(), marks=False).vertices[:, 2].max() == 4


def test_raised_marks_add_their_own_volume():
    mark = Line(((-20, 0), (20, 0)), "middle")
    plate = part(rectangle(-30, -10, 30, 10), marks=(mark,))
    added = part_mesh(plate).volume - part_mesh(plate, marks=False).volume
    assert added == pytest.approx(plate.mark_height * (40 * 0.8 + np.pi * 0.4**2), rel=0.01)


def test_a_bevel_slopes_from_the_land_to_its_top():
    mesh = part_mesh(bevelled(1.0), marks=False)
    edge = mesh.vertices[np.hypot(mesh.vertices[:, 0], mesh.vertices[:, 1] - 60) < RADIUS + SLOPE + 0.1]
    radii = {z: np.hypot(edge[edge[:, 2] == z, 0], edge[edge[:, 2] == z, 1] - 60) for z in (0, 1, 4)}
    assert radii[0] == pytest.approx(RADIUS, abs=0.005)
    assert radii[1] == pytest.approx(RADIUS, abs=0.005)
    assert radii[4] == pytest.approx(RADIUS + SLOPE, abs=0.005)


def test_vertices_are_what_a_file_in_single_precision_holds():
    vertices = part_mesh(gauge()).vertices
    assert np.array_equal(vertices, vertices.astype(np.float32))


@pytest.mark.parametrize(
    ("fields", "named"),
    [
        ({"marks": (Lettering("FITS", (-50, 0), 4), Lettering("TOO LONG", (40, 0), 4))}, "TOO LONG"),
        ({"marks": (Line(((40, -50), (55, -50)), "through the hole"),)}, "through the hole"),
        ({"marks": (Lettering("E", (-59.6, 0), 4),)}, "'E'"),
        ({"marks": (Lettering("3 €", (0, 0), 4),)}, "€"),
        ({"thickness": 0.0}, "no thickness"),
        ({"holes": (circle((60, 0), 3).cw(),)}, "leaves the outline"),
        ({"holes": (circle((50, -50), 3).cw(), circle((54, -50), 3).cw())}, "meets another"),
        ({"bevel": Bevel(1.0, rectangle(-50, -50, 50, 50))}, "bevel"),
        ({"bevel": Bevel(4.0, mouth(RADIUS, SLOPE))}, "bevel"),
    ],
)
def test_what_cannot_be_built_is_refused_by_name(fields, named):
    with pytest.raises(ValueError, match=named) as refusal:
        part_mesh(gauge(**fields))
    assert "FITS" not in str(refusal.value)
    with pytest.raises(ValueError, match=named):
        prove_closed(gauge(**fields))


def refusal(proof, plate):
    try:
        proof(plate)
    except ValueError as error:
        return str(error)
    return ""


@given(pierced())
def test_a_plate_has_a_closed_mesh_where_its_face_proves_it_and_else_has_none(plate):
    assert refusal(prove_closed, plate) == refusal(part_mesh, plate)


def test_broken_meshes_are_told_apart():
    whole = part_mesh(wedge(), marks=False)
    shifted = whole.vertices + np.array([500, 0, 0])
    twice = np.concatenate([whole.triangles, whole.triangles + len(shifted)])
    doubled = whole.vertices.copy()
    doubled[whole.triangles[0, 1]] = doubled[whole.triangles[0, 0]]
    assert problems(whole) == ()
    assert "an edge is open or shared" in problems(Mesh(whole.vertices, whole.triangles[1:]))
    assert problems(Mesh(whole.vertices, whole.triangles[:, ::-1])) == ("it is inside out",)
    both = Mesh(np.concatenate([whole.vertices, shifted]), twice)
    assert problems(both) == ("it falls into several bodies",)
    assert {"vertices coincide", "a triangle has no area"} <= set(problems(Mesh(doubled, whole.triangles)))


def test_points_in_one_line_are_used_and_make_no_flat_triangle():
    square = np.array([(0, 0), (1, 0), (2, 0), (3, 0), (3, 3), (0, 3)], dtype=float)
    triangles = cap([square])
    a, b, c = square[triangles].transpose(1, 0, 2)
    areas = ((b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]) / 2
    assert set(triangles.ravel()) == set(range(6))
    assert areas.min() > 0
    assert areas.sum() == 9


@pytest.mark.parametrize(
    ("character", "counters"),
    [*((c, 0) for c in "CS245"), *((c, 1) for c in "ADOPQR069°"), *((c, 2) for c in "B8Ø%")],
)
def test_counters_stay_open_at_the_size_that_is_printed(character, counters):
    lines = centre_lines(Lettering(character, (0, 0), 4))
    drawn = CrossSection(bars(lines, 0.8), FillRule.NonZero)
    holes = [loop for loop in drawn.to_polygons() if CrossSection([loop[::-1]]).area() > 0]
    assert len(holes) == counters
    assert all(not CrossSection([loop[::-1]]).offset(-0.35).is_empty() for loop in holes)
