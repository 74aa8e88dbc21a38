"""Every job in configs/, made once in a run of the tests."""

import gc
import os
import shutil
import tomllib
from contextlib import nullcontext, suppress
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest
from _pytest.runner import runtestprotocol
from hypothesis import control, core, settings
from hypothesis.internal.conjecture import providers

from jigs.asked.job import Job
from jigs.asked.jobfile import load
from jigs.files.sheets.bed_loads import BedLoad, bed_loads
from jigs.files.sheets.nesting import nest
from jigs.parts.part import Part
from jigs.sets.make import make
from jigs.words.file_names import of_job
from tests.examples import parts_of_example, solved_once
from tests.unset import blank_book, written_once

# In CI the same examples each time, so that a change is judged by itself; elsewhere new ones each run. No time
# limit anywhere: a busy machine is no fault. Of faults put into `geometry` on purpose nearly all that more examples
# find are found by 15; what takes more asks for them. `--hypothesis-profile=deep` looks longer.
settings.register_profile("ci", derandomize=True, deadline=None, max_examples=15)
settings.register_profile("elsewhere", deadline=None, max_examples=15)
settings.register_profile("deep", deadline=None, max_examples=300)
settings.load_profile("ci" if os.environ.get("CI") else "elsewhere")

# Numbers that stand in our own code are not tried again and again: to gather them takes a tenth of a property's time,
# and what is tried would change with every number in it.
providers._get_local_constants = lambda: providers._local_constants

# Nor are the generators that all share set anew for each example, a twentieth of its time: nothing draws from them.
core.deterministic_PRNG = nullcontext
control.deprecate_random_in_strategy = lambda *_: nullcontext()

# What is kept for all tests of a process fills its heap; looked through as often as usual it takes a tenth of a run.
gc.set_threshold(50_000, 20, 20)

# A process that a test starts need not compile all modules anew: it takes half a second.
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

# What a process frees it keeps for its next array, here and in all that are started: fetched anew each time, memory
# takes a twentieth of a run. Arrays are small: a pool of threads costs more than it gains, as in `jigs.start`. A
# process reads these as it begins, so in one of pytest's workers.
os.environ |= {"MALLOC_TOP_PAD_": "67108864", "MALLOC_MMAP_THRESHOLD_": "33554432"}  # bytes
os.environ["OPENBLAS_NUM_THREADS"] = "1"

CONFIGS = Path(__file__).parents[1] / "configs"
TABLES = {file: tomllib.loads(file.read_text("utf-8")).keys() for file in sorted(CONFIGS.glob("*.toml"))}
TORI = [file for file, tables in TABLES.items() if "form" in tables]
VESSELS = [file for file, tables in TABLES.items() if "profile" in tables]
JOBS = [*TORI, *VESSELS]
SHOWN = 0.005  # seconds: of what takes less pytest tells no time
WHOLE = {"render", "making", "test_extras.py"}


@dataclass(frozen=True)
class Rack:
    """A job's parts and the folder of their files."""

    job: Job
    folder: Path
    parts: tuple[Part, ...]

    def files(self, process: str) -> list[tuple[Part, Path]]:
        """The parts made by one process, each with its file."""
        suffix = "stl" if process == "print" else "dxf"
        chosen = [part for part in self.parts if part.process == process]
        return [(part, self._file(f"{process}/{part.name}.{suffix}")) for part in chosen]

    def sheets(self) -> list[tuple[Path, list[Part]]]:
        """Each whole sheet's file, and the parts on it, every copy."""
        sheets = nest(self.parts, self.job.workshop, self.job.unit)
        return [(self._file(sheet.file), [item.part for item in sheet.placed]) for sheet in sheets]

    def bed_loads(self) -> list[tuple[Path, BedLoad]]:
        return [(self._file(load.file), load) for load in bed_loads(self.parts, self.job.workshop.printer)]

    def _file(self, name: str) -> Path:
        return self.folder / of_job(self.job.name, name)


