"""admesh finds nothing to mend in any STL."""

import re

import pytest

MENDED = (
    "Degenerate facets", "Edges fixed", "Facets removed", "Facets added", "Facets reversed",
    "Backwards edges", "Normals fixed",
)  # fmt: skip


@pytest.fixture
def report(run):
    """The lines of admesh's report by name, each as its numbers."""

    def report(file):
        text = run("admesh", "--exact", "--normal-directions", "--normal-values", file)
        lines = re.findall(r"([A-Z][\w ]+?) *: *([-\d. ]+)(?= {2}|$)", text, re.MULTILINE)
        return {name: tuple(float(number) for number in numbers.split()) for name, numbers in lines}

    return report


def faults(found):
    wanted = dict.fromkeys(MENDED, (0,)) | {"Total disconnected facets": (0, 0), "Number of parts": (1,)}
    strays = [f"{name}: {found.get(name)}" for name, value in wanted.items() if found.get(name) != value]
    return strays if found["Volume"][0] > 0 else [*strays, f"Volume: {found['Volume']}"]


def test_admesh_finds_nothing_to_mend(made, report):
    found = {file.name: faults(report(file)) for _, file in made.files("print")}
    assert found
    assert not any(found.values()), found


def test_a_torn_mesh_is_found_out(report, torn):
    _, file = torn
    assert "Total disconnected facets: (3.0, 3.0)" in faults(report(file))
