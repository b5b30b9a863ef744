"""Parts told in one text, without columns that say more: what is read of them, and that none is read wrongly.

The texts in `tests/data/texts_alone` were invented by somebody who had not seen the reader, with what they
mean beside them; those here are half of the list, the other half is kept aside and only counted.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from math import isclose
from pathlib import Path
from typing import Any

import pytest

from quoting.core import Arc, Basis, Cone, Cylinder, InputError, Order, OrderLine
from quoting.intake.layout.columns import meaning_of
from quoting.intake.read_orders import read_orders
from quoting.intake.texts.part_counts import last_count, last_times
from tests.benchmarks.intake_reader import grading_shop
from tests.data.sheet_model import TODAY

DATA = Path(__file__).parents[2] / "data" / "texts_alone"
SHAPES = {
    "cylinder": Cylinder, "ring": Cylinder, "cone": Cone, "half shell": Arc, "segment": Arc,
    "plate to radius": Arc,
}  # fmt: skip
READ_OF_DESCRIPTIONS = 36
HEADS_READ = 114
FIELDS = {
    "arc angle": "angle", "chord": "chord", "description": "description", "drawing": "drawing",
    "grade": "material", "material": "material", "height of cone": "height", "item number": "number part_no",
    "large end diameter": "large", "small end diameter": "small top", "quantity": "quantity",
    "radius": "radius",
    "remark": "remarks", "required date": "due", "revision": "revision", "rise": "rise", "seam/weld": "seam",
    "thickness": "thickness gauge", "weight each": "weight", "weight total": "weight", "ignore": "carried",
    "unit price (to fill in)": "carried", "total price (to fill in)": "carried quantity",
    "heat/cert": "carried",
    "length or width along the axis": "length height", "quantity per assembly": "per_unit",
    "length developed": "girth circumference", "rolling direction": "grain", "inside diameter": "diameter",
    "outside diameter": "diameter", "mean diameter": "diameter", "diameter (kind not said)": "diameter",
}  # fmt: skip
"""The fields that a head's meaning may be read as; under "Amount" may stand money or pieces."""


def texts(name: str) -> list[dict[str, Any]]:
    """Return one of the lists."""
    return list(json.loads((DATA / f"{name}.json").read_text(encoding="utf-8")))


def read(folder: Path, one: dict[str, Any]) -> Order | None:
    """Return what is made of a sheet of one row that holds the text, cells for what it leaves out."""
    inch = one["unit"] == "inch"
    head, row = ["Pos", "Description"], ["1", one["text"]]
    for name, cell in (("quantity", "1"), ("material", "A36")):
        if name not in one:
            head, row = [*head, "Qty" if name == "quantity" else "Material"], [*row, cell]
    return read_cells(folder, [f"All dimensions in {'inches' if inch else 'mm'}"], [], head, row)


def read_cells(folder: Path, *rows: Sequence[str]) -> Order | None:
    """Return what is made of these rows; nothing where the sheet is refused."""
    import openpyxl  # noqa: PLC0415 - slow to load

    book = openpyxl.Workbook()
    assert book.active is not None
    for row in rows:
        book.active.append(list(row))
    book.save(folder / "order.xlsx")
    try:
        return read_orders(folder / "order.xlsx", grading_shop(), today=TODAY)
    except InputError:
        return None


def wrong(one: dict[str, Any], line: OrderLine) -> str:
    """Return what of a line is not as the text means it; nothing where it is right."""
    factor = 25.4 if one["unit"] == "inch" else 1.0
    wanted = {
        name: one[name] * factor for name in ("diameter", "radius", "length", "thickness") if name in one
    }
    if SHAPES.get(one["shape"]) is not type(line.shape):
        return f"shape {line.shape}"
    found = {"thickness": line.thickness_mm}
    shift = _shift(line, one.get("diameter_kind", ""))
    match line.shape:
        case Cylinder(diameter, _, length):
            found |= {"diameter": diameter + shift, "radius": (diameter + shift) / 2, "length": length}
        case Cone(large, _, _, height):
            found |= {"diameter": large + shift, "length": height}
        case Arc(radius, _, angle, length):
            found |= {"diameter": 2 * radius + shift, "radius": radius + shift / 2, "length": length}
            if "angle" in one and not isclose(angle, one["angle"], rel_tol=0.006):
                return f"angle {angle}"
    if line.quantity != one.get("quantity", 1):
        return f"quantity {line.quantity}"
    apart = [name for name, mm in wanted.items() if not isclose(found[name], mm, rel_tol=0.006, abs_tol=0.06)]
    return ", ".join(f"{name} {found[name]:g}" for name in apart)


def _shift(line: OrderLine, side: str) -> float:
    """Return what is added to a diameter of the line for the same part's on another side (mm)."""
    if side not in [*Basis]:
        return 0.0
    out = {Basis.INSIDE: -1, Basis.MEAN: 0, Basis.OUTSIDE: 1}
    return (out[Basis(side)] - out[line.shape.basis]) * line.thickness_mm


