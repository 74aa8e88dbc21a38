"""Sets of the demo: made, changed, compared, and the command that makes them."""

from __future__ import annotations

import hashlib
import json
import subprocess
import sys
from pathlib import Path

import pytest

from jigs.words.findings import Refused

ROOT = Path(__file__).parents[3]


def changed(job_file: Path, old: str = "tube_diameter = 54", new: str = "tube_diameter = 55") -> Path:
    text = job_file.read_text("utf-8")
    assert old in text
    job_file.write_text(text.replace(old, new), "utf-8")
    return job_file


def digest(file: Path) -> str:
    return hashlib.sha256(file.read_bytes()).hexdigest()


def manifest(folder: Path) -> dict:
    return json.loads((folder / "manifest.json").read_text("utf-8"))


def assert_whole(folder: Path) -> None:
    files = manifest(folder)["files"]
    assert len(files) > 20
    for entry in files:
        assert digest(folder / entry["file"]) == entry["sha256"], entry["file"]


def contents(folder: Path) -> dict[str, str]:
    return {file.relative_to(folder).as_posix(): digest(file) for file in folder.rglob("*") if file.is_file()}


def leftovers(root: Path) -> list[str]:
    return [file.name for file in root.iterdir() if ".new" in file.suffix or ".old" in file.suffix]


def refusal(caught: pytest.ExceptionInfo[Refused], code: str) -> str:
    assert [finding.code for finding in caught.value.findings] == [code]
    assert all(finding.remedy for finding in caught.value.findings)
    return str(caught.value)


def command(job_file: Path, root: Path) -> list[str]:
    """As a user runs it, but that what is typeset is not set."""
    return [sys.executable, "-m", "tests.unset", "make", str(job_file), "--into", str(root)]


def run(job_file: Path, root: Path, **options) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        command(job_file, root), cwd=ROOT, capture_output=True, text=True, check=False, timeout=60, **options
    )
