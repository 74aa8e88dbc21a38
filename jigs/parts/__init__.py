"""What a user holds in the hand, and all that is known of it by its name.

`families` lists every jig in its family, as records: code, what the dry fit and a lean rack make of
it, what it is cut to. A `part` grows from a `plate` of sheet; others are `turned` or `mirror`ed; an
`assembly` is several of them put together.

`codes` and `coding` letter its code, `places` find room for lettering and
holes, `lines` what else is drawn, `facts` what its file tells of it.

`processes` change a part to how the turner has it made; `splitting` puts it in pieces where the bed is short
(`beds`, `joints`), `proof` asks whether it lies there and can be cut, `readback` measures it by its `probes`.

`sleds/` and `gauges/` hold what sleds and gauges have in common.
"""
