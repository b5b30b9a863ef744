"""Words that change a part or call it off are read in any language, whatever the sheet's own is.

The texts were written down as customers write them before the reader was looked at; an invented list.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
import xlsxwriter

from quoting.core import Arc, Cylinder, Order, State
from quoting.intake.read_orders import read_orders
from tests.benchmarks.intake_reader import grading_shop

HEADS = ("Item", "Qty", "Description", "ID mm", "Thk mm", "Length mm", "Material", "Remarks")
CALLED_OFF = (
    "entfällt", "annullata", "vervalt", "zrušeno", "utgår", "iptal edildi", "rezygnujemy", "hors fourniture",
    "non serve più", "wird nicht benötigt", "by others", "not reqd",
)  # fmt: skip
HELD_BACK = (
    "Regret", "no bid", "client supplies it", "to be supplied by the client", "we make this one ourselves",
    "we'll buy this", "placed with another shop", "dropped from scope", "postponed", "skip this", "n/r",
    "keep it out of the quote", "please take this off the list", "won't need these any more", "by customer",
    "by us", "our supply", "lo suministra el cliente", "a carico del cliente", "wird beigestellt",
    "zurückgestellt", "en attente de validation", "one more please",
    "2 more to follow next month", "double up", "only half needed", "order one extra in case",
    "go up a gauge", "use whatever plate you have", "galv plate", "must be seamless", "plate already cut",
    "roll direction along", "ne pas chiffrer", "nie wyceniać",
)  # fmt: skip
OTHER_SIZES = (
    "L = 1520", "lengte wordt 1475", "délka 1510 (oprava)", "Länge neu 1450", "dimension is outside!",
    "1200 is outside", "Maß ist außen!", "Ø 1200 é externo", "Cotes extérieures", "diameter is external",
    "Halbschale", "forma cônica", "数量改为4件", "20-off", "15 St.", "now 4 off",
)  # fmt: skip
BEHIND_ITS_WORK = (
    "2B finish, length 1600", "weld outside, 12 thk", "x-ray 10%, thickness 12", "stress relieve, S355",
    "blast and prime, material S355", "ovality 1%, 1250 ID", "ship to site, length 1600",
    "stamp item no, 12 mm thick", "long seam welded 100% RT, length 1600", "test 6 bar, wall 12",
    "bevel 30 deg, length 1600", "machine ends to 1495", "weld to 1210",
)  # fmt: skip
PRICED = (
    "roll only", "outside painted", "seam outside", "inside clean", "take off burrs", "keep off the floor",
    "leave out in the yard", "client will collect", "customer to paint", "outer shell", "deferred payment",
    "foil not required", "folie niet nodig", "none", "nil", "skip weld inside", "OD 1220", "1500 long",
    "For tank T-104", "call me if any questions",
    "one more coat", "collect 1600 hrs", "paint RAL 1213", "ship to dock 1475", "polish 1200 grit",
    "two more days", "only one seam",
    "ohne Naht, nur walzen",
)  # fmt: skip


def read(folder: Path, remark: str, description: str = "Shell") -> Order:
    file = folder / "order.xlsx"
    with xlsxwriter.Workbook(file) as book:
        sheet = book.add_worksheet("Parts")
        sheet.write_row(0, 0, HEADS)
        sheet.write_row(1, 0, (1, 2, description, 1200, 10, 1500, "S235JR", remark))
    return read_orders(file, grading_shop(), today=date(2026, 3, 2))


@pytest.mark.parametrize("remark", CALLED_OFF)
def test_a_line_called_off_in_any_language_is_not_priced(tmp_path: Path, remark: str) -> None:
    assert not read(tmp_path, remark).lines


@pytest.mark.parametrize("remark", [*HELD_BACK, *OTHER_SIZES, *BEHIND_ITS_WORK])
def test_a_remark_that_may_change_the_line_is_asked_about(tmp_path: Path, remark: str) -> None:
    assert [row.state for row in read(tmp_path, remark).rows if row.number == "1"] == [State.QUESTION]


@pytest.mark.parametrize("remark", PRICED)
def test_a_remark_that_changes_nothing_is_priced(tmp_path: Path, remark: str) -> None:
    (line,) = read(tmp_path, remark).lines
    assert (line.quantity, line.thickness_mm, line.material) == (2, 10, "S235JR")
    assert isinstance(line.shape, Cylinder)
    assert (line.shape.diameter_mm, line.shape.length_mm) == (1200, 1500)


@pytest.mark.parametrize("name", ["Halbschale", "demi-virole", "media caña", "halfschaal"])
def test_a_half_shell_is_one_in_a_sheet_with_english_heads(tmp_path: Path, name: str) -> None:
    (line,) = read(tmp_path, "", name).lines
    assert isinstance(line.shape, Arc)
    assert line.shape.angle_deg == 180
