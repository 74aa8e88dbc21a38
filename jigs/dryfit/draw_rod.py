"""The draw rod as its holes, its stick and its plug are drawn: through fence and wedge, into the core, off the cut.

And the hole of the wedge's peg beside it: room to bore through the fence, and stack enough there.
"""

from __future__ import annotations

from math import cos, hypot, tan

from geometry.bodies.torus import outer_flat
from geometry.hardware.draw_rod import METAL_CLEAR, NUT_PLAY, ROD_PLAY, TO_STOP
from geometry.hardware.fittings import NUTS, bolt_diameter
from geometry.hardware.wedge_peg import LEAST_DEPTH, PEG_FLOOR, PEG_WALL
from jigs.asked.job import TorusJob
from jigs.dryfit.bench import OVER, SLACK, Bench
from jigs.dryfit.files import Files
from jigs.dryfit.model import Check, Drawn, Drill, counted, near
from jigs.dryfit.ring import at_stop, thin_end, wedge_taper

MOST_ASIDE = 0.3  # of half the ring's width
WEDGES = ("sled-wedge", "end-wedge")


def fence_drills(fence: Drawn) -> tuple[Drill, list[Drill]]:
    """The rod's hole, which is the lowest of the round ones but the peg's, and the jaw's, by their places along it."""
    rod, *bolts = sorted(without_peg(fence), key=lambda drill: drill.centre[1])
    return rod, sorted(bolts, key=lambda drill: drill.centre[0])


def without_peg(fence: Drawn) -> list[Drill]:
    """All round holes but that of the wedge's peg."""
    return [drill for drill in fence.drills if drill is not peg_drill(fence)]


def peg_drill(fence: Drawn) -> Drill | None:
    """The wedge's peg's hole: the one nearest to the apex, where there is one more than the rod's and the jaw's two."""
    return min(fence.drills, key=lambda drill: drill.centre[0]) if len(fence.drills) > 3 else None


def rod_checks(
    job: TorusJob,
    files: Files,
    hole: Drill,
    shift: float,
    stands: tuple[float, float],
    apothem: float,
    frame: Bench,
) -> list[Check]:
    """`hole` is the fence's; `shift` takes its x to s along the fence. `stands` is the stop (s), and how far its arms
    reach."""
    stop, arms = stands
    place = hole.centre[0] + shift
    reach = outer_flat(apothem, job.form.segments)
    aside = reach - (stop - place)
    bolt = rod_in(job, hole)
    return [
        Check(
            "draw rod",
            "hole nearer to the stop than the ring's middle",
            aside,
            TO_STOP - OVER,
            MOST_ASIDE * reach,
        ),
        near("draw rod", "hole in the fence, above the base", hole.centre[1], apothem, OVER),
        near(
            "draw rod", "hole in the fence over the rod", hole.diameter - ROD_PLAY, bolt_diameter(bolt), SLACK
        ),
        Check("draw rod", "its nut passes the core", job.form.core_opening - NUTS[bolt][0], 0.5),
        *_wedge_checks(files, stop - place - arms, NUTS[bolt][0] + NUT_PLAY + 2 * aside),
        *_stick_checks(job, files, hole, stands, stop - reach, frame),
        *_plug_checks(job, files),
    ]


def rod_in(job: TorusJob, hole: Drill) -> str:
    """The rod that a hole is for."""
    return min(job.fittings.rods, key=lambda bolt: abs(hole.diameter - ROD_PLAY - bolt_diameter(bolt)))


def _wedge_checks(files: Files, along: float, bore: float) -> list[Check]:
    """Each wedge has wood on both sides of the rod's bore, so far along from its thin end."""
    wedges = [files.drawn(name) for name in WEDGES if files.has(name)]
    return [
        wedge.check(f"wood beside the draw rod's bore, {where}", left - bore / 2, 3.0)
        for wedge in wedges
        for where, left in (
            ("to the stop", along),
            ("to the apex", wedge.outline.bounds[2] - wedge.outline.bounds[0] - along),
        )
    ]


