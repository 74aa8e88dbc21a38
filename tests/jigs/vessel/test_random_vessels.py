"""Any vessel is either refused with what would do, or every part of it comes out right."""

from __future__ import annotations

import io
import math
import re
from collections.abc import Callable, Iterator
from copy import deepcopy
from functools import partial

import pytest
from hypothesis import given

from jigs.asked.jobfile import parse
from jigs.files.formats import FORMATS
from jigs.forms.solve import solve
from jigs.paper.tape import tape_pages
from jigs.paper.tape_labels import label_pages
from jigs.parts.part import Part
from jigs.parts.readback import measure
from jigs.plans.vessel import VesselPlan
from jigs.sets.rack import rack
from jigs.words.findings import Finding, Refused
from jigs.words.lengths import parse_length
from tests.jigs.inspection import faults
from tests.jigs.paper.sheets import kept_to, sheet
from tests.jigs.test_codes import assert_told_apart
from tests.jigs.test_random_jobs import assert_helpful, tries
from tests.jigs.vessel.random_vessels import Number, Tables, text, vessels
from tests.metric import metric
from tests.unset import unlettered
from tests.work.test_vessel_work import check_told_whole

Change = Callable[[Tables, re.Match[str]], None]


def refusals(tables: Tables, whole: bool = False, early: bool = False) -> tuple[Finding, ...]:
    """Why it cannot be solved or, asked for the whole, made; if `early`, what is found first."""
    try:
        plan = solve(parse(text(tables), "bowl.toml"), early)
        if whole:
            rack(plan)
    except Refused as refused:
        return refused.findings
    return ()


def readback(part: Part) -> object:
    """The part as a file, read again; letters are the greater part of it, and nothing measures them."""
    stream, form = io.BytesIO(), FORMATS[part.process]
    form.write(unlettered(part), stream, 0.0)
    return form.read(io.BytesIO(stream.getvalue()), 0.0)


def test_a_vessel_is_refused_with_a_remedy_or_all_its_parts_can_be_made_and_measure_back():
    """Its codes differ too, its work is whole, its paper within its margins: each job is solved once for all."""
    outcomes = {"made": 0, "refused": 0}

    @tries(14)
    @given(vessels(of_five=3))
    def one(tables):
        try:
            plan = solve(parse(text(tables), "bowl.toml"))
            parts = rack(plan)[0]
        except Refused as refused:
            outcomes["refused"] += 1
            for finding in refused.findings:
                assert_helpful(finding)
                assert finding.code, finding
                assert_remedied(tables, finding)
            return
        assert isinstance(plan, VesselPlan)
        outcomes["made"] += 1
        assert [fault for part in parts for fault in faults(part)] == []
        assert len({part.name for part in parts}) == len(parts)
        assert_told_apart(parts)
        check_told_whole(plan, tuple(parts))
        assert all(kept_to(sheet(page)) for page in [*label_pages(plan), *tape_pages(plan)])
        for part in parts:
            measured = measure(part, readback(part))
            assert len(measured) >= len(part.dimensions) - 1, part.name

    one()
    assert min(outcomes.values()) >= 2, "the random vessels try one side only"


# What a remedy asks for, done: by code and key, the words that hold its number and how that changes a job.

LENGTH = r"(\d[^,]*? (?:mm|in))\b"


def mm(words: str) -> float:
    return parse_length(words, "mm")


def put(table: str, key: str, tables: Tables, found: re.Match[str]) -> None:
    """The number, under a key."""
    tables.setdefault(table, {})[key] = mm(found[1]) if found[1][-1].isalpha() else int(found[1])


def put_blade(tables: Tables, found: re.Match[str]) -> None:
    put("saw", "blade_height", tables, found)
    tables["saw"]["blade_diameter"] = 2.5 * mm(found[1]) + 1


def put_stages(tables: Tables, found: re.Match[str]) -> None:
    lengths = [stage for stage in tables["gauges"]["stages"] if stage != "finished"]
    tables["gauges"]["stages"] = [
        *(s for s in sorted({min(s, mm(found[1])) for s in lengths})[::-1]),
        "finished",
    ]


def put_bed(tables: Tables, found: re.Match[str]) -> None:
    tables["printer"]["bed"] = [mm(found[1]), mm(found[2])]


def put_hold(tables: Tables, found: re.Match[str]) -> None:
    tables.setdefault("reversing", {})["hold"] = found[1]


def put_taper(tables: Tables, found: re.Match[str]) -> None:
    tables.setdefault("reversing", {})["taper"] = Number(found[1])


