"""Plans for ripping and crosscutting against published instances of cutting stock and bin packing."""

from collections import Counter
from collections.abc import Mapping
from pathlib import Path

import pytest

from geometry.cutting_stock import Packing, StockSize, pack

# Widths and demands, the size of the stock, the proved optimum. L100: V. Chvátal, Linear Programming, 1983, by way
# of the GAMS model library's cutstock, whose linear program is 452.25; L110: the roll-trim exercise of Fourer, Gay
# and Kernighan, AMPL (linear program 46.25). Both optima were also found with another solver.
SMALL = {
    "L100": ({45: 97, 36: 610, 31: 395, 14: 211}, 100, 453),
    "L110": ({20: 48, 45: 35, 50: 24, 55: 10, 75: 8}, 110, 47),
}

# Optima of data/binpack1.txt, u120_00 to u120_19, proved with another solver. The file's own best known numbers
# are one too many for 08 (51) and 19 (50).
UNIFORM = (48, 49, 46, 49, 50, 48, 48, 49, 50, 46, 52, 49, 48, 49, 50, 48, 52, 52, 49, 49)
# First fit decreasing, counted by another program.
FIRST_FIT = (49, 49, 47, 50, 50, 49, 49, 50, 51, 47, 52, 50, 49, 49, 50, 49, 52, 53, 50, 50)
BIN = 150


def instances() -> dict[str, tuple[int, Counter[int]]]:
    text = (Path(__file__).parent / "data" / "binpack1.txt").read_text()
    rows = [line.split() for line in text.splitlines() if not line.startswith("#")]
    return {row[0]: (int(row[1]), Counter(map(int, row[2:]))) for row in rows}


def packed(wanted: Mapping[int, int], size: float, kerf: float = 0.0) -> Packing:
    stock = StockSize(size, 1.0, None, (1,) * len(wanted))
    return pack(list(wanted), list(wanted.values()), kerf, [stock])


def sound(packing: Packing, wanted: Mapping[int, int], size: float) -> bool:
    """Every stick holds its pieces, and all pieces are there."""
    got: Counter[int] = Counter()
    for pattern in packing.patterns:
        for width, strips in zip(wanted, pattern.pieces, strict=True):
            got[width] += strips * pattern.times
    full = [sum(n * width for width, n in zip(wanted, p.pieces, strict=True)) for p in packing.patterns]
    return max(full) <= size and all(got[width] >= wanted[width] for width in wanted)


@pytest.mark.parametrize("name", SMALL)
def test_small_instances_are_cut_at_their_optimum(name: str) -> None:
    wanted, size, optimum = SMALL[name]
    packing = packed(wanted, size)
    assert sound(packing, wanted, size)
    assert packing.cost == optimum
    assert packing.bound == optimum


def test_kerf_is_the_same_as_longer_stick_and_longer_pieces() -> None:
    wanted, size, _ = SMALL["L100"]
    by_kerf = packed(wanted, size, kerf=3.0)
    lengthened = packed({width + 3: n for width, n in wanted.items()}, size + 3)
    assert (by_kerf.cost, by_kerf.bound, by_kerf.first_fit) == (
        lengthened.cost,
        lengthened.bound,
        lengthened.first_fit,
    )
    assert by_kerf.patterns == lengthened.patterns


@pytest.mark.parametrize("number", range(20))
def test_uniform_instances_are_within_a_bin_of_the_bound(number: int) -> None:
    known, wanted = instances()[f"u120_{number:02d}"]
    packing = packed(wanted, BIN)
    assert sum(wanted.values()) == 120
    assert sound(packing, wanted, BIN)
    assert packing.first_fit == FIRST_FIT[number]
    assert packing.bound <= UNIFORM[number] <= packing.cost <= min(packing.bound + 1, packing.first_fit)
    assert UNIFORM[number] == known - (number in (8, 19))
