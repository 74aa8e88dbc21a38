"""The short code of each jig, which its plate carries and the listing repeats.

A code follows from the jig's name alone, so it is the same whatever other jigs a job has. Two jigs of a job never
have the same one (`tests/jigs/test_codes.py`).
"""

from __future__ import annotations

from functools import cache
from itertools import groupby

CODES = {
    "coupon": "CO",
    "sled-wedge": "SW",
    "end-wedge": "EW",
    "tilt-plate": "TP",
    "joint-plate": "JP",
    "check-corner": "CC",
    "segment-base": "GB",
    "segment-fence": "GF",
    "segment-gusset": "GG",
    "segment-hold-strip": "GHT",
    "segment-hold-segment": "GHG",
    "segment-handle": "GH",
    "segment-stop": "GS",
    "segment-stop-packing": "GSP",
    "segment-exit-block": "GX",
    "segment-runner": "GR",
    "segment-rail": "GRL",
    "segment-strip": "GST",
    "segment-batten": "GBT",
    "segment-cam": "GC",
    "segment-finger": "GFI",
    "segment-lever": "GL",
    "plan-angle-base": "PB",
    "plan-angle-exit-block": "PX",
    "plan-angle-runner": "PR",
    "plan-angle-fence": "PF",
    "plan-angle-hold": "PHD",
    "plan-angle-handle": "PH",
    "plan-angle-stop": "PS",
    "plan-angle-carriage": "PC",
    "plan-angle-shoe": "PSH",
    "plan-angle-guide": "PG",
    "plan-angle-cam": "PCA",
    "plan-angle-finger": "PFI",
    "plan-angle-lever": "PL",
    "plan-angle-gallows": "PGA",
    "plan-angle-press": "PP",
    "stop-stick-ring": "SS",
    "stave-tilt-plate": "VT",
    "stave-base": "VB",
    "stave-fence": "VF",
    "stave-hold": "VHD",
    "stave-finger": "VFI",
    "stave-cam": "VC",
    "stave-lever": "VL",
    "stave-stop": "VS",
    "stave-exit-block": "VX",
    "stave-runner": "VR",
    "stave-handle": "VH",
    "slip-box-base": "NB",
    "slip-box-fence": "NF",
    "slip-box-hold": "NH",
    "sled-base": "SB",
    "sled-exit-block": "SX",
    "sled-runner": "SR",
    "sled-rail": "SRL",
    "sled-strip": "SST",
    "sled-batten": "SBT",
    "sled-bridge": "SBR",
    "sled-fence": "SF",
    "sled-gusset": "SG",
    "sled-stop-cheek": "SC",
    "sled-jaw": "SJ",
    "sled-rod-stick": "SRS",
    "sled-plug-cheek": "SPC",
    "sled-plug-hub": "SPH",
    "sled-handle": "SH",
    "layup-base": "LB",
    "layup-fence": "LF",
    "layup-hold": "LHD",
    "layup-exit-block": "LX",
    "layup-runner": "LR",
    "layup-handle": "LH",
    "layup-cam": "LC",
    "layup-finger": "LFI",
    "layup-lever": "LL",
    "layup-slab-finger": "LZF",
    "layup-slab-foot": "LZ",
    "layup-slab-hold": "LZH",
    "layup-trim-base": "LTB",
    "layup-trim-fence": "LTF",
    "layup-trim-hold": "LTD",
    "layup-trim-exit-block": "LTX",
    "layup-trim-runner": "LTR",
    "layup-trim-handle": "LTH",
    "layup-trim-cam": "LTC",
    "layup-trim-finger": "LTI",
    "layup-trim-lever": "LTL",
    "layup-slanted-stop": "LSL",
    "layup-square-stop": "LSQ",
    "layup-tray": "LT",
    "layup-tray-fence": "LTE",
    "layup-sanding-pocket": "LSP",
    "layup-sanding-back": "LSB",
    "layup-sanding-bar": "LSR",
    "layup-left-gauge": "LG",
    "truing-carrier": "TC",
    "truing-base": "TB",
    "truing-board": "TBD",
    "truing-gusset": "TG",
    "truing-cheek": "TCH",
    "truing-bar": "TBR",
    "half-check": "HC",
    "ring-truing-board": "RB",
    "ring-truing-face": "RF",
    "half-ring-check": "HRC",
    "clamp-block-flat": "KF",
    "clamp-block-rim": "KR",
    "glue-up-board": "UB",
    "centring-plate-ring": "CP",
    "outer-gauge": "OG",
    "hole-gauge": "HG",
    "channel-gauge": "CG",
    "channel-section": "CS",
    "retainer-gauge": "RG",
    "retainer-section": "RS",
    "retainer-layer": "RL",
    "support-board-layer": "BL",
    "flats-gauge": "FG",
    "standing-gauge": "Y",
    "outside-gauge": "XG",
    "gauge-rail": "XR",
    "inside-gauge": "IG",
    "wall-gauge": "WG",
    "width-fork": "WF",
    "outer-stick": "OS",
    "hole-stick": "HS",
    "gap-gauge": "AG",
    "calliper-stick": "CK",
    "mouth-stick": "MK",
    "lid-flange-gauge": "DG",
    "lower-inside-gauge": "NL",
    "upper-inside-gauge": "NU",
    "joint-stick": "NK",
    "joint-gauge": "NG",
    "lid-mouth-stick": "DK",
    "knob-gauge": "KG",
    "groove-gauge": "FGG",
    "tongue-gauge": "FTG",
    "mouth-plug-gauge": "MG",
    "mouth-plug-section": "MS",
    "mouth-plug-layer": "ML",
    "mouth-plug-flange-layer": "MF",
    "first-board-section": "FS",
    "brace-strap": "BS",
    "brace-block-layer": "BK",
    "brace-pad": "BP",
}
SILENT = frozenset(("stage", "station", "place"))  # their numbers or the words before them say it


@cache
def code_of(name: str) -> str:
    """ "SB" of sled-base, "OG2" of outer-gauge-stage-2; of a name not listed, two letters of each word."""
    words = name.split("-")
    known = next((k for k in range(len(words), 0, -1) if "-".join(words[:k]) in CODES), 0)
    base = "-".join(words[:known])
    return CODES.get(base, "") + _rest(words[known:], rings=base.endswith("-ring"))


def _rest(words: list[str], rings: bool) -> str:
    runs = [(number, list(run)) for number, run in groupby(words, _is_number)]
    told = [_numbers(run, rings) if number else "".join(map(_letters, run)) for number, run in runs]
    return "".join(told)


def _is_number(word: str) -> bool:
    return word.removeprefix("n").isdigit()


def _letters(word: str) -> str:
    """Two at most; a word with a digit is a short name of its own."""
    if word in SILENT:
        return ""
    return (word if any(map(str.isdigit, word)) else word[:2]).upper()


def _numbers(words: list[str], rings: bool) -> str:
    """What the name has; of rings the first, for no other jig of that sort is for this ring."""
    plain = [word.removeprefix("n") for word in words]
    return plain[0] if rings else "-".join(plain)
