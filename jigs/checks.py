"""Whether a job can be made: each refusal carries the numbers that collide and the nearest that works."""

from __future__ import annotations

from collections.abc import Callable
from math import ceil, cos, floor, pi, sqrt, tan

from geometry.fasteners import bolt_diameter
from geometry.lettering import has_glyph
from geometry.sled import SledBody, SledLayout
from geometry.torus import Blank, centre_play, largest_core, least_apothem, outer_flat, wall_left
from geometry.turning import BAND_LOW, TAIL
from jigs.checks_cutting import bandsaw_would_do
from jigs.findings import Finding
from jigs.job import Job
from jigs.lengths import MM_PER_INCH, show_length
from jigs.plan import GaugePlan, HoldingPlan

LEAST_HOLE_WEB = 12.0
HOLE_PLAY = 2.0
TAIL_WIDENING = 1 - cos(TAIL)  # of the hole gauge past the equator, in edge radii
LEAST_RING = 36.0  # across flats: below it mortises and bolts of the fence run into each other
LEAST_HOLD = 30.0  # of the jaw: room for its two bolts
LEAST_NECK_LENGTH = 2.0  # of the retainer, between the board and its band
LEAST_FLARE = 0.2  # of the retainer's band beyond its neck
LEAST_WASHER = 3.0  # in bolt diameters
NECK = 2.0  # least neck radius in bolt diameters
SWING_CLEARANCE = 10.0


def _largest(fits: Callable[[float], bool], low: float, high: float, step: float = 0.1) -> float:
    """Largest multiple of `step` from `low` to `high` that fits, `fits` falling from true to false."""
    few, many = floor(low / step), ceil(high / step)
    while many - few > 1:
        middle = (few + many) // 2
        few, many = (middle, many) if fits(middle * step) else (few, middle)
    return few * step


def _least(job: Job, mm: float) -> str:
    """A length as text, rounded up so that it still does."""
    step = _step(job)
    return show_length(ceil(mm / step - 1e-9) * step, job.unit)


def _most(job: Job, mm: float) -> str:
    """A length as text, rounded down so that it still does."""
    step = _step(job)
    return show_length(floor(mm / step + 1e-9) * step, job.unit)


def _step(job: Job) -> float:
    return 0.1 if job.unit == "mm" else MM_PER_INCH / 64


def form_findings(job: Job) -> list[Finding]:
    """What is impossible before any blank is drawn."""
    form = job.form
    show = _show(job)
    found = _title(job)
    if form.hole_diameter <= 2 * form.turning_allowance:
        found.append(
            job.finding(
                "hole-closed",
                f"the hole of {show(form.hole_diameter)} is filled by the turning allowance of "
                f"{show(form.turning_allowance)}",
                key="form.hole_diameter" if "form.hole_diameter" in job.places else "form.tube_diameter",
                remedy=f"a hole of at least {_least(job, 2 * form.turning_allowance + 1)}",
            )
        )
    if job.gauges.stages[0] > form.turning_allowance:
        found.append(
            job.finding(
                "stage-over-allowance",
                f"a stage of {show(job.gauges.stages[0])} needs more wood than the turning allowance of "
                f"{show(form.turning_allowance)}",
                key="gauges.stages",
                remedy=f"a largest stage of at most {_most(job, form.turning_allowance)}, or a larger allowance",
            )
        )
    return found


def _title(job: Job) -> list[Finding]:
    missing = sorted({character for character in job.title if not has_glyph(character)})
    if not missing:
        return []
    return [
        job.finding(
            "title-not-lettered",
            f"the jigs' lettering has no {' '.join(missing)}",
            key="title",
            remedy="use plain letters, figures and points",
        )
    ]


def _show(job: Job) -> Callable[[float], str]:
    return lambda mm: show_length(mm, job.unit)


def _least_ring(job: Job, tube: float) -> float:
    form = job.form
    reach = tube + form.turning_allowance
    return least_apothem(form.major_radius, reach, form.wedge_rings, form.segments)[0]


def blank_findings(job: Job, blank: Blank) -> list[Finding]:
    """The ring, its thin edge, its wall."""
    return [*_ring_size(job, blank), *_thin_edge(job, blank), *_wall(job, blank), *_flat(job, blank)]


