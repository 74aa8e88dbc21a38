"""A torus that splits in damp air, where its hole cannot follow, or in dry air, where its rim cannot."""

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


@pytest.mark.parametrize(
    ("tube", "wood", "told"),
    [(176, "beech", "split at its rim from 6.2 % down"), (176, "maple", ""), (156, "beech", "")],
)
def test_a_torus_warns_when_its_rim_breaks_before_the_driest_air(tube: int, wood: str, told: str) -> None:
    text = (
        FAT.format(tube=tube, wood=wood)
        .replace("= 240", "= 400")
        .replace("= 125", "= 210")
        .replace("= 350", "= 450")
        + "[lathe]\nswing_over_bed = 500\n[boards]\nsheet = 18\n"
    )
    notes = solve(parse(text, "fat.toml")).notes
    dry = [note for note in notes if note.code == "rim-opens-in-dry"]
    assert [note.severity for note in dry] == ["warning"] * bool(told)
    assert all(told in note.message for note in dry)
    assert "hole-opens-in-damp" in {note.code for note in notes}  # swelling breaks so fat a one sooner
