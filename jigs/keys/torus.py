"""The keys of a torus job."""

from __future__ import annotations

from jigs.keys.key import Key, Table
from jigs.keys.usual import LARGE_ALLOWANCE, SMALL_ACROSS, SMALL_ALLOWANCE

DIAMETERS = ("form.outer_diameter", "form.hole_diameter", "form.tube_diameter")
_TWO_OF_THREE = "give two of the three diameters"

TORUS_TABLES = {
    "form": Table("The finished torus and the blank it is turned from", shared=False, form="torus")
}

TORUS_KEYS: tuple[Key, ...] = (
    Key("form.outer_diameter", "length", f"finished, across the rim; {_TWO_OF_THREE}",
        unset="follows from the other two", example=250.0, least=30, most=3000),
    Key("form.hole_diameter", "length", f"finished, across the hole; {_TWO_OF_THREE}",
        unset="follows from the other two", example=142.0, least=1, most=3000),
    Key("form.tube_diameter", "length", f"finished, through the tube; {_TWO_OF_THREE}",
        unset="follows from the other two", example=54.0, least=5, most=1000),
    Key("form.wedge_rings", "count", "how many wedge rings close the torus (even)", example=18,
        least=6, most=180, even=True, required=True),
    Key("form.segments", "count", "how many segments make a ring (even)", example=10,
        least=6, most=96, even=True, required=True),
    Key("form.core_opening", "length", "across the flats of the opening in the middle of a ring",
        example=20.0, least=1, most=1000, required=True),
    Key("form.turning_allowance", "length", "wood left all round the finished form for turning", example=3.0,
        unset=f"{SMALL_ALLOWANCE:g} mm up to {SMALL_ACROSS:g} mm across, {LARGE_ALLOWANCE:g} above",
        least=0.5, most=30),
    Key("form.least_wall", "length", "least wood between the core and the finished surface", 8.0,
        least=1, most=200),
    Key("form.ring_across_flats", "length", "your own, larger ring, across its flats", example=80.0,
        unset="the least that holds the finished form and its allowance", least=10, most=1500),
    Key("form.least_segment", "length", "least outer edge of a segment, for the hold-down", 8.0, least=2, most=100),
    Key("form.least_thin_edge", "length", "least length of a wedge ring at its inner flat, for the jaw", 8.0,
        least=1, most=100),
    Key("form.clean_up", "length", "wood cut off each face of a wedge ring at its outer edge", example=4.0,
        unset="kerf + 1 mm, at least 3", least=0.5, most=50),
    Key("form.joint_sanding", "length", "sanded off each end of a segment before gluing", 0.1, most=2),
    Key("form.flattening", "length", "taken off a ring's two faces together as they are flattened; strips are "
        "planed so much wider", 0.3, most=5),
    Key("form.face_sanding", "length", "sanded off each face of a wedge ring before gluing", 0.1, most=2),
    Key("form.half_sanding", "length", "sanded off each end of a half before it is glued to the other", 0.5,
        most=5),
    Key("form.lining", "length", "thickness of a soft lining of channel and retainer; 0 is bare wood", 0.0,
        most=10),
    Key("form.friction", "number", "of the finished side on the retainer", 0.35, least=0.05, most=1.5),
    Key("form.species", "names", "of all rings, a list by ring that repeats, or for a ring a list that repeats round "
        "its segments", (("maple",),)),
    Key("form.route", "choice", "what rings are made of: mitred segments; slices of a tube of staves are refused, for "
        "no sled here holds them",
        "segments", choices=("segments", "staves")),
)  # fmt: skip
