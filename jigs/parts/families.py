"""Every family of jigs and every jig, each with all that is known of it by its name: a new jig is one line here."""

from __future__ import annotations

from functools import cache

from geometry.records import Record


class Jig(Record):
    """A sort of part; where a rack has several of it, their names have more words behind this one."""

    name: str
    code: str  # on its plate and in the listing; those of two jigs of a job differ
    first: bool = False  # measures the machine that makes the others: made before them and alone, as drawn
    ready: bool = False  # used as it comes off its machine: no operation of the stage "building" has it
    slots: bool = False  # measures what slots are cut to: a lean rack has none
    kept: bool = False  # in a lean rack too, for it proves what the turner's own does
    solid: bool = False  # pressed while it serves, so printed solid
    block: bool = False  # cut, a stack of plates; printed, one block as thick
    made_up: bool = False  # its thickness makes up a height, however it is made
    cut_to: tuple[str, ...] = ()  # keys of the shop's sizes that it must fit
    untried: str = ""  # why no group of the dry fit opens its file
    made: str = ""  # its own key of [made], where that is not its family's


class Own(Record):
    """What a turner who owns such jigs uses instead of a family of ours."""

    name: str  # in the listing, which has no room for more
    instead: str
    sawn: bool = False  # it carries work past a blade


class Family(Record):
    """Jigs that are made alike, as one key of [made] says."""

    id: str  # that key
    jigs: tuple[Jig, ...]
    joined: bool = False  # held in the hand: what is cut of it may be joined from pieces, too
    stepped: bool = False  # its steps allow for the plate as planned, so a printed one is no thinner
    own: Own | None = None  # a lean rack leaves the family out


# Sizes of the shop that a sled's parts are cut to: on the table saw, and where it runs along a bandsaw's table.
SHEET = "boards.sheet"
BASE = (
    "saw.slot_distance", SHEET, "bandsaw.drift", "bandsaw.table_left", "bandsaw.table_front",
)  # fmt: skip
RUNNER = ("saw.slot_width", "saw.slot_depth")
RAIL = ("bandsaw.drift",)

