"""Reading a vessel job: what is taken, and how what is wrong is told."""

from __future__ import annotations

import dataclasses
from math import atan, hypot, pi

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.curves.biarcs import deviation
from geometry.curves.spline import through
from jigs.asked.job_wood import Board
from jigs.asked.jobfile import load, parse
from jigs.asked.jobfile.read import ALL
from jigs.asked.keys import KEYS, TABLES, keys_of_form
from jigs.asked.lists import show_list
from jigs.asked.vessel_job import VesselJob
from jigs.forms.solve import solve
from jigs.words.findings import Refused
from tests.conftest import CONFIGS

SOUND = """\
[profile]
stations = [[0, 70], [12, 74], [60, 132], [110, 148], [150, 118], [180, 96]]
[wall]
thickness = 7
[rings]
heights = 20
segments = 12
species = "maple"
"""
STATIONS = SOUND.splitlines()[1]
RINGS = SOUND[SOUND.index("[rings]") :]


def findings(text, path="job.toml"):
    with pytest.raises(Refused) as caught:
        parse(text, path)
    return caught.value.findings


def changed(old, new):
    assert old in SOUND
    return SOUND.replace(old, new)


def with_edges(rows):
    return changed(STATIONS, f"edges = {rows}")


def test_a_short_job_gets_every_default():
    job = parse(SOUND, "bowl.toml")
    assert isinstance(job, VesselJob)
    assert (job.name, job.unit, job.inside, job.staves) == ("bowl", "mm", None, None)
    assert job.outside.stations == (0, 12, 60, 110, 150, 180)
    assert (job.wall.thickness, job.wall.by_height, job.wall.floor) == (7, None, None)
    assert (job.rings.heights, job.rings.segments, job.rings.species) == ((20,), (12,), (("maple",),))
    assert job.rings.turning_allowance == 3
    assert job.gauges.stages == (3, 1, 0.25)
    assert job.sources == (job.source,)


def test_every_table_of_the_keys_is_built_into_the_job():
    more = '[staves]\nlow = 40\nhigh = 80\ncount = 12\n[layup]\nplies = [["ash", 2]]\n[lid]\npot = "acorn"\n'
    job = parse(SOUND + more, CONFIGS / "lid.toml")
    for name in {key.table for key in keys_of_form("vessel")} - {"", "profile", "inside", "knob"}:
        part = getattr(job.workshop if TABLES[name].shared else job, name)
        assert {key.name for key in KEYS if key.table == name} == {f.name for f in dataclasses.fields(part)}


def test_the_profile_passes_through_every_station():
    shape = parse(SOUND).outside
    line = shape.profile
    for height, diameter in ((0, 70), (12, 74), (60, 132), (110, 148), (150, 118), (180, 96)):
        assert line.radius_at(height) == pytest.approx(diameter / 2, abs=0.01)
    smooth = through([(35, 0), (37, 12), (66, 60), (74, 110), (59, 150), (48, 180)])
    assert deviation(smooth, line.vertices) <= shape.within == 0.005


def test_edges_are_straight_or_arcs_of_the_radius_given():
    line = parse(
        with_edges("[[0, 80], [0, 100], [60, 120, 50], [100, 120], [140, 100, -45]]")
    ).outside.profile
    assert line.points == pytest.approx(np.array([(40, 0), (50, 0), (60, 60), (60, 100), (50, 140)]))
    for index, radius in ((1, 50), (3, -45)):
        a, b = line.points[index], line.points[index + 1]
        sweep = 4 * atan(line.vertices[index, 2])
        assert hypot(*(b - a)) == pytest.approx(abs(2 * radius * np.sin(sweep / 2)))
        assert abs(sweep) < pi
    assert line.radii(5, 55)[1] > 60  # + swells outward, over both ends
    assert line.radii(105, 135)[0] < 50 + 10 / 40 * 35  # - is hollow, inside its chord


def test_an_arc_may_be_a_half_circle_and_no_more():
    assert parse(with_edges("[[0, 100], [60, 100, 30]]")).outside.profile.radius_at(30) == pytest.approx(80)
    (finding,) = findings(with_edges("[[0, 100], [60, 100, 29.9]]"))
    assert (finding.code, finding.key, finding.line) == ("out-of-range", "profile.edges", 2)
    assert "60.0 mm" in finding.message
    assert "30.03 mm" in finding.remedy
    parse(with_edges("[[0, 100], [60, 100, 30.03]]"))


