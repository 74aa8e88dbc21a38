"""The dry fit: what the written files do when the work is cut, held and gauged with them.

Nothing here knows the plan. Drawings are read by their tags and meshes by numpy-stl, and held against the job's
own wishes and against each other.
"""
