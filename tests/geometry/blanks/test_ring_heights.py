"""Boards chosen for a height, held against every stack there is."""

import math
from collections.abc import Callable, Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.blanks.ring_heights import MANY, RINGS, Wood, fewest_rings, least_wood

Plain = Callable[[float, float], float]  # by bottom and height, whatever the ring's number

boards = st.lists(st.integers(100, 400).map(lambda tenths: tenths / 10), min_size=1, max_size=4)
totals = st.floats(1.0, 70.0)


def jagged(seed: int) -> Plain:
    """A volume of no rule at all, so that no shortcut helps."""
    return lambda bottom, height: 1.0 + hash((seed, round(bottom, 3), round(height, 3))) % 1009 / 7


def numbered(wood: Plain) -> Wood:
    return lambda number, bottom, height: wood(bottom, height)


def disc(bottom: float, height: float) -> float:
    """A cylinder's: stacks of one height tie."""
    return math.pi * 60.0**2 * height


def vase(bottom: float, height: float) -> float:
    middle = bottom + height / 2
    return 2 * math.pi * (60.0 + 30.0 * math.sin(middle / 60)) * (9.0 + height / 4) * height


woods = st.one_of(st.integers(0, 99).map(jagged), st.sampled_from((disc, vase)))


def stacks(
    thicknesses: list[float], total: float, below: tuple[float, ...] = ()
) -> Iterator[tuple[float, ...]]:
    """Every stack whose last ring, and no other, reaches the total (to half a thousandth of a mm)."""
    if sum(below) >= total - 5e-4:
        yield below
        return
    for height in thicknesses:
        yield from stacks(thicknesses, total, (*below, height))


def volume(heights: tuple[float, ...], wood: Plain) -> float:
    return sum(wood(sum(heights[:i]), height) for i, height in enumerate(heights))


@given(boards, totals, woods)
def test_no_stack_has_fewer_rings_and_of_equals_none_less_wood(
    thicknesses: list[float], total: float, wood: Plain
) -> None:
    choice = fewest_rings(thicknesses, total, numbered(wood))
    every = [(len(heights), volume(heights, wood)) for heights in stacks(thicknesses, total)]
    assert (choice.count, choice.wood) == pytest.approx(min(every))
    assert choice.heights in set(stacks(thicknesses, total))
    assert choice.wood == pytest.approx(volume(choice.heights, wood))


@given(boards, totals, woods)
def test_no_stack_has_less_wood_and_of_equals_none_fewer_rings(
    thicknesses: list[float], total: float, wood: Plain
) -> None:
    choice = least_wood(thicknesses, total, numbered(wood))
    every = [(round(volume(heights, wood), 2), len(heights)) for heights in stacks(thicknesses, total)]
    assert (choice.wood, choice.count) == pytest.approx(min(every), abs=0.011)
    assert choice.heights in set(stacks(thicknesses, total))
    assert choice.wood == pytest.approx(volume(choice.heights, wood))


def test_the_last_ring_may_stand_above_the_total() -> None:
    assert fewest_rings([19.0], 20.0, numbered(disc)).heights == (19.0, 19.0)
    assert least_wood([19.0], 38.0, numbered(disc)).heights == (19.0, 19.0)


def test_heights_that_differ_by_rounding_are_one() -> None:
    # In doubles three times 12.7 is a little less than 38.1: that must not cost a fourth ring.
    assert fewest_rings([12.7], 38.1, numbered(disc)).count == 3


@pytest.mark.parametrize(
    ("thicknesses", "total", "heights"),
    [
        ([10.0, 20.0, 30.0], 60.0, (30.0, 30.0)),
        ([12.7, 38.1], 76.2, (38.1, 38.1)),
        ([12.7, 25.4], 76.2, (25.4,) * 3),
    ],
)
def test_of_stacks_with_the_same_wood_the_fewest_rings_are_taken(
    thicknesses: list[float], total: float, heights: tuple[float, ...]
) -> None:
    # The sums in doubles differ in their last digits, here in favour of more rings.
    assert least_wood(thicknesses, total, numbered(disc)).heights == heights


def test_the_fewest_take_thick_boards_the_least_wood_thin_ones() -> None:
    # A cone: thin rings follow it, thick ones waste what lies outside it.
    def cone(bottom: float, height: float) -> float:
        return math.pi * (40.0 + bottom + height) ** 2 * height

    assert fewest_rings([10.0, 30.0], 60.0, numbered(cone)).heights == (30.0, 30.0)
    assert least_wood([10.0, 30.0], 60.0, numbered(cone)).heights == (10.0,) * 6


