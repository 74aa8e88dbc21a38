"""What each kind of step is, how it is tried in scrap, how it is checked, in words."""

from __future__ import annotations

from jigs.job import Unit
from jigs.plan.wood.steps import Machine, Step, Work
from jigs.words.wood.numbers import setting_text

SEGMENT = "joint plate over both ends of a segment; calliper over the outer edge; a ring closes without light in a band"

DISC_BY_HAND = (
    "base: glued edge to edge first where it is of several pieces; its corners sawn off by hand, the blank in a vice "
    "or clamped to the bench, to an octagon outside the circle; glued with paper between to a waste block on the "
    "faceplate, the tailstock's point in its centre, turned to the circle in light cuts, then split off along the paper"
)
SQUARE_BY_HAND = (
    "pieces sawn off square by hand, in a bench hook, a mitre box or clamped to the bench: too short to be held at a "
    "machine; the strip's last length is set aside, never sawn up"
)
BLOCKS = (
    "segments from the layup's blocks on their rails, each block cut at both ends: see the layup's own steps"
)
TEST_BLOCK = "a rail with scrap blocks: two segments, then a whole ring of them"
WHAT: dict[Work, str] = {
    "crosscut": "boards crosscut to rough lengths, sawn by hand or at a crosscut saw that carries them whole; what "
    "stays in one piece is set aside, not planed",
    "mill": "lengths of board planed flat and to thickness",
    "rip": "strips ripped along the grain, one straight edge on the rip fence, feather boards to fence and table "
    "before the blade, push block with a heel; planed to width",
    "edges": "narrow boards that are strips as they are: edges planed to width",
    "sheet": "plies glued to sheets, the grain of all along the sheet, which is along the strips",
    "strips": "strips ripped from the sheets",
    "stacks": "strips glued face to face to stacks",
    "pieces": "pieces cut from the stacks at the layup's angle",
    "blocks": "pieces glued, mirrored, to the blocks of segments",
    "rails": "blocks glued in rows to rails of scrap, paper between, so that hold-downs can hold them",
    "mitre": "segments, the strip turned over between cuts",
    "slide": "segments, the strip slid across from fence to fence, the same face up",
    "slit": "slips for between the segments, slit off the outside of a board or strip: they fall on the open side of "
    "the blade, never between it and the fence; push block over the whole board, feather board before the blade; "
    "or buy them as veneer of that thickness",
    "slips": "slips cut to length by a fine hand saw in their box, the sacrificial hold-down over all of them; never "
    "at a machine",
    "square": "pieces cut off square, each clamped to the mitre gauge's fence; the stop stands on the clamped side and "
    "is swung clear before the cut",
    "taper": "staves: both edges bevelled and tapered on their sled, first all in stop 1, then in stop 2, "
    "the same face down, turned end for end",
    "disc": "base glued edge to edge first where it is of several pieces, then sawn round outside its circle, flat on "
    "the table, both hands beside the blade and never before it; what is left comes off at the lathe",
    "upright": "solid piece with its grain along the axis: glued face to face first where it is of several, the glue "
    "lines upright; turned round between centres, both ends faced square",
    "plug": "core plugs: the ring's opening bored round, the ring glued with paper between to a waste block on the "
    "faceplate; the plug's square glued by a face, paper between, to the end of a waste block in the chuck, its grain "
    "across as the ring's, the tailstock's point in its centre; turned to fit, split off along the paper, glued in "
    "flush with both faces",
    "groove": "ring 2 glued by its upper face, paper between, to a waste block, its lower face trued, its opening "
    "bored, split off along the paper; then ring 1 glued to the waste block of the stack, its opening bored through to "
    "it, the groove turned into its upper face round the opening; lathe stopped and rest away for the gauge",
    "float": "floating base: its square glued by a face, paper between, to a waste block on the faceplate, turned "
    "round, its upper face turned and rebated so that the tongue is left; split off along the paper, its field pressed "
    "into a recess turned in the waste block to fit, the tailstock up on a soft pad, its lower face turned; sanded and "
    "finished all over, edges too: no tool reaches it later",
    "drop": "the floating base laid dry into its groove, wax on the ledge, slips of card round its tongue so that it "
    "lies in the middle, then drawn out; ring 2 glued on, centred by slips of card round the base's field, glue only "
    "outside the groove and kept off its edge: glue never touches the base. Before the glue sets, take the slips out; "
    "the base slides by hand",
    "rings": "segments glued to halves, halves trued, rings closed; an odd count is glued whole",
    "flatten": "rings flattened on both faces, the first face to a true plane",
    "wedge": "both faces of the wedge rings, the ring turned over about its radial line; for the second cut "
    "the wedge pressed onto its peg in the fence, thin end at the stop; for each cut the draw rod tight behind the "
    "fence, then the jaw's screw",
    "end wedge": "both faces of the four rings at the ends of the halves: first the other face on the fence, then the "
    "half's end on the end wedge, pressed onto its peg; mark that face at once; draw rod and jaw's screw tight for "
    "each cut",
    "spare": "spare rings, of the woods of these: kept uncut until the others have passed, then cut like these",
    "band": "staves glued to halves of the band, halves trued, the band closed and levelled",
    "close": "wedge rings glued to quarters and halves, halves trued, the torus closed",
    "courses": "segments of open rings glued one by one on the flattened ring below, as the stack grows, each course "
    "flattened before the next",
    "stack": "rings glued one on another from the foot up, each flattened before the next",
}