def put_foot(tables: Tables, found: re.Match[str]) -> None:
    profile = tables["profile"]
    next(iter(profile.values()))[0][1] = mm(found[1])


def put_radii(tables: Tables, found: re.Match[str]) -> None:
    for row in tables["profile"]["edges"]:
        row[2:] = [math.copysign(max(abs(radius), mm(found[1])), radius) for radius in row[2:]]


def put_first_height(tables: Tables, found: re.Match[str]) -> None:
    heights = tables["rings"]["heights"]
    tables["rings"]["heights"] = [mm(found[1]), *(heights[1:] if isinstance(heights, list) else [heights])]


def leave_last_out(tables: Tables, found: re.Match[str]) -> None:
    del tables["rings"]["heights"][-int(found[1]) :]


def put_least_wall(tables: Tables, found: re.Match[str]) -> None:
    _each_wall(tables, lambda wall: max(wall, mm(found[1])))


def put_most_wall(tables: Tables, found: re.Match[str]) -> None:
    _each_wall(tables, lambda wall: min(wall, mm(found[1])))


def thicken(tables: Tables, found: re.Match[str]) -> None:
    _each_wall(tables, lambda wall: wall + mm(found[1]))


def _each_wall(tables: Tables, change: Callable[[float], float]) -> None:
    wall = tables["wall"]
    if "by_height" in wall:
        wall["by_height"] = [[z, change(thickness)] for z, thickness in wall["by_height"]]
    else:
        wall["thickness"] = change(wall["thickness"])


def put_segments(tables: Tables, found: re.Match[str]) -> None:
    """In one ring of a list that goes on with its last."""
    counts, number = tables["rings"]["segments"], int(found[2])
    counts = counts if isinstance(counts, list) else [counts]
    every = [counts[min(k, len(counts) - 1)] for k in range(max(number, len(counts)) + 1)]
    tables["rings"]["segments"] = [*every[: number - 1], int(found[1]), *every[number:]]


def put_lower_rings(tables: Tables, found: re.Match[str]) -> None:
    rings, most = tables["rings"], mm(found[1])
    for board in tables.get("stock", {}).get("boards", []):
        board["thickness"] = min(board["thickness"], most)
    if isinstance(rings["heights"], list):
        rings["heights"] = [min(height, most) for height in rings["heights"]]
    elif isinstance(rings["heights"], float):
        rings["heights"] = min(rings["heights"], most)


