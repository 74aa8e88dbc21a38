"""Pictures of the work and its jigs: lines, arcs, fills, words and dimensions in mm, drawn as SVG."""
