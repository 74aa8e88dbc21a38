"""What spins of a vessel's work: its speeds and its swing are those of the widest place."""

from __future__ import annotations

import json
from collections.abc import Collection
from math import cos, pi, sqrt, tan, tau
from typing import cast

import numpy as np
import pytest

from geometry.lathe.turning import rough_speed_limits
from jigs.asked.jobfile import parse
from jigs.asked.woods import SPECIES
from jigs.forms.solve import solve
from jigs.plans.vessel import VesselPlan
from jigs.stages.held.strength import SIDE
from jigs.stages.lathe.tables import of_vessel
from jigs.stages.plugs import steps as plugs
from jigs.stages.shop import steps as shop
from jigs.stages.stack.tables import facts
from jigs.words.quantity import Quantity
from jigs.work.model import Rack
from tests.jigs.vessel.held import hangs
from tests.work.vessels import done, each, job


@each
def test_speeds_and_swing_are_those_of_the_widest_thing_that_spins(name: str) -> None:
    plan, plug = job(name)[0], job(name)[0].reversing.plug
    blank, flange = 2 * plan.stack.largest_radius, plug.back_blank if plug else 0.0
    block = plan.waste.most / cos(pi / 8)
    widest = {"waste_block.true": block, "stack.start": blank}
    if plan.halves:
        upper = plan.halves.tiers[-1].waste.most / cos(pi / 8)
        own = {f"{tier.name}_stack.start": 2 * tier.stack.largest_radius for tier in plan.halves.tiers}
        widest = {"waste_block.true": block, "upper_waste_block.true": upper, "halves.start": blank, **own}
    if plug:
        widest |= {"reversing.plug": flange, "reversing.start": max(blank, flange)}
    told = {o.id: q.value for o in done(name) for q in o.settings if q.id == "speed.to"}
    paper = _on_paper(plan, told)
    widest |= paper
    assert told.keys() == widest.keys()
    for id, fast in told.items():
        assert isinstance(fast, int)
        rim = pi * widest[id] / 1000 * fast / 60  # m/s
        slowed = (
            900
            if id in paper and not id.startswith(("solids.upright", "knob", "floating_base.groove"))
            else 1500
        )  # none is round yet
        assert 11.5 < rim < 12.0 or (fast == slowed and rim < 12.0)
    rows = [cell for table in of_vessel(plan) for row in table.rows for cell in row]
    most = [cell.value for cell in rows if isinstance(cell, Quantity) and cell.id == "fast"]
    assert most == [min(told[id] for id in ("stack.start", "halves.start", "reversing.start") if id in told)]
    shown = shop.with_lowest_speed([*shop.operations(plan, Rack(job(name)[1])), *done(name)])
    needed = {q.id: q.value for o in shown if o.id == "shop.lathe" for q in o.known}
    # No piece on paper needs a slower lathe.
    assert needed.pop("slowest") == min(plan.reversed_speed[0], *told.values())
    assert needed == {q.id: q.value for q in facts(plan) if q.id in ("swing", "length")}
    swing = needed["swing"]
    assert swing == pytest.approx(max(blank, flange) + 10.0)
    assert swing <= plan.job.workshop.lathe.swing_over_bed + 1e-9


HALF = """title = "Half"
[profile]
stations = [[0, 90], [40, 180], [100, 230], [130, 210]]
[wall]
thickness = 8
[rings]
heights = 20
segments = 12
turn = 0
repeat = true
base = "segmented"
species = [["walnut", "walnut", "walnut", "walnut", "walnut", "walnut", SIX]]
[reversing]
hold = "none"
"""


def half(other: str) -> VesselPlan:
    """A bowl, half of it of another wood."""
    return cast(VesselPlan, solve(parse(HALF.replace("SIX", ", ".join([f'"{other}"'] * 6)), "half.toml")))


