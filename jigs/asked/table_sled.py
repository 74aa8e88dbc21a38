"""What a job's shop tells every sled on its table saw."""

from __future__ import annotations

from geometry.hardware.sled_sizes import ShopSizes
from jigs.asked.job import Job


def shop_sizes(job: Job) -> ShopSizes:
    """Of its sheet, saw and fittings."""
    shop = job.workshop
    return ShopSizes(
        sheet=shop.boards.sheet,
        play=shop.boards.play,
        clear_of_blade=shop.sled.clear_of_blade,
        hands_clear=shop.sled.hands_clear,
        blade_diameter=shop.saw.blade_diameter,
        slot_distance=shop.saw.slot_distance,
        slot_width=shop.saw.slot_width,
        fittings=job.fittings,
    )
