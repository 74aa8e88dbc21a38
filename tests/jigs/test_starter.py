from __future__ import annotations

import dataclasses
import re
import tomllib
from dataclasses import is_dataclass

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st

from jigs.asked.job_wood import Board
from jigs.asked.jobfile import parse
from jigs.asked.keys import DIAMETERS, keys_of_form
from jigs.asked.questions import QUESTIONS, answer, example_of
from jigs.asked.schema import json_schema
from jigs.asked.starter import starter, suggested_core, told_in
from jigs.words.findings import Refused
from tests.metric import metric

ANSWERS = {"form.outer_diameter": 250, "form.tube_diameter": 54, "form.wedge_rings": 18, "form.segments": 8}


def uncommented(text):
    """Take the "# " away from every key that only shows what holds without it."""
    return re.sub(r"^# (?!workshop_file)([a-z_]+ = )", r"\1", text, flags=re.MULTILINE)


def test_a_starter_is_a_valid_job_of_what_was_answered():
    text = starter(ANSWERS)
    job = parse(text, "hoop.toml")
    assert (job.form.outer_diameter, job.form.wedge_rings) == (250, 18)
    jsonschema.Draft7Validator(json_schema()).validate(tomllib.loads(text))


def test_every_key_stands_in_it_with_its_meaning():
    text = starter(ANSWERS)
    for key in keys_of_form("torus"):
        assert re.search(rf"^(# )?{key.name}\b", text, re.MULTILINE), key.path
        assert told_in(key.help, "mm") in text or key.path in DIAMETERS


def flat(value, path=""):
    """Every value of a record, and of what it holds, by its path; in inches defaults are written to 0.0001."""
    if is_dataclass(value):
        value = vars(value)
    if isinstance(value, tuple | list):
        value = dict(enumerate(value))
    if isinstance(value, dict):
        return {
            key: number for name, one in value.items() for key, number in flat(one, f"{path}.{name}").items()
        }
    return {path: value}


@pytest.mark.parametrize("form", ["torus", "vessel"])
def test_a_file_in_mm_says_nothing_of_jobs_in_inches(form):
    answers = {question.key: answer(question, example_of(question, "mm")) for question in QUESTIONS[form]}
    assert "in inches" not in starter({**answers, "unit": "mm"}, form)


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_the_commented_keys_say_what_holds_without_them(unit):
    answers = {**ANSWERS, "unit": unit, "form.outer_diameter": "250 mm", "form.tube_diameter": "54 mm"}
    plain, spelt_out = (parse(change(starter(answers)), "hoop.toml") for change in (str, uncommented))
    assert flat(spelt_out.workshop.saw) == pytest.approx(flat(plain.workshop.saw), abs=0.003)
    assert flat(spelt_out.workshop.printer) == pytest.approx(flat(plain.workshop.printer), abs=0.003)
    assert flat(spelt_out.gauges.stages) == pytest.approx(flat(plain.gauges.stages), abs=0.003)
    assert flat(spelt_out.form.turning_allowance) == pytest.approx(
        flat(plain.form.turning_allowance), abs=0.003
    )
    assert spelt_out.title == "Hoop"


def test_answers_may_be_text_with_quotes_and_lists():
    job = parse(starter({**ANSWERS, "title": 'A "round"\\', "printer.bed": [180, "7 in"], "unit": "mm"}))
    assert job.title == 'A "round"\\'
    assert job.workshop.printer.bed == (180, pytest.approx(177.8))


def test_a_workshop_file_is_named_without_being_looked_for():
    assert 'workshop_file = "shed"' in starter({**ANSWERS, "workshop_file": "shed"})


def test_wrong_answers_are_refused_by_key_without_a_line():
    with pytest.raises(Refused) as caught:
        starter({**ANSWERS, "form.segments": 7, "form.tube_diameter": "2 ells"})
    assert {(each.key, each.line, each.file) for each in caught.value.findings} == {
        ("form.segments", 0, ""),
        ("form.tube_diameter", 0, ""),
    }
    with pytest.raises(Refused, match=r"form\.segmnets: is not a key of a torus job"):
        starter({**ANSWERS, "form.segmnets": 8})