def _stick_checks(
    job: TorusJob, files: Files, hole: Drill, stands: tuple[float, float], place: float, frame: Bench
) -> list[Check]:
    """The stick sets the rod's tip below the ring's uncut face, which lies as far from the fence in both cuts."""
    stick, w, (stop, arms) = files.drawn("sled-rod-stick"), frame.angle, stands
    low = stick.outline.bounds[1]
    foot = max(e.length for e in stick.straight() if e.ends[3] < low + 1e-6)
    shoulder = [e for e in stick.straight() if e.apart[1] < 1e-6 and low + 1 < e.start[1]]
    depth = min(e.start[1] for e in shoulder) - low
    bolt = rod_in(job, hole)
    nearest = place - NUTS[bolt][0] / 2
    gaps = {name: stop * tan(w) + at_stop(files.drawn(name), arms) for name in WEDGES if files.has(name)}
    return [
        stick.check("passes into the core", job.form.core_opening - foot, 1.0),
        *(
            Check(
                "draw rod",
                f"metal clear of the cut, {name} as the ring's second seat",
                (nearest * tan(w) - (face - depth)) * cos(w),
                METAL_CLEAR,
            )
            for name, face in gaps.items()
        ),
        Check("draw rod", "tip inside the ring", min(gaps.values()) - depth, 10.0),
    ]


def _plug_checks(job: TorusJob, files: Files) -> list[Check]:
    discs = [files.drawn(f"sled-plug-{name}") for name in ("cheek", "hub") if files.has(f"sled-plug-{name}")]
    return [disc.check("passes into the core", job.form.core_opening - _across(disc), 0.4) for disc in discs]


def _across(disc: Drawn) -> float:
    return disc.outline.bounds[2] - disc.outline.bounds[0]


def peg_checks(
    job: TorusJob, files: Files, fence: Drawn, shift: float, stop: float, arms: float
) -> list[Check]:
    """`shift` takes the fence's x to s along the fence, where the stop stands at `stop` and its arms reach so far."""
    peg = peg_drill(fence)
    if peg is None:
        return [counted("sled-fence", "hole of the wedge's peg", 0, 1)]
    rod, _ = fence_drills(fence)
    from_stop, wedges = stop - peg.centre[0] - shift, [files.drawn(n) for n in WEDGES if files.has(n)]
    return [
        near("sled-fence", "hole of the wedge's peg, across", peg.diameter, job.fittings.peg_hole, SLACK),
        Check("sled-fence", "wood under the peg's hole", peg.centre[1] - peg.diameter / 2, PEG_WALL - OVER),
        Check("sled-fence", "from the peg's hole to the gussets", _beside_mortises(job, fence, peg), PEG_WALL - OVER),
        Check("sled-fence", "peg clear of the draw rod's nut", _beside_rod(job, fence, peg), PEG_WALL - OVER),
        Check("sled-fence", "peg nearer to the thick end than the rod", rod.centre[0] - peg.centre[0], 0.0),
        *(check for wedge in wedges for check in _stack_checks(job, wedge, from_stop - arms)),
    ]  # fmt: skip


def _stack_checks(job: TorusJob, wedge: Drawn, along: float) -> list[Check]:
    """The peg, so far along from the thin end, has wood behind its bore and beside it."""
    left, _, right, _ = wedge.outline.bounds
    thick = thin_end(wedge) + along * tan(wedge_taper(wedge))
    return [
        wedge.check(
            "wood from its peg to the thick end", right - left - along - job.fittings.peg / 2, PEG_WALL
        ),
        wedge.check("thickness at its peg", thick, LEAST_DEPTH + PEG_FLOOR - OVER),
    ]


def _beside_mortises(job: TorusJob, fence: Drawn, peg: Drill) -> float:
    """From the hole to the nearest gusset, which stands behind the fence from the base up."""
    half = job.workshop.boards.sheet / 2
    middles = [(h.bounds[0] + h.bounds[2]) / 2 for h in fence.holes if not any(e.is_arc for e in h.edges())]
    return min(abs(m - peg.centre[0]) for m in middles) - half - peg.diameter / 2


def _beside_rod(job: TorusJob, fence: Drawn, peg: Drill) -> float:
    """Between the peg and the largest nut that the rod's bore is for."""
    rod = fence_drills(fence)[0]
    apart = hypot(rod.centre[0] - peg.centre[0], rod.centre[1] - peg.centre[1])
    nut = NUTS[rod_in(job, rod)][0]
    return apart - max(nut, rod.diameter) / 2 - job.fittings.peg / 2