# Sizes that hardly ever add up to the same height: far more heights than MANY.
ODD = [12.317, 19.221, 22.913, 25.407, 31.755]


def counted(wood: Plain) -> tuple[Plain, list[tuple[float, float]]]:
    asked: list[tuple[float, float]] = []

    def ask(bottom: float, height: float) -> float:
        asked.append((bottom, height))
        return wood(bottom, height)

    return ask, asked


def least_of_all(thicknesses: list[float], total: float, wood: Plain) -> float:
    """The least wood, by the best way to every single height, in thousandths of a mm."""
    best = {0: 0.0}
    for top in range(round(1000 * total)):
        for height in thicknesses if top in best else ():
            above = min(top + round(1000 * height), round(1000 * total))
            best[above] = min(best.get(above, math.inf), best[top] + wood(top / 1000, height))
    return best[round(1000 * total)]


@pytest.mark.parametrize("wood", [vase, disc])
def test_of_many_heights_near_ones_count_as_one_at_hardly_any_wood(wood: Plain) -> None:
    ask, asked = counted(wood)
    choice = least_wood(ODD, 300.0, numbered(ask))
    assert MANY < len(asked) <= 5 * 3000
    assert len(set(asked)) == len(asked)
    assert choice.wood == pytest.approx(volume(choice.heights, wood))
    assert sum(choice.heights[:-1]) < 300.0 <= sum(choice.heights)
    least = least_of_all(ODD, 300.0, wood)
    assert least * (1 - 1e-9) <= choice.wood <= 1.002 * least


@pytest.mark.parametrize("wood", [vase, disc])
def test_of_very_many_boards_few_rings_are_looked_at_at_hardly_any_wood(wood: Plain) -> None:
    many = [round(10 + 0.137 * k, 3) for k in range(200)]
    ask, asked = counted(wood)
    choice = least_wood(many, 300.0, numbered(ask))
    assert choice.within > 0.1
    assert len(asked) <= 1.2 * RINGS
    assert choice.wood == pytest.approx(volume(choice.heights, wood))
    fewer = least_wood(many[::7], 300.0, numbered(wood))
    assert fewer.within <= 0.1
    assert choice.wood <= 1.002 * fewer.wood


@pytest.mark.parametrize("total", [285.79, 285.80, 300.0, 381.06])
def test_of_many_heights_the_count_stays_the_least(total: float) -> None:
    choice = fewest_rings(ODD, total, numbered(vase))
    assert choice.count == math.ceil(total / max(ODD))
    assert sum(choice.heights[:-1]) < total <= sum(choice.heights)


@given(boards, totals, woods, st.sets(st.tuples(st.integers(1, 3), st.integers(0, 3)), max_size=6))
def test_each_ring_takes_only_the_boards_that_there_are_for_it(
    thicknesses: list[float], total: float, wood: Plain, lacking: set[tuple[int, int]]
) -> None:
    """Ring 3 and all above it are alike."""

    def own(number: int, bottom: float, height: float) -> float:
        without = {thicknesses[k] for ring, k in lacking if ring == min(number, 3) and k < len(thicknesses)}
        return math.inf if height in without else number * wood(bottom, height)

    def volume_of(heights: tuple[float, ...]) -> float:
        return sum(own(min(i + 1, 3), sum(heights[:i]), height) for i, height in enumerate(heights))

    every = [heights for heights in stacks(thicknesses, total) if volume_of(heights) < math.inf]
    if not every:
        with pytest.raises(ValueError, match="no stack"):
            least_wood(thicknesses, total, own, alike=3)
        return
    least, fewest = (choose(thicknesses, total, own, alike=3) for choose in (least_wood, fewest_rings))
    assert least.wood == pytest.approx(min(volume_of(heights) for heights in every))
    assert fewest.count == min(len(heights) for heights in every)
    assert fewest.wood == pytest.approx(min(volume_of(h) for h in every if len(h) == fewest.count))


@pytest.mark.parametrize("choose", [fewest_rings, least_wood])
@pytest.mark.parametrize(
    ("thicknesses", "total"), [([], 50.0), ([19.0, 0.5], 50.0), ([-19.0], 50.0), ([19.0], 0.0)]
)
def test_no_boards_or_no_height_are_refused(
    choose: Callable[[list[float], float, Wood], object], thicknesses: list[float], total: float
) -> None:
    with pytest.raises(ValueError, match="boards of 1 mm or more"):
        choose(thicknesses, total, numbered(disc))