def test_a_blank_with_a_heavy_side_turns_no_faster_than_its_glue_is_proven_for() -> None:
    plan, even = half("basswood"), half("walnut")
    across = np.linspace(-125, 125, 501)
    x, y = np.meshgrid(across, across)
    turned, pull = np.arctan2(y, x), np.zeros(2)
    for layer in plan.stack.layers:
        own = np.round((turned - layer.turned) / (pi / 6)).astype(int)
        flat = np.hypot(x, y) * np.cos(turned - layer.turned - own * pi / 6)
        wood = (flat > layer.ring.core) & (flat < layer.ring.outer)
        heavy = np.where(own % 12 < 6, SPECIES["walnut"].density, SPECIES["basswood"].density) * wood
        grams = heavy * layer.ring.height * 0.25 * 1e-6  # of each 0.5 mm square
        pull += (grams * x).sum(), (grams * y).sum()
    moment = float(np.hypot(*pull))
    assert plan.off_axis == pytest.approx(moment, rel=0.01)
    slow, fast = plan.rim_speed
    turns = tau * fast / 60
    assert SIDE * 0.98 < moment * 1e-6 * turns**2 < SIDE * 1.01
    assert slow < fast < even.rim_speed[0]
    assert even.off_axis == pytest.approx(0.0, abs=1e-6)
    rows = {cell.id: cell.value for table in of_vessel(plan) for _, cell in table.rows}
    assert rows["out"] == pytest.approx(moment / rows["weight"], rel=0.01)
    assert rows["out"] > 10.0


def rocked(plan: VesselPlan, about: float) -> float:
    """N mm about a height by the segmented rings above it, at the higher speed."""
    found = 0.0j
    for layer in plan.stack.layers:
        if layer.kind == "disc" or layer.ring.bottom < about - 1e-6:
            continue
        ring, woods = layer.ring, [SPECIES[name].density for name in layer.species]
        area = (ring.outer**2 - ring.core**2) * tan(pi / ring.segments)  # of a segment, between two flats
        out = 2 / 3 * (ring.outer**3 - ring.core**3) / (ring.outer**2 - ring.core**2)
        ways = np.exp(1j * (layer.turned + tau * np.arange(ring.segments) / ring.segments))
        arm = (ring.bottom + ring.top) / 2 - about
        found += (np.array(woods) * ways).sum() * area * ring.height * out * arm * 1e-12
    return abs(found) * (tau * plan.rim_speed[1] / 60) ** 2


def test_rings_whose_heavy_sides_face_each_other_rock_the_blank_no_more_than_a_push_does() -> None:
    """They nearly balance at rest."""
    one = ", ".join(['"walnut"'] * 6 + ['"basswood"'] * 6)
    other = ", ".join(['"basswood"'] * 6 + ['"walnut"'] * 6)
    text = HALF.replace("[0, 90], [40, 180], [100, 230], [130, 210]", "[0, 150], [200, 152]").replace(
        "repeat = true\n", ""
    )
    rings = f"[{one}], [{one}], [{one}], [{one}], [{one}], [{other}]"
    woods = text[text.index("species") : text.index("[reversing]")]
    plan = cast(VesselPlan, solve(parse(text.replace(woods, f"species = [{rings}]\n"), "half.toml")))
    assert len(plan.stack.layers) > 8
    assert rocked(plan, plan.stack.bottom) == pytest.approx(
        SIDE * (plan.stack.top - plan.stack.bottom), rel=0.01
    )
    assert plan.rim_speed[0] < plan.rim_speed[1] < rough_speed_limits(2 * plan.stack.largest_radius)[1]
    assert "heavy-side" in {note.code for note in plan.notes}


def test_the_waste_block_stands_a_push_its_load_and_a_heavy_side_together() -> None:
    uneven, even = half("basswood"), half("walnut")
    more = rocked(uneven, uneven.stack.bottom)
    assert more > 2000.0
    stands = 0.6 * pi / 32  # N/mm²: basswood across its grain, 2.4 (Wood Handbook, from memory), over 4
    assert stands * uneven.waste.least**3 > stands * even.waste.least**3 + 0.9 * more


GOBLET = """title = "Goblet"
[profile]
stations = [[0, 80], [30, 30], [90, 30], [130, 90], [200, 90]]
[wall]
thickness = 6
floor = 105
[rings]
heights = [20, 80, 20]
segments = 12
turn = 0
repeat = true
base = "solid"
upright = [1, 2]
species = ["walnut", "walnut", [SIX]]
[reversing]
hold = "none"
"""


def test_a_stem_stands_a_push_and_the_heavy_side_of_its_cup_together() -> None:
    halves = ", ".join(['"walnut"'] * 6 + ['"basswood"'] * 6)
    even, uneven = (
        cast(VesselPlan, solve(parse(GOBLET.replace("SIX", cup), "goblet.toml")))
        for cup in (", ".join(['"walnut"'] * 12), halves)
    )
    for plan in (even, uneven):
        slim = plan.stack.slimmest
        assert slim is not None
        bent = SIDE * (200 - slim.height) + rocked(plan, slim.height) + hangs(plan.section, slim.height)
        assert slim.stress == pytest.approx(bent / (pi * slim.diameter**3 / 32), rel=0.005)
    assert "slim-stem" not in {note.code for note in even.notes}
    (told,) = [note for note in uneven.notes if note.code == "slim-stem"]
    assert "heavy sides" in told.message


