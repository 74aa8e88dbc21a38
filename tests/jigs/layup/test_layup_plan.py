"""Layups planned: pieces of segments, ways to them, sheets, closings, seams."""

import math
from dataclasses import replace
from itertools import product
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.layup import Layup, square_stack
from geometry.pattern import Pattern, ply_at
from geometry.places import Places
from jigs.job_wood import Board
from jigs.jobfile import load
from jigs.plan.layup.layup import LayupPlan
from jigs.plan.torus import TorusPlan
from jigs.solve import solve
from jigs.solving.layup.closings import FARTHEST, closings_of
from jigs.solving.layup.sheets import Sheet, StripSize, areas, take
from jigs.solving.layup.whole import torus_layups, vessel_layups
from jigs.vessel_job import VesselJob
from tests.jigs.layup.layup_jobs import WISH, hoop, of_hoop, of_vessel, vessel, with_layup

CONFIGS = Path(__file__).parents[3] / "configs"
SIGMA = WISH.sanding


def segment_sides() -> tuple[float, float, float]:
    """Outer edge as cut, ring thickness, depth."""
    plan = hoop()
    edge = 2 * plan.blank.apothem * math.tan(math.pi / 8) + 2 * 0.1 / math.cos(math.pi / 8)
    return edge, plan.ring_cut.ring_thickness, plan.blank.apothem - plan.blank.core_apothem


@pytest.mark.parametrize(
    ("plane", "mirrored", "halved", "per_segment"),
    [
        ("flat", "none", "", 1),
        ("flat", "left and right", "a", 2),
        ("flat", "up and down", "b", 2),
        ("flat", "both", "ab", 4),
        ("end", "none", "", 1),
        ("end", "up and down", "b", 2),
        ("face", "none", "", 1),
        ("face", "left and right", "a", 2),
    ],
)
def test_pieces_are_the_segment_or_its_halves_and_the_sanding(
    plane: str, mirrored: str, halved: str, per_segment: int
) -> None:
    edge, thickness, depth = segment_sides()
    a, b, third = {
        "flat": (edge, thickness, depth), "end": (depth, thickness, edge), "face": (edge, depth, thickness)
    }[plane]  # fmt: skip
    layup = of_hoop(plane=plane, mirrored=mirrored)
    a, b = (side / 2 if name in halved else side for side, name in ((a, "a"), (b, "b")))
    assert (layup.across, layup.up) == pytest.approx((a, b))
    assert layup.layup.a == pytest.approx(a + (SIGMA if "a" in halved else 0))
    assert layup.layup.b == pytest.approx(b + (SIGMA if "b" in halved else 0))
    assert layup.layup.depth == pytest.approx(third)
    assert layup.per_segment == per_segment
    assert layup.pieces == 128 * per_segment


@pytest.mark.parametrize(
    ("plane", "mirrored"), [("end", "both"), ("end", "left and right"), ("face", "up and down")]
)
def test_a_pattern_is_not_mirrored_about_the_way_it_runs(plane: str, mirrored: str) -> None:
    plan = hoop()
    assert (
        torus_layups(with_layup(plan.job, plane=plane, mirrored=mirrored), plan.blank, plan.cutting.carrier)
        == ()
    )


def test_a_job_without_a_layup_has_none() -> None:
    plan = hoop()
    assert torus_layups(plan.job, plan.blank, plan.cutting.carrier) == ()


def test_spares_are_those_of_segments_and_a_share_of_the_pieces() -> None:
    spares = hoop().job.workshop.spares
    assert (spares.segments, spares.rings, spares.layup) == (5, 1, 10)
    quarters, whole = of_hoop(), of_hoop(mirrored="none")
    assert quarters.spare_segments == whole.spare_segments == whole.spares == 7 + 8
    assert quarters.spares == 4 * 15 + 52


sheet_sides = st.floats(40, 900)
wishes = st.fixed_dictionaries(
    {
        "angle": st.floats(0.01, 89.99) | st.sampled_from((0.0, 45.0, 90.0)),
        "mirrored": st.sampled_from(("none", "left and right", "up and down", "both")),
        "stacking": st.sampled_from(("auto", "square", "staggered")),
        "sheet_width": st.floats(60, 900),
        "sheet_length": st.floats(250, 2000),
    }
)


