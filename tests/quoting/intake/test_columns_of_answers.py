"""Columns whose cells answer yes or no, in the languages of the sheet: free issue, to roll, certificate."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Place
from quoting.intake.doubts import read_operations
from quoting.intake.row_record import Record
from quoting.intake.texts import yes_no
from tests.quoting.intake.test_units_grades_and_marks import blocking, read

GERMAN = ("Pos.", "Stk", "Güte", "s [mm]", "di [mm]", "Breite [mm]")
ROW = (6, "S355J2", 15, 1200, 1000)


def test_a_no_under_free_issue_leaves_the_plate_ours(tmp_path: Path) -> None:
    order = read(tmp_path, (*GERMAN, "Beistellung"), (1, *ROW, "ja"), (2, *ROW[:-1], 900, "nein"))
    assert [line.free_issue for line in order.lines] == [True, False]


@pytest.mark.parametrize(
    ("answer", "free"),
    [
        ("yes", True),
        ("no", False),
        ("oui", True),
        ("non", False),
        ("sí", True),
        ("nie", False),
        ("tak", True),
    ],
)
def test_answers_of_several_languages_under_free_issue(tmp_path: Path, answer: str, free: bool) -> None:
    head = ("Item", "Qty", "ID mm", "Thk mm", "Length mm", "Material", "Free issue")
    order = read(tmp_path, head, (1, 2, 1200, 10, 1500, "S235JR", answer))
    assert [line.free_issue for line in order.lines] == [free]


def test_an_answer_that_is_neither_is_asked_about(tmp_path: Path) -> None:
    head = ("Item", "Qty", "ID mm", "Thk mm", "Length mm", "Material", "Free issue")
    order = read(tmp_path, head, (1, 2, 1200, 10, 1500, "S235JR", "half of it"))
    assert not order.lines
    assert "1/free_issue_ok" in blocking(order)


def test_a_no_under_to_roll_and_certificate(tmp_path: Path) -> None:
    order = read(
        tmp_path, (*GERMAN, "Walzen", "Zeugnis"), (1, *ROW, "ja", "nein"), (2, *ROW[:-1], 900, "nein", "ja")
    )
    assert [(line.number, line.certificate) for line in order.lines] == [("1", False)]


@pytest.mark.parametrize(
    ("text", "answer"),
    [("Nein", False), ("nee, wij", False), ("ja, 3.1", True), ("Notes", None), ("", None), ("Simple", None)],
)
def test_yes_and_no_are_whole_words(text: str, answer: bool | None) -> None:
    assert yes_no(text) is answer


@pytest.mark.parametrize(
    "remark", ["Naht schweißen wir", "Schweißen bei uns", "Längsnaht wird bei uns geschweißt"]
)
def test_a_seam_that_the_customer_welds_is_not_priced(tmp_path: Path, remark: str) -> None:
    order = read(tmp_path, (*GERMAN, "Bemerkung"), (1, *ROW, remark))
    assert [line.weld for line in order.lines] == [None]


@pytest.mark.parametrize("answer", ["par nous", "non", "par le client"])
def test_bevels_that_somebody_else_makes_are_not_priced(tmp_path: Path, answer: str) -> None:
    head = (
        "Poste",
        "Nombre",
        "Diamètre extérieur (mm)",
        "Épaisseur (mm)",
        "Longueur (mm)",
        "Acier",
        "Chanfreins",
    )
    order = read(tmp_path, head, (1, 2, 1220, 10, 1500, "S275JR", answer))
    assert [line.edge_prep for line in order.lines] == [None]


@pytest.mark.parametrize(
    "remark",
    [
        "bevel 30 deg both ends by erector",
        "seam welded by the contractor",
        "bevels 30 deg by our boilermakers",
    ],
)
def test_work_of_others_is_not_priced(tmp_path: Path, remark: str) -> None:
    head = ("Item", "Qty", "ID mm", "Thk mm", "Length mm", "Material", "Remarks")
    order = read(tmp_path, head, (1, 2, 1200, 10, 1500, "S235JR", remark))
    assert [(line.weld, line.edge_prep) for line in order.lines] == [(None, None)]


def test_work_beside_that_of_others_is_priced(tmp_path: Path) -> None:
    head = ("Item", "Qty", "ID mm", "Thk mm", "Length mm", "Material", "Remarks")
    remark = "bevel 37.5 deg both ends by you, seam welded by erector"
    order = read(tmp_path, head, (1, 2, 1200, 10, 1500, "S235JR", remark))
    assert order.lines[0].weld is None
    assert order.lines[0].edge_prep is not None


@pytest.mark.parametrize(
    ("answer", "ours"), [("by shop", True), ("by our shop", False), ("by purchaser", False), ("no", False)]
)
def test_whose_work_a_column_of_bevels_is(answer: str, ours: bool) -> None:
    record = Record(Place("order.csv"))
    read_operations(record, [f"Bevels: {answer}"], inch=False)
    assert ("edge_prep" in record.values) is ours


@pytest.mark.parametrize(
    "head", ["Bevels", "Edge prep", "Weld", "Seam", "Paint", "Holes", "NDT", "Cert", "Finish"]
)
@pytest.mark.parametrize("who", ["by others", "by erector", "by us", "on site", "done by our shop"])
def test_work_that_others_do_takes_no_line_out_and_is_not_priced(tmp_path: Path, head: str, who: str) -> None:
    names = ("Item", "Qty", "ID mm", "Thk mm", "Length mm", "Material", head)
    (line,) = read(tmp_path, names, (1, 2, 1200, 10, 1500, "S235JR", who)).lines
    assert (line.weld, line.edge_prep, line.certificate) == read_plain(tmp_path)
    assert any(who in text for text in line.assumptions)


def read_plain(folder: Path) -> tuple[object, object, object]:
    """Return what a line without such a column has for weld, edge and certificate."""
    names = ("Item", "Qty", "ID mm", "Thk mm", "Length mm", "Material")
    (line,) = read(folder, names, (1, 2, 1200, 10, 1500, "S235JR")).lines
    return line.weld, line.edge_prep, line.certificate


@pytest.mark.parametrize(
    ("head", "who"),
    [("Weld", "by you"), ("Weld", "by roller"), ("Längsnaht", "durch Sie"), ("Soudure", "par vous")],
)
def test_a_weld_by_the_roller_is_wanted(tmp_path: Path, head: str, who: str) -> None:
    names = ("Pos", "Stück", "Ø innen mm", "Dicke mm", "Länge mm", "Werkstoff", head)
    if head == "Soudure":
        names = ("Rep", "Qté", "Ø intérieur mm", "Ép. mm", "Longueur mm", "Matière", head)
    lines = [
        read(tmp_path, names, (1, 2, 1200, 10, 1500, "S235JR", answer)).lines[0].weld
        for answer in (who, "yes")
    ]
    assert lines[0] == lines[1]


def test_plate_by_others_takes_no_line_out(tmp_path: Path) -> None:
    names = ("Item", "Qty", "ID mm", "Thk mm", "Length mm", "Material", "Plate")
    order = read(tmp_path, names, (1, 2, 1200, 10, 1500, "S235JR", "by others"))
    assert blocking(order)
