"""Colours of the finished wood: by formulas of their own, by symmetry, and with mistakes put in."""

import numpy as np
import pytest

from geometry.blanks.pattern import ply_at
from geometry.bodies.places import torus_places
from jigs.asked.jobfile import load
from jigs.asked.woods import SPECIES
from jigs.figures.colours import colour_of, is_known
from jigs.forms.solve import solve
from jigs.looks.form import form_of
from jigs.looks.mistakes import Mistakes, mistake_findings, torus_joints
from jigs.looks.solid import hits
from jigs.looks.spots import at_points, on_grid
from jigs.looks.surface import END_GRAIN, surface_of
from jigs.looks.unrolled import columns, smooth_sheet, true_height, unrolled
from jigs.looks.woods import pattern_of
from tests.jigs.looks.looking import CONFIGS, FORMS, LAYUP, TORUS, VASE, camera, form, pictured, planned

HAIR = 1e-6  # mm; joints that no pixel meets


def flat(name, width=256, **how):
    """A form's first sheet, joints left out."""
    own = form(name)
    sheet = own.sheets[0]
    height = true_height(own.meridian, sheet, width)
    along = sheet.top + (np.arange(height) + 0.5) / height * (sheet.foot - sheet.top)
    outline = own.meridian.at(along)
    return surface_of(planned(name), **how).grid_colours(on_grid(outline, columns(width)), HAIR), outline


def test_every_wood_of_the_tables_has_a_colour_of_its_own():
    assert all(is_known(name) for name in SPECIES)
    assert len({colour_of(name) for name in SPECIES}) == len(SPECIES)


def test_a_stated_colour_is_taken_and_a_strange_name_has_always_the_same():
    assert colour_of("maple", "#102030") == (16, 32, 48)
    assert colour_of("tulipwood") == colour_of("  Tulipwood ") != colour_of("snakewood")
    assert not is_known("tulipwood")
    with pytest.raises(ValueError, match="not a colour"):
        colour_of("maple", "red")


def test_an_unrolled_torus_has_the_plies_that_lie_under_its_points():
    """From the points alone: the grid's short cuts take no part."""
    plan, (picture, outline) = planned(LAYUP), flat(LAYUP)
    phi = columns(picture.shape[1])
    radius, z = outline.points.T
    x, y = radius[:, None] * np.cos(phi), radius[:, None] * np.sin(phi)
    points = np.stack(np.broadcast_arrays(x, y, z[:, None]), axis=-1)
    layup = plan.layups[0]
    plies = ply_at(torus_places(points, plan.blank), pattern_of(layup))
    colours = np.array([colour_of(*ply) for ply in zip(layup.names, layup.colours, strict=True)], dtype=float)
    lightness = picture.astype(float).sum(axis=2) / colours[plies].sum(axis=2)
    agree = (lightness < 1.02) & (lightness > 1 - END_GRAIN - 0.02)
    assert agree.mean() > 0.998  # a point on the very edge of a ply may go either way
    assert np.abs(picture - colours[plies] * lightness[..., None])[agree].max() < 2.5


def test_the_middle_of_a_vessels_segment_has_its_wood():
    """Ring by ring, at the angle at which each segment's middle stands; maple or walnut, nothing else."""
    plan = planned(VASE)
    surface, met = surface_of(plan), set()
    for layer in plan.stack.layers:
        ring = layer.ring
        if not ring.segments or ring.top > plan.section.height or ring.bottom < 0:
            continue
        z = (ring.bottom + ring.top) / 2
        radius = plan.section.outer.radius_at(z)
        angle = layer.turned + 2 * np.pi / ring.segments * np.arange(ring.segments)
        points = np.column_stack((radius * np.cos(angle), radius * np.sin(angle), np.full(ring.segments, z)))
        normals = np.column_stack((np.cos(angle), np.sin(angle), 0 * angle))
        found = surface.colours(at_points(points, normals), HAIR)
        assert found == pytest.approx(np.array([colour_of(name) for name in layer.species]), abs=1e-6)
        met |= set(layer.species)
    assert met == {"walnut", "maple"}


def test_a_floors_plug_is_one_piece_of_its_rings_first_wood_with_a_joint_round_it():
    plan = solve(load(CONFIGS / "sorrel.toml"))
    layer, phi = plan.stack.layers[0], np.linspace(-np.pi, np.pi, 40)
    surface, at = surface_of(plan), plan.section.floor_thickness

    def colours(radius, line=HAIR):
        points = np.column_stack((radius * np.cos(phi), radius * np.sin(phi), np.full(40, at)))
        return surface.colours(at_points(points, np.tile((0.0, 0.0, 1.0), (40, 1))), line)

    assert layer.plug > 0
    assert np.abs(colours(layer.plug / 4) - colour_of(layer.species[0])).max() < 1
    inside, seam = colours(layer.plug / 4, 1.0), colours(layer.plug / 2, 1.0)
    assert np.ptp(inside, axis=0).max() < 1e-9
    assert (seam.sum(axis=1) < 0.6 * inside.sum(axis=1)).all()