def test_a_description_alone_is_read_right_or_asked_about(tmp_path: Path) -> None:
    right, bad = 0, []
    for one in texts("descriptions"):
        order = read(tmp_path, one)
        if order is None or not order.lines or any(question.blocking for question in order.questions):
            continue
        (line,) = order.lines
        if fault := wrong(one, line):
            bad.append((one["text"], fault))
        right += not fault
    assert not bad
    assert right >= READ_OF_DESCRIPTIONS


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("Zarge 3 mm, D außen 850, h 620, 15 St.", 15),
        ("shell 48 OD x 1/4 x 60, 20-off", 20),
        ("ID1000 T8 L1250 ; Q6", 6),
        ("Virola Ø i. 1600 sp. 8 h 1500 pz 2", 2),
        ("卷筒 Φ1200×10×1500 共9节", 9),
        ("band 40 ID x 8 x St. 37", None),
        ("band 40 ID x 8 x 60 ea", None),
        ("48 OD x 1/4 x 8", None),
    ],
)
def test_a_count_at_the_end(text: str, count: int | None) -> None:
    assert last_count(text)[0] == count


@pytest.mark.parametrize(
    ("text", "grade"),
    [
        ("S355J2+N to EN10025-2 3.1", "S355J2"),
        ("ST52-3N", "S355J2"),
        ("SA516 60 PVQ", "A516-60"),
        ("304/304L dual", "304/304L"),
        ("konstruktionsstål S355", "S355J2"),
        ("czarna S235", "S235JR"),
        ("Paslanmaz 304 kalite", "304/304L"),
        ("blk plate", "A36"),
        ("EH36 Z35", ""),
        ("S275 JO", ""),
        ("Q345E", ""),
        ("16MnDR", ""),
        ("S355J2 or S355K2", ""),
    ],
)
def test_a_grade_with_words_beside_it(tmp_path: Path, text: str, grade: str) -> None:
    head = ["Item", "Qty", "Description", "ID mm", "Thk mm", "Length mm", "Material"]
    order = read_cells(tmp_path, head, ["1", "2", "Shell", "1200", "10", "1500", text])
    assert order is not None
    assert [line.material for line in order.lines] == ([grade] if grade else [])


def test_a_certificate_behind_a_grade_is_wanted(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Description", "ID mm", "Thk mm", "Length mm", "Material"]
    order = read_cells(tmp_path, head, ["1", "2", "Shell", "1200", "10", "1500", "P265GH EN 10028-2 3.1"])
    assert order is not None
    assert [line.certificate for line in order.lines] == [True]


def test_heads_alone_are_known_or_unknown_and_never_another() -> None:
    right, bad = 0, []
    for one in texts("heads"):
        found = meaning_of(" ".join(one["head"].split()))
        side = one["means"].split()[0]
        same = found.field in FIELDS.get(one["means"], "").split() and (
            side not in [*Basis] or found.basis in (None, side)
        )
        right += same
        if found.field and found.sure and not same:
            bad.append((one["head"], found))
    assert not bad
    assert right >= HEADS_READ


@pytest.mark.parametrize(
    ("head", "field", "basis"),
    [
        ("LE OD", "large", Basis.OUTSIDE),
        ("SE ID", "small", Basis.INSIDE),
        ("Ø fibre neutre", "diameter", Basis.MEAN),
        ("Hartlijn Ø", "diameter", Basis.MEAN),
        ("Ind.", "revision", None),
        ("P.U. HT", "carried", None),
        ("Ht", "height", None),
        ("WBS element", "carried", None),
        ("HS code", "carried", None),
        ("Apex angle °", "", None),
        ("Walzrichtung", "grain", None),
        ("kl. Ø", "small", None),
    ],
)
def test_heads_that_were_read_as_another(head: str, field: str, basis: Basis | None) -> None:
    found = meaning_of(head)
    assert (found.field, found.basis) == (field, basis)


def test_times_behind_a_part_is_no_size() -> None:
    assert last_times("cyl OD 1220 x 10 x 1500 ; x2")[0] == 2
    assert last_times("shell OD 1320 x 4 x 870 ; , 2x")[0] == 2
    for text in (
        "48 OD, 1/4 ; x 60",
        "cone 48 OD, 24 OD, 1/4 ; x 30",
        "R 20, 90°, 1/4 ; x 30",
        "48 OD x 1/4 x 6",
    ):
        assert last_times(text)[0] is None, text


def test_a_head_of_item_and_description_is_one(tmp_path: Path) -> None:
    rows = (["1", 'Shell 48" OD x 1/4 x 60 A36, 2 off'], ["2", 'Shell 36" ID x 3/8 x 48 A36, 3 off'])
    order = read_cells(tmp_path, ["Pos", "Description"], *([*row] for row in rows))
    assert order is not None
    assert [(line.number, line.quantity) for line in order.lines] == [("1", 2), ("2", 3)]
    assert not [one for one in order.questions if one.blocking]
