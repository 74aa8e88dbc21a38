"""Pieces in stacks of plies, against rectangles put into them one by one.

The stack's frame: plies along x, the foot at y = 0; strip i from i·t to (i + 1)·t, its left end at i·stagger.
"""

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely.affinity import rotate, translate

from geometry.blanks.layup import Layup, Stack, most_pieces, square_stack, staggered_stacks

NEAR = 1e-6

sides = st.floats(4, 60)
slanted = st.floats(math.radians(5), math.radians(85))
angles = slanted | st.sampled_from((0.0, math.pi / 2, math.pi / 4))


@st.composite
def layups(draw: st.DrawFn, angles: st.SearchStrategy[float] = angles) -> Layup:
    plies = tuple(draw(st.lists(st.floats(0.8, 4), min_size=1, max_size=5)))
    return Layup(plies, draw(angles), draw(sides), draw(sides), 20.0, draw(st.floats(0, 4)))


counts = st.integers(1, 6)


def rectangle(layup: Layup) -> shapely.Polygon:
    """On its lowest corner, the origin."""
    flat = shapely.Polygon([(0, 0), (layup.a, 0), (layup.a, layup.b), (0, layup.b)])
    return rotate(flat, layup.angle, origin=(0, 0), use_radians=True)


def row(stack: Stack) -> list[shapely.Polygon]:
    one = rectangle(stack.layup)
    return [translate(one, stack.foot + k * stack.pitch) for k in range(stack.pieces)]


def strips(stack: Stack, length: float | None = None) -> shapely.Geometry:
    t, long = stack.layup.sheet, stack.strip_length if length is None else length
    lefts = [k * stack.stagger for k in range(stack.layup.strips)]
    return shapely.union_all([shapely.box(x, k * t, x + long, (k + 1) * t) for k, x in enumerate(lefts)])


def all_stacks(layup: Layup, pieces: int) -> list[Stack]:
    return [square_stack(layup, pieces), *staggered_stacks(layup, pieces)]


def apart(one: shapely.Polygon, other: shapely.Polygon, layup: Layup) -> tuple[float, float]:
    """Room between two pieces along side a and along side b."""
    lying = [rotate(p, -layup.angle, origin=(0, 0), use_radians=True).bounds for p in (one, other)]
    (l0, b0, r0, t0), (l1, b1, r1, t1) = lying
    return max(l1 - r0, l0 - r1), max(b1 - t0, b0 - t1)


@given(layups(), counts)
def test_every_piece_lies_within_its_stack(layup: Layup, pieces: int) -> None:
    for stack in all_stacks(layup, pieces):
        outside = shapely.union_all(row(stack)) - strips(stack).buffer(NEAR)
        assert outside.area < 1e-5


@given(layups(), st.integers(2, 6))
def test_the_saw_passes_between_neighbours_along_the_side_that_is_stated(layup: Layup, pieces: int) -> None:
    for stack in all_stacks(layup, pieces):
        for one, other in pairwise(row(stack)):
            along_a, along_b = apart(one, other, layup)
            room = along_b if stack.cut == "a" else along_a
            assert room == pytest.approx(layup.kerf, abs=NEAR)


@given(layups())
def test_pieces_of_a_square_stack_cannot_stand_closer(layup: Layup) -> None:
    one = rectangle(layup)
    closer = translate(one, square_stack(layup, 2).pitch - 0.01)
    assert max(apart(one, closer, layup)) < layup.kerf


@given(layups(), counts)
def test_a_square_stack_is_no_longer_and_no_higher_than_its_pieces(layup: Layup, pieces: int) -> None:
    stack = square_stack(layup, pieces)
    left, foot, right, top = shapely.union_all(row(stack)).bounds
    assert (left, foot) == pytest.approx((0, 0), abs=NEAR)
    assert right == pytest.approx(stack.strip_length, abs=NEAR)
    assert top == pytest.approx(layup.height, abs=NEAR)
    assert (layup.strips - 1) * layup.sheet < top <= layup.strips * layup.sheet + NEAR