def test_no_ply_runs_on_over_a_plug(tmp_path):
    """It is of the ring's own wood; the plies begin at its side."""
    text = (CONFIGS / "sorrel.toml").read_text("utf-8")
    layup = '[layup]\nplies = [["maple", 3], ["walnut", 1.5]]\nangle = 30\n[reversing]\nhold = "none"\n'
    (tmp_path / "shed.toml").write_text((CONFIGS / "shed.toml").read_text("utf-8"), "utf-8")
    (tmp_path / "plied.toml").write_text(f"{text}\n{layup}", "utf-8")
    plan = solve(load(tmp_path / "plied.toml"))
    layer, at = plan.stack.layers[0], plan.section.floor_thickness
    places, woods = surface_of(plan).places, surface_of(plan).woods

    def woods_at(radius):
        phi = np.linspace(-np.pi, np.pi, 60)
        points = np.column_stack((radius * np.cos(phi), radius * np.sin(phi), np.full(60, at)))
        return set(woods.at(places(at_points(points, np.tile((0.0, 0.0, 1.0), (60, 1))))).tolist())

    assert woods_at(layer.plug * 0.49) == {woods.segments[0, 0]}
    assert len(woods_at(layer.plug * 0.9)) > 1


def test_end_grain_is_darker_than_long_grain():
    """On a torus the segments' fibres run along the flats: at a flat's middle they lie in the surface."""
    plan = planned(TORUS)
    r, major = plan.job.form.tube_radius, plan.job.form.major_radius
    middle, share = (plan.blank.mitre if plan.blank.arris_out else 0.0), 0.98
    theta = middle + np.array([0.0, share * plan.blank.mitre])
    points = np.column_stack((major + r * np.cos(theta), 0 * theta, r * np.sin(theta)))
    normals = np.column_stack((np.cos(theta), 0 * theta, np.sin(theta)))
    long, end = surface_of(plan).colours(at_points(points, normals), HAIR)
    assert long == pytest.approx(np.array(colour_of("maple")), abs=1e-6)
    share = np.sin(theta[1] - middle) ** 2
    assert end == pytest.approx(np.array(colour_of("maple")) * (1 - END_GRAIN * share), abs=1e-6)


@pytest.mark.parametrize("turned", [False, True])
def test_chevrons_are_symmetric_in_the_joint_of_two_rings_and_in_the_middle_of_the_tube(turned):
    picture, _ = flat(LAYUP, width=16 * planned(LAYUP).blank.wedge_rings, turned=turned)
    from_joint = np.roll(picture, -8, axis=1).astype(int)
    for mirrored in (from_joint[:, ::-1], from_joint[::-1]):
        assert (np.abs(mirrored - from_joint).max(axis=2) > 3).mean() < 0.002


def test_every_second_ring_of_chevrons_is_like_the_first():
    picture, _ = flat(LAYUP, width=16 * planned(LAYUP).blank.wedge_rings)
    for rings, alike in ((1, False), (2, True)):
        moved = np.roll(picture, 16 * rings, axis=1).astype(int)
        assert ((np.abs(moved - picture).max(axis=2) > 3).mean() < 0.002) == alike


def test_a_layup_the_other_way_draws_another_pattern_of_the_same_woods():
    one, other = (pictured(LAYUP, "front", turned=turned) for turned in (False, True))
    assert (np.abs(one.astype(int) - other).max(axis=2) > 30).mean() > 0.1
    white = (one == 255).all(axis=2)
    assert ((other == 255).all(axis=2) == white).all()
    assert one[~white].mean() == pytest.approx(other[~white].mean(), rel=0.1)


@pytest.mark.parametrize("name", FORMS)
def test_no_mistake_is_the_same_to_the_last_bit(name):
    without = pictured(name, "perspective")
    assert (pictured(name, "perspective", mistakes=Mistakes(seed=7)) == without).all()


