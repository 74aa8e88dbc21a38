"""What may be changed about a torus that is refused, by the code of what refuses it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from geometry.records import replace
from jigs.asked.change import typed
from jigs.asked.job import TorusJob
from jigs.asked.key import FINISHED
from jigs.remedies.ladder import Rung, Way, held, rungs
from jigs.remedies.lever import Lever, View, down, of_torus, one_of, up, up_from, without
from jigs.remedies.shared import FEWER_STAGES, LAYUP, MACHINES, STRONGER

HOLE = (up("form.hole_diameter"), up("form.outer_diameter"), down("form.tube_diameter"))
SMALLER = (down("form.outer_diameter"), down("form.hole_diameter"), down("form.tube_diameter"))
THICKER = (up("form.tube_diameter"), up("form.outer_diameter"), down("form.hole_diameter"))


@of_torus
def _own_ring(_: View, job: TorusJob) -> Sequence[Rung]:
    """A ring of the turner's own, from what the tube and its allowance ask."""
    least = 2 * max(job.form.rough.wide, job.form.rough.high)
    return rungs(job, "form.ring_across_flats", "up", job.form.ring_across_flats or least)


@of_torus
def _more_clean_up(_: View, job: TorusJob) -> Sequence[Rung]:
    usual = max(3.0, job.workshop.saw.kerf + 1.0)
    return rungs(job, "form.clean_up", "up", job.form.clean_up or usual)


@of_torus
def _less_allowance(view: View, job: TorusJob) -> Sequence[Rung]:
    """With those of the stages in the file that it holds."""
    key, stages = "gauges.stages", job.gauges.stages[:-1]
    return [
        replace(rung, changes={**rung.changes, key: [*(typed(mm, job.unit) for mm in kept), FINISHED]})
        if view.has(key) and len(kept := [mm for mm in stages if mm <= rung.at + 1e-9]) < len(stages)
        else rung
        for rung in rungs(job, "form.turning_allowance", "down")
    ]


def _height(way: Way) -> Lever:
    """Of an ellipse: a round tube has none."""

    @of_torus
    def ladder(_: View, job: TorusJob) -> Sequence[Rung]:
        high = job.form.tube_height
        return [] if high is None else rungs(job, "form.tube_height", way, high)

    return Lever("form.tube_height", ladder, way)


def _saw_for(key: str) -> Lever:
    """Another saw, the bandsaw only where there is one."""

    def ladder(view: View) -> Sequence[Rung]:
        saws = ["auto", "table saw", *(["bandsaw"] if view.job.workshop.bandsaw.height is not None else [])]
        return [Rung({key: saw}, 0.0) for saw in saws if saw != held(view.job, key)]

    return Lever(key, ladder, None, False)


def _thinner_bolt(view: View) -> Sequence[Rung]:
    """The two slimmest in the job's own threads."""
    slim = view.job.fittings.plugs[-2:]
    return [Rung({"bolts.centre": bolt}, 0.0) for bolt in slim if bolt != held(view.job, "bolts.centre")]


THINNER_BOLT = Lever("bolts.centre", _thinner_bolt, None, False)
LOWER, HIGHER = _height("down"), _height("up")
OWN_RING = Lever("form.ring_across_flats", _own_ring, "up")
CLEAN_UP = Lever("form.clean_up", _more_clean_up, "up")
NO_OWN_RING = without("form.ring_across_flats")
FEWER_RINGS, MORE_RINGS = down("form.wedge_rings"), up("form.wedge_rings")
FEWER, MORE = down("form.segments"), up("form.segments")
THINNER_STRIPS = down("form.ring_spacer")
WEDGE_SAW, SEGMENT_SAW = _saw_for("cutting.wedge_rings"), _saw_for("cutting.segments")
_MIRRORED_NONE = one_of("layup.mirrored", "none")
BANDSAW = up_from("bandsaw.height", 100.0)
BLADE = up("saw.blade_height")
LESS_ALLOWANCE = Lever("form.turning_allowance", _less_allowance, "down")

