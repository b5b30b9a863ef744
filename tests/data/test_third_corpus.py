"""The blind corpus in the grader's terms: every line has a place and an expectation that can be judged."""

from __future__ import annotations

from pathlib import Path

from quoting.tables import Limits, read_sheets
from tests.data.blind_expectations import want_of
from tests.data.sheet_model import ID, OD, Expect, Sheet
from tests.data.sheet_writer import write_sheet
from tests.data.third_corpus import sheets

SHELL = {
    "outcome": "price", "shape": "cylinder", "quantity": 2, "material": "316L", "thickness_mm": 6.0,
    "width_mm": 900.0, "inside_diameter_mm": 600.0, "why": "all sizes stand there",
}  # fmt: skip


def _named(name: str) -> Sheet:
    return next(sheet for sheet in sheets() if sheet.name == name)


def test_no_sheet_and_no_line_got_lost() -> None:
    assert len(sheets()) == 59
    assert sum(len(sheet.parts()) for sheet in sheets()) == 496


def test_every_line_that_must_be_asked_says_about_what() -> None:
    wants = [part.want for sheet in sheets() for part in sheet.parts()]
    assert not [
        want for want in wants if want.kind is Expect.ASK and not want.doubts and not want.or_left_out
    ]


def test_a_shell_is_a_line_by_any_usual_name_of_its_grade() -> None:
    want = want_of(SHELL, may_ask=False)
    ((line,),) = want.readings
    assert want.kind is Expect.LINE
    assert (line.d, line.basis, line.t, line.length, line.n) == (600, ID, 6, 900, 2)
    assert "1.4404" in line.mat.split("|")


def test_both_diameters_are_two_ways_to_be_right() -> None:
    want = want_of({**SHELL, "outside_diameter_mm": 612.0}, may_ask=False)
    assert [line.basis for (line,) in want.readings] == [ID, OD]


def test_a_line_that_may_be_asked_too_is_fine_both_ways() -> None:
    want = want_of({**SHELL, "also_ok": ["ask"], "ask_about": "which diameter"}, may_ask=False)
    assert want.kind is Expect.LINE_OR_ASK
    assert "basis" in want.doubts


def test_a_sheet_in_an_old_code_page_is_written_as_the_customer_sent_it(tmp_path: Path) -> None:
    file = write_sheet(_named("poptavka_3302"), tmp_path)
    assert "Vnitřní průměr" in file.read_bytes().decode("cp1250")
    (sheet,) = read_sheets(file, Limits())
    assert len(sheet.rows) >= 10
