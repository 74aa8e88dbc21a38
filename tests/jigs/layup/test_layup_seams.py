"""Where a layup closes, and what its seams ask for."""

import math
from itertools import product
from pathlib import Path

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.blanks.layup import Layup
from geometry.blanks.pattern import Pattern, ply_at
from geometry.bodies.places import Places
from jigs.looks.woods import pattern_of
from jigs.plans.torus import TorusPlan
from jigs.stages.layup.check.layup import layup_findings
from jigs.stages.layup.plan import LayupPlan
from jigs.stages.layup.solve.closings import FARTHEST, closings_of
from tests.examples import plan_of_example
from tests.jigs.layup.layup_jobs import hoop, of_hoop, of_vessel, with_layup

CONFIGS = Path(__file__).parents[3] / "configs"


def phases(angle: float, repeat: float, p: float, q: float) -> float:
    """Where in its repeat the pattern stands, from -1/2 to 1/2."""
    turns = (p * math.sin(angle) + q * math.cos(angle)) / repeat
    return turns - round(turns)


layups = st.builds(
    Layup,
    st.lists(st.floats(0.3, 4), min_size=1, max_size=4).map(tuple),
    st.floats(math.radians(8), math.radians(82)),
    st.just(20.0), st.just(20.0), st.just(20.0), st.just(3.0),
)  # fmt: skip


@given(layups, st.floats(5, 40), st.floats(5, 60))
def test_a_closing_closes(layup: Layup, across: float, up: float) -> None:
    found = closings_of(layup, "flat", across, up)
    for closing in found:
        assert min(closing.i, closing.j) >= 1
        for p, q in product((0.0, closing.across), (0.0, closing.up)):
            assert phases(closing.angle, closing.repeat, p, q) == pytest.approx(0, abs=1e-6)
        assert math.tan(closing.angle) == pytest.approx(closing.i * closing.up / (closing.j * closing.across))
        assert closing.repeat == pytest.approx(
            1 / math.hypot(closing.i / closing.across, closing.j / closing.up)
        )


@given(layups, st.floats(5, 40), st.floats(5, 60))
def test_a_closing_changes_only_what_it_says(layup: Layup, across: float, up: float) -> None:
    for closing in closings_of(layup, "flat", across, up):
        if closing.what in ("ply thickness", "segment"):
            assert closing.angle == layup.angle
        if closing.what in ("angle", "segment"):
            assert closing.repeat == pytest.approx(layup.sheet)
        if closing.what != "segment":
            assert closing.across == across
        if closing.what == "angle and plies":
            assert closing.up == up


@given(layups, st.floats(5, 40), st.floats(5, 60))
def test_no_other_segment_that_closes_is_nearer_than_the_first(
    layup: Layup, across: float, up: float
) -> None:
    i, j = np.arange(1, 300)[:, None], np.arange(1, 300)[None, :]
    changes = np.abs(np.log(i * layup.period_a / across)) + np.abs(np.log(j * layup.period_b / up))
    found = [closing for closing in closings_of(layup, "flat", across, up) if closing.what == "segment"]
    if found:
        assert changes[found[0].i - 1, found[0].j - 1] == pytest.approx(changes.min(), abs=1e-9)
    else:
        assert changes.min() > FARTHEST


def test_every_kind_of_change_is_offered_and_the_nearest_three_of_each() -> None:
    kinds = [
        closing.what for closing in closings_of(Layup((3.0, 2.0), 0.7, 20, 20, 20, 3), "flat", 15.0, 30.0)
    ]
    assert set(kinds) == {"angle", "ply thickness", "angle and plies", "segment"}
    assert max(map(kinds.count, kinds)) == 3


def test_plies_that_cross_no_seam_need_no_closing() -> None:
    assert of_hoop(plane="end", angle=90.0, mirrored="none").closings == ()
    assert of_hoop(plane="face", angle=0.0, mirrored="none").closings == ()


@pytest.mark.parametrize(("plane", "angle"), [("end", 35.0), ("face", 35.0), ("flat", 0.0), ("flat", 90.0)])
def test_where_one_side_counts_one_closes(plane: str, angle: float) -> None:
    layup = of_hoop(plane=plane, angle=angle, mirrored="none")
    assert layup.closings
    for closing in layup.closings:
        assert (closing.i == 0) != (closing.j == 0)
        p, q = (closing.across, 0.0) if closing.i else (0.0, closing.up)
        assert phases(closing.angle, closing.repeat, p, q) == pytest.approx(0, abs=1e-6)


