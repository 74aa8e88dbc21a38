"""Processes of the page's own: one stands still while something is dragged, and goes on afterwards; one that works at
what a change has made stale ends.
"""

import asyncio
import os
import subprocess
import sys
from asyncio.subprocess import PIPE
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from pathlib import Path

import pytest

from jigs.page import process, slow_half
from jigs.page.making import Maker
from jigs.page.process import Rest, kill
from jigs.page.slow_half import SlowHalf

COUNTS = (
    "import itertools, time\nfor k in itertools.count():\n    print(k, flush=True)\n    time.sleep(0.001)"
)
STATE = Path("/proc/self/stat")

pytestmark = pytest.mark.skipif(not STATE.exists(), reason="no /proc tells whether a process stands still")


async def counting():
    return await asyncio.create_subprocess_exec(sys.executable, "-c", COUNTS, stdout=PIPE, process_group=0)


def stands_still(pid):
    return Path(f"/proc/{pid}/stat").read_text("utf-8").rpartition(") ")[2][0] == "T"


async def until(reached):
    for _ in range(3000):
        if reached():
            return
        await asyncio.sleep(0.01)
    raise AssertionError("it never came to that")


def run(told):
    """In a thread of its own: in this one the browser's may be."""
    with ThreadPoolExecutor(1) as threads:
        threads.submit(asyncio.run, told).result()


def test_it_rests_and_goes_on_by_itself(monkeypatch):
    monkeypatch.setattr(process, "RESTED", 0.2)

    async def told():
        one = await counting()
        await one.stdout.readline()
        rest = Rest(one)
        for _ in range(3):
            rest.begin()
        await until(lambda: stands_still(one.pid))
        await until(lambda: not stands_still(one.pid))
        last = int(await one.stdout.readline())
        assert int(await one.stdout.readline()) == last + 1
        rest.forget()
        kill(one)
        await one.communicate()
        rest.begin()  # of one that is gone

    run(told())


LEFT = """
import asyncio, os, signal
from jigs.page.process import Rest, begun
async def run():
    one = await begun("jigs.page.slow_child")
    Rest(one).begin()
    while open(f"/proc/{one.pid}/stat").read().rpartition(") ")[2][0] != "T":
        await asyncio.sleep(0.01)
    print(one.pid, flush=True)
    os.kill(os.getpid(), signal.SIGKILL)
asyncio.run(run())
"""


def test_one_that_rests_when_its_server_is_killed_does_not_stay_behind():
    server = subprocess.run(
        [sys.executable, "-c", LEFT], stdout=subprocess.PIPE, start_new_session=True, check=False
    )
    assert server.returncode == -9
    left = Path(f"/proc/{int(server.stdout)}/stat")
    run(until(lambda: not left.exists() or left.read_text("utf-8").rpartition(") ")[2][0] in "ZX"))


def test_one_that_rests_can_be_ended():
    async def told():
        one = await counting()
        rest = Rest(one)
        rest.begin()
        await until(lambda: stands_still(one.pid))
        rest.forget()
        kill(one)
        await one.communicate()
        assert one.returncode == -9

    run(told())


def begun_here():
    """Processes that this one has begun for the slow half."""
    found = set()
    for place in Path("/proc").glob("[0-9]*"):
        with suppress(OSError):
            parent = int((place / "stat").read_text("utf-8").rpartition(") ")[2].split()[1])
            if parent == os.getpid() and b"jigs.page.slow_child" in (place / "cmdline").read_bytes():
                found.add(int(place.name))
    return found


def test_work_that_a_change_makes_stale_is_ended(page):
    run(until(begun_here))
    (first,) = begun_here()
    edit = {"changes": [{"key": "form.outer_diameter", "text": "260"}], "revision": 0}
    assert page.post("/api/change", json=edit).json()["slow"]["state"] == "working"
    run(until(lambda: begun_here() - {first}))
    assert len(begun_here()) == 1


def test_a_process_loads_ahead_of_its_order_and_an_edit_meanwhile_does_not_end_it(monkeypatch):
    monkeypatch.setattr(slow_half, "PAUSE", 0.0)
    monkeypatch.setattr(slow_half, "LOADED", 1e6)

    async def told():
        half = SlowHalf(dict, asyncio.sleep)
        work = asyncio.create_task(half.run())
        await until(begun_here)
        await half.worker.begin()  # it has begun altogether
        first = begun_here()
        monkeypatch.setattr(slow_half, "LOADED", 0.0)
        ordered = asyncio.Event()
        half._order = lambda: ordered.set() or {}
        half.again()
        await ordered.wait()
        assert begun_here() == first
        work.cancel()
        await asyncio.wait([work])
        await half.worker.gone()

    run(told())


class Lingering:
    """In a worker's place: its process needs a while to end."""

    def __init__(self):
        self.works, self.ends = asyncio.Event(), asyncio.Event()

    async def begin(self):
        pass

    async def answers(self, order):
        self.works.set()
        try:
            await asyncio.sleep(60)
            yield order
        finally:
            self.ends.set()
            await asyncio.sleep(0.1)


def test_a_page_that_closes_while_stale_work_is_ending_closes(monkeypatch):
    monkeypatch.setattr(slow_half, "PAUSE", 0.0)
    monkeypatch.setattr(slow_half, "LOADED", 0.0)

    async def told():
        half = SlowHalf(dict, asyncio.sleep)
        half.worker = worker = Lingering()
        work = asyncio.create_task(half.run())
        await worker.works.wait()
        half.again()
        await worker.ends.wait()
        work.cancel()
        done, _ = await asyncio.wait([work], timeout=5)
        assert done

    run(told())


@pytest.mark.parametrize("turns", range(6))
def test_a_make_that_is_stopped_as_it_begins_says_that_it_is_stopped(tmp_path, turns):
    """After so many turns of the loop: its process has not begun, or just has."""
    states = []

    async def told():
        maker = Maker(tmp_path)

        async def tell():
            states.append(maker.record.state)

        maker.begin("", tmp_path / "loop.toml", "loop", tell, lean=False, solids=False)
        await asyncio.sleep(0)
        for _ in range(turns):
            await asyncio.sleep(0.002)
        await maker.stop()

    run(told())
    assert states == ["stopped"]
