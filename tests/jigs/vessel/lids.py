"""A lid's job beside its pot's, each with some words put in place of others."""

from functools import cache

import pytest

from jigs.asked.jobfile import load
from jigs.forms.solve import solve
from jigs.stages.lid.solve import lid_plan
from jigs.words.findings import Refused
from tests.conftest import CONFIGS
from tests.examples import plan_of_example
from tests.jigs.vessel.held import blank_of

POT = (CONFIGS / "acorn.toml").read_text("utf-8")
LID = (CONFIGS / "acorn-lid.toml").read_text("utf-8")
WHOLE = ("heights = [20, 18]", "heights = 45")  # one disc, flange and all
REBATE = ("[rings]", "[rebate]\nwidth = 3\ndepth = 5\n\n[rings]")


def written(folder, lid=(), pot=()):
    """The pair in a folder of its own, each with some words put in place of others."""
    for name, text, changes in (("acorn", POT, pot), ("acorn-lid", LID, lid)):
        for old, new in changes:
            assert old in text
            text = text.replace(old, new)
        (folder / f"{name}.toml").write_text(text, "utf-8")
    (folder / "shed.toml").write_bytes((CONFIGS / "shed.toml").read_bytes())
    return folder / "acorn-lid.toml"


def plan_of(folder, lid=(), pot=()):
    return solve(load(written(folder, lid, pot)))


def lid_of(folder, lid=(), pot=()):
    """Its lid alone, which needs no saws, gauges, wood or holding."""
    job = load(written(folder, lid, pot))
    return lid_plan(job, *blank_of(job))


def refusal(folder, lid=(), pot=()):
    with pytest.raises(Refused) as caught:
        plan_of(folder, lid, pot)
    return {found.code: found for found in caught.value.findings}


@cache
def example():
    return plan_of_example("acorn-lid")
