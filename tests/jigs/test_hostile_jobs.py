"""Jobs that ask for the impossible in odd places are refused in plain words, never with a fault of the tool."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from geometry.lathe.size_gauges import most_steps
from jigs.asked.jobfile import load, parse
from jigs.files.stl import write_stl
from jigs.forms.solve import solve
from jigs.sets.rack import rack
from jigs.words.findings import Refused
from tests.jigs.job_texts import SOUND

LAYUP = '[layup]\nplies = [["maple", 3], ["walnut", 2]]\n'


def refusals(text: str) -> set[str]:
    with pytest.raises(Refused) as caught:
        solve(parse(text, "hoop.toml"))
    return {finding.code for finding in caught.value.findings}


@pytest.mark.parametrize("core", [70, 100, 900])
def test_a_core_as_large_as_its_ring_leaves_no_wall_and_no_layup(core: int) -> None:
    assert refusals(SOUND.replace("core_opening = 20", f"core_opening = {core}") + LAYUP) == {"thin-wall"}


@pytest.mark.parametrize(
    ("plane", "mirrored"), [("end", "left and right"), ("end", "both"), ("face", "both")]
)
def test_a_layup_that_cannot_be_mirrored_so(plane: str, mirrored: str) -> None:
    text = SOUND + f'{LAYUP}plane = "{plane}"\nmirrored = "{mirrored}"\n'
    assert refusals(text) == {"not-mirrored"}


HUGE = "0x" + "F" * 6000  # as decimal digits Python does not even read it
IN_LISTS = {
    "counts": f"[layup]\nrings = [{HUGE}]\n",
    "stages": f'[gauges]\nstages = [{HUGE}, "finished"]\n',
    "bed": f"[printer]\nbed = [{HUGE}, {HUGE}]\n",
    "thickness of a board": f'[stock]\nboards = [{{species = "ash", thickness = {HUGE}}}]\n',
    "count of a board": f'[stock]\nboards = [{{species = "ash", thickness = 20, count = {HUGE}}}]\n',
    "species of a board": f"[stock]\nboards = [{{species = {HUGE}, thickness = 20}}]\n",
    "thickness of a ply": f'[layup]\nplies = [["ash", {HUGE}]]\n',
    "colour of a ply": f'[layup]\nplies = [["ash", 3, {HUGE}]]\n',
}


@pytest.mark.parametrize("table", IN_LISTS.values(), ids=IN_LISTS)
def test_integers_of_thousands_of_digits_in_lists_are_refused_briefly(table: str) -> None:
    with pytest.raises(Refused) as caught:
        parse(SOUND + table, "hoop.toml")
    assert all(len(str(finding)) < 400 for finding in caught.value.findings)
    assert any("an enormous number" in str(finding) for finding in caught.value.findings)


def test_a_decimal_number_too_long_to_be_read_is_told_with_its_line() -> None:
    with pytest.raises(Refused) as caught:
        parse(SOUND + f"least_wall = {'9' * 6000}\n", "hoop.toml")
    [finding] = caught.value.findings
    assert (finding.line, finding.message) == (7, "has a number of 6000 digits")


def staged(count: int, rim: int) -> str:
    """A hoop with so many stages besides the finished one."""
    stages = ", ".join(f"{2.9 - 2.5 * k / count:.3f}" for k in range(count))
    return f"""
