"""Strength of woods by their kind, against the Wood Handbook (USDA, FPL-GTR-190, 2010), table 5-3a, seen in a copy."""

import pytest

from jigs.asked.woods import KINDS, SPECIES, kind_of
from jigs.stages.held.strength import ACROSS, ALONG, SAFETY, allowed_across, allowed_along

# At 12 % moisture: specific gravity, modulus of rupture, tension perpendicular to the grain, N/mm², None where the
# table has none.
TABLE = {
    "quaking aspen": (0.38, 58.0, 1.8),
    "bigtooth aspen": (0.39, 63.0, None),
    "basswood": (0.37, 60.0, 2.4),
    "beech": (0.64, 103.0, 7.0),
    "butternut": (0.38, 56.0, 3.0),
    "cherry": (0.50, 85.0, 3.9),
    "balsam poplar": (0.34, 47.0, None),
    "black cottonwood": (0.35, 59.0, 2.3),
    "eastern cottonwood": (0.40, 59.0, 4.0),
    "silver maple": (0.47, 61.0, 3.4),
    "red oak": (0.63, 99.0, 5.5),
    "walnut": (0.55, 101.0, 4.8),
    "black willow": (0.39, 54.0, None),
    "yellow-poplar": (0.42, 70.0, 3.7),
    "baldcypress": (0.46, 73.0, 1.9),
    "Atlantic white cedar": (0.32, 47.0, 1.5),
    "eastern redcedar": (0.47, 61.0, None),
    "incense cedar": (0.37, 55.0, 1.9),
    "northern white cedar": (0.31, 45.0, 1.7),
    "Port-Orford cedar": (0.43, 88.0, 2.8),
    "western redcedar": (0.32, 51.7, 1.5),
    "yellow cedar": (0.44, 77.0, 2.5),
    "coast Douglas-fir": (0.48, 85.0, 2.3),
    "interior south Douglas-fir": (0.46, 82.0, 2.3),
    "balsam fir": (0.35, 63.0, 1.2),
    "noble fir": (0.39, 74.0, 1.5),
    "Pacific silver fir": (0.43, 75.8, None),
    "subalpine fir": (0.32, 59.0, None),
    "white fir": (0.39, 68.0, 2.1),
    "eastern hemlock": (0.40, 61.0, None),
    "western hemlock": (0.45, 78.0, 2.3),
    "western larch": (0.52, 90.0, 3.0),
    "eastern white pine": (0.35, 59.0, 2.1),
    "lodgepole pine": (0.41, 65.0, 2.0),
    "longleaf pine": (0.59, 100.0, 3.2),
    "ponderosa pine": (0.40, 65.0, 2.9),
    "sugar pine": (0.36, 57.0, 2.4),
    "old-growth redwood": (0.40, 69.0, 1.7),
    "young-growth redwood": (0.35, 54.0, 1.7),
    "black spruce": (0.42, 74.0, None),
    "Engelmann spruce": (0.35, 64.0, 2.4),
    "red spruce": (0.40, 74.0, 2.4),
    "Sitka spruce": (0.40, 70.0, 2.6),
    "white spruce": (0.36, 65.0, 2.5),
}


@pytest.mark.parametrize("name", TABLE)
def test_no_wood_of_the_table_is_loaded_beyond_its_own_strength_over_the_safety(name):
    gravity, along, across = TABLE[name]
    assert allowed_along([name]) * SAFETY <= along
    assert across is None or allowed_across([name]) * SAFETY <= across
    kind = kind_of(name)
    assert kind is None or kind.light <= gravity <= kind.heavy
    assert kind is not None or (along >= ALONG and (across or ACROSS) >= ACROSS)


@pytest.mark.parametrize(
    "kind",
    ["aspen", "butternut", "cedar", "cottonwood", "cypress", "douglas", "fir", "pine", "redwood", "spruce"],
)
def test_a_kind_is_as_weak_as_the_weakest_of_its_name_in_the_table(kind):
    own = [row for name, row in TABLE.items() if kind_of(name) is KINDS[kind]]
    assert KINDS[kind].along == min(int(along) for _, along, _ in own)
    assert KINDS[kind].across == min(across for _, _, across in own if across)


def test_where_the_table_has_none_a_wood_falls_as_far_behind_the_formula_as_aspen_does():
    """10.1 G^1.3, for hardwoods at 12 % moisture: the same handbook, from memory."""
    of_aspen = 1.8 / (10.1 * 0.38**1.3)
    for name, gravity in (("balsam poplar", 0.34), ("black willow", 0.39)):
        assert allowed_across([name]) * SAFETY == pytest.approx(of_aspen * 10.1 * gravity**1.3, rel=0.05)
    assert 1.8 / (10.1 * 0.38**1.3) < 2.4 / (10.1 * 0.37**1.3)


def test_balsa_is_no_stronger_than_what_was_measured():
    """118 lbf/in² across (Wood Handbook of 1974, medium balsa, green), 14 N/mm² along (a published table of woods)."""
    assert allowed_across(["balsa"]) * SAFETY <= 118 * 0.006895
    assert allowed_along(["balsa"]) * SAFETY <= 14.0
    assert "balsa" not in SPECIES