HOLD = (r'hold = "(\w+)"', put_hold)
REMEDIES: dict[tuple[str, str], tuple[tuple[str, Change], ...]] = {
    ("no-foot", "profile"): ((rf"at least {LENGTH}", put_foot),),
    ("no-foot", "foot.recess_diameter"): ((rf"at most {LENGTH}", partial(put, "foot", "recess_diameter")),),
    ("stage-over-allowance", "gauges.stages"): ((rf"at most {LENGTH}", put_stages),),
    ("thin-wall", "wall.thickness"): ((rf"make it {LENGTH}", put_least_wall),),
    ("thin-wall", "wall.by_height"): ((rf"make it {LENGTH}", put_least_wall),),
    ("thin-floor", "wall.floor"): ((rf"make it {LENGTH}", partial(put, "wall", "floor")),),
    ("too-tight", "wall.thickness"): ((rf"at most {LENGTH}", put_most_wall),),
    ("too-many", "rings.heights"): ((r"last (\d+) out", leave_last_out),),
    ("no-ring", "rings.gap"): ((rf"gap of at most {LENGTH}", partial(put, "rings", "gap")),),
    ("no-ring", "rings.spacer"): ((rf"spacer of at most {LENGTH}", partial(put, "rings", "spacer")),),
    ("out-of-range", "profile"): ((rf"radius of at least {LENGTH}", put_radii),),
    ("tight-corner", "wall.inner_corner"): ((rf"at most {LENGTH}", partial(put, "wall", "inner_corner")),),
    ("no-staves", "staves.low"): ((rf"begin them at {LENGTH}", partial(put, "staves", "low")),),
    ("thin-ring", "rings.heights"): ((rf"at least {LENGTH}", put_first_height),),
    ("swing", "lathe.swing_over_bed"): ((rf"at least {LENGTH}", partial(put, "lathe", "swing_over_bed")),),
    ("no-glue-face", "rings.least_glue"): ((rf"wall {LENGTH} thicker", thicken),),
    ("no-glue-face", "rings.gap"): ((rf"gap of at most {LENGTH}", partial(put, "rings", "gap")),),
    ("strip-too-thick", "saw.blade_height"): (
        (rf"heights of at most {LENGTH}", put_lower_rings),
        (rf"at least {LENGTH}", put_blade),
    ),
    ("blade-over-half", "saw.blade_height"): ((rf"at most {LENGTH}", partial(put, "saw", "blade_height")),),
    ("throat", "saw.throat"): ((rf"at least {LENGTH}", partial(put, "saw", "throat")),),
    ("short-segment", "rings.segments"): (
        (r"at most (\d+) segments in ring (\d+)", put_segments),
        (rf"least_segment of at most {LENGTH}", partial(put, "rings", "least_segment")),
    ),
    ("stave-too-thick", "staves.count"): ((rf"at least {LENGTH}", put_blade),),
    ("not-held-taper", "reversing.hold"): (HOLD,),
    ("not-held-taper", "reversing.taper"): (HOLD, (r"taper of at (?:most|least) ([\d.]+)", put_taper)),
    ("not-held-inside", "reversing.hold"): (HOLD,),
    ("not-held-inside", "profile"): (HOLD,),
    ("not-held-bolt", "reversing.base_hole"): (
        HOLD,
        (rf"base_hole of at least {LENGTH}", partial(put, "reversing", "base_hole")),
    ),
    ("not-held-bolt", "profile"): (HOLD, (rf"foot of at least {LENGTH}", put_foot)),
    ("slim-block", "profile"): ((rf"foot at least {LENGTH}", put_foot),),
    ("few-screws", "rings.waste_block"): ((rf"at least {LENGTH}", partial(put, "rings", "waste_block")),),
    **{
        (f"not-held-{way}", "wall.floor"): (
            HOLD,
            (rf"floor of at least {LENGTH}", partial(put, "wall", "floor")),
        )
        for way in ("at-all", "taper", "inside", "bolt")
    },
    **{(f"not-held-{way}", "inside"): (HOLD,) for way in ("taper", "inside", "bolt")},
    ("not-held-bolt", "foot.recess_diameter"): (
        HOLD,
        (rf"hollow in the foot of at least {LENGTH}", partial(put, "foot", "recess_diameter")),
    ),
    ("larger-than-bed", "printer.bed"): ((rf"bed of {LENGTH} × {LENGTH}", put_bed),),
}


def remedied(tables: Tables, finding: Finding) -> Iterator[Tables]:
    """The job with each thing done that a remedy asks for by number."""
    key = "profile" if finding.key.startswith("profile.") else finding.key
    for words, change in REMEDIES.get((finding.code, key), ()):
        if change is thicken and "inside" in tables:
            continue  # each place of an inside of its own would have to be moved
        if found := re.search(words, finding.remedy):
            changed = deepcopy(tables)
            change(changed, found)
            yield changed


def same(one: Finding, other: Finding) -> bool:
    """Whether two findings say the same of the same place: the same ring, where a message begins with one."""
    place = re.match(r"rings? \d+( and \d+)?\b", one.message)
    there = not place or re.match(rf"{place[0]}\b", other.message)
    return (one.code, one.key) == (other.code, other.key) and bool(there)


def assert_remedied(tables: Tables, finding: Finding) -> int:
    """How many numbers a remedy names; each works. Thousands of jobs are tried by `tests.sweep.remedies`."""
    count = 0
    for changed in remedied(tables, finding):
        left = refusals(changed, whole=finding.code == "larger-than-bed")
        assert not any(same(finding, other) for other in left), f"{finding}\n{text(changed)}"
        count += 1
    return count


# One job for each number that a remedy may name.

