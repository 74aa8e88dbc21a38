"""The live page: one job file, seen and changed in a browser on this machine.

`contract` and `contract_state` are all that the browser receives, as records; `web/contract.js`
has them as types.

`session` holds the file's text and its undo, `edits` change it by key, `fields` are the keys as fields, `on_disk`
watches files, `noted` writes readings into theirs, `reading` is what became of a text.

`fast` is what follows an edit at once, in this process (`drawing`, `woods`; what is dragged of a vessel,
`vessel_handles`), coarsely while something is dragged; `pictures` are asked for by themselves, some with mistakes put
in to be looked at.

`slow` jigs, boards and remedies are worked out in a second process (`slow_child`; `slow_half` begins it again,
`worker` ends it, when an edit makes it stale), a set by one of its own (`making`, `making_child`), choices compared
in a third (`choosing`); `process` says how all begin, rest while something is dragged, and end, `beside` begins
them. `live` keeps everything up to date, `packed` are the files of jigs.

`guard` says who may ask, `server` what; `serve` starts it.

`web/` is the page itself, modules without a build step: `store` holds the one state and makes all changes, `bend`
draws ahead of the server while a handle is dragged, `ways` how a number follows it, `pace` says how many pixels the
form then gets, `outlines` are the section's lines, on a canvas while they move, `view-*` draw, `handles` and
`brush` change, `pane-*` are the tabs; `vendor/` has three.js, bundled once.
"""