OTHERWISE: dict[tuple[Work, Machine], str] = {
    ("disc", "lathe"): DISC_BY_HAND,
    ("square", "bench"): SQUARE_BY_HAND,
}

COMES: dict[Work, str] = {  # one of what comes of it
    "crosscut": "length",
    "mill": "length",
    "rip": "strip",
    "edges": "strip",
    "sheet": "sheet",
    "strips": "strip",
    "stacks": "stack",
    "pieces": "piece",
    "blocks": "block",
    "rails": "rail",
    "mitre": "segment",
    "slide": "segment",
    "slit": "slip",
    "slips": "slip",
    "square": "piece",
    "taper": "stave",
    "disc": "disc",
    "upright": "piece",
    "plug": "plug",
    "groove": "ring",
    "float": "disc",
    "drop": "base",
    "rings": "ring",
    "flatten": "ring",
    "wedge": "ring",
    "end wedge": "ring",
    "spare": "ring",
    "band": "band",
    "close": "ring",
    "courses": "segment",
    "stack": "stack",
}

TEST: dict[Work, str] = {
    "mill": "one scrap board",
    "rip": "one strip of scrap",
    "edges": "one strip of scrap",
    "strips": "one strip of scrap",
    "pieces": "two pieces of scrap, which mirror each other edge to edge",
    "mitre": "a scrap strip: two segments, then a whole ring of them",
    "slide": "a scrap strip: two segments, then a whole ring where the count of segments is new",
    "slit": "one slip off a scrap board",
    "square": "one piece of scrap",
    "taper": "a full set of staves in scrap, dry in a band",
    "disc": "the circle drawn on the wood: the cut stays outside it",
    "upright": "one piece of scrap",
    "groove": "a groove in a scrap ring or board, tried with its gauge",
    "float": "a disc of scrap, tried in the groove",
    "plug": "a hole in scrap, bored as the ring's, that the plug is tried in",
    "wedge": "a scrap quarter",
    "end wedge": "one scrap ring",
}

CHECK: dict[Work, str] = {
    "crosscut": "tape along each length: none shorter than listed; splits at its ends cut off",
    "mill": "calliper at both ends and in the middle, no light under a straight edge",
    "rip": "calliper along the strip, both edges square",
    "edges": "calliper along the strip, both edges square",
    "sheet": "calliper: the thickness of the sheet is the pattern's repeat",
    "strips": "calliper along the strip",
    "stacks": "ends at their set-back, no gap between strips",
    "pieces": "calliper both sides; two pieces laid mirrored show one line",
    "blocks": "lines meet across the joints; calliper over the block",
    "rails": "straight edge along the blocks' free sides, which guide the second cut, and over both faces; calliper "
    "over blocks and rail alike from end to end; every block holds when it is tapped",
    "mitre": SEGMENT,
    "slide": SEGMENT,
    "slit": "calliper over the slip at both ends and in the middle",
    "slips": "tape along one of each length; both ends square by eye: they are trimmed after gluing",
    "square": "calliper over the length; a square at both ends",
    "taper": "tilt plate on the edge; a set closes without light in a band",
    "disc": "calliper across, twice",
    "upright": "calliper across, twice; a square over both ends, lathe stopped",
    "groove": "its gauge goes in at both steps and its arms lie on the ring's upper face, on every side",
    "float": "calliper over the tongue, twice; its gauge over the tongue all round; the disc turns freely in the "
    "groove, its tongue under the ring's upper face",
    "drop": "the base slides by hand to every side and rattles when it is shaken; it never drops out",
    "plug": "calliper over the plug and across the hole, lathe stopped; it slides in by hand and does not rattle",
    "rings": "no light at any joint, dry in a band, before any glue",
    "flatten": "straight edge across the faces; calliper over the height at four places",
    "wedge": "check corner: it is filled without light; calliper over the thick and the thin edge",
    "end wedge": "calliper over the thick and the thin edge",
    "spare": "flat on both faces and as thick as the others were before their wedge cuts; marked with its woods",
    "band": "no light at any joint, dry in a band, before any glue; both ends in one plane",
    "close": "check corner for quarters, check plate for halves, before any glue",
    "courses": "segments on their marks round the centring plate; straight edge across the course",
    "stack": "calliper over the stack as it grows; centred before each ring is pressed",
}

SAFE: dict[Machine, tuple[str, ...]] = {  # ids of cautions
    "planer": ("planer",),
    "table saw": ("table-saw", "table-saw.rip", "table-saw.stop"),
    "bandsaw": ("bandsaw",),
    "lathe": ("lathe",),
    "bench": ("bench", "hand-saw"),
}


def what_of(step: Step) -> str:
    """What is done; segments that are sawn from no strip come from the blocks of a layup."""
    if _from_blocks(step):
        return BLOCKS
    return OTHERWISE.get((step.work, step.machine), WHAT[step.work])


def trial_of(step: Step) -> str:
    """What is tried in scrap first."""
    return TEST_BLOCK if _from_blocks(step) else TEST[step.work]


def _from_blocks(step: Step) -> bool:
    return step.work in ("mitre", "slide") and not step.lots


def check_of(step: Step, like: int, unit: Unit) -> str:
    """How it is checked, or as in which step, then the sizes that it has to have."""
    how = CHECK[step.work] if like == step.number else f"as in step {like}"
    found = ", ".join(setting_text(size, unit) for size in step.checks)
    return f"{how}; {found}" if found else how
