"""Torus job files by a plain random number generator: many counts, fits, makings, saws, layups."""

from __future__ import annotations

from math import cos, pi
from random import Random

from tests.sweep.tables import Tables, chance, tenth

SAWS = ("table saw", "bandsaw", "auto")
MAKINGS = {
    "gauges": ("print", "cut", "paper"),
    "sizes": ("print", "cut", "paper"),
    "angles": ("print", "cut", "paper"),
    "standing": ("print", "cut", "paper"),
    "holding": ("cut", "paper"),
    "pads": ("print", "cut"),
}


def torus(rng: Random) -> Tables:
    """A whole job, four of five sensible and on machines that are large enough."""
    sensible = rng.random() < 0.8
    outer = tenth(rng, 150 if sensible else 60, 900)
    allowance = tenth(rng, 1, 5)
    thickest = min(0.4 * outer, (outer - 70) / 2)
    tube = tenth(rng, 34, max(35, thickest)) if sensible else tenth(rng, 5, 0.6 * outer)
    tables: Tables = {
        "": {"title": "Hoop", "unit": rng.choice(["mm", "mm", "in"])},
        "form": _form(rng, outer, tube, allowance, sensible),
        "gauges": _gauges(rng, allowance),
        **_machines(rng, outer, tube, sensible),
    }
    if chance(rng, 6):
        tables["layup"] = layup(rng)
    if chance(rng, 4):
        tables["made"] = {name: rng.choice(ways) for name, ways in MAKINGS.items() if chance(rng, 3)}
    if "layup" not in tables and chance(rng, 4):
        tables["form"] |= strips(rng)
    return tables


def strips(rng: Random) -> dict[str, object]:
    """In some of its joints."""
    both = {"spacer": tenth(rng, 0.3, 4), "ring_spacer": tenth(rng, 0.3, 4)}
    return {name: both[name] for name in rng.choice([["spacer"], ["ring_spacer"], list(both)])}


def _form(rng: Random, outer: float, tube: float, allowance: float, sensible: bool) -> dict[str, object]:
    major = (outer - tube) / 2
    most = int(3.1 * major / 42) if sensible else 40  # long enough for the draw rod's plug
    rings = 2 * rng.randint(3, min(30, max(3, most)))
    bulge = major * (1 / cos(pi / rings) - 1)
    wall = tenth(rng, 2, max(2.1, tube / 6))
    widest = max(1.1, 0.9 * (tube - 2 * bulge - 2 * wall))
    core = tenth(rng, min(9.0, widest) if sensible else 1, widest)
    form: dict[str, object] = {
        "outer_diameter": outer,
        "tube_diameter": tube,
        "wedge_rings": rings,
        "segments": 2 * rng.randint(3, 14 if sensible else 40),
        "core_opening": core,
        "turning_allowance": allowance,
        "least_wall": wall,
    }
    if chance(rng, 3):
        form["tube_height"] = tenth(rng, 0.67 * tube, 1.49 * tube)
    if chance(rng, 3):
        form["lining"] = tenth(rng, 0, 3)
    if chance(rng, 5):
        form["ring_across_flats"] = round(tube + 2 * allowance + 2 * bulge + rng.uniform(-1, 8), 1)
    return form


def _gauges(rng: Random, allowance: float) -> dict[str, object]:
    stages = sorted({tenth(rng, 0.3, allowance) for _ in range(rng.randint(0, 3))}, reverse=True)
    table: dict[str, object] = {"stages": [*stages, "finished"]}
    if chance(rng, 2):
        table["fit"] = tenth(rng, 0, 2)
    return table


def _machines(rng: Random, outer: float, tube: float, sensible: bool) -> Tables:
    height = round(2 * tube + 100 if sensible else rng.uniform(30, 300), 1)
    tables: Tables = {
        "saw": {
            "kerf": tenth(rng, 1, 4),
            "blade_height": height,
            "blade_diameter": max(250.0, round(2.5 * height, 1)),
            "throat": 5000.0,
            "slot_distance": tenth(rng, 60, 220),
        },
        "lathe": {"swing_over_bed": round(1.4 * outer + 200, 1) if sensible else tenth(rng, 200, 1200)},
        "boards": {
            "thickness": tenth(rng, 12, 30),
            "sheet": tenth(rng, 11 if sensible else 3, 25),
            "play": rng.choice([0.0, 0.1, 0.15, 0.4]),
        },
        "printer": {"bed": [1500.0, 1500.0] if sensible else [220.0, 250.0]},
        "cutter": {"bed": [3000.0, 3000.0] if chance(rng, 2) else [900.0, 600.0]},
    }
    if chance(rng, 3):
        tables["cutter"]["kerf"] = tenth(rng, 0, 0.4)
    if chance(rng, 3):
        tables["bandsaw"] = {"height": 400.0, "throat": 5000.0, "drift": f"{rng.uniform(-3, 3):.2f}"}
        tables["cutting"] = {"wedge_rings": rng.choice(SAWS), "segments": rng.choice(SAWS)}
    if chance(rng, 4):
        tables.setdefault("cutting", {})["plan_angle_sled"] = True
    if chance(rng, 6):
        tables["sled"] = {"hands_clear": tenth(rng, 150, 300)}
    return tables


def layup(rng: Random) -> dict[str, object]:
    """A [layup] table of two to four plies."""
    woods = ("maple", "walnut", "cherry", "ash")
    plies = [[rng.choice(woods), tenth(rng, 0.6, 4)] for _ in range(rng.randint(2, 4))]
    return {
        "plies": plies,
        "angle": str(rng.choice([0, 15, 30, 37.5, 45, 60, 90, round(rng.uniform(0, 90), 1)])),
        "plane": rng.choice(["flat", "end", "face"]),
        "mirrored": rng.choice(["none", "left and right", "up and down", "both"]),
        "turned": chance(rng, 3),
    }
