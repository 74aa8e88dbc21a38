"""The keys of prices. In a file in mm wood is priced by the cubic metre, in inches by the board foot, and so on."""

from __future__ import annotations

from jigs.keys.key import Key, Table

PRICE_TABLES = {
    "prices": Table("What things cost, for the shopping list; without a price nothing is reckoned")
}
_UNSET = "its cost is left out"
_MOST = 1e6

PRICE_KEYS: tuple[Key, ...] = (
    Key("prices.wood", "prices", "of each wood, its name and the price of a cubic metre; in a file in inches that of a "
        "board foot; plies and hardwood for runners have theirs here too", unset=_UNSET,
        example=(("maple", 3200.0), ("hardwood", 2500.0)), most=_MOST, per="timber"),
    Key("prices.sheet", "price", "of a sheet for jigs, as large as the cutter's bed", unset=_UNSET, example=18.0,
        most=_MOST),
    Key("prices.board", "price", "of a sheet of the board for what spins, as large as the cutter's bed", unset=_UNSET,
        example=24.0, most=_MOST),
    Key("prices.hardware", "price", "of a piece of hardware with its nut and washers, the mean of all", unset=_UNSET,
        example=0.6, most=_MOST),
    Key("prices.abrasive", "price", "of a sheet of abrasive", unset=_UNSET, example=1.2, most=_MOST),
    Key("prices.glue", "price", "of a kilogram of glue; in a file in inches that of a pound", unset=_UNSET,
        example=14.0, most=_MOST, per="weight"),
    Key("prices.finish", "price", "of a litre of finish; in a file in inches that of a quart", unset=_UNSET,
        example=28.0, most=_MOST, per="liquid"),
    Key("prices.filament", "price", "of a kilogram of filament; in a file in inches that of a pound", unset=_UNSET,
        example=22.0, most=_MOST, per="weight"),
)  # fmt: skip
