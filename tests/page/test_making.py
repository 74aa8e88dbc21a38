"""A set made from the page: as the command makes it, refused where that would surprise, ended when asked."""

import json

import pytest

from jigs.asked.jobfile import load
from jigs.files.manifest import made_from, sealed
from jigs.page.live import opened
from jigs.progress import silent_progress
from jigs.sets.only import make_only
from jigs.sets.rack import prove
from jigs.work.lean import left_out
from tests.page.asking import until


def begin(page, **wish):
    return page.post("/api/make", json={"revision": page.get("/api/state").json()["revision"], **wish})


def over(state):
    return state["make"]["state"] not in ("none", "working")


@pytest.fixture
def gauges(job):
    """Made before the page is opened."""
    return make_only(load(job), job.parent / "outputs", ["gauges"], silent_progress).folder


def test_a_set_is_made_and_what_a_change_does_to_the_rack_is_told(gauges, page, job):
    folder = job.parent / "outputs" / "garland"
    change = {"changes": [{"key": "form.tube_diameter", "text": "53"}], "revision": 0}
    page.post("/api/change", json=change)
    begin(page)
    seen = until(page, lambda state: state["make"]["done"] > 0)["make"]
    assert seen["done"] < seen["of"]
    assert seen["what"]
    assert begin(page).status_code == 409
    made = until(page, over)["make"]
    assert made["state"] == "made"
    assert made["folder"] == str(folder)
    assert made["files"] == len(json.loads((folder / "manifest.json").read_text("utf-8"))["files"])
    assert made_from(folder, load(job).sources)
    assert not made["stale"]
    wrong = next(one["lines"] for one in made["lists"] if "now wrong" in one["head"])
    assert any(line.startswith("hole-gauge") for line in wrong)
    until(page, lambda state: state["slow"]["measured"] and not state["slow"]["measured"]["wrong"])
    assert page.post("/api/step", json={"step": "undo"}).json()["make"]["stale"]


def test_a_make_that_is_stopped_leaves_the_old_set_and_nothing_beside_it(quick_page, job):
    root = job.parent / "outputs"
    (root / "garland").mkdir(parents=True)
    (root / "garland" / "mine.txt").write_text("kept", "utf-8")
    assert begin(quick_page, solids="yes").status_code == 400
    assert quick_page.post("/api/lean", json={"lean": 1}).status_code == 400
    assert quick_page.post("/api/lean", json={"lean": True}).json()["lean"]
    begin(quick_page)
    parts = prove(load(job)).parts
    making = until(quick_page, lambda state: state["make"]["done"] > 0)["make"]
    assert making["of"] == len(parts) - len(left_out(parts)) + 2 < len(parts)
    assert (root / ".garland.new").exists()
    assert quick_page.post("/api/make-stop", json={}).json()["make"]["state"] == "stopped"
    assert [file.name for file in root.iterdir() if file.is_dir()] == ["garland"]
    assert [file.name for file in (root / "garland").iterdir()] == ["mine.txt"]


def test_jigs_and_work_are_shown_as_a_lean_set_has_them(page, job):
    whole = until(page, lambda state: state["slow"]["state"] == "done")["slow"]["jigs"]
    assert page.post("/api/lean", json={"lean": True}).json()["slow"]["state"] == "working"
    state = until(page, lambda state: "work" in state["pieces"])
    lean = {one["code"] for one in state["slow"]["jigs"]}
    without = left_out(prove(load(job)).parts)
    assert without
    assert {one["code"] for one in whole} - lean == {one.code for one in without}
    told = page.get("/api/pieces/work").text
    assert "Use your own sled" in told
    assert not any(f'"name":"{one.name}"' in told for one in without)
    page.post("/api/lean", json={"lean": False})
    state = until(page, lambda state: state["slow"]["state"] == "done")
    assert state["slow"]["jigs"] == whole


@pytest.mark.parametrize("left", [[], ["sled"]])
def test_the_page_begins_as_the_last_set_was_made(job, left):
    folder = job.parent / "garland"
    folder.mkdir()
    made = {"jigs": "0", "left_out": left, "files": []}
    (folder / "manifest.json").write_text(sealed(made), "utf-8")
    assert opened(job, job.parent).state().lean == bool(left)


def test_a_change_that_the_page_has_not_seen_is_not_made(quick_page, job):
    revision = quick_page.get("/api/state").json()["revision"]
    job.write_text(job.read_text("utf-8") + "\n# by another hand\n", "utf-8")
    answer = quick_page.post("/api/make", json={"revision": revision})
    assert answer.status_code == 409
    assert quick_page.post("/api/make", json={"revision": revision}).status_code == 409
    assert not (job.parent / "outputs").exists()


def test_a_job_that_cannot_be_made_is_not_made(page, job):
    change = {"changes": [{"key": "saw.blade_height", "text": "10"}], "revision": 0}
    state = page.post("/api/change", json=change).json()
    answer = page.post("/api/make", json={"revision": state["revision"]})
    if answer.status_code == 200:  # the slow half did not know yet
        made = until(page, over)["make"]
        assert made["state"] == "refused"
        assert made["findings"]
    until(page, lambda state: state["slow"]["state"] == "refused")
    assert page.post("/api/make", json={"revision": state["revision"]}).status_code == 409
    assert not (job.parent / "outputs" / "garland").exists()
