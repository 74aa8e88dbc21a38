"""A plain number that is sensible in the other unit only is asked about, in every key that takes a length."""

from __future__ import annotations

import pytest

from jigs.asked.jobfile import parse
from jigs.asked.jobfile.units import in_other_unit, number_in_other_unit
from jigs.asked.key import Key
from jigs.asked.keys import KEYS
from jigs.sets.rack import prove
from jigs.words.findings import Refused
from jigs.words.lengths import MM_PER_INCH

TORUS = "[form]\nouter_diameter = {}\ntube_diameter = {}\nwedge_rings = 14\nsegments = 8\ncore_opening = {}\n"
SOUND = {"mm": TORUS.format(250, 54, 20), "in": 'unit = "in"\n' + TORUS.format(10, '"2 1/8"', '"3/4"')}
OTHER = {"mm": "in", "in": "mm"}
OF_A_FORM = ("profile", "inside", "wall", "foot", "rings", "staves", "reversing", "form", "bandsaw", "layup",
             "lid", "rebate", "knob")  # fmt: skip
LENGTHS = [
    key for key in KEYS
    if key.kind == "length" and (key.default or key.example) and key.table not in OF_A_FORM
]  # fmt: skip


def told(text: str) -> list[tuple[str, str]]:
    """Keys that are asked about or refused for their range, with what is asked."""
    try:
        return [(finding.key, finding.remedy) for finding in parse(text, "hoop.toml").questions]
    except Refused as refused:
        return [(finding.key, finding.remedy) for finding in refused.findings]


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_sound_job_is_asked_nothing(unit):
    assert told(SOUND[unit]) == []


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("key", LENGTHS, ids=lambda key: key.path)
def test_every_length_typed_in_the_other_unit_is_asked_about(key: Key, unit: str):
    usual = float(str(key.default_in(unit) or key.example))
    number = round(1.001 * usual / MM_PER_INCH if unit == "mm" else usual, 4)
    text = f"{SOUND[unit]}[{key.table}]\n{key.name} = {number}\n"
    asked = dict(told(text))
    assert key.path in asked, text
    assert f' {OTHER[unit]}"' in asked[key.path]


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_length_with_its_unit_beside_it_is_not_asked_about(unit):
    assert told(SOUND[unit] + '[boards]\nsheet = "3 mm"\nthickness = "1/2 in"\n') == []


def test_a_short_throat_is_not_asked_about():
    """Of 100 mm some have; of 100 in none."""
    assert told(SOUND["mm"] + "[saw]\nthroat = 100\n") == []


def test_a_thin_strip_among_the_rings_is_not_asked_about_but_a_list_of_inches_is():
    vessel = (
        "[profile]\nstations = [[0, 70], [40, 110], [90, 80]]\n[wall]\nthickness = 6\n[rings]\nsegments = 12\n"
        'species = "ash"\nheights = '
    )
    assert told(vessel + "[14, 3, 14]\n") == []
    assert [key for key, _ in told(vessel + "[0.75, 0.1, 0.75]\n")] == ["rings.heights"]


def test_lists_are_asked_about_by_their_largest():
    stock = '[stock]\nboards = [{species = "ash", thickness = 1, width = 6, length = 48}]\n'
    assert [key for key, _ in told(SOUND["mm"] + stock)] == ["stock.boards"]
    vessel = (
        '[wall]\nthickness = 6\n[rings]\nheights = 20\nsegments = 12\nspecies = "ash"\n[profile]\nstations = '
    )
    assert [key for key, _ in told(vessel + "[[0, 3], [1.5, 4], [6, 5]]")] == ["profile.stations"]
    assert told(vessel + "[[0, 70], [2, 71], [60, 110]]") == []
    assert told(vessel + "[[0, 40], [16, 84]]") == [], "a lid is low, and its diameter tells the unit"


@pytest.mark.parametrize("high", [8, 20, 60])
def test_a_knob_is_as_small_as_knobs_are(high):
    key = next(one for one in KEYS if one.path == "knob.stations")
    assert number_in_other_unit(key, [[0, 7], [high, 6]], "mm") is None
    assert number_in_other_unit(key, [[0, 7 / 25.4], [high / 25.4, 0.25]], "mm") is not None


def test_no_number_is_sensible_in_both_units():
    for number in (0.1, 0.5, 1, 2, 3.5, 5, 20, 100, 254, 1000):
        for usual in (1.0, 20.0, 300.0):
            assert not (in_other_unit(number, usual, "mm") and in_other_unit(number, usual, "in"))


def test_the_question_is_told_with_the_job(tmp_path):
    plan = prove(parse(SOUND["mm"] + "[clamping]\nband_overlap = 8\n", "hoop.toml")).plan
    note = next(note for note in plan.notes if note.code == "other-unit")
    assert (note.key, note.line, note.severity) == ("clamping.band_overlap", 8, "warning")