def _ring_size(job: Job, blank: Blank) -> list[Finding]:
    least = _least_ring(job, job.form.tube_radius)
    if blank.apothem >= least - 1e-9:
        return []
    show = _show(job)
    return [
        job.finding(
            "tube-outside-ring",
            f"a ring {show(2 * blank.apothem)} across flats does not hold the tube and its allowance",
            key="form.ring_across_flats",
            remedy=f"make it at least {_least(job, 2 * least)}, or leave the key out",
        )
    ]


def _thin_edge(job: Job, blank: Blank) -> list[Finding]:
    if blank.thin_edge >= job.form.least_thin_edge:
        return []
    show = _show(job)
    thick_enough = (
        n for n in range(blank.wedge_rings - 2, 4, -2) if _thin_edge_of(job, n) >= job.form.least_thin_edge
    )
    most = next(thick_enough, 0)
    remedy = (
        f"use at most {most} wedge rings, or a larger hole"
        if most >= 6
        else "make the hole larger or the tube thinner"
    )
    return [
        job.finding(
            "thin-edge",
            f"the wedge rings' thin edge is {show(max(0.0, blank.thin_edge))}; the jaws need "
            f"{show(job.form.least_thin_edge)}",
            key="form.wedge_rings",
            remedy=remedy,
        )
    ]


def _thin_edge_of(job: Job, wedge_rings: int) -> float:
    """The thin edge that this many wedge rings would have."""
    apothem, centre = _ring(job, job.form.major_radius, wedge_rings)
    return 2 * (centre - outer_flat(apothem, job.form.segments)) * tan(pi / wedge_rings)


def _ring(job: Job, major: float, wedge_rings: int) -> tuple[float, float]:
    """Apothem and centre of the ring, the turner's own where that holds the torus, on another major radius."""
    form = job.form
    shape = (major, form.tube_radius + form.turning_allowance, wedge_rings, form.segments)
    apothem, centre = least_apothem(*shape)
    own = (form.ring_across_flats or 0.0) / 2
    return (own, sum(centre_play(*shape, own)) / 2) if own > apothem else (apothem, centre)


def _wall(job: Job, blank: Blank) -> list[Finding]:
    form = job.form
    shape = (form.major_radius, form.tube_radius, form.wedge_rings, form.segments, blank.centre)
    wall = wall_left(*shape, blank.core_apothem)
    if wall >= form.least_wall - 1e-9:
        return []
    show = _show(job)
    most = 2 * largest_core(*shape, form.least_wall)
    remedy = f"use a core opening of at most {_most(job, most)}" if most >= 1 else "use a thicker tube"
    return [
        job.finding(
            "thin-wall",
            f"a core {show(form.core_opening)} across leaves a wall of {show(max(0.0, wall))}, under the least wall of "
            f"{show(form.least_wall)}",
            key="form.core_opening",
            remedy=remedy,
        )
    ]


def _flat(job: Job, blank: Blank) -> list[Finding]:
    if blank.flat_width >= job.workshop.holding.least_flat:
        return []
    show = _show(job)
    return [
        job.finding(
            "narrow-flat",
            f"the flat glued to the first board is {show(blank.flat_width)} wide; glue wants "
            f"{show(job.workshop.holding.least_flat)}",
            key="form.segments",
            remedy="sand that flat wider within the turning allowance, or use fewer segments",
            severity="warning",
        )
    ]


def saw_findings(job: Job, blank: Blank, sled: SledBody) -> list[Finding]:
    """The ring on its sled, the table saw's blade height and throat, the jaw's hold."""
    table_saw = (
        [*_blade_height(job, blank, sled), *_throat(job, sled)] if isinstance(sled, SledLayout) else []
    )
    return [
        *_small_ring(job, blank),
        *table_saw,
        *_jaw(job, blank, sled),
        *_fence(job, sled),
    ]


def _small_ring(job: Job, blank: Blank) -> list[Finding]:
    if 2 * blank.apothem >= LEAST_RING:
        return []
    show = _show(job)
    return [
        job.finding(
            "ring-too-small",
            f"a ring {show(2 * blank.apothem)} across flats is too small for the sled's fence and jaw",
            key="form.ring_across_flats",
            remedy=f"make it at least {_least(job, LEAST_RING)}",
        )
    ]


