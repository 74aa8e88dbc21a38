"""Tests in other programs skip where the program is absent, or fail there if JIGS_NO_SKIP=1."""

import os
import shutil
import subprocess

import pytest


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item, call):
    report = yield
    if report.skipped and os.environ.get("JIGS_NO_SKIP") == "1":
        report.outcome = "failed"
        report.longrepr = f"{item.nodeid} was skipped, which JIGS_NO_SKIP=1 forbids: {call.excinfo.value}"
    return report


@pytest.fixture(scope="session")
def run():
    """Run a program; skip where it is absent, fail where it fails, return what it says."""

    def run(program, *arguments):
        if shutil.which(program) is None:
            pytest.skip(f"{program} is not installed")
        environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
        done = subprocess.run(
            [program, *map(str, arguments)], env=environment, stdin=subprocess.DEVNULL, timeout=120,
            capture_output=True, text=True, errors="replace",
        )  # fmt: skip
        assert done.returncode == 0, f"{program} {arguments}: {done.stdout}{done.stderr}"
        return done.stdout

    return run


@pytest.fixture(scope="session")
def torn():
    """Return a binary STL without its last triangle: what a mesh test must not let pass."""

    def torn(content):
        count = int.from_bytes(content[80:84], "little") - 1
        return content[:80] + count.to_bytes(4, "little") + content[84:-50]

    return torn
