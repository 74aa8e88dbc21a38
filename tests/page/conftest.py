"""A job of its own, and its page: asked in process, or served to a browser."""

import re
import shutil
import subprocess
import sys
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import sync_playwright
from starlette.testclient import TestClient

from jigs.page.live import opened
from jigs.page.server import app_of
from tests.conftest import CONFIGS

PORT, TOKEN = 4711, "a-token-of-this-start"
HERE = {"host": f"127.0.0.1:{PORT}", "page-token": TOKEN}


@pytest.fixture
def job(tmp_path):
    return job_in(tmp_path)


def job_in(folder):
    """A torus job in a folder of its own, with a comment at a value."""
    text = (CONFIGS / "garland.toml").read_text("utf-8")
    text = text.replace("outer_diameter = 250", "outer_diameter = 250  # as wide as the door")
    shutil.copy(CONFIGS / "shed.toml", folder)
    file = folder / "garland.toml"
    file.write_text(text, "utf-8")
    return file


@pytest.fixture
def page(job):
    """Its page, asked as the page itself asks."""
    with TestClient(app_of(opened(job, job.parent / "outputs"), PORT, TOKEN), headers=HERE) as client:
        yield client


@dataclass
class Served:
    address: str
    process: subprocess.Popen
    job: Path


@contextmanager
def serving(job):
    """The page of a job by the command itself."""
    command = [
        sys.executable,
        "-c",
        "from jigs.start import command; command()",
        "page",
        "--no-browser",
        "--into",
        str(job.parent / "outputs"),
        str(job),
    ]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        yield Served(re.search(r"http\S+", process.stdout.readline())[0], process, job)
        process.kill()


@pytest.fixture
def served(job):
    with serving(job) as found:
        yield found


ARGUMENTS = [
    "--no-sandbox",
    "--disable-background-networking",
    "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader",
]


@pytest.fixture(scope="session")
def chromium():
    where = shutil.which("chromium")
    if where is None:
        pytest.skip("chromium is not installed")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=where, args=ARGUMENTS)
        yield browser
        browser.close()
