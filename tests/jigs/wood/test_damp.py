"""A torus that splits in damp air: its wood swells round the rim, and the hole cannot follow."""

import pytest

from jigs.asked.jobfile import parse
from jigs.forms.solve import solve

FAT = """title = "Fat"
[form]
outer_diameter = 240
tube_diameter = {tube}
wedge_rings = 10
segments = 12
core_opening = 40
species = "{wood}"
[saw]
blade_height = 125
blade_diameter = 350
"""


@pytest.mark.parametrize(
    ("tube", "wood", "told"),
    [
        (90, "maple", "split at its hole from 12.0 %"),
        (70, "maple", ""),
        (78, "maple", "from 13."),
        (78, "walnut", ""),
    ],
)
def test_a_torus_warns_when_its_hole_breaks_before_the_dampest_air(tube: int, wood: str, told: str) -> None:
    notes = solve(parse(FAT.format(tube=tube, wood=wood), "fat.toml")).notes
    damp = [note for note in notes if note.code == "hole-opens-in-damp"]
    assert [note.severity for note in damp] == ["warning"] * bool(told)
    assert all(told in note.message for note in damp)
