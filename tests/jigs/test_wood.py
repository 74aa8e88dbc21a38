"""The table of woods and what is asked of it."""

import pytest

from jigs.asked.woods import SPECIES, movement, nearest_species, weight


def test_a_litre_of_wood_weighs_its_density_in_grams() -> None:
    # 1 kg/m³ is 1 g in a litre, which is 1 000 000 mm³.
    for name, species in SPECIES.items():
        assert weight(name, 1e6) == pytest.approx(species.density)
        assert weight(name, 2.5e5) == pytest.approx(species.density / 4)


def test_an_unknown_wood_has_no_weight() -> None:
    with pytest.raises(KeyError):
        weight("granite", 1e6)


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("walnut", "walnut"),
        ("Walnut", "walnut"),
        ("wallnut", "walnut"),
        ("chery", "cherry"),
        ("White  Oak", "white oak"),
        ("red-oak", "red oak"),
        ("oak", "red oak"),
        ("white ash", "ash"),
        ("hard maple", "maple"),
        ("ash wood", "ash"),
        ("pine", "white pine"),
        ("duglas fir", "douglas fir"),
        ("spruse", "spruce"),
        ("fir", None),
        ("noble fir", None),
        ("balsa wood", None),
        ("apple", None),
        ("sapele", None),
        ("larch", None),
        ("rosewood", None),
        ("granite", None),
        ("", None),
    ],
)
def test_a_name_gets_the_nearest_wood_or_none(written: str, meant: str | None) -> None:
    assert nearest_species(written) == meant


@pytest.mark.parametrize("name", SPECIES)
def test_wood_moves_more_along_its_growth_rings_and_is_lighter_than_water(name: str) -> None:
    species = SPECIES[name]
    assert 0 < species.radial < species.tangential < 0.005
    assert 300 < species.density < 1000


def test_names_are_plain_lower_case() -> None:
    assert all(name == " ".join(name.lower().split()) for name in SPECIES)
    assert list(SPECIES) == sorted(SPECIES)


def test_what_swells_shrinks_back() -> None:
    assert movement(200.0, 0.003, 8.0, 12.0) == pytest.approx(-movement(200.0, 0.003, 12.0, 8.0)) == 2.4


@pytest.mark.parametrize(("before", "after"), [(5.0, 10.0), (10.0, 14.5), (float("nan"), 10.0)])
def test_moisture_outside_of_the_range_is_refused(before: float, after: float) -> None:
    with pytest.raises(ValueError, match="from 6 to 14 % moisture"):
        movement(200.0, 0.003, before, after)