@settings(max_examples=40)
@given(wishes)
def test_every_way_gives_the_pieces_from_strips_that_its_sheets_give(wish: dict[str, object]) -> None:
    layup = of_hoop(**wish)
    for way in layup.ways:
        assert way.stacks * way.pieces >= layup.pieces + layup.spares > (way.stacks - 1) * way.pieces
        assert way.strips * layup.layup.sheet >= layup.layup.height - 1e-6
        assert way.strip_length <= float(str(wish["sheet_length"])) or way.kind == "one by one"
        assert way.wood - way.waste == pytest.approx(
            way.stacks * way.pieces * layup.layup.a * layup.layup.b * layup.layup.depth
        )
        assert way.wood == pytest.approx(
            way.strips_in_all * way.strip_length * layup.layup.sheet * layup.layup.depth
        )


@settings(max_examples=40)
@given(wishes)
def test_the_way_with_fewest_stacks_for_little_more_wood_comes_first_and_one_by_one_is_among_them(
    wish: dict[str, object],
) -> None:
    ways = of_hoop(**wish).ways
    chosen, *others = ways
    held = [way for way in ways if way.strip_length >= 300] or ways
    least = min(way.wood for way in held)
    assert chosen in held
    assert chosen.wood <= 1.1 * least * (1 + 1e-9)
    assert all(chosen.stacks <= way.stacks for way in held if way.wood <= 1.1 * least)
    costs = [(way.sheets, round(way.wood, 3), way.cuts) for way in others]
    assert costs == sorted(costs)
    assert "one by one" in [way.kind for way in ways]
    if wish["stacking"] != "auto" and 0 < float(str(wish["angle"])) < 90:
        assert {way.kind for way in ways} <= {wish["stacking"], "one by one"}
        assert all(bool(way.stagger) == (wish["stacking"] == "staggered") for way in ways)


@settings(max_examples=40)
@given(wishes)
def test_the_wood_of_the_sheets_is_accounted_for_to_the_cubic_millimetre(wish: dict[str, object]) -> None:
    layup = of_hoop(**wish)
    if layup.way.strip_length <= float(str(wish["sheet_length"])):
        assert abs(layup.volumes.left) < 1
        assert min(vars(layup.volumes).values()) >= -1e-6


@given(
    st.integers(1, 200),
    st.tuples(sheet_sides, sheet_sides),
    st.floats(5, 60),
    st.floats(10, 900),
    st.floats(0, 4),
)
def test_strips_and_cuts_and_rest_make_up_the_sheet(
    strips: int, sides: tuple[float, float], width: float, length: float, kerf: float
) -> None:
    size, new = StripSize(width, length, kerf), Sheet(*sides)
    taken = take(strips, size, (), new)
    if width > sides[0] or length > sides[1]:
        assert taken == ()
        return
    assert sum(t.sheets * t.strips for t in taken) == strips
    for part in taken:
        cut, rest = areas(part, size)
        assert cut + rest + part.strips * width * length == pytest.approx(sides[0] * sides[1])
        assert rest >= 0
    assert (
        size.rips(new) * (width + kerf) - kerf
        <= sides[0] + 1e-6
        < (size.rips(new) + 1) * (width + kerf) - kerf + 2e-6
    )


def test_sheets_at_hand_are_used_first() -> None:
    plan = hoop()
    shop = plan.job.workshop
    sheets = (
        Board("layup", 6.0, 120.0, 650.0, 3),
        Board("layup", 9.0, 300.0, 600.0, 9),
        Board("ply", 6.0, 300.0, 600.0, 9),
    )
    stock = replace(shop.stock, sheets=sheets)
    job = replace(plan.job, workshop=replace(shop, stock=stock))
    with_hand, without = of_hoop(replace(plan, job=job)), of_hoop()
    kerf, way = shop.saw.kerf, with_hand.way
    assert way.from_hand == 3 * int((120 + kerf) // (with_hand.strip_width + kerf)) * int(
        (650 + kerf) // (way.strip_length + kerf)
    )
    assert way.sheets < without.way.sheets
    assert abs(with_hand.volumes.left) < 1


def test_a_vessel_has_one_layup_for_each_size_of_segment() -> None:
    stack = vessel("vase").stack
    layups = of_vessel("vase", mirrored="left and right")
    with_segments = [layer for layer in stack.layers if layer.cut]
    assert sorted(number for layup in layups for number in layup.rings) == [la.number for la in with_segments]
    assert sum(layup.segments for layup in layups) == sum(la.ring.segments for la in with_segments)
    for layup in layups:
        for layer in stack.layers:
            if layer.cut and layer.number in layup.rings:
                assert layup.across == pytest.approx(layer.cut.outer_edge / 2)
                assert (layup.layup.b, layup.layup.depth) == pytest.approx(
                    (layer.ring.height, layer.ring.depth)
                )


