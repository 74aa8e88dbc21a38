"""The work: every operation from measuring the shop to the finished piece, as data that any telling renders.

`model` has the records: operations with settings, jigs, checks, cautions and readings; tables; that of a stage; and
the rack, which says which part is used where. `steps` are operations that several stages share, `lathe` what every
mounting has, `cautions` what can hurt, by ids that never change, `shown` which picture an operation shows.

`lean` says what a lean rack leaves out and what is used instead, `minutes` how long each kind of work takes.

`hardware`, `supplies` and `at_hand` are what is used up and needed, `goods` all of it summed and what it costs,
`times` all time summed, `changes` what of a job became another.
"""