def _blade_height(job: Job, blank: Blank, sled: SledLayout) -> list[Finding]:
    limit = job.workshop.saw.blade_height
    if sled.saw_height <= limit:
        return []
    show = _show(job)
    room = limit - (sled.saw_height - sled.ring_height)
    most = _largest(lambda tube: 2 * _least_ring(job, tube / 2) <= room, 1, 2 * job.form.tube_radius)
    own = job.form.ring_across_flats is not None
    if own and 2 * _least_ring(job, job.form.tube_radius) <= room:
        smaller = f"a ring of at most {_most(job, room)} across flats"
    else:
        smaller = f"a tube of at most {_most(job, most)} on this major radius"
        smaller += ", ring_across_flats left out" if own else ""
    if 2 * _least_ring(job, most / 2) > room:
        smaller = "a thinner sheet"
    return [
        job.finding(
            "ring-too-tall",
            f"a ring {show(blank.apothem * 2)} tall on its sled needs a blade {show(sled.saw_height)} high; "
            f"this saw gives {show(limit)}",
            key="saw.blade_height",
            remedy=f"{bandsaw_would_do(job, blank)}a saw with that height, or {smaller}",
        )
    ]


def _throat(job: Job, sled: SledLayout) -> list[Finding]:
    throat = job.workshop.saw.throat
    if -sled.left_edge <= throat:
        return []
    show = _show(job)
    return [
        job.finding(
            "throat",
            f"the sled reaches {show(-sled.left_edge)} beside the blade; this saw gives {show(throat)}",
            key="saw.throat",
            remedy=f"a saw with at least {_least(job, -sled.left_edge)}, or a smaller ring",
        )
    ]


def _jaw(job: Job, blank: Blank, sled: SledBody) -> list[Finding]:
    needed = max(blank.half_width, LEAST_HOLD)
    if sled.jaw_reach >= needed - 1e-9:
        return []
    show = _show(job)
    clean_up = sled.cut.wedge_at_stop + (needed - sled.jaw_reach) * tan(blank.half_wedge)
    return [
        job.finding(
            "short-jaw",
            f"the blade leaves the jaw only {show(max(0.0, sled.jaw_reach))} of the ring to hold, "
            f"{show(needed)} holds it",
            key="form.wedge_rings",
            remedy=f"use fewer wedge rings, or a clean_up of at least {_least(job, clean_up)}",
        )
    ]


def _fence(job: Job, sled: SledBody) -> list[Finding]:
    room = sled.room(sled.fence_start) * cos(sled.cut.half_wedge)
    if room >= 0:
        return []
    show = _show(job)
    return [
        job.finding(
            "fence-near-blade",
            f"the fence's end comes within {show(max(0.0, sled.clear_of_blade + room))} of the blade; "
            f"{show(sled.clear_of_blade)} are to stay clear",
            key="sled.clear_of_blade",
            remedy="use more clean_up or a larger hole, or ask for less room beside the blade",
        )
    ]


def lathe_findings(job: Job, blank: Blank, holding: HoldingPlan) -> list[Finding]:
    """Swing, retainer, braces."""
    return [
        *_swing(job, blank),
        *_retainer(job, holding),
        *_thin_tube(job, holding),
        *_thick_lining(job, holding),
        *_braces(job, holding),
    ]


def _thin_tube(job: Job, holding: HoldingPlan) -> list[Finding]:
    retainer = holding.retainer
    room = retainer.band_low - retainer.bottom
    if room >= LEAST_NECK_LENGTH:
        return []
    show = _show(job)
    least = (
        2 * retainer.tube * (LEAST_NECK_LENGTH + retainer.board_clearance) / (room + retainer.board_clearance)
    )
    return [
        job.finding(
            "tube-too-thin-to-hold",
            f"a tube {show(2 * retainer.tube)} thick leaves the retainer no room above its board",
            key="form.tube_diameter",
            remedy=f"a tube of at least {_least(job, least)}",
        )
    ]


