"""Vessels for the gauges' tests: jobs, and their plans with the gauges made from them."""

from functools import cache
from types import SimpleNamespace

from jigs.asked.jobfile import parse
from jigs.stages.gauging.parts.inside import inside_gauges
from jigs.stages.gauging.parts.outside import outside_gauges, rail
from jigs.stages.gauging.parts.wall import wall_gauge
from jigs.stages.gauging.solve.vessel import gauge_plan
from tests.jigs.vessel.held import blank_of

RINGS = """
[rings]
heights = 20
segments = [8, 12, 14]
species = "maple"
"""
JOBS = {
    "vase": """title = "Sorrel"
[profile]
stations = [[0, 70], [12, 74], [60, 132], [110, 148], [150, 118], [180, 96]]
[wall]
thickness = 7
floor = 9
""",
    "platter": """title = "Wide platter"
[profile]
stations = [[0, 110], [6, 150], [20, 240], [38, 300]]
[wall]
thickness = 8
floor = 9
""",
    "flared bowl": """title = "Flared bowl"
[profile]
edges = [[0, 90], [70, 220, 120], [85, 240]]
[wall]
by_height = [[0, 9], [85, 5]]
""",
    "closed vase": """title = "Closed vase"
unit = "in"
[profile]
stations = [["0 mm", "80 mm"], ["60 mm", "150 mm"], ["120 mm", "150 mm"], ["190 mm", "54 mm"]]
[wall]
thickness = "7 mm"
[reversing]
hold = "none"
""",
    "tall vase": """title = "Tall vase"
[profile]
stations = [[0, 90], [100, 150], [250, 170], [400, 120], [440, 140]]
[wall]
thickness = 7
floor = 12
""",
    "bottle": """title = "Bottle"
[profile]
stations = [[0, 80], [60, 150], [120, 110], [160, 40], [190, 40]]
[wall]
thickness = 7
[reversing]
hold = "none"
""",
    "round inside": """title = "Round inside"
[profile]
edges = [[0, 60], [50, 140, 60], [60, 140]]
[inside]
edges = [[8, 0], [60, 120, 62]]
""",
    "cylinder": """title = "Cup"
[profile]
edges = [[0, 80], [90, 80]]
[wall]
thickness = 6
floor = 6
inner_corner = 0
""",
}


@cache
def planned(name, more=""):
    """The plan of one of JOBS as far as gauges need it, and the gauges."""
    return planned_text(JOBS[name] + _rings(name) + more)


def planned_text(text):
    job = parse(text)
    section, stack = blank_of(job)
    plan = SimpleNamespace(job=job, section=section, stack=stack, gauges=gauge_plan(job, section, stack))
    return SimpleNamespace(
        **vars(plan),
        outside=outside_gauges(plan),
        rail=rail(plan),
        inside=inside_gauges(plan),
        wall=wall_gauge(plan),
    )


def _rings(name):
    return RINGS.replace("20", '"20 mm"') if "unit" in JOBS[name] else RINGS
