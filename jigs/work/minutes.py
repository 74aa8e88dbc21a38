"""How long a hand's work takes, in minutes: one rule for each kind of work. Estimates: common practice, no source."""

from __future__ import annotations

SETTING = 8.0  # a machine set and proved by its test cut
MARKING = 1.0  # one piece measured, marked or labelled
CROSSCUT = 2.0  # one cut by hand or at a crosscut saw
PLANED = 6.0  # one length or strip planed on two faces
RIPPED = 3.0  # one strip ripped and planed to width
ON_SLED = 1.0  # one piece sawn on a sled, where the plan does not say
FITTED = 4.0  # one piece of a jig dry-fitted, then glued or bolted to another
CLAMPED = 3.0  # one cut of a piece that is bolted or screwed down for it
SANDED = 0.5  # one small face sanded by hand to a line
FLATTENED = 5.0  # one face of a ring or of a half
DRY_RUN = 6.0  # of one batch, clamps laid out; the glue's open time follows
CHECKED = 3.0  # one assembly laid to its check plate
MOUNTED = 20.0  # work put on the lathe, centred, its runout measured
TURNED = 1.5  # one square decimetre, a stage or a set of flats
GAUGED = 10.0  # one stage brought to its gauge, the lathe stopped for each look
GRIT = 0.4  # one square decimetre with one grit
COATED = 0.3  # one square decimetre with one coat

_DM2 = 1e4  # mm2


def each(count: float, one: float, setup: float = 0.0) -> float:
    """So many of a kind, after setting up."""
    return setup + count * one


def over(area: float, one: float, setup: float = 0.0) -> float:
    """By the square decimetre; the area in mm2."""
    return setup + area / _DM2 * one


def glued(batches: int, open_time: float) -> float:
    """A dry run of each batch, then all that the glue's open time allows."""
    return batches * (DRY_RUN + open_time)
