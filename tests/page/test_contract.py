"""What the page receives."""

import math
import re
import time

import numpy as np
import pytest
from scipy.special import ellipe

from jigs.asked.jobfile import load
from jigs.forms.solve import shaped, solve
from jigs.page.contract import as_json
from jigs.page.fast import fast
from jigs.page.fields import fields_of
from jigs.page.reading import read
from jigs.words.findings import Refused
from tests.conftest import CONFIGS, JOBS


@pytest.fixture(scope="module", params=JOBS, ids=[file.stem for file in JOBS])
def told(request):
    text = request.param.read_text("utf-8")
    return load(request.param), fast(read(text, request.param))


def test_every_example_is_drawn_and_keeps_its_limits(told):
    _, found = told
    assert found.drawing is not None
    assert found.verdicts
    assert all(verdict.ok for verdict in found.verdicts)
    assert len(as_json(found)) < 150_000


def test_the_turned_section_is_the_form(told):
    """By Pappus, as a mesh would be: the area of the surface that the page turns about the axis."""
    job, found = told
    form = found.drawing.form
    radius, height = np.array(form.radius), np.array(form.height)
    area = math.pi * np.sum((radius[1:] + radius[:-1]) * np.hypot(np.diff(radius), np.diff(height)))
    if hasattr(job, "form"):
        wide, high = job.form.tube_radius, (job.form.tube_height or job.form.tube_diameter) / 2
        around = 4 * max(wide, high) * ellipe(1 - (min(wide, high) / max(wide, high)) ** 2)
        assert area == pytest.approx(2 * math.pi * job.form.major_radius * around, rel=2e-3)
    assert np.allclose(np.hypot(form.out, form.up), 1, atol=1e-3)


def test_a_limit_that_is_not_kept_is_told_with_its_place_and_a_remedy_that_does(page):
    edit = {"changes": [{"key": "form.core_opening", "text": "44"}], "revision": 0}
    state = page.post("/api/change", json=edit).json()
    wrong = [verdict for verdict in state["fast"]["verdicts"] if not verdict["ok"]]
    assert [verdict["id"] for verdict in wrong] == ["wall"]
    assert wrong[0]["at"] is not None
    until = time.monotonic() + 120
    while state["slow"]["remedies"] is None and time.monotonic() < until:
        answer = page.get(f"/api/state?after={state['tick']}")
        state = answer.json() if answer.status_code == 200 else state
    assert state["slow"]["state"] == "refused"
    changes = [{"key": one["key"], "value": one["value"]} for one in state["slow"]["remedies"][0]["changes"]]
    state = page.post("/api/change", json={"changes": changes, "revision": state["revision"]}).json()
    assert all(verdict["ok"] for verdict in state["fast"]["verdicts"])
    assert not [one for one in state["fast"]["findings"] if one["severity"] == "refused"]


def test_a_fault_of_the_program_is_told_and_the_page_lives_on(quick_page, monkeypatch):
    def stumble(job):
        raise ZeroDivisionError

    with monkeypatch.context() as broken:
        broken.setattr("jigs.page.fast.shaped", stumble)
        edit = {"changes": [{"key": "form.segments", "text": "12"}], "revision": 0}
        found = quick_page.post("/api/change", json=edit).json()["fast"]
        assert found["drawing"] is None
        assert [one["code"] for one in found["findings"]] == ["fault"]
    assert quick_page.post("/api/step", json={"step": "undo"}).json()["fast"]["drawing"] is not None


def test_without_3d_the_form_comes_as_a_picture(quick_page):
    answer = quick_page.get("/api/picture")
    assert answer.headers["content-type"] == "image/png"
    assert answer.content.startswith(b"\x89PNG")


def test_the_slow_half_comes_though_a_size_was_dragged_meanwhile(page):
    change = {"changes": [{"key": "form.outer_diameter", "mm": 252}]}
    assert page.post("/api/try", json=change).json()["drawing"]["pattern"]["width"] < 512
    state = page.get("/api/state").json()
    until = time.monotonic() + 120
    while state["slow"]["state"] == "working" and time.monotonic() < until:
        answer = page.get(f"/api/state?after={state['tick']}")
        state = answer.json() if answer.status_code == 200 else state
    assert state["slow"]["state"] == "done"
    assert {jig["code"] for jig in state["slow"]["jigs"]} >= {"SW"}
    assert [table["id"] for table in state["slow"]["tables"]] == ["cut-list", "wood"]