[form]
outer_diameter = {rim}
tube_diameter = {round(0.25 * rim)}
wedge_rings = 14
segments = 8
core_opening = 10
least_wall = 2
[gauges]
stages = [{stages}, "finished"]
"""


@pytest.mark.parametrize("count", [10, 30, 300])
def test_more_stages_than_can_be_told_apart_are_refused(count: int) -> None:
    with pytest.raises(Refused) as caught:
        parse(staged(count, 250), "hoop.toml")
    [finding] = caught.value.findings
    assert (finding.code, finding.key) == ("too-many", "gauges.stages")
    assert "at most 10" in finding.remedy


def test_the_stick_across_a_small_rim_has_as_many_steps_as_it_has_room_for() -> None:
    most = most_steps(90 / 2)
    assert "too-many-stages" in refusals(staged(most, 90))
    assert "too-many-stages" not in refusals(staged(most - 1, 90))


def test_as_many_stages_as_there_may_be_are_made() -> None:
    parts, _ = rack(solve(parse(staged(9, 210), "hoop.toml")))
    [stick] = [part for part in parts if part.name == "outer-stick"]
    assert len([one for one in stick.dimensions if one.name.startswith("radius")]) == 2 * 10


def no_file(path: Path) -> str:
    """What is told of a job that cannot be read."""
    with pytest.raises(Refused) as caught:
        load(path)
    return str(caught.value)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no pipes with names")
@pytest.mark.parametrize("what", ["job", "workshop", "drawing"])
def test_a_pipe_is_refused_and_not_waited_for(tmp_path: Path, what: str) -> None:
    name = {"job": "hoop.toml", "workshop": "shed.toml", "drawing": "line.dxf"}[what]
    os.mkfifo(tmp_path / name)
    if what == "workshop":
        (tmp_path / "hoop.toml").write_text(f'workshop_file = "shed"\n{SOUND}')
    if what == "drawing":
        (tmp_path / "hoop.toml").write_text('[profile]\ndrawing = "line.dxf"\n')
    assert "it is a pipe or a device, not a file" in no_file(tmp_path / "hoop.toml")


def test_devices_and_folders_are_no_jobs(tmp_path: Path) -> None:
    assert "it is a folder" in no_file(tmp_path)
    if os.path.exists("/dev/zero"):
        assert "it is a pipe or a device, not a file" in no_file(Path("/dev/zero"))


@pytest.mark.parametrize("name", ["CON", "con", "nul", "Com1", "LPT9", "hoop.", "hoop ", "a/b", "..", ""])
def test_what_is_no_folder_everywhere_is_no_name(name: str) -> None:
    with pytest.raises(Refused) as caught:
        parse(f'name = "{name}"\n{SOUND}', "hoop.toml")
    assert [finding.code for finding in caught.value.findings] == ["bad-name"]


@pytest.mark.parametrize("name", ["CONE", "com", "lpt", "com10", "nul-1", "console"])
def test_names_that_only_begin_like_a_device_do(name: str) -> None:
    assert parse(f'name = "{name}"\n{SOUND}', "hoop.toml").name == name


def test_a_file_called_like_a_device_needs_a_name_of_its_own() -> None:
    with pytest.raises(Refused) as caught:
        parse(SOUND, "con.toml")
    assert [finding.code for finding in caught.value.findings] == ["bad-name"]


@pytest.mark.parametrize("file", ["my ring.toml", "Ünder-_.toml", "con.toml", "..toml", "x" * 70 + ".toml"])
def test_a_file_whose_name_names_no_folder_is_given_one_that_does(file: str) -> None:
    with pytest.raises(Refused) as caught:
        parse(SOUND, file)
    line = caught.value.findings[0].remedy.removeprefix("Give ").removesuffix(" at the top of the file")
    assert parse(f"{line}\n{SOUND}", file).name in line


THICK = """
[form]
outer_diameter = 650.5
tube_diameter = 218.7
wedge_rings = 28
segments = 14
core_opening = 30
[saw]
blade_height = 250
blade_diameter = 700
throat = 3000
[bandsaw]
height = 300
throat = 2000
[lathe]
swing_over_bed = 2500
[printer]
bed = [600, 600]
[boards]
sheet = 15
[gauges]
plate_thickness = 11.62
"""


def test_a_code_stands_on_what_a_thick_plates_bevel_leaves(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("jigs.forms.torus.solve.held_findings", lambda *_: [])  # too heavy for a bolt
    parts, _ = rack(solve(parse(THICK, "hoop.toml")))
    [gauge] = [part for part in parts if part.name == "standing-gauge-a-inner"]
    assert gauge.bevel
    write_stl(gauge, tmp_path / "gauge.stl")  # refuses marks that come near an edge


def test_a_gauge_thicker_than_its_bevel_has_room_for_is_refused() -> None:
    with pytest.raises(Refused) as caught:
        parse(THICK.replace("11.62", "16"), "hoop.toml")
    [finding] = caught.value.findings
    assert finding.key == "gauges.plate_thickness"
    assert "1.0 mm to 15.0 mm" in finding.remedy
