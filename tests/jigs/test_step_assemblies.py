"""Sleds and mountings put together in STEP, read back by CadQuery: nothing is in the way of anything else."""

from dataclasses import replace
from functools import cache
from itertools import combinations, product
from math import cos, pi, prod, sin, tan
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from jigs.asked.jobfile import load
from jigs.files.step import write_assembly
from jigs.forms.assemblies import assemblies
from jigs.forms.solve import solve
from jigs.sets.rack import rack
from tests.conftest import CONFIGS
from tests.jigs.exact import exact
from tests.jigs.test_step import SHARED, racked, read, reader
from tests.jigs.vessel.jobs import planned
from tests.unset import letters_unplaced


def box(body):
    """What it lies in, with a margin; the tightest would take as long as all else."""
    from OCP.Bnd import Bnd_Box
    from OCP.BRepBndLib import BRepBndLib

    found = Bnd_Box()
    BRepBndLib.Add_s(body.wrapped, found, False)
    return reader().BoundBox(found)


def common(a, b):
    """Sides of what two boxes share; some are negative where they are apart, which no pair that meets is."""
    return [
        min(getattr(a, f"{axis}max"), getattr(b, f"{axis}max"))
        - max(getattr(a, f"{axis}min"), getattr(b, f"{axis}min"))
        for axis in "xyz"
    ]


@cache
def solids_of(name, which):
    """Of an example's assembly, as often as it is looked at."""
    plan, parts = racked(name)
    with TemporaryDirectory() as folder:
        own = next(one for one in assemblies(plan, parts.values()) if one.name == which)
        return solids(own, Path(folder))


def solids(assembly, folder):
    """Name and body of each piece as a file has them, of many alike the first three; of wedge rings, which take the
    longest by far, two where they are whole and one where it is turned: what is turned off both brings them no nearer.
    """
    names = [part.name for part, _ in assembly.members]
    most = {"wedge-ring": 2 if assembly.name == "mounting-a" else 1}
    few = [k for k, name in enumerate(names) if names[:k].count(name) < most.get(name, 3)]
    write_assembly(assembly.name, [assembly.members[k] for k in few], folder / "assembly.step")
    return list(zip((names[k] for k in few), read(folder / "assembly.step").Solids(), strict=True))


MOUNTINGS = [f"mounting-{letter}" for letter in "abcd"]
TOGETHER = {
    "garland": ["segment-carrier", "ring-sled", *MOUNTINGS],
    "millwheel": ["segment-carrier", "ring-sled", *MOUNTINGS],
    "trellis": ["layup-sled", "layup-trim-sled", "segment-carrier", "ring-sled", *MOUNTINGS],
    "sorrel": ["flat-sled-n12", *MOUNTINGS[:2]],
    "tumbler": ["flat-sled-n16", *MOUNTINGS[:2]],
}
# A garland's of another size, and a sorrel's.
ELSEWHERE = {
    *(("millwheel", one) for one in MOUNTINGS),
    ("tumbler", "mounting-b"),
    *(("trellis", one) for one in TOGETHER["garland"]),
}
# What bears on what, by the heads of their names; a turned section is a lining or a taper away at most.
TOUCHING = {
    "segment-carrier": ["strip segment-fence", "strip segment-stop", "strip segment-base", "segment-finger strip",
                        "segment-hold segment-fence", "segment-lever segment-fence", "segment-gusset segment-fence"],
    "flat-sled": ["strip plan-angle-fence", "strip plan-angle-stop", "strip plan-angle-base",
                  "plan-angle-finger strip", "plan-angle-press strip", "plan-angle-hold plan-angle-fence",
                  "plan-angle-press plan-angle-gallows"],
    "layup-sled": ["stack layup-fence", "stack layup-base", "layup-finger stack", "layup-slab-foot stack",
                   "layup-slab-finger layup-slab-foot", "layup-hold layup-fence"],
    "layup-trim-sled": ["slab layup-trim-fence", "slab layup-slanted-stop", "layup-trim-finger slab",
                        "layup-trim-hold layup-trim-fence"],
    "stave-sled": ["stave stave-stop-1", "stave stave-base", "stave-finger stave", "stave-hold stave-fence"],
    "ring-sled": ["ring sled-fence", "ring sled-stop-cheek", "ring sled-base"],
    "mounting-a": ["wedge-ring first-board-section", "ring-1 waste-block", "ring-1 ring-2"],
    "mounting-b": ["vessel mouth-plug-section"],
}  # fmt: skip


