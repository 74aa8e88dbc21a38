"""What each part is cut from, as the manifest and the names of the whole sheets tell it: as thick as it works with."""

from __future__ import annotations

import re
from pathlib import Path

from jigs.asked.job import Job
from jigs.dryfit.bench import SLACK
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, counted, near

ANY = ("sizes", "gauges")  # families whose plates may be of any thickness
OWN = ("brace-pad",)  # planed, or printed, to a thickness that the braces' checks go by
ROUNDED = {"mm": 0.006, "in": 0.0137}  # mm: two decimals of a mm, three of an inch, and the two of its parts
MM = {"mm": 1.0, "in": 25.4}
IN_NAME = re.compile(r"-([0-9.]+)(mm|in)-[0-9]+$")
OVER_RING = 14.0  # mm of an exit block over the ring that goes past it


def thickness_checks(job: Job, files: Files) -> list[Check]:
    """Every cut plate is as thick as the slots, stacks and grooves that it is for."""
    return [
        near(name, "thickness", files.thickness(name), _wanted(job, name), SLACK)
        for name, family in files.families.items()
        if name in files.cut_parts and family not in ANY and name not in OWN
    ]


def _wanted(job: Job, name: str) -> float:
    """Layers that are turned and what braces them are of board; runners go in the saw's slot; all else is of sheet."""
    shop = job.workshop
    if "-runner" in name:
        return shop.saw.slot_depth - shop.sled.runner_clearance
    return shop.boards.thickness if name.endswith("-layer") or name == "brace-strap" else shop.boards.sheet


def ring_stack_checks(files: Files, apothem: float) -> list[Check]:
    """The plates of each wedge reach past the ring's middle, those of the exit block past its top."""
    needs = {"sled-wedge": apothem, "end-wedge": apothem, "sled-exit-block": 2 * apothem + OVER_RING}
    return [
        Check(name, "its plates as a stack, over what is needed", _height(files, name) - high, 0.0)
        for name, high in needs.items()
        if files.has(name)
    ]


def _height(files: Files, name: str) -> float:
    return files.quantities.get(name, 0) * files.plate(name).thickness


def off_sheet(sheet: Path, alike: list[list[str]], files: Files) -> Check:
    """How far the parts on a whole sheet are from its thickness, which is in its name.

    `alike` are for each piece on it the parts that it may be.
    """
    where, told = f"sheets/{sheet.name}", IN_NAME.search(sheet.stem)
    if told is None:
        return counted(where, "thickness in its name", 0, 1)
    thick, unit = float(told[1]) * MM[told[2]], told[2]
    off = [min(abs(files.thickness(name) - thick) for name in names) for names in alike if names]
    return Check(where, "parts of another thickness on it, off by", max(off, default=0.0), most=ROUNDED[unit])
