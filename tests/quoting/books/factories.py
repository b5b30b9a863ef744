"""A small invented run: three customers, every state of a line, and text that tries to be a formula.

All customers, plates, prices and minutes are invented.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from functools import cache
from pathlib import Path

import quoting.shop
from quoting.core import (
    Arc,
    Basis,
    Choice,
    Cone,
    Cylinder,
    Draft,
    Ends,
    Order,
    OrderLine,
    Place,
    Question,
    Shape,
    SheetRow,
    State,
)
from quoting.estimating import Estimate, estimate
from quoting.shop import Edge, Shop, StockPlate, load_shop

TODAY = date(2026, 11, 30)
INCH = 25.4
NASTY = (
    "=1+1",
    "+SUM(A1:A9)",
    "-2+3",
    "@SUM(1)",
    "\t=7*7",
    '=HYPERLINK("http://example.test")',
    "mailto:a@b.test",
)
STARTER = Path(quoting.shop.__file__).parent / "starter"


def plate(
    id: str,
    material: str,
    thickness_in: float,
    width_in: float,
    length_in: float,
    *,
    price: str,
    **more: object,
) -> StockPlate:
    made = StockPlate(
        id,
        material,
        thickness_in * INCH,
        width_in * INCH,
        length_in * INCH,
        Edge.MILL,
        None,
        Decimal(price),
    )
    return replace(made, **more)  # type: ignore[arg-type]


STOCK = (
    plate("R-11", "A36", 0.25, 96, 120, price="318.11", count=1, heat="H4471", edge=Edge.TRIMMED),
    plate("R-12", "A36", 0.25, 36, 90, price="71.17", count=1, remnant=True),
    plate("B-25-96", "A36", 0.25, 97, 240, price="812.37", lead_days=4),
    plate("B-50-96", "A36", 0.5, 97, 240, price="1623.71", lead_days=4),
    plate("B-SS-60", "304/304L", 0.1875, 60, 144, price="744.53", lead_days=7),
    plate("B-100-96", "A516-70", 1.0, 97, 240, price="3301.19", lead_days=9),
)


@cache
def shop(paper: str = "letter") -> Shop:
    """The starter shop with a rack, a tax and rates that no other number of the run looks like."""
    starter = load_shop(STARTER)
    return replace(
        starter,
        name="Example & Sons Rolling (invented)",
        paper=paper,
        stock=STOCK,
        rates=replace(starter.rates, operator_hour=Decimal("43.19"), setup_hour=Decimal("47.93")),
        pricing=replace(
            starter.pricing,
            margin=Decimal("0.2837"),
            floor_margin=Decimal("0.1193"),
            overhead_share=Decimal("0.1271"),
            material_markup=Decimal("0.1187"),
            tax_share=Decimal("0.07"),
            tax_name="Sales tax",
        ),
    )


def place(file: str, row: int, column: str = "", header: str = "") -> Place:
    return Place(file, "RFQ", row, column, header)


def line(
    file: str, row: int, number: str, shape: Shape, thickness_mm: float, material: str, **more: object
) -> OrderLine:
    quantity = more.pop("quantity", 1)
    assert isinstance(quantity, int)
    made = OrderLine(
        f"{file[0]}-{number}",
        number,
        CUSTOMERS[file],
        place(file, row),
        quantity,
        shape,
        thickness_mm,
        material,
    )
    return replace(made, **more)  # type: ignore[arg-type]


CUSTOMERS = {
    "tidy.xlsx": "Sample Tank Works",
    "metric.xlsx": "Muster Behälterbau",
    "messy.xlsx": "=Placeholder & Fabricators <Ltd>",
}


def tidy() -> Order:
    """Inches, all clear but one line that is beyond the roll."""
    file = "tidy.xlsx"
    lines = (
        line(
            file,
            5,
            "10",
            Cylinder(36 * INCH, Basis.OUTSIDE, 60 * INCH),
            0.25 * INCH,
            "A36",
            quantity=4,
            part_no="T-100",
            certificate=True,
            due=date(2026, 12, 18),
        ),
        line(file, 6, "20", Arc(40 * INCH, Basis.INSIDE, 90, 48 * INCH), 0.25 * INCH, "A36", quantity=6),
        line(
            file,
            7,
            "30",
            Cone(48 * INCH, 30 * INCH, Basis.MEAN, 24 * INCH),
            0.25 * INCH,
            "A36",
            quantity=2,
            part_no="T-300",
            ends=Ends.LEAVE_FLAT,
        ),
        line(file, 8, "40", Cylinder(30 * INCH, Basis.INSIDE, 90 * INCH), 1.0 * INCH, "A516-70", quantity=1),
        line(
            file,
            9,
            "50",
            Cylinder(42 * INCH, Basis.INSIDE, 96 * INCH),
            0.5 * INCH,
            "A36",
            quantity=3,
            re_round=True,
            part_no="T-500",
        ),
    )
    rows = tuple(
        SheetRow(item.place, State.PRICED, item.number, "read", f"line {item.number} as it stands")
        for item in lines
    )
    title = SheetRow(place(file, 1), State.IGNORED, "", "title above the table", "Request for quotation")
    return Order(
        file, CUSTOMERS[file], reference="RFQ 2291", contact="Ms Example", lines=lines, rows=(title, *rows)
    )


def metric() -> Order:
    """Millimetres, stainless, one line whose plate the customer brings."""
    file = "metric.xlsx"
    lines = (
        line(file, 3, "1", Cylinder(800, Basis.INSIDE, 1200), 0.1875 * INCH, "304/304L", quantity=2),
        line(
            file,
            4,
            "2",
            Arc(1000, Basis.OUTSIDE, 180, 1000),
            0.25 * INCH,
            "A36",
            quantity=1,
            free_issue=True,
            assumptions=("radius taken as outside",),
        ),
    )
    rows = tuple(SheetRow(item.place, State.PRICED, item.number, "read") for item in lines)
    return Order(file, CUSTOMERS[file], lines=lines, rows=rows, metric=True)


def messy() -> Order:
    """Every text tries to be a formula or a link; one line is clear, one waits, one row is lost."""
    file = "messy.xlsx"
    clear = line(
        file,
        4,
        NASTY[0],
        Cylinder(30 * INCH, Basis.INSIDE, 40 * INCH),
        0.25 * INCH,
        "A36",
        part_no=NASTY[1],
        assumptions=(NASTY[3], NASTY[5]),
    )
    waiting = Draft("m-2", NASTY[2], place(file, 5), (("part_no", NASTY[4]), ("quantity", "3")), readings=())
    questions = (
        Question(
            "m-2/basis",
            "m-2",
            place(file, 5, "C", "Dia"),
            "24 dia",
            "Is 24 in the inside or the outside diameter?",
            (Choice("inside diameter"), Choice("outside diameter")),
        ),
        Question("m-all/unit", "", place(file, 1), NASTY[6], "Are sizes in inches?", (), False, "inches"),
    )
    rows = (
        SheetRow(place(file, 2), State.IGNORED, "", "title", NASTY[0]),
        SheetRow(place(file, 4), State.PRICED, NASTY[0], "read", NASTY[1]),
        SheetRow(place(file, 5), State.QUESTION, NASTY[2], "basis not given", "24 dia x 40, 1/4"),
        SheetRow(place(file, 6), State.QUESTION, "7", "could not be read", NASTY[3]),
        SheetRow(place(file, 9), State.IGNORED, "", "totals row", "Total"),
    )
    return Order(
        file,
        CUSTOMERS[file],
        reference=NASTY[3],
        contact=NASTY[1],
        lines=(clear,),
        questions=questions,
        rows=rows,
        drafts=(waiting,),
    )


@cache
def run(paper: str = "letter") -> Estimate:
    """The three orders, estimated."""
    return estimate((tidy(), metric(), messy()), shop(paper), today=TODAY, effort="quick")