@pytest.mark.parametrize("name", ["quoit", "tumbler"])
def test_fields_of_a_job_in_inches_name_no_millimetre(name):
    file = CONFIGS / f"{name}.toml"
    reading = read(file.read_text("utf-8"), file)
    fields = fields_of(reading.source, reading.form, reading.unit)
    assert reading.unit == "in"
    fields = [one for one in fields if one.key != "unit"]  # which chooses between the two
    assert [one.key for one in fields if re.search(r"\bmm\b|millimet", f"{one.help} {one.without}")] == []


def test_the_flat_with_the_least_wood_is_found_where_the_form_comes_nearest():
    """Against points of the form and its allowance within one wedge, held against each flat of its ring."""
    file = CONFIGS / "garland.toml"
    text = file.read_text("utf-8")
    blank = shaped(load(file)).blank
    for across in (2 * blank.apothem - 1, 2 * blank.apothem + 3):
        reading = read(text.replace("[form]", f"[form]\nring_across_flats = {across}"), file)
        shape = shaped(reading.job)
        [flat] = [one for one in fast(reading).verdicts if one.id == "flat"]
        form, ring = reading.job.form, shape.blank
        phi = np.linspace(-ring.half_wedge, ring.half_wedge, 101)[:, None]
        around = np.linspace(-math.pi, math.pi, 2881)
        reach = form.tube_radius + form.turning_allowance
        out, up = (
            (form.major_radius + reach * np.cos(around)) * np.cos(phi) - ring.centre,
            reach * np.sin(around),
        )
        x, y = flat.at[0] - ring.centre, flat.at[1]
        assert math.hypot(x, y) == pytest.approx(ring.apothem)
        normals = [-math.pi / 2 + 2 * math.pi * k / ring.segments for k in range(ring.segments)]
        left = [ring.apothem - np.max(out * math.cos(a) + up * math.sin(a)) for a in normals]
        assert flat.value == pytest.approx(min(left), abs=1e-3)
        here = ring.apothem - np.max((out * x + up * y) / ring.apothem)
        assert here == pytest.approx(min(left), abs=1e-3)
        assert flat.ok == (across > 2 * blank.apothem)


def test_a_ring_too_tall_for_the_saw_is_told_at_that_ring_as_the_plan_refuses_it(tmp_path):
    job = with_saw(CONFIGS / "sorrel.toml", tmp_path, 30)
    [height] = [one for one in fast(read(job.read_text("utf-8"), job)).verdicts if one.id == "saw-height"]
    with pytest.raises(Refused) as refused:
        solve(load(job))
    [finding] = [one for one in refused.value.findings if one.code == "strip-too-thick"]
    assert height.value == finding.wants["saw.blade_height"]
    assert (height.ok, height.stops) == (False, True)
    number = int(re.search(r"ring (\d+)", height.label)[1])
    ring = shaped(load(job)).stack.layers[number - 1].ring
    assert ring.bottom < height.at[1] < ring.top
    assert height.at[0] == ring.outer


def with_saw(file, folder, height):
    """A job on a saw that stands no higher, mm."""
    shed = (CONFIGS / "shed.toml").read_text("utf-8")
    lower, count = re.subn(r"blade_height = .*", f"blade_height = {height}", shed)
    assert count == 1
    (folder / "shed.toml").write_text(lower, "utf-8")
    (folder / file.name).write_text(file.read_text("utf-8"), "utf-8")
    return folder / file.name


def test_boards_that_are_too_thin_are_told_but_stop_nothing():
    file = CONFIGS / "sorrel.toml"
    stock = '[stock]\nboards = [{ species = "walnut", thickness = 15 }]\n'
    reading = read(f"{file.read_text('utf-8')}\n{stock}", file)
    [board] = [one for one in fast(reading).verdicts if one.id == "stock"]
    assert (board.ok, board.stops) == (False, False)
    assert "walnut" in board.label
    assert board.at is not None
    assert solve(reading.job).wood.lots  # which are bought then