def _thick_lining(job: Job, holding: HoldingPlan) -> list[Finding]:
    """The band must flare beyond the straight neck at its foot: R - sqrt((r + g)^2 - z^2) over R - r - clearance."""
    plug = holding.retainer
    most = sqrt((plug.tube + plug.neck_clearance - LEAST_FLARE) ** 2 + plug.band_low**2) - plug.tube
    if plug.lining <= most:
        return []
    show = _show(job)
    return [
        job.finding(
            "lining-too-thick",
            f"a lining of {show(plug.lining)} leaves the retainer's rim no wider than its neck",
            key="form.lining",
            remedy=f"a lining of at most {_most(job, most)}",
        )
    ]


def _swing(job: Job, blank: Blank) -> list[Finding]:
    limit = job.workshop.lathe.swing_over_bed - SWING_CLEARANCE
    if 2 * blank.swing_radius <= limit:
        return []
    show = _show(job)
    form = job.form

    def fits(outer: float) -> bool:
        major = outer / 2 - form.tube_radius
        if major <= form.tube_radius + form.turning_allowance:
            return True
        apothem, centre = _ring(job, major, form.wedge_rings)
        swing = (centre + outer_flat(apothem, form.segments)) / cos(pi / form.wedge_rings)
        return 2 * swing <= limit

    most = _largest(fits, 4 * form.tube_radius, form.outer_diameter, step=1.0)
    smaller = f"an outer diameter of at most {_most(job, most)}, or " if fits(most) else ""
    return [
        job.finding(
            "swing",
            f"the blank swings {show(2 * blank.swing_radius)}; the lathe gives "
            f"{show(job.workshop.lathe.swing_over_bed)} less {show(SWING_CLEARANCE)} of clearance",
            key="lathe.swing_over_bed",
            remedy=f"{smaller}a lathe that swings at least {_least(job, 2 * blank.swing_radius + SWING_CLEARANCE)}",
        )
    ]


def _retainer(job: Job, holding: HoldingPlan) -> list[Finding]:
    retainer = holding.retainer
    bolt = bolt_diameter(holding.bolt)
    least_neck = NECK * bolt
    least_top = LEAST_WASHER * bolt / 2 + 3
    short = max(least_neck - retainer.neck_radius, least_top - retainer.top_radius)
    if short <= 0:
        return []
    show = _show(job)
    return [
        job.finding(
            "hole-too-small-to-hold",
            f"in a hole of {show(job.form.hole_diameter)} the retainer's neck would be "
            f"{show(max(0.0, 2 * retainer.neck_radius))} across, too slim for its {holding.bolt} bolt: its "
            f"band cannot bear from {BAND_LOW:g} of the tube's radius",
            key="bolts.centre",
            remedy=f"a hole of at least {_least(job, job.form.hole_diameter + 2 * short)}, or a smaller bolt",
        )
    ]


def _braces(job: Job, holding: HoldingPlan) -> list[Finding]:
    bolt = bolt_diameter(holding.brace_bolt)
    if holding.brace_circle / 2 >= job.form.outer_diameter / 2 + bolt:
        return []
    show = _show(job)
    return [
        job.finding(
            "no-room-for-braces",
            f"a board of {show(holding.board_diameter)}, the most this lathe swings, has no room for braces",
            key="lathe.swing_over_bed",
            remedy=f"a swing of at least {_least(job, job.form.outer_diameter + 6 * bolt + SWING_CLEARANCE)} would do",
            severity="warning",
        )
    ]


def gauge_findings(job: Job, gauges: GaugePlan) -> list[Finding]:
    """Whether the hole gauge passes."""
    if gauges.hole_web >= LEAST_HOLE_WEB:
        return []
    show = _show(job)
    least = job.form.hole_diameter + LEAST_HOLE_WEB - gauges.hole_web
    return [
        job.finding(
            "hole-too-small-for-gauge",
            f"a hole of {show(job.form.hole_diameter)} with its allowance leaves a gauge "
            f"{show(max(0.0, gauges.hole_web))} wide; {show(LEAST_HOLE_WEB)} stay stiff",
            key="form.hole_diameter" if "form.hole_diameter" in job.places else "form.tube_diameter",
            remedy=f"a hole of at least {_least(job, least)}",
        )
    ]
