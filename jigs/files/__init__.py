"""From parts to files, and back again to check them; a writer knows no jig family.

`mesh stl three_mf` (`letters`: each raised character meshed once), `drawing dxf`, `svg` (paper, lasers),
`step` (by a process of its own: `step_child`; `solid`: what of it asks the CAD kernel), `manifest`.

`swap_in` writes a file of the user's whole or not at all.

`formats` says which file each process gets: adding a format is a writer and a line there. `sheets/` lays cut
parts out on the cutter's bed.
"""