def test_an_answered_core_opening_is_kept_and_a_missing_one_suggested_in_round_numbers():
    assert parse(starter({**ANSWERS, "form.core_opening": "17.5 mm"})).form.core_opening == 17.5
    assert "\ncore_opening = 21 " in starter(ANSWERS)
    inches = {"unit": "in", **ANSWERS, "form.outer_diameter": "7 1/2", "form.tube_diameter": "1 5/8"}
    inches["form.wedge_rings"] = 12
    assert '\ncore_opening = "1/2 in" ' in starter(inches)


@given(
    st.integers(80, 900),
    st.floats(0.12, 0.4),
    st.sampled_from([8, 12, 16, 24, 64]),
    st.sampled_from([6, 8, 10, 12]),
    st.sampled_from(["mm", "in"]),
)
def test_any_starter_loads_and_its_core_lies_inside_the_tube(outer, share, wedge_rings, segments, unit):
    tube = round(outer * share, 1)
    answers = {"unit": unit, "form.outer_diameter": f"{outer} mm", "form.tube_diameter": f"{tube} mm"}
    job = parse(starter({**answers, "form.wedge_rings": wedge_rings, "form.segments": segments}))
    assert job.form.core_opening == pytest.approx(suggested_core(job.form, job.unit))
    assert 2 <= job.form.core_opening <= max(tube / 2, 6.36)


STATIONS = [[0, 70], [40, 110], [90, "80 mm"]]
VESSEL = {
    "profile.stations": STATIONS,
    "wall.thickness": 6,
    "rings.heights": 20,
    "rings.segments": [8, 12],
    "rings.species": ["maple", ["ash", "walnut"]],
}
OTHER_WAYS = re.compile(r"(edges|drawing|by_height|stations|layer|drawing_unit|axis) = ")


def without_other_ways(text):
    """Take the "# " away but for the other ways to give a profile or a wall, and what makes it a lid with a knob."""
    before, lid, after = re.split(r"(?<=\n)(\[lid\]\n.*?)(?=\[gauges\])", text, flags=re.DOTALL)
    spelt = (
        line if OTHER_WAYS.match(line.lstrip("# ")) else uncommented(line) for line in before.splitlines()
    )
    rest = (uncommented(line) for line in after.splitlines())
    return "\n".join([*spelt, *lid.splitlines(), *rest])


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_vessels_starter_is_a_valid_job_of_what_was_answered(unit):
    answers = {**VESSEL, "unit": unit}
    if unit == "in":
        answers["profile.stations"] = [[0, "2 3/4"], ["1 1/2", 4.25], [3.5, "80 mm"]]
        answers |= {"wall.thickness": "1/4", "rings.heights": "3/4 in"}
    text = starter(answers, "vessel")
    job = parse(text, "bowl.toml")
    assert job.outside.stations == ((0, 40, 90) if unit == "mm" else pytest.approx((0, 38.1, 88.9)))
    assert job.wall.thickness == (6 if unit == "mm" else pytest.approx(6.35))
    assert (job.rings.segments, job.rings.species) == ((8, 12), (("maple",), ("ash", "walnut")))
    jsonschema.Draft7Validator(json_schema()).validate(tomllib.loads(text))


def test_a_vessels_starter_lists_every_key_of_a_vessel_and_none_of_a_torus():
    text = starter(VESSEL, "vessel")
    headings = re.findall(r"^\[(\w+)\]$", text, re.MULTILINE)
    for table in ["", *headings]:
        block = text if not table else text.split(f"\n[{table}]\n")[1].split("\n[")[0]
        for key in (key for key in keys_of_form("vessel") if key.table == table):
            assert re.search(
                rf"^(# )?{key.name} = .*{re.escape(told_in(key.help, 'mm'))}", block, re.MULTILINE
            ), key.path
    assert set(headings) == {key.table for key in keys_of_form("vessel")} - {""}
    assert "form" not in headings


