"""The sequence of mountings: its share of the plan, and what their statics follow from."""

from __future__ import annotations

from math import asin, ceil, cos, floor, inf, pi, radians, tan

from geometry.blanks.flats import flat_after, half_width_at, sanded_for_flat
from geometry.bodies.torus import Blank
from geometry.hardware.fittings import NUTS, PAST_NUT, Screws, bolt_diameter, head_place, screws_for
from geometry.lathe.mountings import Setting, holding_mountings
from geometry.lathe.roughing import flats_steps
from geometry.lathe.turning import BAND_HIGH, BAND_LOW, TAIL, Retainer
from geometry.records import replace
from geometry.statics.hoop import ring_tension
from geometry.statics.lathe_holding import Weight
from geometry.statics.torus_held import HeldTorus, torus_holdings
from jigs.asked.job import TorusJob
from jigs.stages.held.strength import PUSH, SHEET_TAKES, allowed_across, most_pull, most_torque, nut_torque
from jigs.stages.mountings.plan import (
    BESIDE_CAP,
    BracePlan,
    Drawn,
    FirstBoard,
    HoldingPlan,
    MountingsPlan,
    most_sanded,
)
from jigs.words.lengths import MM_PER_INCH

STEP = 10.0  # N
BOARD = 0.75 * 9.81e-6  # N/mm³, as MDF: common practice, no source


def with_statics(
    job: TorusJob, blank: Blank, holding: HoldingPlan, plan: MountingsPlan, weighs: float, hangs: float
) -> MountingsPlan:
    """The mountings with what each holds against the tool. N: the blank `weighs`, and `hangs` with its heavy side."""
    first, brace, stands = plan.first, plan.brace, allowed_across(_woods(job))
    board = BOARD * pi / 4 * holding.board_diameter**2 * holding.board_thickness
    held = torus_holdings(
        HeldTorus(
            channel=holding.channel,
            retainer=holding.retainer,
            rough=plan.setting.rough,
            flat_height=first.centre_height,
            flat=plan.waste_flat,
            flat_centre=blank.centre,
            rim=first.scribed,
            normal=holding.normal_force,
            braces=holding.braces,
            brace_at=brace.tip + brace.bearing,
            brace_share=brace.finger_share,
            glue=stands,
            pull=PUSH,
            blank=hangs,
            board=Weight(board, first.centre_height + holding.board_thickness / 2),
        )
    )
    bears = _bears(blank, holding, plan, stands)
    drawn = tuple(
        _drawn(
            mounting.name,
            found.least_pull,
            brace.bolt if mounting.name == "C" else holding.bolt,
            bears[mounting.name],
        )
        for mounting, found in zip(plan.mountings, held, strict=True)
        if found.pull and found.least_pull < inf
    )
    return replace(plan, held=held, drawn=drawn, weighs=weighs, lifted=weighs + board)


def _woods(job: TorusJob) -> list[str]:
    """All that its blank is of, strips too."""
    form, rings = job.form, [name for ring in job.form.species for name in ring]
    segments = rings if job.layup is None else [ply.name for ply in job.layup.plies]
    strips = rings if form.spacer_species is None else [form.spacer_species]
    return [*segments, *(strips if form.spacer or form.ring_spacer else [])]


def _couple(plug: Retainer) -> float:
    """By which a retainer that spreads the hole with 1 N, and the channel under it, turn the sections at most: neither
    presses through the middle of a tube that is not round."""
    slope = plug.hollow.angle_at_height(plug.band_low)
    band = max(plug.tube.lever(asin(sine)) for sine in (BAND_LOW, BAND_HIGH))
    flank = max(plug.tube.lever(pi / 2 - lean) for lean in (plug.contact / 2, plug.contact))
    return band / cos(slope) + tan(slope) / cos(plug.contact) * flank


def _drawn(mounting: str, least: float, bolt: str, bears: float) -> Drawn:
    """The pulls rounded up and down to what a person can tell."""
    pull, across = STEP * ceil(least / STEP), bolt_diameter(bolt)
    enough = STEP * ceil(
        most_pull(pull) / STEP
    )  # rounded down, it would be less than what a turned nut may pull
    most = min(STEP * floor(bears / STEP), enough)
    return Drawn(mounting, bolt, pull, nut_torque(pull, across), most, most_torque(most, across))


def _bears(blank: Blank, holding: HoldingPlan, plan: MountingsPlan, stands: float) -> dict[str, float]:
    """N of one bolt that the wood, which `stands` so many N/mm², stands in each mounting that bolts hold.

    The retainer spreads the finished hole, frictionless at the low end of its band, and pulls the joints of the torus
    open; in the reversed mounting the old board pulls at its glue as well. A brace's strap bends over its block.
    """
    plug, brace = holding.retainer, plan.brace
    slope = plug.hollow.angle_at_height(plug.band_low)
    core = blank.core_apothem / cos(blank.mitre)
    across_joints = ring_tension(1.0, _couple(plug), plug.major, plug.tube, core)
    spreads = 1.0 / tan(slope)
    joints = stands / (across_joints * spreads)
    glue = 2 * pi * blank.centre * plan.waste_flat * stands
    arm = brace.bolt_radius - brace.tip - brace.bearing
    section = (brace.width - brace.hole) * brace.thickness**2 / 6
    strap = SHEET_TAKES * section / (brace.finger_share * arm)
    return {"B": min(joints, glue), "C": strap, "D": joints}