VASE = [[0.0, 70.0], [12.0, 74.0], [60.0, 132.0], [110.0, 148.0], [150.0, 118.0], [180.0, 96.0]]
PLATTER = [[0.0, 140.0], [14.0, 220.0], [30.0, 300.0]]
SOUND: Tables = {
    "profile": {"stations": VASE},
    "wall": {"thickness": 7.0, "floor": 9.0},
    "rings": {"heights": 20.0, "segments": 12, "species": "maple", "turning_allowance": 3.0},
}
REFUSED: dict[tuple[str, str, int], Tables] = {
    ("no-foot", "profile", 0): {"profile": {"stations": [[0.0, 8.0], [20.0, 60.0], [60.0, 90.0]]}},
    ("no-foot", "foot.recess_diameter", 0): {"foot": {"recess_diameter": 66.0, "recess_depth": 2.0}},
    ("stage-over-allowance", "gauges.stages", 0): {"gauges": {"stages": [5.0, 2.0, "finished"]}},
    ("thin-wall", "wall.thickness", 0): {"wall": {"thickness": 1.5}},
    ("thin-wall", "wall.by_height", 0): {"wall": {"by_height": [[0.0, 7.0], [180.0, 1.5]], "floor": 9.0}},
    ("thin-floor", "wall.floor", 0): {"wall": {"thickness": 7.0, "floor": 1.5}},
    ("too-tight", "wall.thickness", 0): {"wall": {"thickness": 46.0, "floor": 9.0}},
    ("tight-corner", "wall.inner_corner", 0): {"wall": {"thickness": 7.0, "floor": 9.0, "inner_corner": 90.0}},
    ("too-many", "rings.heights", 0): {"rings": {"heights": [20.0] * 12}},
    ("no-staves", "staves.low", 0): {"staves": {"low": 6.0, "high": 100.0, "count": 16}},
    ("thin-ring", "rings.heights", 0): {"rings": {"heights": [2.5, 20.0]}},
    ("swing", "lathe.swing_over_bed", 0): {"profile": {"stations": PLATTER}, "lathe": {"swing_over_bed": 250.0}},
    ("no-ring", "rings.gap", 0): {"rings": {"gap": 30.0}},
    ("no-ring", "rings.spacer", 0): {"rings": {"spacer": 30.0}},
    ("out-of-range", "profile", 0): {"profile": {"edges": [[0.0, 70.0], [60.0, 120.0, 20.0], [90.0, 120.0]]}},
    ("no-glue-face", "rings.least_glue", 0): {"rings": {"least_glue": 8.0}},
    ("no-glue-face", "rings.gap", 0): {"rings": {"gap": 11.0}},
    ("strip-too-thick", "saw.blade_height", 0): {"saw": {"blade_height": 28.0}},
    ("strip-too-thick", "saw.blade_height", 1): {"saw": {"blade_height": 28.0}},
    ("blade-over-half", "saw.blade_height", 0): {"saw": {"blade_height": 140.0}},
    ("throat", "saw.throat", 0): {"saw": {"throat": 100.0}},
    ("short-segment", "rings.segments", 0): {"rings": {"segments": 60}},
    ("short-segment", "rings.segments", 1): {
        "profile": {"stations": [[0.0, 50.0], [40.0, 80.0], [120.0, 100.0]]},
        "rings": {"segments": 4, "least_segment": 100.0},
    },
    ("stave-too-thick", "staves.count", 0): {
        "staves": {"low": 40.0, "high": 100.0, "count": 12},
        "saw": {"blade_height": 20.0},
    },
    ("not-held-taper", "reversing.taper", 1): {"reversing": {"hold": "taper", "taper": 5, "friction": Number(0.06)}},
    ("not-held-bolt", "reversing.base_hole", 0): {"reversing": {"hold": "bolt"}},
    ("not-held-bolt", "reversing.base_hole", 1): {"reversing": {"hold": "bolt", "base_hole": 5.0}},
    ("not-held-bolt", "profile", 1): {
        "profile": {"stations": [[0.0, 30.0], [60.0, 132.0], [110.0, 148.0], [180.0, 96.0]]},
        "reversing": {"hold": "bolt", "base_hole": 20.0},
    },
    ("not-held-bolt", "wall.floor", 1): {
        "profile": {"stations": [[0.0, 200.0], [90.0, 300.0]]},
        "wall": {"thickness": 8.0, "floor": 6.0},
        "reversing": {"hold": "bolt", "base_hole": 11.0},
    },
}  # fmt: skip


@pytest.mark.parametrize("case", REFUSED, ids=lambda case: f"{case[0]} {case[1]} {case[2]}")
def test_each_refusal_has_a_number_that_works(case):
    """In inches; the random vessels above are in either unit."""
    code, key, which = case
    tables = deepcopy(SOUND)
    for table, values in REFUSED[case].items():
        whole = table in ("profile", "wall")
        tables[table] = deepcopy(values) if whole else {**tables.get(table, {}), **deepcopy(values)}
    tables = {"": {"unit": "in"}, **tables}
    found = (f for early in (True, False) for f in refusals(tables, early=early))
    finding = next((f for f in found if f.code == code and f.key.startswith(key)), None)
    assert finding is not None, [str(f) for f in refusals(tables)]
    assert_helpful(finding)
    assert not metric([finding.message, finding.remedy])
    words, change = REMEDIES[code, key][which]
    asked = re.search(words, finding.remedy)
    assert asked is not None, str(finding)
    change(tables, asked)
    assert not any(same(finding, other) for other in refusals(tables)), str(finding)
