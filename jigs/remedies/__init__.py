"""What would make a refused job pass: sets of changes to its file, each of them tried before it is offered.

A `trial` reads, solves and draws the job anew; `search` goes from the cheapest change up, among what may be
changed for a finding's code (`levers`: `torus`, `vessel`, `shared`, `shapes`, `stacks`).
What helps is brought down to what it takes (`lessened`) and put in `order`. A machine's size that the file left
out is tried first (`offered`).

Where no lever helps, the job in common proportions is put back to the turner's own as far as that passes (`put_back`).

Trials are counted, not timed, so that every machine answers alike.
"""