def in_the_way(pieces):
    """Pairs that share wood; whose boxes share too little cannot, and most that touch are such."""
    boxed = [(name, body, box(body)) for name, body in pieces]
    return [
        (one, other)
        for (one, a, a_box), (other, b, b_box) in combinations(boxed, 2)
        if min(shared := common(a_box, b_box)) > 0
        and prod(shared) > SHARED
        and a.intersect(b).Volume() > SHARED
    ]


def bears(pieces, pair):
    """Whether some two of these touch; true where the assembly has none of either."""
    first, second = (
        [(body, box(body)) for name, body in pieces if name.startswith(head)] for head in pair.split()
    )
    pairs = ((a, b) for (a, a_box), (b, b_box) in product(first, second) if min(common(a_box, b_box)) >= 0)
    return not first or not second or any(a.distance(b) < 0.01 for a, b in pairs)


@pytest.mark.parametrize("name", TOGETHER)
def test_nothing_put_together_is_in_the_way_of_anything_else(name):
    """Every tab is in its slot, every finger over the wood, the wood against fence, stop and base."""
    plan, parts = racked(name)
    found = assemblies(plan, parts.values())
    assert [one.name for one in found] == TOGETHER[name]
    for one in found:
        if (name, one.name) not in ELSEWHERE:
            pieces = solids_of(name, one.name)
            assert in_the_way(pieces) == [], one.name
            rows = next((TOUCHING[head] for head in TOUCHING if one.name.startswith(head)), [])
            assert [pair for pair in rows if not bears(pieces, pair)] == [], one.name


@cache
def staved(tilts):
    plan = planned("staved", more=f'[saw]\ntilts = "{tilts}"\n')
    with letters_unplaced():
        return plan, {one.name: one for one in assemblies(plan, rack(plan)[0])}


@pytest.mark.parametrize("tilts", ["left", "right"])
def test_a_sled_for_staves_goes_together_for_either_tilt(tilts, tmp_path):
    _, found = staved(tilts)
    assert list(found) == ["flat-sled-n12", "stave-sled", "mounting-a", "mounting-b"]
    pieces = solids(found["stave-sled"], tmp_path)
    assert in_the_way(pieces) == []
    assert [pair for pair in TOUCHING["stave-sled"] if not bears(pieces, pair)] == []


def test_staves_stand_side_by_side_between_the_rings_of_the_first_mounting(tmp_path):
    plan, found = staved("left")
    first = found["mounting-a"]
    pieces = solids(first, tmp_path)
    assert in_the_way(pieces) == []
    staves = [body for name, body in pieces if name.endswith("-stave")]
    layer = next(one for one in plan.stack.layers if one.kind == "staves")
    assert len([part for part, _ in first.members if part.name.endswith("-stave")]) == layer.ring.segments
    assert staves[0].distance(staves[1]) < 1e-6
    assert min(staves[0].distance(body) for name, body in pieces if not name.endswith("-stave")) < 1e-6
    assert staves[0].Volume() * layer.ring.segments == pytest.approx(layer.wood, rel=1e-6)


def test_each_half_stands_on_its_own_waste_block(tmp_path):
    plan, parts = racked("gourd")
    found = {one.name: one for one in assemblies(plan, parts.values())}
    for tier in plan.halves.tiers:
        pieces = solids(found[f"mounting-a-{tier.name}"], tmp_path)
        assert in_the_way(pieces) == []
        bodies = dict(pieces)
        assert bodies[f"ring-{tier.stack.layers[0].number}"].distance(bodies["waste-block"]) < 1e-6
        rings = {f"ring-{layer.number}" for layer in tier.stack.layers}
        assert {name for name in bodies if name.startswith("ring")} == rings


