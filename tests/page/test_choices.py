"""Choices compared for the page: what may be asked, and that they end when they are unwanted or stale."""

import pytest

from jigs.asked.jobfile import load
from jigs.page.choices import BadWish, wish_of
from tests.conftest import CONFIGS
from tests.page.asking import until

FAST_ONLY = True  # choices come from a process of their own
WISH = {"by": "time", "rings": [16, 20], "segments": [8, 10], "revision": 0}


def test_choices_are_forgotten_when_the_job_changes_and_end_when_asked(page):
    assert page.post("/api/choices", json=WISH).json()["choices"]["state"] == "working"
    assert page.post("/api/choices-stop", json={}).json()["choices"]["state"] == "stopped"
    page.post("/api/choices", json=WISH)
    edit = {"changes": [{"key": "form.outer_diameter", "text": "260"}], "revision": 0}
    assert page.post("/api/change", json=edit).json()["choices"]["state"] == "none"
    assert page.post("/api/choices", json=WISH).status_code == 409


def test_choices_keep_the_order_asked_for_and_are_of_the_boards_named(page):
    page.post("/api/choices", json=WISH | {"by": "cuts", "boards": "22, 26"})
    found = until(page, lambda state: state["choices"]["state"] == "done")["choices"]
    cuts = found["labels"].index("Cuts on the sleds")
    told = [int(one["cells"][cuts]) for one in found["best"]]
    assert told == sorted(told)
    assert len(told) > 1
    boards = {one["cells"][found["labels"].index("Board, as planed")] for one in found["best"]}
    assert boards & {"22.0 mm", "26.0 mm"}  # beside the depth that the job itself has
    assert all(len(one["cells"]) == len(found["labels"]) == len(found["own"]) for one in found["best"])


def test_layups_and_boards_are_asked_for_as_the_command_takes_them():
    job = load(CONFIGS / "trellis.toml")
    found = wish_of({"by": "wood", "boards": "22, 3/4 in", "layups": "none, both"}, job)
    assert found == {"by": "wood", "boards": "22, 3/4 in", "layups": "none, both"}
    assert wish_of({"by": "wood", "boards": " ", "layups": ""}, job) == {"by": "wood"}
    with pytest.raises(BadWish):
        wish_of({"by": "wood", "layups": "sideways"}, job)


@pytest.mark.parametrize(
    "wrong",
    [{"by": "cost; rm"}, {"by": None}, {"rings": [7, 9]}, {"rings": [20, 16]}, {"segments": [6, 10_000]},
     {"boards": "thin"}, {"boards": "-3"}, {"boards": 22}, {"boards": "2" * 300}, {"boards": "1e999"}, {"layups": 3},
     {"rings": "8-48"}, {"rings": [8]}, {"segments": [6.0, 8]}, {"segments": [True, 8]}],
    ids=str,
)  # fmt: skip
def test_what_cannot_be_compared_by_is_refused(kept_page, wrong):
    assert kept_page.post("/api/choices", json=WISH | wrong).status_code == 400
