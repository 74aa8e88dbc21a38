"""Where the axis of a drawing stands: found, told, or asked for."""

import pytest

from jigs.asked.drawn.profile import read_drawing
from jigs.asked.jobfile import load
from jigs.forms.solve import solve
from jigs.words.findings import Refused
from tests.jigs.drawn.drawings import dxf, refusal
from tests.work.reading import table, values, work_for

JOB = """title = "Cup"
[profile]
drawing = "drawing.dxf"
{axis}
[wall]
thickness = 5
floor = 6.5
[rings]
heights = 20
segments = 12
species = "maple"
[reversing]
hold = "none"
"""


def line(*points):
    return lambda space: space.add_lwpolyline(points)


CUP = line((135, 0), (150, 40), (140, 70))


def job(folder, axis=""):
    dxf(folder, CUP)
    (folder / "cup.toml").write_text(JOB.format(axis=axis))
    return load(folder / "cup.toml")


def test_a_line_off_the_axis_asks_where_that_stands_with_the_sizes_that_it_would_have(tmp_path):
    wrong = refusal(dxf(tmp_path, CUP), axis=None)
    assert wrong.code == "axis-unknown"
    assert "foot is 270.0 mm across" in wrong.message
    assert "greatest diameter 300.0 mm" in wrong.message


def test_the_job_is_refused_at_the_key_that_answers(tmp_path):
    with pytest.raises(Refused) as caught:
        job(tmp_path)
    (found,) = caught.value.findings
    assert (found.code, found.key) == ("axis-unknown", "profile.axis")


@pytest.mark.parametrize(("axis", "foot", "most"), [(100, 70, 100), (0, 270, 300)])
def test_with_the_axis_given_the_foot_and_the_greatest_diameter_are_told_first_of_all(
    tmp_path, axis, foot, most
):
    asked = job(tmp_path, f"axis = {axis}\n[lathe]\nswing_over_bed = 600")
    assert asked.outside.said[0] == (
        f"Axis at x = {axis:.1f} mm of the drawing: foot {foot:.1f} mm across, greatest diameter {most:.1f} mm."
    )
    told = work_for(solve(asked))
    assert told.facts[0].value == asked.outside.said[0]
    read = [value for id, value in values(table(told, "finished")).items() if id.startswith("read-")]
    assert read == list(asked.outside.said[1:])
    assert len(read) >= 2


def test_a_line_that_reaches_the_axis_shows_where_it_stands(tmp_path):
    path = dxf(tmp_path, line((0, 0), (35, 0), (50, 40), (40, 70)))
    drawn = read_drawing(path, None, None, None)
    assert drawn.rows[0].tolist() == [35.0, 0.0, 0.0]
    assert any("line under the foot" in said for said in drawn.said)
    inside = read_drawing(path, None, None, None, inside=True)
    assert inside.rows[:2].tolist() == [[0.0, 0.0, 0.0], [35.0, 0.0, 0.0]]


def test_a_drawing_changed_on_disk_is_read_anew(tmp_path):
    (tmp_path / "cup.toml").write_text(JOB.format(axis=""), "utf-8")
    for top in (60, 70):
        dxf(tmp_path, line((0, 0), (30, 0), (45, top)))
        assert load(tmp_path / "cup.toml").outside.profile.top == pytest.approx(top)
