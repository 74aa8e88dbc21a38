"""A job's set of files: gathered, written, swapped in whole, and what of the old one still serves.

`rack` is every part as the turner has it made, and whether it can be. `make` gathers, writes, measures back
and swaps in whole (`swap`; `made` is what it did), `only` does some of it alone; `standing` tells from the
manifest whether a set stands before the job is read. `strangers` are files that are not ours.

`extras` are what is no jig. The shop book (`shop_book`) is made apart from the rest, on the second core where
there is one, and typeset in a process of its own, which takes what the typesetter keeps, 300 MB a book, with it.

`old_set changes sled_use keep` find which old jigs are now wrong, which old sleds serve whole, and which value
kept as it was would keep jigs right; `changes_told` says it. `measured` asks all topics of
readings.
"""
