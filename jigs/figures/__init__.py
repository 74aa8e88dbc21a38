"""Pictures of the work and its jigs: lines, arcs, fills, words and dimensions in mm, drawn as SVG.

A `figure` is made of `items`; `laid` puts callouts and the words on a dimension where there is
room, `clear` of lines; the figure finds its scale, `svg` draws.

Pictures are plain functions from a plan or a part (`parts`), by form (`of_torus`, `of_vessel`, `of_layup`) and
by place of the work (`saws`, `bench`, `turning`).
"""
