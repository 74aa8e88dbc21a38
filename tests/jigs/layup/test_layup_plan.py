"""Layups planned: pieces of segments, spares, sizes of a vessel's segments, goes of glue."""

import math
from dataclasses import replace
from pathlib import Path

import pytest

from jigs.stages.layup.solve.whole import torus_layups
from tests.jigs.layup.layup_jobs import WISH, hoop, of_hoop, of_vessel, vessel, with_layup

CONFIGS = Path(__file__).parents[3] / "configs"
SIGMA = WISH.sanding


def segment_sides() -> tuple[float, float, float]:
    """Outer edge as cut, ring thickness before it is flattened, depth."""
    plan = hoop()
    edge = 2 * plan.blank.apothem * math.tan(math.pi / 8) + 2 * 0.1 / math.cos(math.pi / 8)
    thick = plan.ring_cut.ring_thickness + plan.job.form.flattening
    return edge, thick, plan.blank.apothem - plan.blank.core_apothem


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
    assert layup.pieces == 144 * per_segment


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
    assert quarters.spare_segments == whole.spare_segments == whole.spares == 8 + 8
    assert quarters.spares == 4 * 16 + 58


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
                    (layer.ring.height + vessel("vase").job.rings.flattening, layer.ring.depth)
                )


def test_rings_that_were_not_asked_for_have_no_layup() -> None:
    assert [layup.rings for layup in of_vessel("vase", rings=(3, 5))] == [(3,), (5,)]


# Closings. Plies at p·sin + q·cos.


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
