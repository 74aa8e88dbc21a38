"""The demo with readings, as text beside its job."""

from pathlib import Path

from jigs.asked import toml_source
from jigs.asked.job import TorusJob
from jigs.asked.jobfile import job_of
from jigs.asked.toml_source import readings_file
from tests.conftest import CONFIGS


def with_readings(folder: Path, readings: str, name: str = "garland") -> Path:
    """Copies of the job and its workshop file, with a readings file of this text; the job's path."""
    for file in (f"{name}.toml", "shed.toml"):
        (folder / file).write_text((CONFIGS / file).read_text("utf-8"), "utf-8")
    job = folder / f"{name}.toml"
    readings_file(job).write_text(readings, "utf-8")
    return job


def read(folder: Path, readings: str, name: str = "garland") -> TorusJob:
    job = with_readings(folder, readings, name)
    found = job_of(toml_source.read(job), job)
    assert isinstance(found, TorusJob)
    return found
