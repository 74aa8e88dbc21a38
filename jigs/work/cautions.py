"""Every caution that people are told, once: an id that never changes, and its words.

Common practice, no source, where none is named. They never say more than the machine's own manual does, which comes
first.
"""

from __future__ import annotations

from collections.abc import Iterable

from jigs.words.lengths import Unit

SHORT: dict[Unit, str] = {"mm": "300 mm", "in": "12 in"}  # no shorter piece is held by hand
# By the standard that masks carry where a turner measures so: FFP3 keeps back 99 % (EN 149), P100 99.97 % (42 CFR 84,
# subpart K).
MASK: dict[Unit, str] = {"mm": "EN 149 FFP3", "in": "NIOSH P100"}
CAUTIONS = {
    "manual": "The machine's manual, local rules and trained practice come first.",
    "saw.power": "Switch off and unplug before you set or clear anything; guard and riving knife on wherever the cut "
    "allows.",
    "saw.guard-sled": "Guard off only where the sled's fence hits it, and back on after: exit block, handle, "
    "hold-downs or draw rod protect you then. Riving knife on, no higher than the blade, tilted or not.",
    "saw.clear": "At a sled: rip fence away, hands on the handle, never in line with the blade.",
    "saw.back": "End the feed, switch off and let the blade stop before you draw the sled back.",
    "saw.slot": "Raise the blade no further than the wood needs: the sled has to stay whole above it.",
    "saw.waste-side": "Set no stop, no fence and no hand beyond the blade: what is cut off there must lie free.",
    "sled.own": "Nothing here proves your own sled. Saw off and unplugged, push and pull at the clamped piece by hand: "
    "it must neither slide nor tip. Hold no piece under {short} by hand.",
    "saw.metal": "No steel where the blade can reach: only glue in exit block, fence and fingers, pins of brass.",
    "layup.pin": "Pull the pin out before the blade turns: left in, it traps the slab, which is thrown.",
    "slip": "Never cut a slip at a machine: it jumps and is thrown. Fine hand saw, the box clamped, fingers behind the "
    "fence.",
    "bandsaw.power": "Switch off and unplug before you set or clear anything; wait until the blade stands still.",
    "bandsaw.guides": "Guides just above fence and jaw, blade guard down to them; no hand in line with the blade.",
    "bandsaw.clear": "Clear offcuts with a stick, the saw off; never draw the sled back through a running blade.",
    "machines.wear": "At every machine: safety glasses and ear defenders on before it starts, extraction on or a mask.",
    "planer": "Planer: no piece shorter than its maker allows; push blocks; extraction and mask on.",
    "planer.thin": "Planer: never send a thin piece through by itself: it shatters. On its carrier only, light passes, "
    "and no thinner than the planer's maker allows.",
    "table-saw.thin": "Never rip thin wood between blade and rip fence: it slips under the fence, splits and is "
    "thrown.",
    "knife": "Knife: the straight edge clamped, both hands behind the blade, many light strokes.",
    "table-saw": "Table saw: never hold a piece under {short} by hand; use the sled, its hold-downs or jaws.",
    # Push sticks for the last 300 mm: HSE's guidance on circular saw benches, from memory; the rest common practice.
    "table-saw.rip": "Ripping: fence and feather boards hold the wood, hands only feed it. Feather board before the "
    "blade, never beside or behind it; push block or stick for the last {short}; stand beside the blade's line; let go "
    "when the strip is past the riving knife.",
    "table-saw.stop": "Swing the stop clear before every cut. Never use the rip fence as a stop: what is cut off "
    "between it and the blade is trapped and thrown.",
    "saw.bin": "Short offcuts and segments: switch off, wait until the blade stands still, then lift them out with a "
    "stick, never with fingers.",
    "sled.rod": "Never cut a ring without its draw rod: the feed pushes the ring off the fence, and nothing outside it "
    "can hold it there.",
    "sled.peg": "Never cut on the wedge without its peg: the ring squeezes the wedge towards the blade.",
    "bandsaw": "Bandsaw: guide just above the work; nothing small, and nothing round on its side, freehand: "
    "cradle, sled or clamp.",
    "hand-saw": "Hand saw: the piece in a vice, against a bench hook or clamped; the other hand behind the saw's line, "
    "never before it.",
    "lathe": "Lathe: one turn by hand before it runs, lowest speed first, rest close and locked, face shield; stopped "
    "for every measure.",
    "sanding.small": "Sand a small piece by hand, in its holder, on abrasive glued to a flat board; never on a belt.",
    "drill": "Drill: the work clamped, never held by hand alone; sleeves, gloves and hair away from the spindle; "
    "stop it before you clear chips.",
    "bench": "Glue: gloves and fresh air as its maker says. Sanding: extraction and mask.",
    "lathe.clothes": "No gloves, rings or loose sleeves at the lathe; hair tied back; never cloth round the work or a "
    "finger.",
    "lathe.turn-by-hand": "Cured; every joint tapped and looked at; one full turn by hand, brace ends included.",
    "lathe.turn-past-rest": "Cured; every joint tapped and looked at; one full turn by hand, past the rest.",
    "lathe.speed": "Tailstock as long as it fits; lowest speed first, and never past the lathe maker's rating.",
    "lathe.speed-bolted": "Lowest speed first, and never past the lathe maker's rating.",
    "lathe.stand": "Stand out of the plane of the work; full face shield; dust extraction and mask ({mask}).",
    "lathe.screws": "No screws into an edge alone; stop if anything creeps or sounds dull.",
    "lathe.gauge": "Stop the lathe and take the rest away before you hold a gauge, a stick or a calliper to the work.",
    "lathe.sanding": "Sanding at the lathe: rest away, low speed, extraction and mask ({mask}); hold the paper in "
    "your fingertips under the work, and let go of what catches.",
    "lathe.bolt": "Draw the bolt only as listed: more pull opens a joint.",
    "lathe.braces": "Braces: nothing past the board's edge, bolt heads sunk into its back; check every one again after "
    "five minutes.",
    "lathe.brace-ends": "Hands, sleeves and tool clear of the braces' ends; set the rest with the lathe stopped.",
    "lathe.sanding-braced": "Sanding beside braces: rest away, low speed, mask on; paper on a padded stick, never in "
    "fingertips.",
    "lathe.part-off": "Never part the board off: stop short, switch off, and saw what is left by hand.",
    "sander": "Sand by hand, or with the sander switched off while you clamp; extraction and mask on.",
    "lathe.saw-off": "Never part the work right off: it falls and is thrown. Stop short, switch off, unplug, and saw "
    "what is left by hand, the other hand under the work.",
    "lathe.hollow": "Hollowing: the rest close, the tool no further past it than its maker allows, light cuts, its "
    "handle against your side; stop the lathe to look, to measure and to take shavings out.",
    "lathe.open": "Gaps between segments catch tools, cloth and fingers: lowest speed, light cuts, rest close, fingers "
    "away; stop the lathe to sand.",
    "lathe.mouth": "Turn the tailstock's wheel by hand and no lever: a rim that is pressed open splits along its "
    "joints.",
    "lathe.slim": "A slim stem bends and breaks: tailstock up, light cuts, no fingers on it, and stand out of its "
    "line.",
    "lathe.paper": "A paper joint holds little: tailstock up as long as it fits, light cuts, lowest speed.",
    "chisel": "Clamp the work; both hands behind the chisel's edge.",
    "lathe.unplugged": "Unplug the lathe while you glue on it.",
    "laser": "Laser: stay with it while it cuts; lid shut, extraction on, extinguisher at hand. Only sheet sold as "
    "safe for lasers: never PVC, vinyl or sheet you cannot name.",
    "router": "Router: clamp or screw the sheet down clear of the cutter's path; glasses, ear defenders, extraction; "
    "hands off until the cutter stands still.",
    "wood.irritant": "The dust of some of these woods irritates skin, eyes and lungs, and some people for ever after. "
    "Extraction and mask ({mask}) at every cut and while sanding; wash, and stop at the first rash or cough.",
    "printer": "Printer: nozzle and bed burn; fresh air in the room; let the plates cool before you lift them.",
    "finish.rags": "Rags with oil finish catch fire by themselves: dry them spread out flat outdoors, or drown them in "
    "a closed metal can of water.",
    "finish.fumes": "Finish: fresh air, gloves and mask as its maker says; no flame or spark near it; stop the "
    "lathe to put it on with a cloth.",
}

# Told once, at the front of the work; a step has its own beside them.
STANDING = ("manual", "machines.wear", "saw.power", "saw.clear", "lathe.clothes")

# Named in HSE's information sheet WIS 30, "Toxic woods", with what their dust does; from memory.
IRRITANTS = {
    "cedar",
    "cocobolo",
    "ebony",
    "iroko",
    "makore",
    "mansonia",
    "padauk",
    "redcedar",
    "rosewood",
    "satinwood",
    "teak",
    "wenge",
    "yew",
}


def caution_text(id: str, unit: Unit) -> str:
    """A caution's words, as a job in this unit gives sizes and standards. Raises KeyError for an unknown id."""
    return CAUTIONS[id].format(short=SHORT[unit], mask=MASK[unit])


def irritating(species: Iterable[str]) -> list[str]:
    """Those of the woods whose dust is known to irritate, by name."""
    return sorted(name for name in set(species) if IRRITANTS & set(name.lower().replace("-", " ").split()))
