"""A set is swapped in whole: killed, hindered or twice at once, one whole set stands."""

from __future__ import annotations

import os
import shutil
import signal
import sys
from multiprocessing import get_context

import pytest

from jigs.asked.jobfile import load
from jigs.sets.make import make
from jigs.sets.swap import only_one
from jigs.words.findings import Refused
from tests.jigs.making.sets import assert_whole, changed, contents, leftovers, manifest, refusal

TOUCHED = {
    "open",
    "os.mkdir",
    "os.rename",
    "os.remove",
    "os.rmdir",
    "ctypes.dlsym",
}  # the last before an exchange
FORKED = get_context("fork")  # knows what this process has solved and written
EXCHANGE = ("ctypes.dlsym", "renameat2")


def make_alone(job_file, root, dies_after, seen):
    """Killed as it touches so many files after `.new` is made or, if that is negative, after its exchange; tells what
    it touched if it lives."""
    touched = []

    def count(event, about):
        if event in TOUCHED and (touched or str(about[0]).endswith(".new")):
            touched.append((event, str(about[-1])))
            since = touched[touched.index(EXCHANGE) :] if EXCHANGE in touched else []
            if len(touched) == dies_after or len(since) == -dies_after:
                os.kill(os.getpid(), signal.SIGKILL)

    sys.addaudithook(count)
    make(load(job_file), root)
    seen.put(touched)


def test_killed_at_any_moment_one_whole_set_stands_and_the_next_make_succeeds(job_file, standing, tmp_path):
    """Each in a process of its own."""
    seen = FORKED.SimpleQueue()
    shutil.copytree(standing, tmp_path / "counted")
    shutil.copytree(standing, tmp_path / "known")
    make(load(changed(job_file)), tmp_path / "known")
    counted = FORKED.Process(target=make_alone, args=(job_file, tmp_path / "counted", 0.5, seen))
    counted.start()
    touched = seen.get()
    counted.join()
    assert_whole(tmp_path / "counted" / "garland")
    before, after = touched.index(EXCHANGE), len(touched) - touched.index(EXCHANGE)
    assert min(before, after) > 50, "files are written before, and the old ones deleted after"
    for dies_after in (2, before // 2, -1, -4, -after // 2):
        old = manifest(standing / "garland")
        if dies_after == -after // 2:  # the other set stands since the one before
            changed(job_file, "tube_diameter = 55", "tube_diameter = 54")
        process = FORKED.Process(target=make_alone, args=(job_file, standing, dies_after, seen))
        process.start()
        process.join()
        assert process.exitcode == -signal.SIGKILL
        assert_whole(standing / "garland")
        assert (manifest(standing / "garland")["files"] == old["files"]) == (dies_after >= -1), dies_after
    make(load(job_file), standing)
    assert_whole(standing / "garland")
    assert leftovers(standing) == []


def test_a_set_moved_aside_by_a_killed_run_comes_back(job_file, standing):
    """Where folders cannot be exchanged in one step, a kill may fall between two renames."""
    (standing / "garland").rename(standing / ".garland.old")
    (standing / ".garland.old" / "mine.txt").write_text("keep", "utf-8")
    make(load(job_file), standing)
    assert_whole(standing / "garland")
    assert (standing / "garland" / "mine.txt").read_text("utf-8") == "keep"
    assert leftovers(standing) == []


def test_without_an_exchange_in_one_step_the_set_is_swapped_by_way_of_another_name(
    job_file, standing, monkeypatch
):
    monkeypatch.setattr("jigs.sets.swap._exchanged", lambda one, other: False)
    make(load(changed(job_file)), standing)
    assert_whole(standing / "garland")
    assert leftovers(standing) == []


def test_when_one_make_is_at_work_another_is_refused(job_file, standing):
    before = contents(standing / "garland")
    with only_one(standing, "garland"), pytest.raises(Refused) as caught:
        make(load(changed(job_file)), standing)
    assert "another make" in refusal(caught, "busy")
    assert contents(standing / "garland") == before
    assert not make(load(job_file), standing).unchanged


def make_or_tell(job_file, root, told):
    """Puts into `told` whether it has made the set, or why not."""
    try:
        told.put("made" if make(load(job_file), root) else "")
    except Refused as refused:
        told.put(str(refused))


def test_two_at_once_leave_one_whole_set(job_file, standing):
    changed(job_file)
    told = FORKED.SimpleQueue()
    both = [FORKED.Process(target=make_or_tell, args=(job_file, standing, told)) for _ in range(2)]
    for process in both:
        process.start()
    for process in both:
        process.join()
    assert [process.exitcode for process in both] == [0, 0]
    said = [told.get(), told.get()]
    assert "made" in said
    assert all(one == "made" or "another make" in one for one in said)
    assert_whole(standing / "garland")