LEAST_PAD = 2.0  # printed, on top of a brace's block
# Lower than the waste flat: a strap level with it, or higher at its heel, presses on its block alone.
HEEL_LOWER = 0.5
STRAP = 4  # width of a brace in bolt diameters: two on either side of the hole
INSIDE_EDGE = 1.0  # from a brace's end to the board's edge
WIDEST_CAP = 40.0  # on the centre bolt's end: more hides nothing
CAP_THICK = 20.0
WASHER = 4.0  # thick at most, of a large one
BESIDE_SCREWS = 3.0  # from a faceplate's screw to the channel, or to the neck
BLOCK_CLEAR = 1.0  # from a brace's block to the sanded rim


def plan_mountings(job: TorusJob, blank: Blank, holding: HoldingPlan) -> MountingsPlan:
    """Solve the mountings. Whether they will do is for `mountings_findings` to say."""
    sanded = min(
        sanded_for_flat(blank.apothem, blank.segments, job.workshop.holding.least_flat),
        most_sanded(job, blank),
    )
    flat = flat_after(blank.apothem, blank.segments, sanded)
    setting = _setting(job, blank, sanded, flat)
    stage = job.form.tube.beyond(job.gauges.stages[0])
    first, brace = _first_board(job, blank, holding, setting), _brace(job, holding, setting)
    return MountingsPlan(
        setting=setting,
        mountings=holding_mountings(setting),
        sanded=sanded,
        waste_flat=flat,
        first=first,
        brace=brace,
        centre_bolt=_centre_bolt(job, holding, first),
        cap=min(WIDEST_CAP, 2 * (job.form.major_radius - stage.wide - BESIDE_CAP)),
        cap_thick=CAP_THICK if job.unit == "mm" else 3 * MM_PER_INCH / 4,
        flats=flats_steps(stage.wide, blank.segments, job.gauges.flats_left) if stage.round else (),
        board_screws=screws_for(job.fittings, holding.board_diameter, holding.board_thickness),
        channel_screws=_channel_screws(job, holding),
        retainer_screws=_retainer_screws(job, holding),
    )


def _channel_screws(job: TorusJob, holding: HoldingPlan) -> Screws:
    """As in the first board inside the channel; under it no point comes near the tool."""
    screws, channel = (
        screws_for(job.fittings, holding.board_diameter, holding.board_thickness),
        holding.channel,
    )
    solid = holding.board_thickness - channel.depth - channel.relief_depth
    inside = channel.major - channel.width / 2 - BESIDE_SCREWS - screws.across / 2
    beyond = min(screws.depth, solid - BESIDE_SCREWS)
    return replace(screws, within=2 * inside if beyond < screws.depth else inf, beyond=beyond)


def _retainer_screws(job: TorusJob, holding: HoldingPlan) -> Screws:
    """Inside the neck, which is turned with the screws in: the hollow beside it is not as deep as they are."""
    screws = screws_for(job.fittings, holding.retainer_blank, holding.retainer.height)
    return replace(screws, within=2 * (holding.retainer.neck_radius - BESIDE_SCREWS) - screws.across)


def _centre_bolt(job: TorusJob, holding: HoldingPlan, first: FirstBoard) -> float:
    """Through the retainer and the old board, or the channel board and the retainer, its head let in."""
    reversed_ = holding.retainer.top + first.centre_height + first.face_height
    drawn = holding.board_thickness + holding.channel.centre_height + holding.retainer.top
    nut = NUTS[holding.bolt][1] + WASHER + PAST_NUT
    step = job.fittings.step
    return step * ceil((max(reversed_, drawn) - head_place(holding.bolt)[1] + nut) / step)


def _setting(job: TorusJob, blank: Blank, sanded: float, flat: float) -> Setting:
    form, wish = job.form, job.workshop.holding
    shift = blank.centre - form.major_radius
    return Setting(
        tube=form.tube,
        rough=form.rough,
        flat_height=blank.apothem - sanded,
        flat_inner=flat / 2 - shift,
        flat_outer=flat / 2 + shift,
        contact=radians(wish.contact),
        lining=form.lining,
        spigot=wish.spigot_height,
        tool_room=wish.tool_room,
        least_overlap=radians(wish.least_overlap),
    )


def _first_board(job: TorusJob, blank: Blank, holding: HoldingPlan, setting: Setting) -> FirstBoard:
    wish = job.workshop.holding
    sanded_tube = job.form.tube.beyond(job.gauges.sanding_allowance)
    inner = blank.centre - half_width_at(
        blank.apothem, blank.segments, setting.flat_height - wish.spigot_height
    )
    return FirstBoard(
        centre_height=setting.flat_height,
        face_height=holding.board_thickness - wish.spigot_height,
        spigot_height=wish.spigot_height,
        spigot_radius=inner - wish.spigot_clearance,
        scribed=blank.corner(job.form.major_radius + setting.flat_outer),
        turned_back=job.form.major_radius + max(sanded_tube.at(TAIL)[0], setting.flat_outer),
        saw_short=wish.saw_short,
    )


def _brace(job: TorusJob, holding: HoldingPlan, setting: Setting) -> BracePlan:
    height = holding.channel.centre_height + setting.flat_height
    layer = holding.layer_thickness
    layers = max(0, floor((height - HEEL_LOWER - LEAST_PAD) / layer))
    return BracePlan(
        height=height,
        bolt=holding.brace_bolt,
        hole=holding.brace_hole,
        bolt_radius=holding.brace_circle / 2,
        tip=job.form.major_radius,
        outer=holding.board_diameter / 2 - INSIDE_EDGE,
        block_inner=job.form.outer_diameter / 2 + job.gauges.sanding_allowance + BLOCK_CLEAR,
        width=STRAP * bolt_diameter(holding.brace_bolt),
        thickness=layer,
        bearing=setting.flat_outer,
        layers=layers,
        pad=height - HEEL_LOWER - layers * layer,
        through=layer + height - HEEL_LOWER + holding.board_thickness - head_place(holding.brace_bolt)[1],
    )
