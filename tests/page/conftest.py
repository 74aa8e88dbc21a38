"""A job of its own, and its page: asked in process, or served to a browser."""

import os
import re
import shutil
import subprocess
import sys
import time
import tomllib
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import SimpleNamespace

import pytest
from playwright.sync_api import expect
from starlette.testclient import TestClient

from jigs.page.live import opened
from jigs.page.server import app_of
from tests.conftest import CONFIGS

PORT, TOKEN = 4711, "a-token-of-this-start"
HERE = {"host": f"127.0.0.1:{PORT}", "page-token": TOKEN}


@pytest.fixture
def job(tmp_path):
    return job_in(tmp_path)


def job_in(folder, name="garland"):
    """A job in a folder of its own, the torus's with a comment at a value."""
    text = (CONFIGS / f"{name}.toml").read_text("utf-8")
    text = text.replace("outer_diameter = 250", "outer_diameter = 250  # as wide as the door")
    pot = name.removesuffix("-lid")
    for beside in (CONFIGS / "shed.toml", *CONFIGS.glob(f"{name}.dxf"), *CONFIGS.glob(f"{pot}.toml")):
        shutil.copy(beside, folder)
    file = folder / f"{name}.toml"
    file.write_text(text, "utf-8")
    return file


@pytest.fixture
def page(request, job):
    """Its page, asked as the page itself asks; without jigs, wood and work in a file that says FAST_ONLY."""
    with asked(job, fast_only(request)) as client:
        yield client


@pytest.fixture
def quick_page(job):
    """Its page without what the slow half works out, in a file of which other tests look at that."""
    with asked(job, fast_only=True) as client:
        yield client


def fast_only(request):
    return getattr(request.module, "FAST_ONLY", False)


@contextmanager
def asked(job, fast_only=False):
    with pytest.MonkeyPatch.context() as patch:
        for (module, name), seconds in soon(fast_only).items():
            patch.setattr(f"jigs.page.{module}.{name}", seconds)
        with TestClient(app_of(opened(job, job.parent / "outputs"), PORT, TOKEN), headers=HERE) as client:
            yield client


def soon(fast_only):
    """Seconds that the page waits: what a test changes is soon seen, and worked out if at all."""
    return {
        ("live", "WATCH"): 0.1,
        ("slow_half", "PAUSE"): 1e6 if fast_only else 0.05,
        ("slow_half", "LOADED"): 0.0,
    }


@dataclass
class Served:
    address: str
    process: subprocess.Popen
    job: Path


COMMAND = """
from jigs.page import live, slow_half
from jigs.start import command
{seconds}
command()
"""


@contextmanager
def serving(job, fast_only=False):
    """The page of a job by the command itself; with `fast_only`, without jigs, wood and work."""
    waits = soon(fast_only).items()
    code = COMMAND.format(seconds="\n".join(f"{module}.{name} = {wait}" for (module, name), wait in waits))
    command = [
        sys.executable,
        "-c",
        code,
        "page",
        "--no-browser",
        "--into",
        str(job.parent / "outputs"),
        str(job),
    ]
    own = {**os.environ, "OPENBLAS_NUM_THREADS": "1"}  # which the command sets too late here
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=own) as process:
        yield Served(re.search(r"http\S+", process.stdout.readline())[0], process, job)
        process.kill()


expect.set_options(timeout=60_000)  # for what comes: how soon is no test's matter

DESK = {"viewport": {"width": 1280, "height": 800}, "device_scale_factor": 0.5}  # few pixels are soon drawn
FILES = ("garland", "sorrel")
SHOWS = """async (text) => {
  const { current } = await import("/web/store.js");
  await new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
  return current()?.state.text === text && !current().trying;
}"""


@pytest.fixture(scope="module")
def kept_job(tmp_path_factory):
    return job_in(tmp_path_factory.mktemp("page"))


@pytest.fixture(scope="module")
def kept_page(request, kept_job):
    """One for all tests of a file that leave its job as it was."""
    with asked(kept_job, fast_only(request)) as client:
        yield client


@pytest.fixture(scope="session")
def all_pages(chromium, tmp_path_factory):
    """A job's page, begun when first asked for, with a server and a tab for all tests."""
    with ExitStack() as running:

        @cache
        def begun(name, fast_only):
            server = running.enter_context(serving(job_in(tmp_path_factory.mktemp(name), name), fast_only))
            context = chromium.new_context(**DESK)
            running.callback(context.close)
            text = server.job.read_text("utf-8")
            one = SimpleNamespace(tab=context.new_page(), **vars(server), text=text, heard=[])
            one.tab.on("pageerror", lambda error: one.heard.append(str(error)))
            one.tab.goto(one.address)
            return one

        yield begun


@pytest.fixture
def pages(request, all_pages):
    """A torus's and a vessel's page; a file that looks at nothing which the slow half works out says FAST_ONLY."""
    return lambda name: all_pages(name, fast_only(request))


@pytest.fixture(params=FILES)
def either(request, pages):
    yield from anew(pages(request.param))


@pytest.fixture
def torus(pages):
    yield from anew(pages("garland"))


@pytest.fixture
def quick_torus(all_pages):
    """Its page without what the slow half works out, in a file of which other tests look at that."""
    yield from anew(all_pages("garland", True))


@pytest.fixture
def vessel(pages):
    yield from anew(pages("sorrel"))


def shows(tab, text):
    """Wait until the page shows this text's job."""
    until = time.monotonic() + 30
    while not tab.evaluate(SHOWS, text):
        assert time.monotonic() < until, "the page shows another job"


def anew(one):
    """The job as it was at first, and its sizes in sight; no script has stumbled in the end."""
    if (now := one.job.read_text("utf-8")) != one.text:
        shows(one.tab, now)  # what the test before has changed is not still to come
        one.job.write_text(one.text, "utf-8")
    shows(one.tab, one.text)
    one.tab.get_by_role("tab", name="Shape").click()
    expect(one.tab.locator(".handle").first).to_be_attached()
    yield one
    assert not one.heard


def stated(one):
    return tomllib.loads(one.job.read_text("utf-8"))


def middle(tab, name):
    box = tab.locator(f'[data-id="{name}"] .dot').bounding_box()
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def dragged(tab, name, dx, dy):
    x, y = middle(tab, name)
    tab.mouse.move(x, y)
    tab.mouse.down()
    tab.mouse.move(x + dx, y + dy, steps=4)
    with tab.expect_response("**/api/change"):
        tab.mouse.up()
