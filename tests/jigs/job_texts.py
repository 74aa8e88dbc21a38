"""A sound job as text, changed line by line, and what is found in it."""

from __future__ import annotations

from pathlib import Path

import pytest

from jigs.asked.jobfile import parse
from jigs.words.findings import Refused

CONFIGS = Path(__file__).parents[2] / "configs"
ROOT = CONFIGS.parent
EXAMPLES = sorted(path for path in CONFIGS.glob("*.toml") if path.name != "shed.toml")

SOUND = """\
[form]
outer_diameter = 250
tube_diameter = 54
wedge_rings = 18
segments = 8
core_opening = 20
"""


def findings(text, path="job.toml"):
    with pytest.raises(Refused) as caught:
        parse(text, path)
    return caught.value.findings


def only(text, path="job.toml"):
    (finding,) = findings(text, path)
    return finding


def with_line(line, table="form"):
    return SOUND + (line if table == "form" else f"[{table}]\n{line}") + "\n"


def without(key):
    return "".join(line for line in SOUND.splitlines(keepends=True) if not line.startswith(key))
