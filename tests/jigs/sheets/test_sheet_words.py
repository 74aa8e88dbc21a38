from jigs.sheets.nesting import left_out, nest
from jigs.sheets.words import contents, sheet_section
from tests.jigs.sheets.shop import offcut, plate, racked, shop


def test_every_sheet_has_a_row_that_names_its_parts_with_their_counts():
    parts, workshop = racked("garland")
    sheets = nest(parts, workshop)
    rows = sheet_section(sheets, left_out(parts, workshop), "mm").rows
    assert [row.name for row in rows] == [sheet.name for sheet in sheets]
    for sheet, row in zip(sheets, rows, strict=True):
        assert contents(sheet) in row.value
        assert f"{sheet.used:.0%} under parts" in row.value
        for item in sheet.placed:
            assert item.part.name in row.value


def test_counts_are_those_of_the_sheet():
    (sheet,) = nest([plate("a", quantity=3), plate("b", 20, 20)], shop())
    assert contents(sheet) == "3 A a, B b"


def test_parts_on_no_sheet_are_listed_with_their_size():
    parts = [plate("long", 1000, 40)]
    (row,) = sheet_section(nest(parts, shop()), left_out(parts, shop()), "mm").rows
    assert (row.name, row.value) == ("LO long", "on no sheet: 1000.0 mm x 40.0 mm, larger than the bed")


def test_lengths_are_shown_in_the_jobs_unit():
    (row,) = sheet_section(nest([plate()], shop(bed=(914.4, 609.6))), (), "in").rows
    assert "36 in x 24 in" in row.value


def test_an_offcut_of_another_thickness_is_cautioned_about():
    even = sheet_section(nest([plate()], shop(offcuts=(offcut(300, 300),))), (), "mm")
    odd = sheet_section(nest([plate()], shop(offcuts=(offcut(300, 300, thickness=11.8),))), (), "mm")
    assert not any("sheet-12-1" in caution for caution in even.cautions)
    assert "sheet-12-1" in odd.cautions[-1]
    assert odd.rows[0].value.startswith("offcut, 300.0 mm x 300.0 mm x 11.8 mm")
