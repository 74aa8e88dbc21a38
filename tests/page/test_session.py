"""Changes reach the file, and never over a change of it that was not seen."""

import tomllib

import pytest

from jigs.page.session import DiskChanged, Session

FAST_ONLY = True


def edit(page, *changes, revision=None):
    state = page.get("/api/state").json()
    revision = state["revision"] if revision is None else revision
    return page.post("/api/change", json={"changes": list(changes), "revision": revision})


def test_a_change_keeps_the_files_comments_and_order(page, job):
    before = job.read_text("utf-8")
    answer = edit(page, {"key": "form.outer_diameter", "text": "10 1/4 in"})
    assert answer.status_code == 200
    assert job.read_text("utf-8") == before.replace("= 250", '= "10 1/4 in"')
    handle = answer.json()["fast"]["drawing"]["section"]["handles"][0]
    assert handle["x"] == pytest.approx(10.25 * 25.4 / 2)


def test_a_key_that_was_not_stated_is_added_and_taken_out_again(page, job):
    before = tomllib.loads(job.read_text("utf-8"))
    edit(page, {"key": "saw.kerf", "mm": 2.5})
    assert tomllib.loads(job.read_text("utf-8"))["saw"] == {"kerf": 2.5}
    edit(page, {"key": "saw.kerf", "text": ""})
    after = tomllib.loads(job.read_text("utf-8"))
    assert after.pop("saw", {}) == {}
    assert after == before


def test_undo_and_redo_write_the_file(page, job):
    before = job.read_bytes()
    edit(page, {"key": "form.segments", "text": "12"})
    after = job.read_bytes()
    undone = page.post("/api/step", json={"step": "undo"}).json()
    assert (undone["can_undo"], undone["can_redo"]) == (False, True)
    assert job.read_bytes() == before
    page.post("/api/step", json={"step": "redo"})
    assert job.read_bytes() == after


def test_a_value_that_cannot_be_read_is_not_written(page, job):
    before = job.read_bytes()
    answer = edit(page, {"key": "form.segments", "text": "11"})
    assert answer.status_code == 422
    assert "11 is odd" in answer.json()["findings"][0]["text"]
    assert job.read_bytes() == before


def test_what_is_tried_is_not_written(page, job):
    before = job.read_bytes()
    tried = page.post("/api/try", json={"changes": [{"key": "form.outer_diameter", "mm": 300}]}).json()
    assert tried["drawing"]["section"]["handles"][0]["x"] == 150
    assert job.read_bytes() == before
    assert page.get("/api/state").json()["fast"]["drawing"]["section"]["handles"][0]["x"] == 125


def test_a_change_on_disk_is_not_overwritten(page, job):
    other = job.read_text("utf-8").replace("segments = 10", "segments = 12 # by another hand")
    revision = page.get("/api/state").json()["revision"]
    job.write_text(other, "utf-8")
    answer = edit(page, {"key": "form.outer_diameter", "text": "260"}, revision=revision)
    assert answer.status_code == 409
    assert job.read_text("utf-8") == other
    state = page.get("/api/state").json()
    assert state["text"] == other
    assert "changed on disk" in state["news"]
    assert edit(page, {"key": "form.outer_diameter", "text": "260"}).status_code == 200
    assert "segments = 12 # by another hand" in job.read_text("utf-8")


def test_a_change_on_disk_is_shown_by_itself(page, job):
    tick = page.get("/api/state").json()["tick"]
    job.write_text(job.read_text("utf-8").replace("Garland", "Other"), "utf-8")
    while (state := page.get(f"/api/state?after={tick}").json())["title"] != "Other":
        tick = state["tick"]


def test_a_change_from_another_tab_is_not_overwritten(page):
    assert edit(page, {"key": "form.segments", "text": "12"}, revision=0).status_code == 200
    assert edit(page, {"key": "form.segments", "text": "14"}, revision=0).status_code == 409


def test_a_file_that_is_gone_is_put_back_only_when_asked(page, job):
    text = job.read_bytes()
    job.unlink()
    assert edit(page, {"key": "form.segments", "text": "12"}).status_code == 409
    state = page.get("/api/state").json()
    assert state["disk"] == "gone"
    assert not job.exists()
    assert page.post("/api/step", json={"step": "put-back"}).json()["disk"] == "same"
    assert job.read_bytes() == text


def test_a_file_that_came_back_is_not_overwritten_by_putting_it_back(job):
    session = Session(job)
    session.begin()
    job.unlink()
    session.look()
    job.write_text("another", "utf-8")
    with pytest.raises(DiskChanged):
        session.put_back()
    assert job.read_text("utf-8") == "another"


def test_a_text_of_the_same_length_is_told_apart(job):
    session = Session(job)
    session.begin()
    text = session.text.replace("250", "260")
    job.write_text(text, "utf-8")
    assert session.look()
    assert session.text == text


def test_comments_between_a_lists_entries_stay(job):
    from jigs.asked import toml_source
    from jigs.asked.edited import edited
    from jigs.page.edits import read_changes

    text = "[profile]\nstations = [ # from the foot\n  [0, 70],\n  [12, 74], # the waist\n]\n"
    change = [{"key": "profile.stations", "mm": 80, "place": [1, 1]}]
    changes = read_changes(change, toml_source.parse(text, "job.toml"), "mm")
    assert edited(text, changes) == text.replace("74", "80")


def test_a_file_that_is_just_being_written_anew_is_not_taken_for_an_empty_one(job):
    session = Session(job)
    session.begin()
    before = session.text
    job.write_text("", "utf-8")  # as most editors begin
    assert not session.look()
    job.write_text(before + "# more", "utf-8")
    assert session.look()
    job.write_text("", "utf-8")
    with pytest.raises(DiskChanged):
        session.keep(before)
    assert job.read_text("utf-8") == ""
    assert session.look()  # it stays empty
    session.undo()
    session.undo()
    assert job.read_text("utf-8") == before
