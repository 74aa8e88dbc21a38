"""Weights and movements of wood against the Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-190, 2010)."""

import pytest

from jigs.asked.woods import SPECIES, density, movement, tangential_of

# Specific gravity at 12 %, from copies of the handbook's table of strength properties,
# and kg/m³ worked out from it by chapter 4's formula, 1000 G (1 + 12/100), rounded.
GRAVITY = {
    "ash": (0.60, 672),
    "beech": (0.64, 717),
    "birch": (0.62, 694),
    "paper birch": (0.55, 616),
    "cherry": (0.50, 560),
    "maple": (0.63, 706),
    "white oak": (0.68, 762),
    "red oak": (0.63, 706),
    "walnut": (0.55, 616),
    "basswood": (0.37, 414),
    "aspen": (0.38, 426),
    "cypress": (0.46, 515),
    "douglas fir": (0.48, 538),
    "hemlock": (0.45, 504),
    "ponderosa pine": (0.40, 448),
    "spruce": (0.40, 448),
    "western redcedar": (0.32, 358),
    "white pine": (0.35, 392),
    "yellow poplar": (0.42, 470),
}

# Table 4-3: shrinkage from green to oven-dry, per cent, radial and tangential. Those of maple, cypress, hemlock,
# the pines and spruce from memory. Neither the oaks are here, whose coefficients are
# those of commercial mixes, nor western redcedar.
SHRINKAGE = {
    "ash": (4.9, 7.8),
    "beech": (5.5, 11.9),
    "birch": (7.3, 9.5),
    "paper birch": (6.3, 8.6),
    "cherry": (3.7, 7.1),
    "maple": (4.8, 9.9),
    "walnut": (5.5, 7.8),
    "basswood": (6.6, 9.3),
    "aspen": (3.5, 6.7),
    "cypress": (3.8, 6.2),
    "douglas fir": (4.8, 7.6),
    "hemlock": (4.2, 7.8),
    "ponderosa pine": (3.9, 6.2),
    "spruce": (4.3, 7.5),
    "white pine": (2.1, 6.1),
    "yellow poplar": (4.6, 8.2),
}


# Table 13-5: the tangential coefficients of the woods that move most, and of kinds of which one is not known.
LIVELY = {
    "overcup oak": 0.00462,
    "madrone": 0.00451,
    "tanoak": 0.00423,
    "winged elm": 0.00419,
    "persimmon": 0.00403,
}
LIVELY |= {"cottonwood": 0.00327, "black cottonwood": 0.00304, "live oak": 0.00338, "apple": 0.00376}


@pytest.mark.parametrize("name", LIVELY)
def test_a_wood_not_known_moves_no_less_than_the_handbook_says(name: str) -> None:
    assert tangential_of(name) >= LIVELY[name]


def test_the_formulas_own_example() -> None:
    # GTR-190, chapter 4, by way of a published page on density: G 0.40 at 12 %: 448 kg/m³, 27.968 lb/ft³.
    assert density(0.40, 12.0) == pytest.approx(448.0)
    assert density(0.40, 12.0) / (0.45359237 / 0.3048**3) == pytest.approx(27.968, abs=1e-3)


def test_every_wood_has_the_handbooks_gravity_and_its_density() -> None:
    assert set(GRAVITY) == set(SPECIES)
    for name, (gravity, kilograms) in GRAVITY.items():
        assert SPECIES[name].gravity == gravity
        assert SPECIES[name].density == pytest.approx(kilograms, abs=0.5)


@pytest.mark.parametrize("name", SHRINKAGE)
def test_the_coefficients_follow_from_the_shrinkage(name: str) -> None:
    # Table 13-5 follows from 4-3 by equation 13-3 at 10 % moisture: 1 / (3000/S - 20), to the last digit.
    ours = (SPECIES[name].radial, SPECIES[name].tangential)
    assert ours == pytest.approx([1 / (3000 / shrinkage - 20) for shrinkage in SHRINKAGE[name]], abs=1.1e-5)


def test_the_handbooks_board_grows_as_it_says() -> None:
    # GTR-190, equation 13-2 and its example: 232 mm (9.15 in) at 8 %, coefficient 0.00245, at 11 %: 1.7 mm
    # more, 233.7 mm (9.217 in).
    assert movement(232.0, 0.00245, 8.0, 11.0) == pytest.approx(1.7, abs=0.05)
    assert 9.15 + movement(9.15, 0.00245, 8.0, 11.0) == pytest.approx(9.217, abs=5e-4)
