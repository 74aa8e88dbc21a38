"""Jigs on the page: each with its drawing, and files that are what a make writes."""

import io
import zipfile

import numpy as np
import pytest
from stl import mesh

from jigs.asked.jobfile import load
from jigs.sets.rack import prove
from tests.page.asking import until


@pytest.fixture(scope="module")
def drawn(kept_page):
    state = until(kept_page, lambda state: "pictures" in state["pieces"])
    return {one["code"]: one for one in state["slow"]["jigs"]}


def test_every_jig_has_its_drawing_and_its_file(kept_page, kept_job, drawn):
    pictures = kept_page.get("/api/pieces/pictures").json()
    assert all(f"drawing.{one['name']}" in pictures for one in drawn.values())
    assert all((one["hours"] is not None) == (one["process"] == "print") for one in drawn.values())

    everything = zipfile.ZipFile(io.BytesIO(kept_page.get("/api/files/all").content))
    parts = {part.name: part for part in prove(load(kept_job)).parts}
    assert len(everything.namelist()) == len(parts) == len(drawn)
    printed = zipfile.ZipFile(io.BytesIO(kept_page.get("/api/files/print").content))
    assert set(printed.namelist()) == {name for name in everything.namelist() if name.startswith("print/")}

    answer = kept_page.get("/api/files/CO")
    assert 'filename="garland_coupon.stl"' in answer.headers["content-disposition"]
    coupon = mesh.Mesh.from_file("coupon.stl", fh=io.BytesIO(answer.content))
    x0, y0, x1, y1 = parts["coupon"].outline.bounds
    assert np.allclose((coupon.max_ - coupon.min_)[:2], (x1 - x0, y1 - y0), atol=0.01)


NO_JIGS = ["XX", "..", "%2e%2e", "coupon", "garland_coupon.stl", "CO/..", "%2fetc%2fpasswd"]


def test_a_file_is_had_by_a_jigs_code_alone(kept_page, drawn):
    for wanted in NO_JIGS:
        assert kept_page.get(f"/api/files/{wanted}").status_code == 404, wanted
        assert kept_page.get(f"/api/pieces/{wanted}").status_code == 404, wanted
