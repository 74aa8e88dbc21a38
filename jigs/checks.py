"""Whether a job can be made: each refusal carries the numbers that collide and the nearest that works."""

from __future__ import annotations

from collections.abc import Callable
from math import atan, ceil, cos, floor, pi

from geometry.fasteners import bolt_diameter
from geometry.lettering import has_glyph
from geometry.sled import SledLayout
from geometry.torus import Blank, largest_core, least_apothem, outer_flat, wall_left
from geometry.turning import BAND_LOW, TAIL
from jigs.findings import Finding
from jigs.job import Job
from jigs.lengths import show_length
from jigs.plan import GaugePlan, HoldingPlan

LEAST_HOLE_WEB = 12.0
HOLE_PLAY = 2.0
TAIL_WIDENING = 1 - cos(TAIL)  # of the hole gauge past the equator, in edge radii
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
                remedy=f"make the hole wider than {show(2 * form.turning_allowance)}",
            )
        )
    if job.gauges.stages[0] > form.turning_allowance:
        found.append(
            job.finding(
                "stage-over-allowance",
                f"a stage of {show(job.gauges.stages[0])} needs more wood than the turning allowance of "
                f"{show(form.turning_allowance)}",
                key="gauges.stages",
                remedy=f"let the largest stage be {show(form.turning_allowance)}, or raise the allowance",
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
            remedy=f"make it at least {show(ceil(20 * least) / 10)}, or leave the key out",
        )
    ]


def _thin_edge(job: Job, blank: Blank) -> list[Finding]:
    if blank.thin_edge >= job.form.least_thin_edge:
        return []
    show = _show(job)
    inner = blank.inner_radius
    most = 2 * floor(pi / atan(job.form.least_thin_edge / (2 * inner)) / 2) if inner > 0 else 0
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


def _wall(job: Job, blank: Blank) -> list[Finding]:
    form = job.form
    shape = (form.major_radius, form.tube_radius, form.wedge_rings, form.segments, blank.centre)
    wall = wall_left(*shape, blank.core_apothem)
    if wall >= form.least_wall - 1e-9:
        return []
    show = _show(job)
    most = floor(20 * largest_core(*shape, form.least_wall)) / 10
    remedy = f"use a core opening of at most {show(most)}" if most >= 1 else "use a thicker tube"
    return [
        job.finding(
            "thin-wall",
            f"a core {show(form.core_opening)} across leaves a wall of {show(wall)}, under the least wall of "
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


def saw_findings(job: Job, blank: Blank, sled: SledLayout) -> list[Finding]:
    """Blade height and throat, the jaw's hold."""
    return [*_blade_height(job, blank, sled), *_throat(job, sled), *_jaw(job, blank, sled)]


def _blade_height(job: Job, blank: Blank, sled: SledLayout) -> list[Finding]:
    limit = job.workshop.saw.blade_height
    if sled.saw_height <= limit:
        return []
    show = _show(job)
    room = limit - (sled.saw_height - sled.ring_height)
    most = _largest(lambda tube: 2 * _least_ring(job, tube / 2) <= room, 1, 2 * job.form.tube_radius)
    return [
        job.finding(
            "ring-too-tall",
            f"a ring {show(blank.apothem * 2)} tall on its sled needs a blade {show(sled.saw_height)} high; "
            f"this saw gives {show(limit)}",
            key="saw.blade_height",
            remedy=f"a saw with that height, or a tube of at most {show(most)} on this major radius",
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
            remedy=f"a saw with at least {show(ceil(-sled.left_edge))}, or a smaller ring",
        )
    ]


def _jaw(job: Job, blank: Blank, sled: SledLayout) -> list[Finding]:
    if sled.jaw_reach >= blank.half_width:
        return []
    show = _show(job)
    return [
        job.finding(
            "short-jaw",
            f"the blade leaves the jaw only {show(max(0.0, sled.jaw_reach))} of the ring to hold, "
            f"{show(blank.half_width)} reaches its middle",
            key="form.wedge_rings",
            remedy="use fewer wedge rings or more clean_up",
        )
    ]


def lathe_findings(job: Job, blank: Blank, holding: HoldingPlan) -> list[Finding]:
    """Swing, retainer, braces."""
    return [*_swing(job, blank), *_retainer(job, holding), *_braces(job, holding)]


def _swing(job: Job, blank: Blank) -> list[Finding]:
    limit = job.workshop.lathe.swing_over_bed - SWING_CLEARANCE
    if 2 * blank.swing_radius <= limit:
        return []
    show = _show(job)
    form = job.form

    def fits(outer: float) -> bool:
        major, reach = outer / 2 - form.tube_radius, form.tube_radius + form.turning_allowance
        if major <= reach:
            return True
        apothem, centre = least_apothem(major, reach, form.wedge_rings, form.segments)
        swing = (centre + outer_flat(apothem, form.segments)) / cos(pi / form.wedge_rings)
        return 2 * swing <= limit

    most = _largest(fits, 4 * form.tube_radius, form.outer_diameter, step=1.0)
    return [
        job.finding(
            "swing",
            f"the blank swings {show(2 * blank.swing_radius)}; the lathe gives "
            f"{show(job.workshop.lathe.swing_over_bed)} less {show(SWING_CLEARANCE)} of clearance",
            key="lathe.swing_over_bed",
            remedy=f"an outer diameter of at most {show(most)}, or a larger lathe",
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
            remedy=f"a hole of at least {show(ceil(job.form.hole_diameter + 2 * short))}, or a smaller bolt",
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
            remedy=f"a swing of {show(ceil(job.form.outer_diameter + 6 * bolt + SWING_CLEARANCE))} would do",
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
            remedy=f"a hole of at least {show(ceil(least))}",
        )
    ]