def test_inches_and_mm_mix_in_lists():
    text = changed(STATIONS, 'stations = [[0, "70 mm"], ["1 1/2", 4], ["3.5 in", "2 3/4"]]')
    text = text.replace("thickness = 7", 'by_height = [[0, "8 mm"], [3, "1/4"]]').replace(
        "= 20", '["3/4", 1]'
    )
    job = parse('unit = "in"\n' + text.replace("heights ", "heights = "))
    assert job.outside.stations == pytest.approx((0, 38.1, 88.9))
    assert job.outside.profile.start[0] == 35
    assert job.wall.by_height == ((0, 8), (pytest.approx(76.2), pytest.approx(6.35)))
    assert job.rings.heights == pytest.approx((19.05, 25.4))


def test_lists_by_ring_and_round_a_ring_are_taken():
    text = changed("heights = 20", "heights = [20, 25.5]").replace("= 12", "= [8, 12, 16]")
    job = parse(text.replace('"maple"', '["Ash", ["ash ", "walnut"]]'))
    assert job.rings.heights == (20, 25.5)
    assert job.rings.segments == (8, 12, 16)
    assert job.rings.species == (("ash",), ("ash", "walnut"))


@pytest.mark.parametrize("choice", ["fewest rings", "least wood"])
def test_heights_may_be_chosen_from_the_boards_of_a_workshop_file(tmp_path, choice):
    ash, oak = "{species = 'Ash', thickness = '3/4 in'}", "{species = 'oak', thickness = 30, count = 3}"
    boards = f"[stock]\nboards = [{ash}, {oak}]\n"
    (tmp_path / "shed.toml").write_text(boards, "utf-8")
    (tmp_path / "bowl.toml").write_text(f'workshop_file = "shed"\n{changed("20", repr(choice))}', "utf-8")
    job = load(tmp_path / "bowl.toml")
    assert job.rings.heights == choice
    ash, oak = job.workshop.stock.boards
    assert ash == Board("ash", pytest.approx(19.05), None, None, 1)
    assert oak == Board("oak", 30, None, None, 3)
    assert job.places["stock.boards"].line == 2


def test_staves_have_the_first_rings_wood_or_their_own():
    staves = "[staves]\nlow = 40\nhigh = 80\ncount = 12\n"
    two = SOUND.replace('"maple"', '[["ash", "oak"], "elm"]')
    assert parse(two + staves).staves.species == ("ash", "oak")
    assert parse(two + staves + 'species = ["cherry", "ash"]').staves.species == ("cherry", "ash")
    assert parse(two + staves + 'species = "cherry"').staves.species == ("cherry",)


def test_an_inside_of_its_own_stands_for_the_wall():
    own = "[inside]\nedges = [[10, 0], [10, 40], [180, 80]]\n"
    job = parse(SOUND.replace("thickness = 7\n", "floor = 9\n") + own)
    assert job.inside.profile.bottom == 10  # an inside begins at its floor
    assert (job.wall.thickness, job.wall.by_height) == (None, None)


def test_a_wide_vessel_gets_the_larger_allowance():
    wide = SOUND.replace("148", "250.5")
    assert parse(wide).rings.turning_allowance == 4
    assert parse(SOUND.replace("148", "240")).rings.turning_allowance == 3


def test_strips_and_gaps_of_nothing_stand_together():
    job = parse(SOUND + "spacer = 0\ngap = 4\n[foot]\nrecess_diameter = 0\n")
    assert job.rings.between == 4