def test_a_torus_sled_for_flat_rings_and_a_carrier_for_the_other_tilt(tmp_path):
    """The fingers of both fences end before they meet, on strips so narrow that they would."""
    for file in ("garland.toml", "shed.toml"):
        own = (CONFIGS / file).read_text("utf-8").replace('tilts = "left"', 'tilts = "right"')
        (tmp_path / file).write_text(own, "utf-8")
    job = tmp_path / "garland.toml"
    job.write_text(f"{job.read_text('utf-8')}\n[cutting]\nplan_angle_sled = true\n", "utf-8")
    plan = solve(load(job))
    with letters_unplaced():
        found = {one.name: one for one in assemblies(plan, rack(plan)[0])}
    assert plan.cutting.carrier.mirrored != racked("garland")[0].cutting.carrier.mirrored
    for name in ("segment-carrier", "flat-sled"):
        pieces = solids(found[name], tmp_path)
        assert in_the_way(pieces) == []
        assert [pair for pair in TOUCHING[name] if not bears(pieces, pair)] == []


def test_the_work_in_the_channel_is_a_lining_away_from_it():
    plan, _ = racked("garland")
    pieces = dict(solids_of("garland", "mounting-d"))
    gap = plan.job.form.lining
    for touched in ("channel-section", "retainer-section"):
        assert pieces["wedge-ring"].distance(pieces[touched]) == pytest.approx(gap, abs=0.02), touched


def inside_of(body):
    """Whether a point is in a body, which is prepared once: `isInside` does so for each point."""
    from OCP.BRepClass3d import BRepClass3d_SolidClassifier
    from OCP.gp import gp_Pnt
    from OCP.TopAbs import TopAbs_IN

    classifier = BRepClass3d_SolidClassifier(body.wrapped)

    def within(x, y, z):
        classifier.Perform(gp_Pnt(x, y, z), 1e-6)
        return classifier.State() == TopAbs_IN

    return within


def test_the_work_is_mounted_as_far_turned_as_it_is_then():
    """Just outside the finished tube: nothing where a mounting before turned it, all of the flat wood elsewhere."""
    plan, parts = racked("garland")
    blank, form, least = plan.blank, plan.job.form, plan.mountings.first.centre_height
    found = {one.name: one for one in assemblies(plan, parts.values())}
    gone = []
    for mounting in plan.mountings.mountings:
        own = found[f"mounting-{mounting.name.lower()}"].members
        within = inside_of(exact(next(part for part, _ in own if part.name == "wedge-ring")))
        for turn, k in product((0.0, 0.9 * blank.half_wedge), range(72)):
            angle, over = 2 * pi * (k + 0.37) / 72, form.tube_radius + 0.05
            rho, y = form.major_radius + over * cos(angle), over * sin(angle)
            x = rho * cos(turn)
            wood = y > -least and all(
                (x - blank.centre) * cos(a) + y * sin(a) < blank.apothem
                for a in (2 * pi * j / blank.segments - pi / 2 for j in range(blank.segments))
            )
            wanted = wood and not any(arc.contains(angle) for arc in gone)
            assert within(x, y, rho * sin(turn)) == wanted, (mounting.name, angle)
        gone += [mounting.turns] if mounting.turns else []


def test_the_blank_that_is_mounted_is_the_planned_one():
    """One wedge ring, the others its copies: its volume, but for what is sanded off its flat; each beside the next."""
    plan, parts = racked("garland")
    first = next(one for one in assemblies(plan, parts.values()) if one.name == "mounting-a")
    names = [part.name for part, _ in first.members]
    assert names.count("wedge-ring") == plan.blank.wedge_rings
    pieces = solids_of("garland", "mounting-a")
    a, b = [body for name, body in pieces if name == "wedge-ring"][:2]
    assert a.distance(b) < 1e-6
    flat = plan.mountings.waste_flat
    least = 2 * plan.blank.apothem * tan(pi / plan.blank.segments)
    off = plan.mountings.sanded * (flat + least) / 2 * 2 * tan(plan.blank.half_wedge) * plan.blank.centre
    assert a.Volume() == pytest.approx(plan.blank.volume / plan.blank.wedge_rings - off, rel=1e-6)


@pytest.mark.parametrize(("process", "thickness"), [("paper", 0.0), ("print", 6.0)])
def test_an_assembly_with_a_part_made_otherwise_than_planned_is_left_out(process, thickness):
    plan, parts = racked("garland")
    changed = {**parts, "sled-base": replace(parts["sled-base"], process=process, thickness=thickness)}
    found = [{one.name for one in assemblies(plan, own.values())} for own in (parts, changed)]
    assert found[0] - found[1] == {"ring-sled"}