@given(layups(slanted), counts)
def test_shorter_strips_of_a_staggered_stack_would_not_do(layup: Layup, pieces: int) -> None:
    # Where both end cuts cross a whole strip, wherever the pieces stand in it; else its corners are all that count.
    long_enough = {"a": layup.a * layup.sine, "b": layup.b * layup.cosine}
    stacks = [s for s in staggered_stacks(layup, pieces) if long_enough[s.cut] >= 2 * layup.sheet]
    assume(stacks)
    spare = layup.strips * layup.sheet - layup.height
    for stack in stacks:
        short = strips(stack, stack.strip_length - 0.05).buffer(NEAR)
        pieces_in_row = shapely.union_all(row(stack))
        shapely.prepare(short)
        for up in (0.0, spare / 2, spare):
            for along in np.linspace(-layup.sheet, layup.sheet, 11):
                lean = up * stack.stagger / layup.sheet
                assert not short.covers(translate(pieces_in_row, along + lean, up))


@given(layups(), counts)
def test_waste_is_the_stack_less_its_pieces(layup: Layup, pieces: int) -> None:
    for stack in all_stacks(layup, pieces):
        left = strips(stack).area - sum(piece.area for piece in row(stack))
        assert stack.waste == pytest.approx(left, rel=1e-6, abs=1e-3)


@given(layups(slanted))
def test_staggering_pays_for_one_piece_only_beyond_one_strip(layup: Layup) -> None:
    beyond = abs(layup.a * layup.sine - layup.b * layup.cosine) - layup.sheet
    assume(abs(beyond) > 1e-6)
    shortest = min(stack.strip_length for stack in staggered_stacks(layup, 1))
    assert (shortest < square_stack(layup, 1).strip_length) == (beyond > 0)


@given(layups(), st.floats(50, 2000))
def test_the_most_pieces_fill_a_length(layup: Layup, length: float) -> None:
    for first in all_stacks(layup, 1):
        assume(first.strip_length < length)
        most = most_pieces(first, length)
        long = {one.cut: one.strip_length for one in all_stacks(layup, most) if one.stagger == first.stagger}
        longer = {
            one.cut: one.strip_length for one in all_stacks(layup, most + 1) if one.stagger == first.stagger
        }
        assert long[first.cut] <= length + NEAR < longer[first.cut] + 2 * NEAR


def test_a_strip_that_cannot_hold_one_piece_is_still_one() -> None:
    assert most_pieces(square_stack(Layup((3.0,), 0.5, 30, 20, 20, 2), 1), 10.0) == 1


@given(layups(st.sampled_from((0.0, math.pi / 2))), counts)
def test_stripes_along_a_side_take_a_plain_stack(layup: Layup, pieces: int) -> None:
    stack = square_stack(layup, pieces)
    high, long = (layup.b, layup.a) if layup.angle == 0.0 else (layup.a, layup.b)
    assert layup.height == pytest.approx(high)
    assert stack.strip_length == pytest.approx(pieces * long + (pieces - 1) * layup.kerf)
    assert stack.layup.cut_angle(stack.cut) == pytest.approx(math.pi / 2)
    assert staggered_stacks(layup, pieces) == ()
    assert sorted((layup.period_a, layup.period_b))[1] == math.inf


@given(layups(), counts, st.integers(0, 2**32 - 1))
def test_a_pieces_plies_are_told_by_its_sides_alone(layup: Layup, pieces: int, seed: int) -> None:
    """Height over the stack's foot is p·sin + q·cos, in every piece of every stack."""
    p, q = np.random.default_rng(seed).random((2, 20)) * np.array(((layup.a,), (layup.b,)))
    for stack in all_stacks(layup, pieces):
        for piece in row(stack):
            corner, along, _, aside = np.array(piece.exterior.coords)[:4]
            places = corner + np.outer(p, along - corner) / layup.a + np.outer(q, aside - corner) / layup.b
            assert places[:, 1] == pytest.approx(p * layup.sine + q * layup.cosine, abs=NEAR)
