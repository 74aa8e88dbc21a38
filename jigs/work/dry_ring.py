"""What is read of a ring of scrap, closed dry in a band."""

from __future__ import annotations

from jigs.work.model import Reading

DRY_RING = (
    Reading("ring.light-at-rim", "Light at the rim, all joints together", by="feeler"),
    Reading("ring.light-at-core", "Light at the core, all joints together", by="feeler"),
    Reading(
        "half.light-at-rim",
        "Half of it on a straight edge: light at the rim, both ends together",
        by="feeler",
    ),
    Reading("half.light-at-core", "The same at the core, both ends together", by="feeler"),
)