FAULTS = {
    "both forms": (
        SOUND + "[form]\nouter_diameter = 250\ntube_diameter = 54\nwedge_rings = 18\nsegments = 8\ncore_opening = 20",
        [("profile", "misplaced-key", 1), ("wall", "misplaced-key", 3), ("rings", "misplaced-key", 5)],
    ),
    "two ways": (
        SOUND.replace(STATIONS, STATIONS + "\nedges = [[0, 70], [40, 90]]"),
        [("profile.edges", "too-many", 3)],
    ),
    "two ways, a drawing": (
        SOUND.replace(STATIONS, 'drawing = "a.dxf"\n' + STATIONS),
        [("profile.drawing", "too-many", 2)],
    ),
    "no way": (changed(STATIONS, ""), [("profile", "missing-key", 1)]),
    "no profile": (SOUND.split("\n", 2)[2], [("profile", "missing-key", 3)]),
    "a way of nothing inside": (SOUND + '[inside]\nlayer = "a"\n', [("inside", "missing-key", 9)]),
    "out of order": (changed("[60, 132]", "[6, 132]"), [("profile.stations", "bad-order", 2)]),
    "a height twice": (changed("[60, 132]", "[12, 132]"), [("profile.stations", "bad-order", 2)]),
    "edges down": (with_edges("[[0, 70], [40, 80], [39, 90]]"), [("profile.edges", "bad-order", 2)]),
    "a corner twice": (with_edges("[[0, 70], [40, 80], [40, 80]]"), [("profile.edges", "bad-order", 2)]),
    "not from the foot": (changed("[[0, 70], ", "["), [("profile.stations", "no-foot", 2)]),
    "edges not from the foot": (with_edges("[[5, 70], [40, 80]]"), [("profile.edges", "no-foot", 2)]),
    "one station": (changed(STATIONS, "stations = [[0, 70]]"), [("profile.stations", "too-few", 2)]),
    "no station": (changed(STATIONS, "stations = []"), [("profile.stations", "wrong-type", 2)]),
    "no list": (changed(STATIONS, "stations = '0 70, 40 110'"), [("profile.stations", "wrong-type", 2)]),
    "flat list": (changed(STATIONS, "stations = [0, 70, 40, 110]"), [("profile.stations", "wrong-type", 2)]),
    "stations with radii": (changed("[60, 132]", "[60, 132, 4]"), [("profile.stations", "wrong-type", 2)]),
    "below the axis": (changed("[60, 132]", "[60, -1]"), [("profile.stations", "out-of-range", 2)]),
    "below the foot": (changed("[[0, 70]", "[[-1, 70]"), [("profile.stations", "out-of-range", 2)]),
    "edges below the axis": (with_edges("[[0, 70], [40, -80]]"), [("profile.edges", "out-of-range", 2)]),
    "no length": (changed("[60, 132]", "[60, '132 ells']"), [("profile.stations", "bad-length", 2)]),
    "radius of nothing": (with_edges("[[0, 70], [40, 80, 0]]"), [("profile.edges", "out-of-range", 2)]),
    "no wall": (changed("thickness = 7", ""), [("wall", "missing-key", 3)]),
    "two walls": (changed("= 7", "= 7\nby_height = [[0, 7], [9, 8]]"), [("wall.by_height", "too-many", 5)]),
    "wall and inside": (SOUND + "[inside]\nstations = [[9, 5], [180, 60]]\n", [("inside.stations", "too-many", 10)]),
    "wall of nothing": (
        changed("thickness = 7", "by_height = [[0, 7], [90, 0]]"),
        [("wall.by_height", "out-of-range", 4)],
    ),
    "walls out of order": (
        changed("thickness = 7", "by_height = [[9, 7], [0, 5]]"),
        [("wall.by_height", "bad-order", 4)],
    ),
    "one wall by height": (changed("thickness = 7", "by_height = [[0, 7]]"), [("wall.by_height", "too-few", 4)]),
    "no pairs": (changed("thickness = 7", "by_height = [7, 5]"), [("wall.by_height", "wrong-type", 4)]),
    "no rings": (
        SOUND.replace(RINGS, ""),
        [(f"rings.{name}", "missing-key", 1) for name in ("heights", "segments", "species")],
    ),
    "unknown choice": (changed("20", "'most rings'"), [("rings.heights", "bad-length", 6)]),
    "a thin ring": (changed("20", "[20, 1]"), [("rings.heights", "out-of-range", 6)]),
    "no heights": (changed("20", "[]"), [("rings.heights", "bad-length", 6)]),
    "few segments": (changed("12\n", "[12, 3]\n"), [("rings.segments", "out-of-range", 7)]),
    "half a segment": (changed("12\n", "12.5\n"), [("rings.segments", "wrong-type", 7)]),
    "true segments": (changed("12\n", "true\n"), [("rings.segments", "wrong-type", 7)]),
    "nameless wood": (changed('"maple"', "' '"), [("rings.species", "wrong-type", 8)]),
    "numbered wood": (changed('"maple"', "['ash', [1]]"), [("rings.species", "wrong-type", 8)]),
    "strips and gaps": (SOUND + "spacer = 2\ngap = 3\n", [("rings.gap", "too-many", 10)]),
    "half a hollow": (SOUND + "[foot]\nrecess_depth = 3\n", [("foot.recess_diameter", "missing-key", 10)]),
    "half a stave": (SOUND + "[staves]\nlow = 3\nhigh = 30\n", [("staves.count", "missing-key", 9)]),
    "wood of no staves": (
        SOUND + "[staves]\nspecies = 'ash'\n",
        [(f"staves.{name}", "missing-key", 9) for name in ("low", "high", "count")],
    ),
    "staves down": (SOUND + "[staves]\nlow = 30\nhigh = 30\ncount = 9\n", [("staves.high", "bad-order", 11)]),
    "no board": (SOUND + "[stock]\nboards = [{species = 'ash'}]\n", [("stock.boards", "wrong-type", 10)]),
    "no list of boards": (SOUND + "[stock]\nboards = 'ash'\n", [("stock.boards", "wrong-type", 10)]),
    "a board of nothing": (
        SOUND + "[stock]\nboards = [{species = 'ash', thickness = 0}]\n",
        [("stock.boards", "out-of-range", 10)],
    ),
    "half a board": (
        SOUND + "[stock]\nboards = [{species = 'ash', thickness = 9, count = 0}]\n",
        [("stock.boards", "wrong-type", 10)],
    ),
    "no drawing": (changed(STATIONS, 'drawing = "none.dxf"'), [("profile.drawing", None, 2)]),
    "no kind of drawing": (changed(STATIONS, 'drawing = "job.toml"'), [("profile.drawing", None, 2)]),
    "a folder": (changed(STATIONS, 'drawing = ".."'), [("profile.drawing", None, 2)]),
    "no name": (changed(STATIONS, 'drawing = "a\\u0000.svg"'), [("profile.drawing", "bad-text", 2)]),
}  # fmt: skip


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_is_told_once_with_its_key_its_line_and_what_would_do(name):
    text, expected = FAULTS[name]
    found = findings(text)
    assert sorted((f.key, f.line) for f in found) == sorted((key, line) for key, _, line in expected)
    for finding in found:
        (code,) = (code for key, code, _ in expected if key == finding.key)
        assert finding.code == (code or finding.code)
        assert finding.file == "job.toml"
        assert finding.message
        assert finding.remedy


