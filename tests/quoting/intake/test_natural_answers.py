"""Every kind of question takes the answers people give: ten wordings a kind, read back from the line."""
# ruff: noqa: E501 - the wordings of a kind stay on one line

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Order
from quoting.intake.answers import resolve
from tests.quoting.intake.sheets import GOOD, HEAD, read_rows
from tests.quoting.intake.small_shop import small_shop

REMARKS = [*HEAD, "Remarks"]
SIZES = ["Item", "Qty", "Size", "Material"]


def row(**changes: str) -> list[str]:
    """Return the good row with some cells changed."""
    names = ["item", "qty", "dia", "side", "thk", "length", "material"]
    return [changes.get(name, cell) for name, cell in zip(names, GOOD, strict=True)]


CASES: dict[str, tuple[list[str], list[str], str, list[str]]] = {
    "quantity": (row(qty=""), HEAD, "1/quantity",
        ["4", "4 pcs", "four", "4 off", "qty 4", "(4)", "4 ea", "4 pieces", "4.0", "a dozen"]),
    "material": (row(material="??"), HEAD, "1/material",
        ["A36", "a36", "ASTM A36", "SA-36", "it is A36", "A36 please", "use A36", "304L", "316L SS", "AR400"]),
    "basis": (row(side=""), HEAD, "1/basis",
        ["ID", "id", "inside", "I.D.", "it is ID", "outside", "OD please", "the outside", "mean", "inside dia"]),
    "thickness": (row(thk=""), HEAD, "1/thickness",
        ["1/4", '1/4"', "0.25", ".25 in", "1/4 inch", "6.35 mm", "1/4 plate", "it is 1/4", "10 ga", "quarter inch"]),
    "diameter": (row(dia=""), HEAD, "1/diameter",
        ["48", '48"', "48 ID", "48 in", "48.", "4 ft", "4'-0", "1219 mm", "it should be 48", "48 inches please"]),
    "length": (row(length=""), HEAD, "1/length",
        ["60", '60"', "60 long", "5 ft", "5'-0", "60 in", "60.", "1524 mm", "60 inches", "it is 60"]),
    "size": (["1", "2", "48 x 24 x 12", "A36"], SIZES, "1/size",
        ["48 OD x 1/4 x 60", "60 ID x 4 long x 1/4 thk", "OD 48, 1/4 thk, 60 long", "48 OD, 60 long, 1/4 plate",
         "1/4 thk x 48 ID x 60", '48" OD x 1/4" x 60"', "1/4 x 60, 48 OD", "48 i/d x 60 lg x 1/4", "dia 48 outside x 60 x 1/4",
         "48 OD 1/4 thk 60 long"]),
    "unit": (["1", "2", "48", "ID", "2", "60", "A36"], ["Item", "Qty", "Dia", "ID/OD", "Thk", "Length", "Material"],
        "all/unit", ["inches", "in", "inch", "imperial", "Inches.", "mm", "millimetres", "metric", "all mm", "it's inches"]),
    "status": ([*GOOD, "HOLD"], REMARKS, "1/status_ok",
        ["released", "ok", "yes", "go ahead", "as it stands", "price it", "confirmed", "leave it out", "cancel", "not wanted"]),
    "free issue": ([*GOOD, "plate by us"], REMARKS, "1/free_issue_ok",
        ["yes", "our plate", "yes, our plate", "you supply", "no", "no, you supply the plate", "correct", "ok",
         "you supply the plate", "confirmed"]),
    "number": ([*GOOD, "mind the 17"], REMARKS, "1/number_ok",
        ["nothing", "ignore", "no", "as is", "ok", "does not matter", "no change", "fine", "ignore it", "nothing that changes the part"]),
    "reference": ([*GOOD, "as per sample"], REMARKS, "1/reference_ok",
        ["as the other cells say", "ok", "yes", "48 ID x 1/4 x 60", "no change", "as listed", "60 long", "leave it out",
         "as is", "correct"]),
    "eccentric": ([*GOOD, "eccentric"], REMARKS, "1/eccentric_ok",
        ["ok", "no change", "as is", "leave it out", "delete", "yes", "as the other cells say", "cylinder", "drop it", "skip"]),
    "option": ([*GOOD, "optional"], REMARKS, "1/option_ok",
        ["price it", "yes", "ok", "leave it out", "as listed", "go ahead", "skip", "not needed", "confirmed", "quote it"]),
    "duplicate": ([*GOOD], HEAD, "1-r3/duplicate",
        ["both", "yes", "yes, both", "once", "only once", "no", "no, only once", "ok", "correct", "delete"]),
    "weld gap": ([*GOOD, "leave 2 gap"], REMARKS, "1/weld_gap",
        ["yes", "no", "0", "none", "close it", "1/8", "3 mm", "ok", "zero", "no gap"]),
    "material said": ([*GOOD, "304L"], REMARKS, "1/material",
        ["A36", "304L", "use 304L", "304L please", "A36 as listed", "SS304L", "the 304L", "ASTM A36", "it is 304L", "304l"]),
    "angle": (["1", "2", "24", "", "1/4", "48", "A36", "trough"], ["Item", "Qty", "OD (in)", "Deg", "Thk (in)", "Length", "Material",
        "Description"], "1/angle",
        ["180", "180 deg", "180°", "half", "quarter", "90 degrees", "120", "it is 180", "full cylinder", "a third"]),
}  # fmt: skip


def asked(kind: str, folder: Path) -> tuple[Order, str]:
    cells, head, key, _ = CASES[kind]
    rows = [cells, cells] if kind == "duplicate" else [cells]
    return read_rows(folder, *rows, head=head), key


@pytest.mark.parametrize("kind", CASES)
def test_any_natural_answer_is_taken(tmp_path: Path, kind: str) -> None:
    order, key = asked(kind, tmp_path)
    assert key in {one.id for one in order.questions}, [one.id for one in order.questions]
    left = []
    for answer in CASES[kind][3]:
        after = resolve(order, {key: answer}, small_shop())
        texts = " ".join(one.told for one in after.questions)
        if key in {one.id for one in after.questions} or "was not understood" in texts:
            left.append(answer)
    assert left == []


def test_each_kind_has_ten_wordings() -> None:
    assert {kind: len(case[3]) for kind, case in CASES.items() if len(case[3]) < 10} == {}


def test_an_answer_with_all_sizes_makes_the_line(tmp_path: Path) -> None:
    order, key = asked("size", tmp_path)
    after = resolve(order, {key: "60 OD x 4 long x 1/4 thk"}, small_shop())
    assert [line.shape.length_mm for line in after.lines] == [pytest.approx(101.6)]  # type: ignore[union-attr]
