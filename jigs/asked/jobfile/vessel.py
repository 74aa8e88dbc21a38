"""What a vessel job states beside its workshop."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, cast

from jigs.asked.defaults import default_allowance
from jigs.asked.jobfile.lid import lid_faults, with_flange
from jigs.asked.jobfile.read import ALL, Read
from jigs.asked.jobfile.shape import Shapes, shape_given
from jigs.asked.jobfile.workshop import Known, gauges_of, layup_of, record_of, wood_named, workshop_of
from jigs.asked.key import RANGE, keys_in
from jigs.asked.vessel_job import BETWEEN, KnobWish, RingsWish, Shape, StavesWish, VesselJob
from jigs.words.findings import Finding
from jigs.words.lengths import Unit, show_length

_STAVES = ("staves.low", "staves.high", "staves.count")


def vessel_faults(asked: Read) -> Iterator[Finding]:
    """Values that do not go together."""
    yield from _wall_faults(asked)
    yield from _by_height_faults(asked)
    yield from _foot_faults(asked)
    yield from _stave_faults(asked)
    yield from _feature_faults(asked)
    yield from _through_faults(asked)
    yield from _halves_faults(asked)
    yield from lid_faults(asked)
    for table in ("floating", "lid"):
        yield from _moisture_faults(asked, table)
    if _size(asked, "rings.spacer") and _size(asked, "rings.gap"):
        message = "strips and gaps cannot both stand between the segments"
        yield asked.fault("too-many", message, "Leave one of spacer and gap out", "rings.gap")


def _size(asked: Read, path: str) -> float:
    """A length that was written and is sound, or 0."""
    return cast(float, asked.values.get(path, 0.0))


def _wall_faults(asked: Read) -> Iterator[Finding]:
    """The wall is given in one way."""
    ways: list[str] = [key for key in ("wall.thickness", "wall.by_height") if key in asked.written]
    ways = [*ways, *shape_given(asked, "inside")[:1]]
    if not ways and not any(path.startswith("inside.") for path in asked.written):
        remedy = "Give thickness or by_height in [wall], or an inside of its own in [inside]"
        yield asked.fault("missing-key", "states no wall", remedy, "wall", "profile")
    for path in ways[1:]:
        message = f"the wall is given by {ways[0]} already"
        yield asked.fault("too-many", message, "Leave one of the two out", path)


def _by_height_faults(asked: Read) -> Iterator[Finding]:
    """Each wall of a list by height keeps the bounds of a single one."""
    key = ALL["wall.thickness"]
    rows = cast("tuple[tuple[float, float], ...]", asked.values.get("wall.by_height", ()))
    for height, wall in rows:
        if not key.least <= wall <= key.most:
            have, at, low, high = (show_length(mm, asked.unit) for mm in (wall, height, key.least, key.most))
            message = f"a wall of {have} at height {at} is out of range"
            yield asked.fault(RANGE, message, f"Give {low} to {high}", "wall.by_height")


def _foot_faults(asked: Read) -> Iterator[Finding]:
    """A hollow has a diameter and a depth."""
    sides = ("foot.recess_diameter", "foot.recess_depth")
    for missing, there in (sides, sides[::-1]):
        if _size(asked, there) and missing not in asked.written:
            remedy = f"Give it beside {there}, or leave both out for a flat foot"
            yield asked.fault("missing-key", "is missing", remedy, missing, there)


def _through_faults(asked: Read) -> Iterator[Finding]:
    """Without a floor there is nothing in it, under it or drawn through it."""
    if not asked.values.get("wall.through"):
        return
    held = asked.values.get("reversing.hold", "none") not in ("none", "auto")
    keys = ("wall.floor", "foot.recess_diameter", "rings.base", "rings.core_plug", "lid.pot", "halves.ring")
    for path in (*(key for key in keys if key in asked.written), *(("reversing.hold",) if held else ())):
        message = "has nothing to do where the hollow goes right through"
        yield asked.fault("too-many", message, "Leave it out, or leave out wall.through", path)


def _halves_faults(asked: Read) -> Iterator[Finding]:
    """Parts end with rings one over the other, and there are only so many of them."""
    rings = cast("tuple[int, ...]", asked.values.get("halves.ring") or ())
    if list(rings) != sorted(set(rings)):
        message = f"{list(rings)} does not rise from the foot up"
        yield asked.fault("bad-order", message, f"Give {sorted(set(rings))}", "halves.ring")
    elif len(rings) > len(BETWEEN) + 1:
        message = f"{len(rings)} joints are too many"
        yield asked.fault("too-many", message, f"Give at most {len(BETWEEN) + 1} rings", "halves.ring")


def _feature_faults(asked: Read) -> Iterator[Finding]:
    """Feature rings have numbers and woods."""
    keys = ("rings.feature", "rings.feature_species")
    for missing, there in (keys, keys[::-1]):
        if there in asked.written and missing not in asked.written:
            remedy = f"Give it beside {there.partition('.')[2]}, or leave both out"
            yield asked.fault("missing-key", "is missing", remedy, missing, there)


def _moisture_faults(asked: Read, table: str) -> Iterator[Finding]:
    """Wood is fitted between its driest and its wettest."""
    keys = (f"{table}.driest", f"{table}.moisture", f"{table}.wettest")
    values = [cast(float, asked.values.get(path, ALL[path].default)) for path in keys]
    for low, high in ((0, 1), (1, 2)):
        if values[low] > values[high]:
            there = [path for path in (keys[high], keys[low]) if path in asked.written]
            message = f"{keys[low]} is {values[low]:g} and {keys[high]} is {values[high]:g}"
            yield asked.fault(
                "bad-order", message, "Give driest, moisture and wettest in rising order", *there
            )


def _stave_faults(asked: Read) -> Iterator[Finding]:
    """Staves have two heights, the lower first, and a count."""
    written = [path for path in asked.written if path.startswith("staves.")]
    for missing in _STAVES if written else ():
        if missing not in asked.written:
            remedy = "Give low, high and count in [staves], or leave the section out"
            yield asked.fault("missing-key", "is missing", remedy, missing, "staves", *written)
    low, high = (asked.values.get(path) for path in _STAVES[:2])
    if low is not None and high is not None and cast(float, low) >= cast(float, high):
        message = f"staves cannot end at {show_length(cast(float, high), asked.unit)}, below where they begin"
        remedy = f"Give more than {show_length(cast(float, low), asked.unit)}"
        yield asked.fault("bad-order", message, remedy, "staves.high")


def vessel_job(
    known: Known, head: Mapping[str, Any], shapes: Shapes, pot: VesselJob | None = None
) -> VesselJob:
    """The job, of a lid with its flange; `head` is what every job states. Raises Refused for a pot without inside."""
    outside = shapes["profile"]
    rings = _rings(known, outside, head["unit"])
    job = VesselJob(
        **head,
        outside=outside,
        inside=shapes.get("inside"),
        wall=record_of(known, "wall"),
        foot=record_of(known, "foot"),
        rings=rings,
        staves=_staves(known, rings),
        floating=record_of(known, "floating", species=wood_named(known, "floating.species")),
        reversing=record_of(known, "reversing"),
        gauges=gauges_of(known, rings.turning_allowance, head["unit"]),
        workshop=workshop_of(known),
        layup=layup_of(known),
        rebate=record_of(known, "rebate"),
        halves=record_of(known, "halves"),
        knob=_knob(known, shapes.get("knob")),
    )
    return with_flange(job, record_of(known, "lid"), pot) if pot else job


def _rings(known: Known, outside: Shape, unit: Unit) -> RingsWish:
    line = outside.profile
    usual = default_allowance(2 * line.radii(line.bottom, line.top)[1], unit)
    allowance = known["rings.turning_allowance"] or usual
    spacer = wood_named(known, "rings.spacer_species")
    return cast(RingsWish, record_of(known, "rings", turning_allowance=allowance, spacer_species=spacer))


def _knob(known: Known, shape: Shape | None) -> KnobWish | None:
    if shape is None:
        return None
    own = {key.name: known[key.path] for key in keys_in("knob", KnobWish)}
    return KnobWish(
        shape=shape, **cast("dict[str, Any]", own | {"species": wood_named(known, "knob.species")})
    )


def _staves(known: Known, rings: RingsWish) -> StavesWish | None:
    if known["staves.low"] is None:
        return None
    named = cast("tuple[tuple[str, ...], ...] | None", known["staves.species"])
    species = rings.species[0] if named is None else tuple(name for names in named for name in names)
    return cast(
        StavesWish, record_of(known, "staves", species=species)
    )  # by ring, as read; staves have one round