def test_every_fault_is_told_at_once():
    text = (
        changed("[60, 132]", "[6, 132]").replace("= 7", "= 0").replace("= 12", "= 3")
        + "gap = 2\nspacer = 2\n"
    )
    assert [finding.line for finding in findings(text)] == [2, 4, 7, 9]


def test_what_is_missing_is_asked_for_with_an_example():
    told = {finding.key: finding.remedy for finding in findings(SOUND.replace(RINGS, ""))}
    assert "such as 20" in told["rings.heights"]
    assert "such as 12" in told["rings.segments"]
    (finding,) = findings(changed(STATIONS, "stations = 3"))
    assert "[[0, 70], [40, 110], [90, 80]]" in finding.remedy
    (finding,) = findings(changed("thickness = 7", "by_height = 3"))
    assert "[[0, 8], [100, 5]]" in finding.remedy


def test_the_examples_of_a_job_in_inches_name_their_unit():
    told = {finding.key: finding.remedy for finding in findings('unit = "in"\n' + SOUND.replace(RINGS, ""))}
    assert 'such as "3/4 in"' in told["rings.heights"]
    assert "such as 12" in told["rings.segments"]
    told = {
        finding.key: finding.remedy
        for finding in findings('unit = "in"\n' + changed(STATIONS, "stations = 3"))
    }
    assert '[["0 in", "3 in"], ["1 5/8 in", "4 1/2 in"], ["3 1/2 in", "3 in"]]' in told["profile.stations"]


def test_an_unknown_key_is_likened_to_keys_of_a_vessel_only():
    told = {f.key: f.remedy for f in findings(SOUND + "segmnets = 8\nwedge_rings = 8\ncore_opening = 9\n")}
    assert told["rings.segmnets"] == "Did you mean rings.segments?"
    assert "form" not in told["rings.core_opening"]
    assert told["rings.wedge_rings"] == "It belongs in [cutting]"
    (finding,) = findings(SOUND + "[fom]\n")
    assert "form" not in finding.remedy
    told = {f.key: f.remedy for f in findings(SOUND.replace("[wall]", "[walls]"))}
    assert told["walls"] == "Did you mean wall?"


def test_a_wrong_inside_is_told_beside_a_wrong_outside():
    text = SOUND.replace("thickness = 7", "floor = 9").replace(STATIONS, "edges = [[3, 70], [40, 80]]")
    found = findings(text + "[inside]\nedges = [[9, 70], [40, 80, 1]]\n")
    assert [(f.key, f.code) for f in found] == [
        ("profile.edges", "no-foot"),
        ("inside.edges", "out-of-range"),
    ]