def test_rings_of_slightly_different_size_still_close_and_only_the_joints_move():
    blank = planned(TORUS).blank
    joints = torus_joints(blank, Mistakes(ring_size=0.5, seed=3))
    thick = (
        np.diff(np.append(joints[-1] - 2 * np.pi, joints))
        / (2 * np.pi)
        * blank.thick_edge
        * blank.wedge_rings
    )
    assert thick.sum() == pytest.approx(blank.thick_edge * blank.wedge_rings)
    assert np.abs(thick - blank.thick_edge).max() < 1.0
    assert np.ptp(thick) > 0.2
    surfaces = [surface_of(planned(TORUS), mistakes=Mistakes(ring_size=size, seed=3)) for size in (0, 0.5)]
    own = form(TORUS)
    one, other = (unrolled(s, own.meridian, own.whole, 512, 128).astype(int) for s in surfaces)
    changed = np.abs(one - other).max(axis=(0, 2)) > 20
    edges = np.concatenate(
        (
            torus_joints(blank, Mistakes(ring_size=0.5, seed=3)),
            blank.half_wedge * (2 * np.arange(blank.wedge_rings) + 1),
        )
    )
    away = np.abs((columns(512)[:, None] - edges + np.pi) % (2 * np.pi) - np.pi).min(axis=1)
    assert changed.any()
    assert not changed[away > 0.03].any()


def test_another_seed_makes_other_rings():
    blank = planned(TORUS).blank
    one, other = (torus_joints(blank, Mistakes(ring_size=0.5, seed=seed)) for seed in (1, 2))
    assert np.abs(one - other).max() > 1e-3


def test_a_layup_that_is_out_changes_the_pattern_but_not_the_outline():
    one, other = (pictured(LAYUP, "front", mistakes=Mistakes(layup_off=off)) for off in (0, 1.5))
    assert ((one == 255).all(axis=2) == (other == 255).all(axis=2)).all()
    assert (np.abs(one.astype(int) - other).max(axis=2) > 30).mean() > 0.02


def test_a_layup_that_is_out_leaves_the_other_rings_of_a_vessel_alone(tmp_path):
    text = (CONFIGS / "sorrel.toml").read_text("utf-8")
    layup = '[layup]\nplies = [["maple", 3], ["walnut", 1.5]]\nangle = 30\nrings = [4, 5]\n'
    (tmp_path / "banded.toml").write_text(f"{text}\n{layup}", "utf-8")
    (tmp_path / "shed.toml").write_text((CONFIGS / "shed.toml").read_text("utf-8"), "utf-8")
    plan = solve(load(tmp_path / "banded.toml"))
    own = form_of(plan)
    one, other = (
        unrolled(surface_of(plan, mistakes=Mistakes(layup_off=off)), own.meridian, own.sheets[0], 300, 200)
        for off in (0, 1)
    )
    changed = (one != other).any(axis=(1, 2))
    along = own.sheets[0].top + (np.arange(200) + 0.5) / 200 * (own.sheets[0].foot - own.sheets[0].top)
    z = own.meridian.at(along).points[:, 1]
    rings = [plan.stack.layers[k].ring for k in (3, 4)]
    within = (z > rings[0].bottom) & (z < rings[1].top)
    assert changed[within].mean() > 0.9
    assert not changed[~within].any()


@pytest.mark.parametrize("name", [TORUS, VASE])
def test_a_mounting_off_centre_moves_joints_but_not_the_outline(name):
    one, other = (pictured(name, "front", line=0.5, mistakes=Mistakes(off_centre=off)) for off in (0, 3))
    assert ((one == 255).all(axis=2) == (other == 255).all(axis=2)).all()
    assert (np.abs(one.astype(int) - other).max(axis=2) > 15).mean() > 0.005


def test_a_point_off_centre_has_the_colour_of_the_blank_under_it():
    plan = planned(LAYUP)
    shift = np.array((2.0, 0.0, 0.0))
    rng = np.random.default_rng(5)
    own = form(LAYUP).meridian.at(rng.uniform(0, form(LAYUP).meridian.length, 500))
    phi = rng.uniform(-np.pi, np.pi, 500)
    points = np.column_stack(
        (own.points[:, 0] * np.cos(phi), own.points[:, 0] * np.sin(phi), own.points[:, 1])
    )
    normals = np.column_stack(
        (own.normals[:, 0] * np.cos(phi), own.normals[:, 0] * np.sin(phi), own.normals[:, 1])
    )
    woods = surface_of(plan).woods
    shifted = surface_of(plan, mistakes=Mistakes(off_centre=2.0))
    places = torus_places(points - 1e-6 * normals - shift, plan.blank)
    spots = at_points(points, normals)
    found = shifted.woods.at(shifted.places(spots.moved(*shifted.shift)))
    assert (found == woods.at(places)).mean() > 0.99