def test_on_a_torus_a_closing_names_the_radius_where_it_ends_whole() -> None:
    plan = hoop()
    form = plan.job.form
    for closing in of_hoop().closings:
        if closing.radius is None:
            assert closing.what == "segment"
        else:
            assert closing.up == pytest.approx(closing.radius * math.sin(plan.blank.half_wedge))
            assert form.hole_diameter / 2 <= closing.radius <= form.outer_diameter / 2


def test_seams_of_the_finished_torus_lie_where_its_joints_cut_its_surface() -> None:
    """Of an outer segment at the equator, whose ring is centred on the tube."""
    plan, layup = hoop(), of_hoop()
    form = plan.job.form
    turn = np.linspace(0, math.pi / 2, 200_001)
    on_mitre = turn[np.argmin(np.abs(np.tan(turn) - math.tan(plan.blank.mitre)))]
    assert layup.shown_across == pytest.approx(form.tube_radius * math.sin(on_mitre), abs=1e-3)
    angle = plan.blank.half_wedge
    for radius, up in zip(
        (form.hole_diameter / 2, form.outer_diameter / 2), layup.shown_up_range, strict=True
    ):
        assert up == pytest.approx(radius * math.sin(angle))


# Seams, by the pattern itself: a torus of N rings of n segments, looked at on both sides of every joint.


def shown(layup: LayupPlan, plan_flips: tuple[bool, bool]) -> Pattern:
    piece = layup.layup
    return Pattern(
        piece.plies, piece.angle, layup.plane, layup.mirrored, piece.a, piece.b, layup.sanding, layup.turned,
        *plan_flips,
    )  # fmt: skip


def breaks(layup: LayupPlan, flips: tuple[bool, bool]) -> tuple[bool, bool]:
    """Whether plies fail to meet at mitres, and between rings."""
    rng, edge, up = np.random.default_rng(5), 10.0, 17.0
    ring, segment = np.meshgrid(np.arange(4), np.arange(8), indexing="ij")
    ring, segment = (np.repeat(x[..., None], 50, axis=-1) for x in (ring, segment))
    pattern = shown(layup, flips)
    v = rng.random(ring.shape) * 5
    y, u = rng.uniform(-up, up, ring.shape), rng.uniform(-edge, edge, ring.shape)
    here = ply_at(Places(ring, segment, np.full(u.shape, edge), v, y), pattern)
    there = ply_at(Places(ring, (segment + 1) % 8, np.full(u.shape, -edge), v, y), pattern)
    below = ply_at(Places(ring, segment, u, v, np.full(u.shape, up)), pattern)
    above = ply_at(Places((ring + 1) % 4, segment, u, v, np.full(u.shape, -up)), pattern)
    return bool((here != there).any()), bool((below != above).any())


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("angle", [0.0, 30.0, 90.0])
@pytest.mark.parametrize(
    ("plane", "mirrored"),
    [("flat", m) for m in ("none", "left and right", "up and down", "both")]
    + [("end", m) for m in ("none", "up and down")]
    + [("face", m) for m in ("none", "left and right")],
)
def test_segments_and_rings_alternate_where_plies_would_not_meet_without(
    plane: str, mirrored: str, angle: float, turned: bool
) -> None:
    layup = of_hoop(plane=plane, mirrored=mirrored, angle=angle, turned=turned)
    assert breaks(layup, (False, False)) == (layup.seams.alternate_segments, layup.seams.alternate_rings)
    assert breaks(layup, (layup.seams.alternate_segments, layup.seams.alternate_rings)) == (False, False)


@pytest.mark.parametrize("angle", [0.0, 30.0, 90.0])
@pytest.mark.parametrize("mirrored", ["none", "left and right", "up and down", "both"])
def test_the_other_hand_is_what_no_turn_about_the_radial_line_makes(mirrored: str, angle: float) -> None:
    layup = of_hoop(mirrored=mirrored, angle=angle)
    pattern = shown(layup, (layup.seams.alternate_segments, layup.seams.alternate_rings))
    u, y = np.random.default_rng(7).uniform(-10, 10, (2, 200))
    zero = np.zeros(200, dtype=np.intp)

    def look(ring: int, segment: int, way: int) -> np.ndarray:
        return ply_at(Places(zero + ring, zero + segment, way * u, np.ones(200), way * y), pattern)

    first = look(0, 0, 1)
    other = sum(
        not any((look(ring, segment, way) == first).all() for way in (1, -1))
        for ring in range(18) for segment in range(8)
    )  # fmt: skip
    assert layup.seams.other_hand == other