# fmt: off
COUPON = Family("coupon", joined=True, jigs=(
    Jig("coupon", "CO", first=True, ready=True),
    Jig("sheet-coupon", "SHC", first=True, ready=True, slots=True),
))
ANGLES = Family("angles", joined=True, jigs=(
    Jig("sled-wedge", "SW", solid=True, block=True),
    Jig("tilt-plate", "TP", ready=True),
    Jig("joint-plate", "JP", ready=True),
    Jig("check-corner", "CC", ready=True),
    Jig("stave-tilt-plate", "VT", ready=True),
))
SEGMENTS = Family("segments", own=Own(
        "your own sled",
        "Use your own sled: a clamp on the strip and one on the segment, a stop that swings clear before the "
        "cut. The plates listed and a dry ring of scrap prove its angle.",
        sawn=True), jigs=(
    Jig("segment-base", "GB", cut_to=(*BASE, "saw.tilts")),
    Jig("segment-fence", "GF"),
    Jig("segment-gusset", "GG"),
    Jig("segment-hold-strip", "GHT"),
    Jig("segment-hold-segment", "GHG"),
    Jig("segment-handle", "GH"),
    Jig("segment-stop", "GS"),
    Jig("segment-stop-packing", "GSP",
        untried="a washer of the sheet that the stop's arm is cut from; the arm is tried"),
    Jig("segment-exit-block", "GX"),
    Jig("segment-runner", "GR", cut_to=RUNNER),
    Jig("segment-rail", "GRL", cut_to=RAIL),
    Jig("segment-strip", "GST"),
    Jig("segment-batten", "GBT"),
    Jig("segment-cam", "GC"),
    Jig("segment-finger", "GFI"),
    Jig("segment-lever", "GL"),
    Jig("plan-angle-base", "PB", cut_to=BASE),
    Jig("plan-angle-exit-block", "PX"),
    Jig("plan-angle-runner", "PR", cut_to=RUNNER),
    Jig("plan-angle-fence", "PF"),
    Jig("plan-angle-hold", "PHD"),
    Jig("plan-angle-handle", "PH"),
    Jig("plan-angle-stop", "PS"),
    Jig("plan-angle-carriage", "PC"),
    Jig("plan-angle-shoe", "PSH"),
    Jig("plan-angle-guide", "PG"),
    Jig("plan-angle-cam", "PCA"),
    Jig("plan-angle-finger", "PFI"),
    Jig("plan-angle-lever", "PL"),
    Jig("plan-angle-gallows", "PGA"),
    Jig("plan-angle-press", "PP"),
    Jig("stop-stick-ring", "SS", ready=True),
    Jig("stave-base", "VB", cut_to=(*BASE, "saw.tilts")),
    Jig("stave-fence", "VF"),
    Jig("stave-hold", "VHD"),
    Jig("stave-finger", "VFI"),
    Jig("stave-cam", "VC"),
    Jig("stave-lever", "VL"),
    Jig("stave-stop", "VS"),
    Jig("stave-exit-block", "VX"),
    Jig("stave-runner", "VR", cut_to=RUNNER),
    Jig("stave-handle", "VH"),
    Jig("slip-box-base", "NB", cut_to=(SHEET,)),
    Jig("slip-box-fence", "NF"),
    Jig("slip-box-hold", "NH"),
))
SLED = Family("sled", own=Own(
        "your own sled",
        "Use your own sled for whole rings: clamps press the ring down and to the fence, a stop behind it takes "
        "the thrust. The check corner proves its angle.",
        sawn=True), jigs=(
    Jig("sled-base", "SB", cut_to=(*BASE, "saw.table_front")),
    Jig("sled-exit-block", "SX"),
    Jig("sled-runner", "SR", cut_to=RUNNER),
    Jig("sled-rail", "SRL", cut_to=RAIL),
    Jig("sled-strip", "SST"),
    Jig("sled-batten", "SBT"),
    Jig("sled-bridge", "SBR"),
    Jig("sled-fence", "SF"),
    Jig("sled-gusset", "SG"),
    Jig("sled-stop-cheek", "SC"),
    Jig("sled-jaw", "SJ"),
    Jig("sled-rod-stick", "SRS"),
    Jig("sled-plug-cheek", "SPC"),
    Jig("sled-plug-hub", "SPH"),
    Jig("sled-handle", "SH"),
))
LAYUP = Family("layup", own=Own(
        "your own sled and fences",
        "Use your own sled at the angle listed, the stack clamped down, and two fences at right angles to glue up "
        "in.",
        sawn=True), jigs=(
    Jig("layup-base", "LB", cut_to=(*BASE, "saw.kerf")),
    Jig("layup-fence", "LF"),
    Jig("layup-hold", "LHD"),
    Jig("layup-exit-block", "LX"),
    Jig("layup-runner", "LR", cut_to=RUNNER),
    Jig("layup-handle", "LH"),
    Jig("layup-cam", "LC"),
    Jig("layup-finger", "LFI"),
    Jig("layup-lever", "LL"),
    Jig("layup-slab-finger", "LZF"),
    Jig("layup-slab-foot", "LZ"),
    Jig("layup-slab-hold", "LZH"),
    Jig("layup-trim-base", "LTB", cut_to=BASE),
    Jig("layup-trim-fence", "LTF"),
    Jig("layup-trim-hold", "LTD"),
    Jig("layup-trim-exit-block", "LTX"),
    Jig("layup-trim-runner", "LTR", cut_to=RUNNER),
    Jig("layup-trim-handle", "LTH"),
    Jig("layup-trim-cam", "LTC"),
    Jig("layup-trim-finger", "LTI"),
    Jig("layup-trim-lever", "LTL"),
    Jig("layup-slanted-stop", "LSL"),
    Jig("layup-square-stop", "LSQ"),
    Jig("layup-tray", "LT"),
    Jig("layup-tray-fence", "LTE"),
    Jig("layup-sanding-pocket", "LSP"),
    Jig("layup-sanding-back", "LSB",
        untried="a bar glued along the pocket's edge, which is tried; nothing fits it but a clamp"),
    Jig("layup-sanding-bar", "LSR",
        untried="a grip glued on the pocket's outside; nothing fits it"),
    Jig("layup-left-gauge", "LG", ready=True),
))
TRUING = Family("truing", own=Own(
        "your own sanding board",
        "Use abrasive on your own flat board: sand up to a pencilled line, both ends in one plane.",
    ), jigs=(
    Jig("end-wedge", "EW", kept=True, solid=True, block=True),
    Jig("truing-carrier", "TC"),
    Jig("truing-base", "TB", cut_to=(SHEET,)),
    Jig("truing-board", "TBD"),
    Jig("truing-gusset", "TG"),
    Jig("truing-cheek", "TCH"),
    Jig("truing-bar", "TBR"),
    Jig("half-check", "HC", ready=True, kept=True),
    Jig("ring-truing-board", "RB"),
    Jig("ring-truing-face", "RF"),
    Jig("half-ring-check", "HRC", ready=True, kept=True),
))
CLAMPING = Family("clamping", own=Own(
        "your own blocks",
        "Use scraps of your own that give the clamps parallel faces; wax what must not stick.",
    ), jigs=(
    Jig("clamp-block-flat", "KF"),
    Jig("clamp-block-rim", "KR"),
))
GLUE_UP = Family("glue_up", own=Own(
        "your own flat board",
        "Use a flat board of your own, waxed, with the ring's outline drawn by the sizes on its ring sheet.",
    ), jigs=(
    Jig("glue-up-board", "UB"),
))
CENTRING = Family("centring", own=Own(
        "its drawn outline",
        "Centre it by its outline, drawn from the axis on the ring below.",
    ), jigs=(
    Jig("centring-plate-ring", "CP", ready=True),
))
GAUGES = Family("gauges", joined=True, jigs=(
    Jig("outer-gauge", "OG", ready=True),
    Jig("hole-gauge", "HG", ready=True),
    Jig("channel-gauge", "CG", ready=True),
    Jig("retainer-gauge", "RG", ready=True),
    Jig("outside-gauge", "XG", ready=True),
    Jig("gauge-rail", "XR"),
    Jig("inside-gauge", "IG", ready=True),
    Jig("wall-gauge", "WG", ready=True),
    Jig("lower-inside-gauge", "NL", ready=True),
    Jig("middle-inside-gauge", "NM", ready=True),
    Jig("upper-inside-gauge", "NU", ready=True),
    Jig("knob-gauge", "KG", ready=True),
    Jig("groove-gauge", "FGG", ready=True),
    Jig("tongue-gauge", "FTG", ready=True),
    Jig("mouth-plug-gauge", "MG", ready=True),
))
STANDING = Family("standing", joined=True, jigs=(
    Jig("flats-gauge", "FG", ready=True),
    Jig("standing-gauge", "Y", ready=True),
))
SIZES = Family("sizes", joined=True, stepped=True, jigs=(
    Jig("width-fork", "WF", ready=True),
    Jig("outer-stick", "OS", ready=True),
    Jig("hole-stick", "HS", ready=True),
    Jig("gap-gauge", "AG", ready=True),
    Jig("calliper-stick", "CK", ready=True),
    Jig("mouth-stick", "MK", ready=True),
    Jig("lid-flange-gauge", "DG", ready=True),
    Jig("joint-stick", "NK", ready=True),
    Jig("joint-gauge", "NG", ready=True),
    Jig("lid-mouth-stick", "DK", ready=True),
))
HOLDING = Family("holding", jigs=(
    Jig("channel-section", "CS"),
    Jig("retainer-section", "RS"),
    Jig("retainer-layer", "RL"),
    Jig("support-board-layer", "BL"),
    Jig("mouth-plug-section", "MS"),
    Jig("mouth-plug-layer", "ML"),
    Jig("mouth-plug-flange-layer", "MF"),
))
MOUNTINGS = Family("mountings", jigs=(
    Jig("first-board-section", "FS"),
    Jig("brace-strap", "BS"),
    Jig("brace-block-layer", "BK"),
    Jig("brace-pad", "BP", solid=True, made_up=True, made="pads"),
))
# fmt: on
FAMILIES = (
    COUPON,
    ANGLES,
    SEGMENTS,
    SLED,
    LAYUP,
    TRUING,
    CLAMPING,
    GLUE_UP,
    CENTRING,
    GAUGES,
    STANDING,
    SIZES,
    HOLDING,
    MOUNTINGS,
)  # fmt: skip
_FAMILIES = {family.id: family for family in FAMILIES}
_JIGS = {jig.name: jig for family in FAMILIES for jig in family.jigs}
_FAMILY = {jig.name: family.id for family in FAMILIES for jig in family.jigs}


def family_of(id: str) -> Family:
    """Raises KeyError for an id that is none."""
    return _FAMILIES[id]


def family_named(jig: str) -> str:
    """The id of a jig's family. Raises KeyError for a jig that has no line here."""
    if jig not in _FAMILY:
        raise KeyError(f"{jig}: no such jig is listed in {__name__}")
    return _FAMILY[jig]


@cache
def jig_of(name: str) -> Jig:
    """The jig that a part of this name is; of a name that is none's, one of which nothing is known."""
    words = name.split("-")
    heads = ("-".join(words[:k]) for k in range(len(words), 0, -1))
    return next((_JIGS[head] for head in heads if head in _JIGS), Jig(name, ""))
