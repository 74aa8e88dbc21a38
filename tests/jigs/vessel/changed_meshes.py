"""Changes of a vessel's meshes: each takes all corners, the file, the job and a random generator."""

import numpy as np
import shapely
from stl import mesh as stl_mesh

from jigs.dryfit.vessel.work import work_of
from jigs.words.file_names import what_of
from tests.jigs.vessel.changed_drawings import either


def reshaped(change):
    def mutate(file, job, rng):
        plate = stl_mesh.Mesh.from_file(str(file), remove_empty_areas=False)
        corners = plate.vectors.reshape(-1, 3).copy()
        change(corners, file, job, rng)
        plate.vectors[:] = corners.reshape(-1, 3, 3)
        plate.save(str(file))

    mutate.__name__ = change.__name__
    return mutate


def on_edge(corners, file, job):
    """Which corners of a mesh lie on the parallel that its file is named after."""
    side = "inside" if what_of(file).startswith("inside") else "outside"
    stage = what_of(file).partition("gauge-")[2]
    k = int(stage.split("-")[1]) - 1 if stage.startswith("stage") else -1
    line = getattr(work_of(job), side)(job.gauges.stages[k] + job.gauges.fit)
    shapely.prepare(line)
    return shapely.dwithin(line, shapely.points(corners[:, :2].astype(float)), 0.05)


@reshaped
def edge_shifted(corners, file, job, rng):
    """The whole working edge, towards the work or away from it."""
    corners[on_edge(corners, file, job), 0] += either(rng, 0.2)


@reshaped
def edge_bent(corners, file, job, rng):
    """A third of the working edge."""
    edge = np.flatnonzero(on_edge(corners, file, job))
    low, high = np.quantile(corners[edge, 1], (0.33, 0.67))
    middle = edge[(corners[edge, 1] >= low) & (corners[edge, 1] <= high)]
    corners[middle, 0] += either(rng, 0.2)


@reshaped
def lifted(corners, file, job, rng):
    """All of it, along the axis."""
    corners[:, 1] += either(rng, 0.1)


@reshaped
def end_raised(corners, file, job, rng):
    """The upper end alone, so that pieces overlap or leave a gap."""
    corners[corners[:, 1] > corners[:, 1].max() - 0.01, 1] += either(rng, 0.1)


@reshaped
def hook_raised(corners, file, job, rng):
    rim = job.outside.profile.end[1]
    under = (np.abs(corners[:, 1] - rim) < 0.01) & (corners[:, 0] > work_of(job).section.mouth_radius)
    corners[under, 1] += either(rng, 0.1)


@reshaped
def slot_widened(corners, file, job, rng):
    """One side of the first slot of the wall gauge."""
    inner = np.unique(np.round(corners[(corners[:, 1] < 0.01) & (corners[:, 2] < 0.01), 0], 3))
    corners[np.abs(corners[:, 0] - inner[1]) < 0.01, 0] += either(rng, 0.2)


@reshaped
def bolt_hole_moved(corners, file, job, rng):
    """The upper one of a piece on the rail."""
    back, top = corners[:, 0].max(), corners[:, 1].max()
    around = (corners[:, 0] > back - 14) & (corners[:, 0] < back - 4) & (corners[:, 1] < top - 3)
    hole = around & (corners[:, 1] > top - 20)
    assert hole.any()
    corners[hole, :2] += (1.0, 0.0)


@reshaped
def plug_gauge_shifted(corners, file, job, rng):
    """All of it, along the radius."""
    corners[:, 0] += either(rng, 0.1)


PRINTED = {
    edge_shifted: ("outside-gauge-finished-2", "inside-gauge-stage-2"),
    edge_bent: ("outside-gauge-stage-2-2", "inside-gauge-finished"),
    lifted: ("inside-gauge-stage-1",),
    end_raised: ("outside-gauge-stage-1-1",),
    hook_raised: ("inside-gauge-finished",),
    slot_widened: ("wall-gauge",),
    bolt_hole_moved: ("outside-gauge-stage-2-1",),
    plug_gauge_shifted: ("mouth-plug-gauge",),
}
