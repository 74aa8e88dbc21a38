"""Changes of good sets that the dry fit passes and that hurt nothing, each with its reason."""

HARMLESS: tuple[tuple[str, str, str], ...] = (  # file, change, why
    (
        "cut/.*(joint|tilt)-plate|check-corner|half-(ring-)?check",
        "scaled",
        "its angle or its line is what is used",
    ),
    (
        "cut/.*(centring-plate|layer|press|finger|foot)",
        "flipped",
        "alike from both sides but for its lettering",
    ),
    ("cut/.*exit-block", "flipped|scaled|edge_moved", "wood is left all round the end of the blade"),
    (
        "cut/(.*(batten|strip|runner|lever|bar)|stop-stick.*)",
        "flipped",
        "alike from both sides but for its lettering",
    ),
    ("print/channel-gauge", "mesh_mirrored", "alike from both sides but for its lettering"),
    ("cut/mouth-plug-(flange-)?layer", "scaled|edge_moved", "sawn over size; it is turned to its section"),
    ("cut/clamp-block", "scaled", "a hundredth of it is less than a hand places it by"),
    ("sheets/.*", "piece_moved, without holes", "the whole plate is cut, half a millimetre beside its place"),
    ("cut/segment-stop-packing", "scaled|flipped|edge_moved", "only its thickness and its hole are used"),
    ("cut/glue-up-board", "line_.*, centre line", "the pin in its hole is the middle"),
    ("cut/(glue-up-board|truing-base)", "flipped", "alike from both sides but for its lettering"),
    ("cut/.*exit-block", "line_.*, blade line", "the line on the base is what it is glued by"),
    ("print/wall-gauge", "mesh_stretched", "only how wide its slots are is used"),
    ("cut/truing-carrier", "line_.*, outer flat.*", "the cheeks hold the ring; the line shows which way"),
)
