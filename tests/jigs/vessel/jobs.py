"""Vessels of many kinds, as job files."""

from functools import cache

from jigs.asked.jobfile import parse
from jigs.asked.vessel_job import VesselJob
from jigs.forms.solve import solve
from jigs.plans.vessel import VesselPlan

STATIONS = {
    "vase": [[0, 70], [12, 74], [60, 132], [110, 148], [150, 118], [180, 96]],
    "bowl": [[0, 80], [20, 130], [60, 210], [95, 250]],
    "platter": [[0, 140], [14, 220], [30, 300]],
    "bottle": [[0, 64], [40, 110], [90, 120], [140, 84], [175, 56], [200, 60]],
    "cup": [[0, 40], [30, 48], [70, 60]],
}
WALLS = {"vase": 7, "bowl": 8, "platter": 8, "bottle": 7, "cup": 7}
# What a bolt through segments, and the tailstock on so wide a disc, press on.
FLOORS = {"bowl": 14, "platter": 12}
PLAIN = 'heights = 20\nsegments = 12\nspecies = "maple"'
RINGS = {
    "vase": PLAIN,
    "bowl": 'heights = [25, 20]\nsegments = [12, 16]\nspecies = ["ash", ["ash", "walnut"]]\nbase = "segmented"',
    "platter": 'heights = 20\nsegments = 24\nspecies = "cherry"\nturn = 0\nbase = "solid"',
    "bottle": 'heights = 19\nsegments = [8, 12, 12, 16]\nspecies = "beech"\nspacer = 2\nspacer_species = "walnut"',
    "cup": 'heights = 12\nsegments = 9\nspecies = "maple"',
    "open": 'heights = 16\nsegments = 8\nspecies = "maple"\ngap = 5',
    "staved": PLAIN + "\n[staves]\nlow = 45\nhigh = 95\ncount = 16",
}
HELD = {"open": '[reversing]\nhold = "none"'}  # no push holds those
SHAPES = {"open": "vase", "staved": "vase"}
JOBS = (*RINGS,)


def text(name: str, unit: str = "mm", more: str = "") -> str:
    """The job file of one of JOBS; `more` stands at its end."""
    shape = SHAPES.get(name, name)
    lengths = [[f"{z} mm", f"{d} mm"] for z, d in STATIONS[shape]]
    return (
        f'title = "{name.title()}"\nunit = "{unit}"\n[profile]\nstations = {lengths}\n'
        f'[wall]\nthickness = "{WALLS[shape]} mm"\nfloor = "{FLOORS.get(shape, 9)} mm"\n'
        f"[rings]\n{_in_mm(RINGS[name])}\n{more}\n" + ("" if "[reversing]" in more else HELD.get(name, ""))
    )


def _in_mm(rings: str) -> str:
    """Lengths name their unit, so that the job's own is free."""
    lines = []
    for line in rings.split("\n"):
        key, _, value = line.partition(" = ")
        if key in ("heights", "spacer", "gap", "low", "high"):
            numbers = value.strip("[]").split(", ")
            value = (
                "[" + ", ".join(f'"{number} mm"' for number in numbers) + "]"
                if "[" in value
                else f'"{value} mm"'
            )
        lines.append(f"{key} = {value}" if value else line)
    return "\n".join(lines)


def job(name: str, unit: str = "mm", more: str = "") -> VesselJob:
    """One of JOBS, as read."""
    read = parse(text(name, unit, more), f"{name}.toml")
    assert isinstance(read, VesselJob)
    return read


@cache
def planned(name: str, unit: str = "mm", more: str = "") -> VesselPlan:
    """One of JOBS, solved once in a process."""
    return solve(job(name, unit, more))