LEVERS: Mapping[str, Sequence[Lever]] = {
    "hole-closed": (*HOLE, LESS_ALLOWANCE),
    "stage-over-allowance": (FEWER_STAGES, up("form.turning_allowance")),
    "blade-over-half": (replace(down("saw.blade_height"), dear=1.0), up("saw.blade_diameter")),
    "tube-outside-ring": (NO_OWN_RING, OWN_RING),
    "ring-too-small": (OWN_RING, up("form.turning_allowance"), *THICKER),
    "glued-short": (LESS_ALLOWANCE, *SMALLER),
    "short-segment": (FEWER, OWN_RING, down("form.spacer"), *THICKER),
    "strips-fill-core": (down("form.spacer"), up("form.core_opening"), FEWER, without("form.spacer")),
    "glued-strips": (without("form.ring_spacer"),),
    "thin-edge": (FEWER_RINGS, NO_OWN_RING, THINNER_STRIPS, *HOLE, LESS_ALLOWANCE),
    "short-jaw": (FEWER_RINGS, THINNER_STRIPS, down("boards.sheet"), *HOLE, NO_OWN_RING),
    "core-too-small-to-hold": (up("form.core_opening"), down("form.least_wall"), *THICKER),
    "core-too-large-to-hold": (down("form.core_opening"), FEWER_RINGS, THINNER_STRIPS, *HOLE),
    "ring-too-short-to-hold": (FEWER_RINGS, down("form.core_opening"), THINNER_STRIPS, *HOLE),
    "wedge-not-pegged": (CLEAN_UP, FEWER_RINGS, *THICKER),
    "ring-not-held": (MORE_RINGS, FEWER_RINGS, NO_OWN_RING, up("form.core_opening"), *HOLE, down("form.tube_diameter")),
    "bolt-opens-joints": (down("form.core_opening"), HIGHER, *THICKER, STRONGER),
    "brace-bends": (up("bolts.braces"), up("boards.thickness"), *THICKER),
    "no-room-beside-bolt": HOLE,
    "mounting-not-held": (*HOLE, down("form.tube_diameter"), LOWER, HIGHER),
    "thin-wall": (down("form.core_opening"), MORE_RINGS, HIGHER, *THICKER),
    "ring-too-tall": (WEDGE_SAW, NO_OWN_RING, FEWER, MORE, LOWER, *SMALLER, BANDSAW, BLADE),
    "throat": (MORE_RINGS, *SMALLER, NO_OWN_RING, up("saw.throat"), up("bandsaw.throat")),
    "no-bandsaw": (WEDGE_SAW, SEGMENT_SAW, BANDSAW),
    "strip-too-thick": (SEGMENT_SAW, up("form.core_opening"), MORE, *SMALLER, BLADE, BANDSAW),
    "not-held": (FEWER, down("form.core_opening"), OWN_RING, _MIRRORED_NONE, *THICKER),
    "fence-near-blade": (down("sled.clear_of_blade"), CLEAN_UP, FEWER_RINGS, NO_OWN_RING, *HOLE),
    "half-ends": (down("form.half_sanding"), CLEAN_UP),
    "swing": (*SMALLER, NO_OWN_RING, MORE_RINGS, up("lathe.swing_over_bed")),
    "board-too-small": (up("holding.beyond_rim"), MORE_RINGS, *SMALLER, up("lathe.swing_over_bed")),
    "no-room-for-blocks": (up("holding.beyond_rim"), *SMALLER, up("lathe.swing_over_bed")),
    "too-many-braces": (one_of("bolts.braces", 6, 5, 4, 3), down("bolts.braces"), up("form.outer_diameter")),
    "braces-bear-little": (
        up("holding.least_flat"), MORE_RINGS, FEWER, LOWER, HIGHER, up("form.turning_allowance"), *THICKER,
    ),
    "flat-too-narrow": (FEWER, down("holding.least_flat"), LOWER, up("form.turning_allowance"), *THICKER),
    "arc-not-reached": (
        FEWER, up("form.turning_allowance"), down("holding.tool_room"), down("holding.contact"), up("holding.contact"),
        down("holding.least_flat"), LOWER, HIGHER, *THICKER, up("form.hole_diameter"), down("holding.least_overlap"),
    ),
    "tube-too-thin-to-hold": (HIGHER, *THICKER, down("holding.board_clearance")),
    "lining-too-thick": (down("form.lining"), up("holding.neck_clearance")),
    "hole-too-small-to-hold": (THINNER_BOLT, *HOLE),
    "hole-too-small-for-gauge": (FEWER_STAGES, *HOLE, LESS_ALLOWANCE),
    "plate-fills-hole": (one_of("made.sizes", "print"), down("boards.sheet"), *HOLE),
    "thin-sheet": (up("boards.sheet"),),
    "hole": (down("boards.sheet"), *SMALLER),
    "no-room": (CLEAN_UP, FEWER_RINGS, OWN_RING, *THICKER, *HOLE, down("boards.sheet"), up("boards.sheet")),
    **LAYUP,
}  # fmt: skip

# Tried for whatever else refuses a torus.
ANY: Sequence[Lever] = (
    FEWER_RINGS, MORE_RINGS, FEWER, MORE, CLEAN_UP, NO_OWN_RING, down("form.core_opening"), up("form.core_opening"),
    up("form.turning_allowance"), LESS_ALLOWANCE, down("form.lining"), *THICKER, *HOLE,
    down("boards.sheet"), up("boards.sheet"), WEDGE_SAW, *MACHINES,
)  # fmt: skip