@pytest.fixture(scope="session")
def set_of(tmp_path_factory):
    """An example's job, and the folder of its set, made once in a run: what one process has made another copies.

    A test may change a file that it puts back as it was.
    """
    own = tmp_path_factory.getbasetemp()
    common = (own.parent if "PYTEST_XDIST_WORKER" in os.environ else own) / "sets"
    common.mkdir(exist_ok=True)

    @cache
    def set_of(name: str) -> tuple[Job, Path]:
        job, root = load(CONFIGS / f"{name}.toml"), tmp_path_factory.mktemp("outputs")
        if (common / name).exists():
            return job, shutil.copytree(common / name, root / name)
        with blank_book():
            folder = make(job, root).folder
        half = shutil.copytree(folder, tmp_path_factory.mktemp("half") / name)
        with suppress(OSError):  # another was quicker
            half.rename(common / name)
        return job, folder

    return set_of


@pytest.fixture(scope="session", params=JOBS, ids=[file.stem for file in JOBS])
def made(request, set_of):
    """The rack of one job; a test that asks for it runs for each."""
    job, folder = set_of(request.param.stem)
    return Rack(job, folder, parts_of_example(request.param.stem))


@pytest.fixture(scope="session")
def racks(set_of):
    """The racks of all jobs, for a program that takes long to start."""
    return [Rack(*set_of(file.stem), parts_of_example(file.stem)) for file in JOBS]


ARGUMENTS = [
    "--no-sandbox",
    "--disable-background-networking",
    "--disable-gpu",  # what stands in for it draws the form in 3D alone: all else is drawn sooner without
    "--use-angle=swiftshader",
    "--enable-unsafe-swiftshader",
]


@pytest.fixture(scope="session")
def chromium():
    """Debian's Chromium; the one that has no windows where it is installed, which opens a page in half the time.

    While it runs no other asyncio does in this thread.
    """
    from playwright.sync_api import sync_playwright

    where = shutil.which("chromium-headless-shell") or shutil.which("chromium")
    if where is None:
        pytest.skip("chromium is not installed")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=where, args=ARGUMENTS)
        yield browser
        browser.close()


@pytest.fixture(scope="session", autouse=True)
def solved_and_written_once():
    with written_once(), solved_once():
        yield


@pytest.fixture(scope="module", autouse=True)
def without_book(request):
    """Sets without their shop book, but for the rooms that look at it."""
    with nullcontext() if WHOLE & {*Path(request.module.__file__).parts} else blank_book():
        yield


FIRST = ("page/", "clients/", "jigs/test_solid", "jigs/test_step")


def pytest_configure(config):
    """Every other process reads the tests' files from the last: what one has compiled another need not, in a clone."""
    odd = int(os.environ.get("PYTEST_XDIST_WORKER", "gw0").removeprefix("gw")) % 2
    if odd and all(map(os.path.isdir, config.args)):
        files = {str(file) for folder in config.args for file in Path(folder).rglob("test_*.py")}
        config.args[:] = sorted(files, reverse=True)


@pytest.hookimpl(wrapper=True)
def pytest_collection_modifyitems(items):
    """The same order in all processes; what starts a browser or other programs or loads CadQuery comes first, so in
    one process, each of them once.
    """
    items.sort(key=lambda item: item.path.parts)
    yield
    items.sort(key=lambda item: _place(f"{item.path.parent.name}/{item.path.name}"))


def _place(file):
    return next((k for k, first in enumerate(FIRST) if file.startswith(first)), len(FIRST))


def pytest_runtest_protocol(item, nextitem):
    """Of a test that passes one report goes to the process that counts them; of its setup, where that takes long."""
    if "PYTEST_XDIST_WORKER" not in os.environ:
        return None
    for report in runtestprotocol(item, log=False, nextitem=nextitem):
        if report.when == "call" or not report.passed or report.duration > SHOWN:
            item.ihook.pytest_runtest_logreport(report=report)
    item.ihook.pytest_runtest_logfinish(nodeid=item.nodeid, location=item.location)
    return True


def pytest_collection_finish():
    """Garbage is looked for in what the tests make, not among the tests themselves."""
    gc.freeze()


def pytest_sessionfinish():
    """At its end pytest would look five times through all that is kept, seconds in which nothing is found."""
    gc.freeze()
