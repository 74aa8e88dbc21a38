"""Work apart from the rest: what comes back of it, and what it leaves alone."""

import os
import sys
import threading

import pytest

from geometry.packing import columns
from jigs.forms.work import work
from jigs.render.html.page import book_html
from jigs.sets.shop_book import apart, book_pictures
from jigs.words.findings import Finding, Refused
from tests.examples import parts_of_example, plan_of_example

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="elsewhere it is a thread")


@pytest.fixture(autouse=True)
def _alone(monkeypatch):
    """Other threads are the test runner's, and take no part."""
    monkeypatch.setattr(threading, "active_count", lambda: 1)


def refuse():
    raise Refused([Finding("one", "no room", "make some"), Finding("two", "no time")])


def test_what_it_returns_comes_from_another_process():
    with apart(lambda: (os.getpid(), b"book")) as result:
        process, made = result()
    assert process != os.getpid()
    assert made == b"book"


def test_beside_other_threads_it_is_one_of_them(monkeypatch):
    monkeypatch.setattr(threading, "active_count", lambda: 2)
    with apart(os.getpid) as result:
        assert result() == os.getpid()


def test_every_finding_of_a_refusal_comes_back():
    with apart(refuse) as result, pytest.raises(Refused) as caught:
        result()
    assert [finding.remedy for finding in caught.value.findings] == ["make some", ""]


def test_a_fault_is_told_with_its_place():
    with apart(lambda: 1 // 0) as result, pytest.raises(RuntimeError, match=r"test_apart(.|\n)*ZeroDivision"):
        result()


def test_one_that_ends_without_a_word_is_a_fault():
    with apart(lambda: os._exit(3)) as result, pytest.raises(RuntimeError, match="ended"):
        result()


def test_it_holds_none_of_the_files_that_are_open(tmp_path):
    """A lock held in both would outlast a make that is killed."""
    with (
        (tmp_path / "lock").open("w") as lock,
        apart(lambda: os.fstat(lock.fileno())) as result,
        pytest.raises(RuntimeError, match="Bad file descriptor"),
    ):
        result()


def test_a_block_that_is_left_ends_it(monkeypatch):
    ended = []
    kill = os.kill
    monkeypatch.setattr(os, "kill", lambda process, signal: (ended.append(process), kill(process, signal)))
    with pytest.raises(KeyError), apart(threading.Event().wait):
        raise KeyError
    with pytest.raises(ProcessLookupError):
        kill(ended[0], 0)


def test_the_solver_refuses_to_work_there_rather_than_wait_for_ever():
    assert columns.silent_solver()
    with apart(columns.silent_solver) as result, pytest.raises(RuntimeError, match="in another process"):
        result()


@pytest.mark.parametrize("name", ["tumbler", "trellis"])
def test_the_shop_book_asks_no_solver(name, monkeypatch):
    plan, parts = plan_of_example(name), parts_of_example(name)
    told = work(plan, parts)
    monkeypatch.setattr(columns, "LOADED_IN", -1)
    with pytest.raises(RuntimeError, match="in another process"):
        columns.silent_solver()
    assert book_html(told, book_pictures(plan, parts))