def test_an_odd_ring_that_alternates_has_a_joint_where_plies_do_not_meet() -> None:
    odd = of_vessel("cup", mirrored="none")
    assert {layup.seams.broken for layup in odd} == {1}
    assert {layup.seams.broken for layup in of_vessel("cup", mirrored="left and right")} == {0}
    assert {layup.seams.broken for layup in of_vessel("vase", mirrored="none")} == {0}


def test_the_example_closes_as_it_says() -> None:
    plan = plan_of_example("trellis")
    assert isinstance(plan, TorusPlan)
    [layup] = plan.layups
    assert (layup.repeats_across, layup.repeats_up) == pytest.approx((1, 4), rel=0.005)
    assert layup.pieces == 14 * 6 * 2


def beside_a_joint(layup: LayupPlan, off: float) -> float:
    """Share of a joint's length at which one ply meets itself, the second segment's pattern `off` along the flat."""
    half, y = layup.shown_across / 2, np.linspace(-20, 20, 4001)
    pattern, zero = pattern_of(layup), np.zeros(y.shape, dtype=np.intp)
    before = ply_at(Places(zero, zero, zero + half, zero + 1.0, y), pattern)
    after = ply_at(Places(zero, zero + 1, zero - half + off, zero + 1.0, y), pattern)
    return float((before == after).mean())


@pytest.mark.parametrize("angle", [25.0, 33.0, 47.0, 60.0])
def test_stripes_of_one_hand_step_at_a_joint_by_what_is_left_of_a_repeat(angle: float) -> None:
    layup = of_hoop(mirrored="none", angle=angle, one_hand=True)
    assert (layup.seams.alternate_segments, layup.seams.alternate_rings, layup.seams.other_hand) == (
        False,
        False,
        0,
    )
    step = (layup.repeats_across - round(layup.repeats_across)) * layup.layup.period_a
    assert beside_a_joint(layup, step) > 0.99
    assert abs(step) < 0.1 or beside_a_joint(layup, 0.0) < 0.98


def test_stripes_of_one_hand_run_on_at_the_angle_that_ends_them_whole() -> None:
    first = of_hoop(mirrored="none", angle=33.0, one_hand=True)
    closing = next(one for one in first.closings if one.what == "angle")
    layup = of_hoop(mirrored="none", angle=math.degrees(closing.angle), one_hand=True)
    assert beside_a_joint(layup, 0.0) > 0.99
    job = with_layup(hoop().job, mirrored="none", angle=math.degrees(closing.angle), one_hand=True)
    assert not [f for f in layup_findings(job, (layup,)) if f.code == "stripes-step"]


def test_the_step_is_told() -> None:
    wish = {"mirrored": "none", "angle": 33.0, "one_hand": True}
    layup = of_hoop(**wish)
    (told,) = [
        f for f in layup_findings(with_layup(hoop().job, **wish), (layup,)) if f.code == "stripes-step"
    ]
    step = abs(layup.repeats_across - round(layup.repeats_across)) * layup.layup.period_a
    assert f"{step:.1f} mm" in told.message or f"{step:.2f} mm" in told.message


@pytest.mark.parametrize("high", [44.0, 57.0])
def test_round_an_ellipse_seams_are_unequally_far_apart_and_no_pattern_ends_whole(high: float) -> None:
    """Seams where the mitres' planes leave the ellipse, by shapely."""
    plan, segments = hoop(more=f"tube_height = {high}"), 8
    layup = of_hoop(plan)
    turn = np.linspace(0, 2 * np.pi, 20_001)
    edge = shapely.LineString(
        np.column_stack((plan.job.form.tube_radius * np.cos(turn), high / 2 * np.sin(turn)))
    )
    mitres = math.pi / segments * (2 * np.arange(segments) + 1) - math.pi / 2
    seams = [
        edge.intersection(shapely.LineString([(0, 0), (99 * np.cos(a), 99 * np.sin(a))])) for a in mitres
    ]
    apart = [
        a.distance(b) / 2 for a, b in zip(seams, [*seams[1:], seams[0]], strict=True)
    ]  # each of two pieces
    assert (layup.shown_across, layup.shown_farthest) == pytest.approx((min(apart), max(apart)), abs=1e-3)
    assert layup.closings == ()
    assert "seams-unequal" in {one.code for one in layup_findings(with_layup(plan.job), (layup,))}
