"""Sheet too thin for its sleds is refused, with a thickness that has been tried."""

import re

import pytest

from jigs.asked.jobfile import parse
from jigs.forms.solve import solve
from jigs.words.findings import Finding, Refused

TORUS = """\
[form]
outer_diameter = 250
tube_diameter = 54
wedge_rings = 18
segments = 8
core_opening = 20
[boards]
"""
VASE = """\
[profile]
stations = [[0, 70], [60, 132], [110, 148], [180, 96]]
[wall]
thickness = 7
floor = 9
[rings]
heights = 20
segments = 12
species = "maple"
[boards]
"""


def thin(text: str, sheet: str) -> list[Finding]:
    try:
        solve(parse(f"{text}sheet = {sheet}\n", "job.toml"))
    except Refused as refused:
        return [found for found in refused.findings if found.code == "thin-sheet"]
    return []


@pytest.mark.parametrize("text", [TORUS, VASE], ids=["torus", "vase"])
def test_three_millimetres_carry_no_sled_and_the_thickness_offered_does(text):
    (found,) = thin(text, "3")
    assert found.key == "boards.sheet"
    offered = re.search(r"at least ([\d.]+) mm", found.remedy)
    assert offered
    assert "glued" not in found.remedy  # two of them would not do
    assert not thin(text, offered[1])


@pytest.mark.parametrize("text", [TORUS, VASE], ids=["torus", "vase"])
def test_two_sheets_glued_are_offered_where_they_are_enough(text):
    (found,) = thin(text, "6.5")
    assert "two of yours glued face to face before they are cut: 13.0 mm" in found.remedy
    assert not thin(text, "13")


@pytest.mark.parametrize("text", [TORUS, VASE], ids=["torus", "vase"])
def test_sheet_a_trace_too_thin_gives_more_than_is_allowed_as_shown_too(text):
    low, high = 3.0, 12.0
    while high - low > 1e-3:
        middle = (low + high) / 2
        low, high = (middle, high) if thin(text, f"{middle:.4f}") else (low, middle)
    (found,) = thin(text, f"{low:.4f}")
    shown = re.search(r"gives ([\d.]+) mm .*; ([\d.]+) mm is allowed", found.message)
    assert shown
    assert float(shown[1]) > float(shown[2])


def test_sheet_of_twelve_is_enough():
    assert not thin(TORUS, "12")
    assert not thin(VASE, "12")