def test_lists_are_shown_as_a_person_reads_them():
    text = changed("thickness = 7", "by_height = [[0, 7], [150, 5]]").replace("= 20", "= [20, 25.5]")
    text = text.replace("= 12", "= [8, 12]").replace('"maple"', '["ash", ["ash", "walnut"]]')
    boards = "[{species = 'ash', thickness = 22}, {species = 'oak', thickness = 20, width = 90, count = 3}]"
    job = parse(text + f"[stock]\nboards = {boards}\n")
    values = {
        "wall.by_height": (job.wall.by_height, "7.0 mm at 0.0 mm; 5.0 mm at 150.0 mm"),
        "rings.heights": (job.rings.heights, "20.0 mm, 25.5 mm"),
        "rings.segments": (job.rings.segments, "8, 12"),
        "rings.species": (job.rings.species, "ash; ash, walnut"),
        "stock.boards": (job.workshop.stock.boards, "1 of ash, 22.0 mm; 3 of oak, 20.0 mm × 90.0 mm"),
        "printer.bed": (job.workshop.printer.bed, "220.0 mm, 220.0 mm"),
    }
    for path, (value, shown) in values.items():
        assert show_list(ALL[path], value, "mm") == shown
    assert show_list(ALL["rings.heights"], "least wood", "mm") == "least wood"


numbers = st.sampled_from(
    ["0", "1", "-3", "20", "70", "1e3", "1e300", "nan", "inf", "'7/8 in'", "'x'", "true"]
)
deep = st.recursive(
    numbers | st.integers().map(str),
    lambda inner: (
        st.lists(inner, max_size=4).map(lambda items: f"[{', '.join(items)}]")
        | inner.map(lambda item: f"{{species = 'ash', thickness = {item}}}")
    ),
    max_leaves=6,
)
pairs = st.lists(st.lists(numbers, min_size=2, max_size=3).map(lambda row: f"[{', '.join(row)}]"), max_size=5)
values = st.one_of(numbers, numbers, deep, pairs.map(lambda rows: f"[{', '.join(rows)}]"))
keys = st.sampled_from([key for key in keys_of_form("vessel") if key.table])


@settings(max_examples=100)
@given(st.lists(st.tuples(keys, values), min_size=1, max_size=3))
def test_any_value_of_any_key_makes_a_job_or_is_refused_in_words(pairs):
    tables = {"profile": STATIONS, "wall": "thickness = 7", "rings": RINGS.split("\n", 1)[1]}
    for key, value in pairs:
        kept = [line for line in tables.get(key.table, "").splitlines() if line.split(" = ")[0] != key.name]
        tables[key.table] = "\n".join([*kept, f"{key.name} = {value}"])
    text = "".join(f"[{name}]\n{lines}\n" for name, lines in tables.items())
    job, found = job_or_findings(text)
    assert job is None or np.isfinite(job.outside.profile.vertices).all()
    assert all(finding.message and finding.remedy and finding.key for finding in found)


def job_or_findings(text):
    try:
        return parse(text), ()
    except Refused as refused:
        return None, refused.findings


coordinates = st.integers(0, 40) | st.floats(0, 2000)
rows = st.lists(
    st.tuples(coordinates, coordinates, st.none() | st.floats(-5000, 5000)), min_size=2, max_size=6
)


@given(rows, st.sampled_from(["stations", "edges"]))
def test_any_points_make_a_profile_from_the_foot_or_are_refused(rows, way):
    rows = sorted(rows, key=lambda row: row[0])
    rows[0] = (0.0, *rows[0][1:])
    written = [row[: 3 if way == "edges" and row[2] is not None else 2] for row in rows]
    job, found = job_or_findings(changed(STATIONS, f"{way} = {[list(row) for row in written]}"))
    if job is None:
        assert {finding.key for finding in found} == {f"profile.{way}"}
    else:
        line = job.outside.profile
        assert line.start == pytest.approx((written[0][1] / 2, 0))
        assert line.end == pytest.approx((written[-1][1] / 2, written[-1][0]))


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_floor_over_the_rim_is_refused_at_its_own_line_in_the_jobs_unit(unit):
    own = f'unit = "{unit}"\n[profile]\nstations = [["0 mm", "70 mm"], ["60 mm", "132 mm"], ["110 mm", "148 mm"]]\n'
    own += '[wall]\nthickness = "7 mm"\nfloor = "120 mm"\n[rings]\nheights = "21 mm"\nsegments = 12\n'
    own += 'species = "maple"\n'
    with pytest.raises(Refused) as caught:
        solve(parse(own, "pot.toml"))
    (told,) = (str(one) for one in caught.value.findings)
    assert told.startswith("pot.toml:6: wall.floor: ")
    assert (" mm" in told) == (unit == "mm")
