"""The dry fit tells a part that is cut from the wrong sheet, and stacks of too few plates."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from jigs.dryfit.files import Files
from jigs.dryfit.sheets import sheet_checks
from jigs.dryfit.thickness import ring_stack_checks, thickness_checks
from jigs.dryfit.torus import dry_fit
from jigs.files.manifest import MANIFEST, sealed
from tests.jigs.set_files import in_set

CONFIGS = Path(__file__).parents[2] / "configs"


@pytest.fixture(scope="module")
def quoit(set_of):
    return set_of("quoit")


def with_row(quoit, part: str, change: Callable[[dict[str, Any]], None]) -> Files:
    """The set with one row of its manifest changed."""
    job, folder = quoit
    files = Files.of(job, folder)
    rows = json.loads(json.dumps(files._manifest))
    change(next(row for row in rows["files"] if row["part"] == part))
    files.__dict__["_manifest"] = rows
    return files


@pytest.mark.parametrize(
    ("part", "thick"),
    [("sled-fence", 17.6), ("sled-wedge", 9.0), ("retainer-layer", 11.9), ("sled-runner", 10.5)],
)
def test_a_part_of_another_thickness_than_it_works_with_is_told(quoit, part, thick):
    job, folder = quoit
    assert all(check.fits for check in thickness_checks(job, Files.of(job, folder)))
    files = with_row(quoit, part, lambda row: row.update(thickness=thick))
    assert [c.where for c in thickness_checks(job, files) if not c.fits] == [part]


@pytest.mark.parametrize("part", ["sled-wedge", "end-wedge", "sled-exit-block"])
def test_a_stack_short_of_plates_is_told(quoit, part):
    job, folder = quoit
    height = job.form.ring_across_flats or 2 * 24.678
    assert all(check.fits for check in ring_stack_checks(Files.of(job, folder), height / 2))
    short = with_row(quoit, part, lambda row: row.update(quantity=row["quantity"] - 2))
    assert [c.where for c in ring_stack_checks(short, height / 2) if not c.fits] == [part]


def test_parts_that_lie_on_a_sheet_of_another_thickness_are_told(quoit):
    job, folder = quoit
    board, sheet = in_set(folder, "sheets/board-0.693in-1.dxf"), in_set(folder, "sheets/sheet-0.469in-1.dxf")
    kept = board.read_bytes(), sheet.read_bytes()
    board.write_bytes(kept[1])
    sheet.write_bytes(kept[0])
    try:
        off = {
            c.where for c in sheet_checks(job, Files.of(job, folder)) if not c.fits and "thickness" in c.what
        }
        assert off == {"sheets/quoit_board-0.693in-1.dxf", "sheets/quoit_sheet-0.469in-1.dxf"}
    finally:
        board.write_bytes(kept[0])
        sheet.write_bytes(kept[1])


def test_a_manifest_that_tells_another_sheet_fails_the_whole_dry_fit(quoit):
    job, folder = quoit
    file = folder / MANIFEST
    kept = file.read_text(encoding="utf-8")
    rows = json.loads(kept)
    next(row for row in rows["files"] if row["part"] == "sled-jaw")["thickness"] = 6.0
    file.write_text(sealed(rows), encoding="utf-8")
    try:
        assert any(c.where == "sled-jaw" and c.what == "thickness" for c in dry_fit(job, folder).misfits)
    finally:
        file.write_text(kept, encoding="utf-8")
