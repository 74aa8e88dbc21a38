"""Which form a plan or a job is, is asked in one place: whoever has two ways to go names both to it."""

import re
from pathlib import Path

ROOT = Path(__file__).parents[2] / "jigs"
ASKED = re.compile(r"kind [!=]= \"(torus|vessel)\"|isinstance\([\w.]+, \(?Torus(Plan|Shape)\b|\[plan\.kind\]")
HERE = {ROOT / "plans" / "plan.py"}


def test_no_room_takes_a_plan_for_one_form_or_else_the_other():
    found = {path for path in ROOT.rglob("*.py") if ASKED.search(path.read_text("utf-8"))}
    assert found <= HERE


def test_the_one_place_is_found():
    assert all(re.search(r"kind == ", path.read_text("utf-8")) for path in HERE)
    assert ASKED.search('if plan.kind == "torus":')
    assert ASKED.search("isinstance(plan, TorusPlan)")