@pytest.mark.parametrize(
    ("name", "mistakes", "code"),
    [
        (TORUS, Mistakes(layup_off=0.5), "no-layup"),
        (TORUS, Mistakes(ring_size=-0.1), "out-of-range"),
        (LAYUP, Mistakes(layup_off=500), "out-of-range"),
        (VASE, Mistakes(off_centre=80), "out-of-range"),
        (VASE, Mistakes(ring_size=12), "out-of-range"),
    ],
)
def test_mistakes_that_cannot_be_put_in_are_refused_with_what_can(name, mistakes, code):
    (finding,) = mistake_findings(planned(name), mistakes)
    assert finding.code == code
    assert finding.remedy


@pytest.mark.parametrize("mistakes", [Mistakes(), Mistakes(ring_size=0.5, layup_off=0.5, off_centre=1)])
def test_fair_mistakes_are_taken(mistakes):
    assert mistake_findings(planned(LAYUP), mistakes) == []


@pytest.mark.parametrize("name", FORMS)
def test_grid_and_points_have_the_same_colours(name):
    own, width, height = form(name), 90, 80
    surface = surface_of(planned(name))
    along = own.whole.top + (np.arange(height) + 0.5) / height * (own.whole.foot - own.whole.top)
    outline, phi = own.meridian.at(along), columns(width)
    grid = surface.grid_colours(on_grid(outline, phi), 0.6)
    spots = on_grid(outline, phi)
    points = spots.points.reshape(-1, 3)
    level = np.stack(np.broadcast_arrays(np.cos(phi) * spots.out, np.sin(phi) * spots.out, spots.up), axis=-1)
    single = surface.colours(at_points(points, level.reshape(-1, 3)), 0.6).reshape(height, width, 3)
    assert (np.abs(grid - single).max(axis=2) > 1.6).mean() < 0.003


def test_a_smooth_sheet_is_the_mean_of_four_places():
    own, surface = form(TORUS), surface_of(planned(TORUS))
    smooth = smooth_sheet(surface, own.meridian, own.sheets[0], 64)
    height = true_height(own.meridian, own.sheets[0], 64)
    fine = unrolled(surface, own.meridian, own.sheets[0], 128, 2 * height).astype(float)
    mean = (fine[::2, ::2] + fine[1::2, ::2] + fine[::2, 1::2] + fine[1::2, 1::2]) / 4
    assert smooth.shape == (height, 64, 3)
    assert np.abs(smooth - mean).max() <= 0.5


def test_a_pixel_has_the_wood_that_its_ray_meets():
    """The side of the vase: the lowest and the topmost ring are walnut and maple."""
    picture, own = pictured(VASE, "front"), camera(VASE, "front")
    row, column = (grid.ravel() for grid in np.mgrid[: own.height, : own.width])
    found = hits(form(VASE).solid, own.rays(column + 0.5, row + 0.5))
    for z, name in ((5.0, "walnut"), (176.0, "maple")):
        radius = planned(VASE).section.outer.radius_at(z)
        nearest = np.hypot(found.points[:, 0] - 0.3 * radius, found.points[:, 2] - z).argmin()
        pixel = found.rays[nearest]
        colour = picture[row[pixel], column[pixel]].astype(float)
        wood = np.array(colour_of(name), dtype=float)
        assert colour / colour.sum() == pytest.approx(wood / wood.sum(), abs=0.02)


def test_species_round_a_torus_stand_where_the_plan_says(tmp_path):
    text = (CONFIGS / "garland.toml").read_text("utf-8")
    text = text.replace("core_opening = 20", 'core_opening = 20\nspecies = ["ash", "walnut"]')
    (tmp_path / "two.toml").write_text(text, "utf-8")
    (tmp_path / "shed.toml").write_text((CONFIGS / "shed.toml").read_text("utf-8"), "utf-8")
    plan = solve(load(tmp_path / "two.toml"))
    rings = plan.blank.wedge_rings
    angle = 2 * np.pi / rings * np.arange(rings)
    flat, form = plan.blank.mitre, plan.job.form  # the middle of the flat beside the arris
    outward = np.column_stack((np.cos(angle), np.sin(angle), 0 * angle))
    normals = np.cos(flat) * outward + np.sin(flat) * np.array([0.0, 0.0, 1.0])
    points = form.major_radius * outward + form.tube_radius * normals
    found = surface_of(plan).colours(at_points(points, normals), HAIR)
    assert found == pytest.approx(np.array([colour_of("ash"), colour_of("walnut")] * (rings // 2)), abs=1e-6)