def test_rings_that_were_not_asked_for_have_no_layup() -> None:
    assert [layup.rings for layup in of_vessel("vase", rings=(3, 5))] == [(3,), (5,)]


# Closings. Plies at p·sin + q·cos.


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
    assert breaks(layup, (False, False)) == (layup.alternate_segments, layup.alternate_rings)
    assert breaks(layup, (layup.alternate_segments, layup.alternate_rings)) == (False, False)


@pytest.mark.parametrize("angle", [0.0, 30.0, 90.0])
@pytest.mark.parametrize("mirrored", ["none", "left and right", "up and down", "both"])
def test_the_other_hand_is_what_no_turn_about_the_radial_line_makes(mirrored: str, angle: float) -> None:
    layup = of_hoop(mirrored=mirrored, angle=angle)
    pattern = shown(layup, (layup.alternate_segments, layup.alternate_rings))
    u, y = np.random.default_rng(7).uniform(-10, 10, (2, 200))
    zero = np.zeros(200, dtype=np.intp)

    def look(ring: int, segment: int, way: int) -> np.ndarray:
        return ply_at(Places(zero + ring, zero + segment, way * u, np.ones(200), way * y), pattern)

    first = look(0, 0, 1)
    other = sum(
        not any((look(ring, segment, way) == first).all() for way in (1, -1))
        for ring in range(16) for segment in range(8)
    )  # fmt: skip
    assert layup.seams.other_hand == other


def test_an_odd_ring_that_alternates_has_a_joint_where_plies_do_not_meet() -> None:
    odd = of_vessel("cup", mirrored="none")
    assert {layup.seams.broken for layup in odd} == {1}
    assert {layup.seams.broken for layup in of_vessel("cup", mirrored="left and right")} == {0}
    assert {layup.seams.broken for layup in of_vessel("vase", mirrored="none")} == {0}


def test_other_hands_of_a_vessel_are_those_of_a_chessboard() -> None:
    for layup in of_vessel("cup", mirrored="none"):
        squares = [(number - 1 + k) % 2 for number in layup.rings for k in range(9)]
        assert layup.seams.other_hand == sum(squares)


def test_goes_of_glue_are_what_the_open_time_allows() -> None:
    layup = of_hoop()
    square_metres = layup.way.strip_length * layup.layup.depth / 1e6
    assert layup.batch == int(8 / (0.5 + 4 * square_metres)) == 14
    thin = of_hoop(plies=(replace(WISH.plies[0], thickness=1.0),))
    assert thin.way.strips - 1 > 14
    assert thin.stack_goes == math.ceil((thin.way.strips - 1) / thin.batch)


def test_the_pitch_is_the_chosen_ways() -> None:
    layup = of_hoop(stacking="square")
    assert layup.pitch == layup.way.pitch == square_stack(layup.layup, 3).pitch


@pytest.mark.parametrize("angle", [4.0, 12.0, 78.0, 86.0])
@pytest.mark.parametrize("stacking", ["auto", "staggered"])
def test_a_cut_too_slanted_for_the_sled_is_left_out_where_there_is_another(
    angle: float, stacking: str
) -> None:
    for way in of_hoop(angle=angle, stacking=stacking).ways:
        assert way.cut_angle >= math.radians(15)


def test_the_example_closes_as_it_says() -> None:
    plan = solve(load(CONFIGS / "trellis.toml"))
    assert isinstance(plan, TorusPlan)
    [layup] = plan.layups
    assert (layup.repeats_across, layup.repeats_up) == pytest.approx((1, 2), rel=0.005)
    assert layup.pieces == 12 * 8 * 4


def test_a_sheet_at_hand_is_cut_up_once_for_all_sizes() -> None:
    plan = vessel("vase")
    shop = plan.job.workshop
    stock = replace(shop.stock, sheets=(Board("layup", 6.0, 150.0, 600.0, 1),))
    job = replace(with_layup(plan.job), workshop=replace(shop, stock=stock))
    assert isinstance(job, VesselJob)
    layups = vessel_layups(job, plan.stack, plan.saws)
    assert [bool(layup.way.from_hand) for layup in layups] == [True] + [False] * (len(layups) - 1)
    assert max(abs(layup.volumes.left) for layup in layups) < 1