def test_a_ring_of_unlike_halves_is_bored_no_faster_than_its_glue_is_proven_for() -> None:
    light, heavy = (_bored(other) for other in ("walnut", "basswood"))
    turns = tau * heavy[1] / 60
    moment = (
        (SPECIES["walnut"].density - SPECIES["basswood"].density) * 1e-6 * 2 / 3 * 115**3 * 20
    )  # half a disc's
    assert SIDE * 0.9 < moment * 1e-6 * turns**2 < SIDE * 1.1
    assert heavy[0] < heavy[1] < light[1]


def _bored(other: str) -> tuple[int, int]:
    """rpm at which the middle of the foot's ring is bored on paper, from and to."""
    text = HALF.replace("[0, 90], [40, 180], [100, 230], [130, 210]", "[0, 220], [60, 226]")
    plan = cast(VesselPlan, solve(parse(text.replace("SIX", ", ".join([f'"{other}"'] * 6)), "half.toml")))
    bore = plugs.STAGE.operations(plan, Rack([]))[0]
    found = {one.id: one.value for one in bore.settings}
    return found["speed.from"], found["speed.to"]


def test_woods_in_turn_round_a_ring_balance() -> None:
    for name in ("sorrel", "gourd"):
        plan = job(name)[0]
        assert plan.off_axis == pytest.approx(0.0, abs=1e-6)
        assert plan.rim_speed == rough_speed_limits(2 * plan.stack.largest_radius)


def _on_paper(plan: VesselPlan, told: Collection[str]) -> dict[str, float]:
    """Corner to corner, what is turned on a block of its own, and what turns between centres or on ring 1's block."""
    found: dict[str, float] = {}
    layers = {layer.number: layer for layer in plan.stack.layers}
    made = plan.stack.to_make
    if plugged := [layer for layer in made if layer.plug]:
        corners = max(2 * one.ring.outer / cos(one.ring.mitre) for one in plugged)
        found |= {"plugs.bore": corners, "plugs.turn": sqrt(2) * (max(one.plug for one in plugged) + 4.0)}
    for one in (layer for layer in made if layer.kind == "disc"):
        if one.upright:
            found["solids.upright"] = sqrt(2) * 2 * one.ring.outer
        else:
            found["solids.disc"] = 2 * one.ring.outer / cos(pi / 8)
    if plan.halves:
        found["halves.ring"] = sqrt(2) * (2 * plan.halves.joints[0].centring.outer + 10.0)
    if plan.knob:
        found["knob.turn"] = sqrt(2) * plan.knob.across
    if plan.stack.floating:
        ring = layers[2].ring
        found |= {
            "floating_ring.bore": 2 * ring.outer / cos(ring.mitre),
            "floating_base.groove": plan.waste.most / cos(pi / 8),
            "floating_base.disc": sqrt(2) * 2 * plan.stack.floating.base.tongue,
        }
    return {id: across for id, across in found.items() if id in told}


TALL = """title = "Tall"
[profile]
stations = [[0, 60], [80, 150], [240, 150]]
[wall]
thickness = 7
floor = 10
[rings]
heights = 20
segments = 12
turn = 0
repeat = true
species = [[SIX]]
[reversing]
hold = "bolt"
base_hole = 13
"""


def test_a_heavy_side_hangs_on_the_plug_with_the_weight() -> None:
    """Walnut and basswood are taken to weigh alike, so what differs is the heavy side: 10 N of the finished wall."""
    even, uneven = ["walnut"] * 12, ["walnut"] * 6 + ["basswood"] * 6

    def push(rings: list[list[str]]) -> float:
        plan = cast(VesselPlan, solve(parse(TALL.replace("[[SIX]]", json.dumps(rings)), "tall.toml")))
        assert plan.reversing.plug is not None
        return plan.reversing.plug.least_push

    least = push([even])
    assert 1.03 < push([uneven]) / least < 1.08
    # Held by its mouth it is bent most by what is heavy at its foot, and hardly by what is at the rim.
    foot, rim = push([uneven] * 4 + [even] * 9), push([even] * 9 + [uneven] * 4)
    assert least < rim < 1.03 * least
    assert foot > 1.06 * least
