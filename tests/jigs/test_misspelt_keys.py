"""A misspelt key is told once: as a key that is not known, not as one that is missing too."""

from __future__ import annotations

import pytest

from jigs.asked.jobfile import parse
from jigs.words.findings import Refused

TORUS = (
    "[form]\nouter_diameter = 250\ntube_diameter = 54\nwedge_rings = 18\nsegments = 8\ncore_opening = 20\n"
)
VESSEL = """
[profile]
stations = [[0, 70], [60, 132], [180, 96]]
[wall]
thickness = 7
floor = 9
[rings]
heights = 20
segments = 12
species = "maple"
"""


def told(text: str) -> list[tuple[str, str, str]]:
    with pytest.raises(Refused) as caught:
        parse(text, "hoop.toml")
    return [(finding.code, finding.key, finding.remedy) for finding in caught.value.findings]


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        (TORUS, "wedge_rings", "wedge_ring"),
        (TORUS, "tube_diameter", "tube_diamter"),
        (VESSEL, "heights", "hieghts"),
        (VESSEL, "thickness", "thicknes"),
        (VESSEL, "stations", "station"),
        (VESSEL, "[rings]", "[ringz]"),
        (VESSEL, "[wall]", "[walls]"),
        (VESSEL, "[profile]", "[profil]"),
        (TORUS, "[form]", "[from]"),
        (TORUS + "[bandsaw]\nheight = 200\n", "height", "hieght"),
        (TORUS + '[layup]\nplies = [["maple", 3], ["walnut", 1]]\n', "plies", "plys"),
    ],
    ids=lambda value: value if len(value) < 20 else "",
)
def test_a_misspelt_key_is_told_once(text, right, wrong):
    assert text.count(right) >= 1
    found = told(text.replace(right, wrong, 1))
    assert [code for code, _, _ in found] == ["unknown-key"], found
    assert "Did you mean" in found[0][2]
    assert right.strip("[]") in found[0][2]


def test_a_key_in_the_wrong_table_is_told_once():
    found = told(TORUS.replace("segments = 8\n", "") + "[saw]\nsegments = 8\n")
    assert [code for code, _, _ in found] == ["unknown-key"]


def test_what_is_missing_beside_a_misspelt_key_is_still_told():
    found = told(TORUS.replace("wedge_rings", "wedge_ring").replace("segments = 8\n", ""))
    assert {(code, key) for code, key, _ in found} == {
        ("unknown-key", "form.wedge_ring"),
        ("missing-key", "form.segments"),
    }


def test_a_key_that_only_begins_like_one_is_asked_about_that_one_too():
    found = told(TORUS + "spacer_thickness = 1.5\n")
    assert found == [
        ("unknown-key", "form.spacer_thickness", "Did you mean form.spacer or form.spacer_species?")
    ]