def test_a_starter_in_inches_names_nothing_metric():
    text = starter({**ANSWERS, "unit": "in", "form.outer_diameter": 8, "form.tube_diameter": 2})
    stations = [[0, 2.75], [1.5, 4.25], [3.5, 3.25]]
    sizes = {"profile.stations": stations, "wall.thickness": "1/4", "rings.heights": 0.75}
    vessel = starter({**VESSEL, "unit": "in", **sizes}, "vessel")
    assert not metric([*text.splitlines()[1:], *vessel.splitlines()[1:]])
    comments = "\n".join(text.splitlines()[2:])
    assert '# centre = "3/8 in"' in comments
    assert "1/8 in up to 10 in across" in comments
    for example in ("tube_height = 1.875", "plate_thickness = 0.1562", "height = 7.875"):
        assert f"# {example} " in comments, "an example in inches is a size that a shop in inches has"


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_the_commented_keys_of_a_vessel_say_what_holds_without_them(unit):
    mm = [[f"{number} mm" for number in pair] for pair in ((0, 70), (40, 110), (130, 80))]
    answers = {**VESSEL, "unit": unit, "profile.stations": mm, "wall.thickness": "6 mm"}
    answers["rings.heights"] = "20 mm"
    text = starter(answers, "vessel")
    plain, spelt_out = parse(text, "bowl.toml"), parse(without_other_ways(text), "bowl.toml")
    own = {
        "spacer_species": "walnut",
        "upright": (2, 3),
        "base": "segmented",
        "turn": (0.25,),
    }  # follow, left out
    own |= {"feature": (5,), "feature_species": (("cherry",),)}
    plug = spelt_out.rings.core_plug
    assert plug == pytest.approx(20, abs=0.5)
    rings = dataclasses.replace(plain.rings, **own, core_plug=plug)
    assert flat(spelt_out.rings) == pytest.approx(flat(rings), abs=0.003)
    assert flat((spelt_out.foot, spelt_out.reversing)) == pytest.approx(
        flat((plain.foot, plain.reversing)), abs=0.003
    )
    floor = spelt_out.wall.floor
    assert floor == pytest.approx(8, abs=0.5)
    assert flat(spelt_out.wall) == pytest.approx(
        flat(dataclasses.replace(plain.wall, floor=floor)), abs=0.003
    )
    assert flat(spelt_out.gauges.stages) == pytest.approx(flat(plain.gauges.stages), abs=0.003)
    staves = spelt_out.staves
    assert flat((staves.low, staves.count, staves.species)) == pytest.approx(
        flat((20, 16, ("cherry",))), abs=1 if unit == "in" else 0.003
    )
    assert flat(spelt_out.workshop.stock.boards) == pytest.approx(
        flat((Board("ash", 22, 150, 1200, 2),)), abs=1 if unit == "in" else 0.003
    )  # examples: inches that a shop has


def test_wrong_answers_for_a_vessel_are_refused_by_key_without_a_line():
    with pytest.raises(Refused) as caught:
        starter({**VESSEL, "wall.thickness": 0, "profile.stations": [[0, 70], [40, 60], [30, 60]]}, "vessel")
    assert {(each.key, each.line, each.file) for each in caught.value.findings} == {
        ("wall.thickness", 0, ""),
        ("profile.stations", 0, ""),
    }
    with pytest.raises(Refused, match=r"form\.segments: is not a key of a vessel job"):
        starter({**VESSEL, "form.segments": 8}, "vessel")


@given(
    st.lists(st.tuples(st.integers(5, 60), st.integers(20, 300)), min_size=1, max_size=5),
    st.integers(20, 300),
    st.sampled_from(["mm", "in"]),
    st.lists(st.integers(4, 96), min_size=1, max_size=4),
)
def test_any_vessels_starter_loads_with_its_stations(steps, foot, unit, segments):
    rows, height = [(0, foot)], 0
    for rise, diameter in steps:
        height += rise
        rows.append((height, diameter))
    answers = {**VESSEL, "unit": unit, "rings.segments": segments, "wall.thickness": "6 mm"}
    answers["rings.heights"] = "20 mm"
    answers["profile.stations"] = [[f"{number} mm" for number in row] for row in rows]
    job = parse(starter(answers, "vessel"))
    assert job.outside.stations == tuple(height for height, _ in rows)
    assert job.rings.segments == tuple(segments)
    assert job.outside.profile.end[0] == pytest.approx(rows[-1][1] / 2)
