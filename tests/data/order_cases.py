"""The order sheets of the corpus and what a person reads in them; all of it is invented."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from math import asin, atan, degrees, pi
from typing import Any

INCH = 25.4
Line = dict[str, Any]


@dataclass(frozen=True)
class Grid:
    """One sheet: rows of cells, where they start, and what is hidden or merged."""

    rows: list[list[Any]]
    name: str = "Sheet1"
    top: int = 0
    left: int = 0
    hidden: bool = False
    hidden_rows: tuple[int, ...] = ()
    merged: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Case:
    """A sheet with its expected reading.

    `asked` are the ids of the questions that keep a line waiting, `noted` those that do not; `counts` the
    rows by state.
    """

    file: str
    sheets: list[Grid]
    lines: list[Line] = field(default_factory=list)
    asked: tuple[str, ...] = ()
    noted: tuple[str, ...] = ("all/ends",)
    counts: dict[str, int] = field(default_factory=dict)
    customer: str = ""
    metric: bool | None = None
    separator: str = ","
    encoding: str = "utf-8"
    head: str = ""

    def expected(self) -> dict[str, Any]:
        """Return the expected reading for JSON."""
        found: dict[str, Any] = {
            "lines": self.lines,
            "asked": sorted(self.asked),
            "noted": sorted(self.noted),
            "rows": self.counts,
        }
        if self.customer:
            found["customer"] = self.customer
        if self.metric is not None:
            found["metric"] = self.metric
        return found


def _line(
    id_: str, quantity: int, thick: float, material: str, shape: dict[str, Any], more: dict[str, Any]
) -> Line:
    rounded = {key: round(value, 3) if isinstance(value, float) else value for key, value in shape.items()}
    return {
        "id": id_,
        "quantity": quantity,
        "thickness_mm": round(thick, 4),
        "material": material,
        **rounded,
        **more,
    }


def cyl(
    id_: str,
    quantity: int,
    dia: float,
    basis: str,
    long: float,
    thick: float,
    material: str,
    unit: float = INCH,
    **more: Any,
) -> Line:
    """Return an expected cylinder, sizes in `unit` mm."""
    shape = {"shape": "Cylinder", "diameter_mm": dia * unit, "basis": basis, "length_mm": long * unit}
    return _line(id_, quantity, thick * unit, material, shape, more)


def arc(
    id_: str,
    quantity: int,
    radius: float,
    basis: str,
    angle: float,
    long: float,
    thick: float,
    material: str,
    unit: float = INCH,
    **more: Any,
) -> Line:
    """Return an expected arc."""
    shape = {
        "shape": "Arc",
        "radius_mm": radius * unit,
        "basis": basis,
        "angle_deg": float(angle),
        "length_mm": long * unit,
    }
    return _line(id_, quantity, thick * unit, material, shape, more)


def cone(
    id_: str,
    quantity: int,
    large: float,
    small: float,
    basis: str,
    height: float,
    thick: float,
    material: str,
    unit: float = INCH,
    **more: Any,
) -> Line:
    """Return an expected cone."""
    shape = {
        "shape": "Cone",
        "large_mm": large * unit,
        "small_mm": small * unit,
        "basis": basis,
        "height_mm": height * unit,
    }
    return _line(id_, quantity, thick * unit, material, shape, more)


INSIDE, OUTSIDE, MEAN = "inside", "outside", "mean"
HEAD = ["Item", "Qty", "Dia", "ID/OD", "Thk (in)", "Length", "Material"]


def rows(*cells: list[Any], head: list[str] | None = None, **grid: Any) -> list[Grid]:
    """Return one sheet with a header."""
    return [Grid([head or HEAD, *cells], **grid)]


def states(priced: int = 0, question: int = 0, ignored: int = 1, no_quote: int = 0) -> dict[str, int]:
    """Return the rows by state; a header is one ignored row."""
    found = {"priced": priced, "question": question, "ignored": ignored, "no-quote": no_quote}
    return {name: count for name, count in found.items() if count}


CASES: tuple[Case, ...] = (
    Case(
        "tidy_inch.xlsx",
        rows(
            [10, 2, 48, "ID", 0.25, 60, "A36"],
            [20, 1, 36, "OD", 0.5, 96, "304L"],
            [30, 4, 24, "mean", 0.375, 48, "A36"],
        ),
        [
            cyl("10", 2, 48, INSIDE, 60, 0.25, "A36"),
            cyl("20", 1, 36, OUTSIDE, 96, 0.5, "304L"),
            cyl("30", 4, 24, MEAN, 48, 0.375, "A36"),
        ],
        counts=states(3),
        metric=False,
    ),
    Case(
        "tidy_metric.xlsx",
        rows(
            [1, 2, 1200, 6, 1500, "A36"],
            [2, 1, 610, 10, 2000, "316L"],
            head=["Pos", "Quantity", "Inside diameter (mm)", "Thickness (mm)", "Length (mm)", "Grade"],
        ),
        [cyl("1", 2, 1200, INSIDE, 1500, 6, "A36", 1), cyl("2", 1, 610, INSIDE, 2000, 10, "316L", 1)],
        counts=states(2),
        metric=True,
    ),
    Case(
        "decimal_comma.csv",
        rows(
            ["1", "2", "1219,2", "6,0", "1524,5", "A36"],
            ["2", "3", "1.016,0", "10", "900", "A36"],
            head=["Pos", "Qty", "OD mm", "Thk mm", "Length mm", "Matl"],
        ),
        [cyl("1", 2, 1219.2, OUTSIDE, 1524.5, 6, "A36", 1), cyl("2", 3, 1016, OUTSIDE, 900, 10, "A36", 1)],
        counts=states(2),
        metric=True,
        separator=";",
    ),
    Case(
        "units_row.xlsx",
        [
            Grid(
                [
                    ["Line", "Qty", "OD", "Wall", "Width", "Spec"],
                    ["", "ea", "in", "in", "in", ""],
                    [1, 1, 30, 0.25, 48, "A36"],
                    [2, 6, 20, 0.1875, 30, "304L"],
                ]
            )
        ],
        [cyl("1", 1, 30, OUTSIDE, 48, 0.25, "A36"), cyl("2", 6, 20, OUTSIDE, 30, 0.1875, "304L")],
        counts=states(2, ignored=2),
    ),
    Case(
        "two_header_rows.xlsx",
        [
            Grid(
                [
                    ["Item", "Qty", "Diameter", "", "Plate", "", "Length"],
                    ["", "", "ID", "OD", "Thk", "Matl", "(in)"],
                    ["A", 1, 40, "", "1/4", "A36", 60],
                    ["B", 2, "", 40, "1/2", "A36", 60],
                ]
            )
        ],
        [cyl("A", 1, 40, INSIDE, 60, 0.25, "A36"), cyl("B", 2, 40, OUTSIDE, 60, 0.5, "A36")],
        counts=states(2, ignored=2),
    ),
    Case(
        "title_block.xlsx",
        [
            Grid(
                [
                    ["", "", "", ""],
                    ["RFQ No:", "R-1187", "", ""],
                    ["Customer:", "Lakeside Tank (invented)"],
                    [],
                    ["Part No", "Qty", "I.D.", "Thk.", "Lg.", "Mat'l"],
                    ["T-1", 2, 60, "3/8", 72, "A36"],
                ],
                top=2,
                left=2,
                merged={"C1:H2": "REQUEST FOR QUOTATION"},
            )
        ],
        [cyl("8", 2, 60, INSIDE, 72, 0.375, "A36", part_no="T-1")],
        counts=states(1, ignored=4),
        customer="Lakeside Tank (invented)",
    ),
    Case(
        "totals_and_notes.xlsx",
        rows(
            [1, 2, 48, "ID", "1/4", 60, "A36"],
            [2, 3, 48, "OD", "1/4", 60, "A36"],
            ["Total", 5],
            [],
            ["Notes:"],
            ["All edges to be deburred."],
            ["Deliver on pallets, dimensions in inches."],
        ),
        [cyl("1", 2, 48, INSIDE, 60, 0.25, "A36"), cyl("2", 3, 48, OUTSIDE, 60, 0.25, "A36")],
        noted=("all/ends", "all/notes_ok"),
        counts=states(2, ignored=5),
    ),
    Case(
        "total_without_word.xlsx",
        rows([1, 2, 48, "ID", "1/4", 60, "A36"], [2, 3, 48, "OD", "1/4", 60, "A36"], ["", 5]),
        [cyl("1", 2, 48, INSIDE, 60, 0.25, "A36"), cyl("2", 3, 48, OUTSIDE, 60, 0.25, "A36")],
        counts=states(2, ignored=2),
    ),
    Case(
        "sections.xlsx",
        [
            Grid(
                [
                    ["TANK 1"],
                    HEAD,
                    [1, 2, 48, "ID", "1/4", 60, "A36"],
                    [],
                    ["TANK 2"],
                    HEAD,
                    [2, 1, 36, "OD", "3/8", 48, "304L"],
                ]
            )
        ],
        [cyl("1", 2, 48, INSIDE, 60, 0.25, "A36"), cyl("2", 1, 36, OUTSIDE, 48, 0.375, "304L")],
        counts=states(2, ignored=4),
    ),
    Case(
        "fractions_as_text.csv",
        rows(
            ["1", "2", '48-1/2"', "ID", "1/4", '60 1/4"', "A36"],
            ["2", "1", "36½", "OD", "3/16 PL", "48.5", "A36"],
            ["3", "1", "24", "OD", ".375", "36", "A36"],
            ["4", "1", "30", "ID", '0.5"', "36", "A36"],
        ),
        [
            cyl("1", 2, 48.5, INSIDE, 60.25, 0.25, "A36"),
            cyl("2", 1, 36.5, OUTSIDE, 48.5, 0.1875, "A36"),
            cyl("3", 1, 24, OUTSIDE, 36, 0.375, "A36"),
            cyl("4", 1, 30, INSIDE, 36, 0.5, "A36"),
        ],
        counts=states(4),
    ),
    Case(
        "feet_inches.xlsx",
        rows(
            [1, 1, "5'-6 1/2\"", "ID", "1/2", "8'-0", "A36"],
            [2, 1, "4' 6", "OD", "1/4", "10'", "A36"],
            [3, 1, "6 ft 3 in", "OD", "1/4", "5'6\"", "A36"],
        ),
        [
            cyl("1", 1, 66.5, INSIDE, 96, 0.5, "A36"),
            cyl("2", 1, 54, OUTSIDE, 120, 0.25, "A36"),
            cyl("3", 1, 75, OUTSIDE, 66, 0.25, "A36"),
        ],
        counts=states(3),
    ),
    Case(
        "fraction_became_date.xlsx",
        rows(
            [1, 2, 48, "ID", date(2026, 1, 4), 60, "A36"],
            [2, 2, 48, "ID", date(2002, 1, 1), 60, "A36"],
            [3, 1, 40, "OD", 0.25, 60, "A36"],
        ),
        [cyl("3", 1, 40, OUTSIDE, 60, 0.25, "A36")],
        asked=("1/thickness", "2/thickness"),
        counts=states(1, 2),
    ),
    Case(
        "quantity_became_date.xlsx",
        rows([1, date(2026, 1, 5), 48, "ID", 0.25, 60, "A36"], [2, 1, 40, "OD", 0.25, 60, "A36"]),
        [cyl("2", 1, 40, OUTSIDE, 60, 0.25, "A36")],
        asked=("1/quantity",),
        counts=states(1, 1),
    ),
    Case(
        "bare_diameter.xlsx",
        rows(
            [1, 1, 24, "", 0.25, 60, "A36"],
            [2, 1, "25 dia", "", 0.25, 60, "A36"],
            [3, 1, "Ø24", "", 0.25, 50, "A36"],
            [4, 1, "24 OD", "", 0.25, 60, "A36"],
        ),
        [cyl("4", 1, 24, OUTSIDE, 60, 0.25, "A36")],
        asked=("all/same_1_basis",),
        counts=states(1, 3),
    ),
    Case(
        "basis_in_cell.csv",
        rows(
            ["1", "1", '48" O.D.', "1/4", "60", "A36"],
            ["2", "1", "48 ID", "1/4", "60", "A36"],
            ["3", "1", "1219 mm OD", "1/4", "60", "A36"],
            head=["Item", "Qty", "Diameter", "Thk in", "Length", "Material"],
        ),
        [
            cyl("1", 1, 48, OUTSIDE, 60, 0.25, "A36"),
            cyl("2", 1, 48, INSIDE, 60, 0.25, "A36"),
            cyl("3", 1, 1219 / INCH, OUTSIDE, 60, 0.25, "A36"),
        ],
        counts=states(3),
    ),
    Case(
        "basis_contradicts.xlsx",
        rows(
            [1, 1, "48 OD", 0.25, 60, "A36"],
            head=["Item", "Qty", "ID (in)", "Thk (in)", "Length", "Material"],
        ),
        asked=("1/basis",),
        noted=(),
        counts=states(0, 1),
    ),
    Case(
        "gauge_without_metal.xlsx",
        rows([1, 1, 24, "OD", "10 ga", 48, ""], [2, 1, 24, "OD", "10 ga", 48, "SS"]),
        asked=("1/material", "2/material"),
        noted=(),
        counts=states(0, 2),
    ),
    Case(
        "gauge_with_metal.xlsx",
        rows(
            [1, 1, 24, "OD", "10 ga", 48, "A36"],
            [2, 1, 24, "OD", "10GA HR", 48, "A36"],
            [3, 1, 24, "OD", "11 GA", 48, "316L"],
            [4, 1, 24, "OD", "10 ga", 48, "5052-H32"],
            [5, 1, 24, "OD", "10 ga SS", 48, "A36"],
        ),
        [
            cyl("1", 1, 24, OUTSIDE, 48, 0.1345, "A36"),
            cyl("3", 1, 24, OUTSIDE, 48, 0.125, "316L"),
            cyl("4", 1, 24, OUTSIDE, 48, 0.1019, "5052-H32"),
        ],
        asked=("2/duplicate", "5/thickness"),
        counts=states(3, 2),
    ),
    Case(
        "gauge_column.xlsx",
        rows([1, 1, 24, 10, 48, "A36"], head=["Item", "Qty", "OD (in)", "Gauge", "Length (in)", "Material"]),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.1345, "A36")],
        counts=states(1),
    ),
    Case(
        "ten_in_inch_column.xlsx",
        rows([1, 1, 24, "OD", 10, 48, "A36"]),
        asked=("1/thickness",),
        noted=(),
        counts=states(0, 1),
    ),
    Case(
        "family_without_grade.xlsx",
        rows(
            [1, 1, 24, "OD", 0.25, 48, "SS"],
            [2, 1, 24, "OD", 0.25, 48, "mild steel"],
            [3, 1, 24, "OD", 0.25, 48, "Aluminum"],
            [4, 1, 24, "OD", 0.25, 48, "304L SS"],
        ),
        [cyl("4", 1, 24, OUTSIDE, 48, 0.25, "304L")],
        asked=("1/material", "2/material", "3/material"),
        counts=states(1, 3),
    ),
    Case(
        "unknown_material.xlsx",
        rows(
            [1, 1, 24, "OD", 0.25, 48, "S690QL"],
            [2, 1, 24, "OD", 0.25, 48, "A516-60"],
            [3, 1, 24, "OD", 0.25, 48, "A36 or 304L"],
            [4, 1, 24, "OD", 0.25, 48, ""],
        ),
        asked=("1/material", "2/material", "3/material", "4/material"),
        noted=(),
        counts=states(0, 4),
    ),
    Case(
        "quantity_forms.csv",
        rows(
            ["1", "two", "24", "OD", "1/4", "48", "A36"],
            ["2", "a dozen", "25", "OD", "1/4", "48", "A36"],
            ["3", "4 ea", "26", "OD", "1/4", "48", "A36"],
            ["4", "1/5/10", "27", "OD", "1/4", "48", "A36"],
            ["5", "2-4", "28", "OD", "1/4", "48", "A36"],
            ["6", "2 off", "29", "OD", "1/4", "48", "A36"],
            ["7", "", "30", "OD", "1/4", "48", "A36"],
            ["8", "1,000", "31", "OD", "1/4", "48", "A36"],
            ["9", "as req'd", "32", "OD", "1/4", "48", "A36"],
            ["10", "0", "33", "OD", "1/4", "48", "A36"],
            ["11", "2.5", "34", "OD", "1/4", "48", "A36"],
        ),
        [
            cyl("1", 2, 24, OUTSIDE, 48, 0.25, "A36"),
            cyl("2", 12, 25, OUTSIDE, 48, 0.25, "A36"),
            cyl("3", 4, 26, OUTSIDE, 48, 0.25, "A36"),
            cyl("4", 1, 27, OUTSIDE, 48, 0.25, "A36", breaks=[1, 5, 10]),
            cyl("6", 2, 29, OUTSIDE, 48, 0.25, "A36"),
        ],
        asked=(
            "5/quantity",
            "7/quantity",
            "8/quantity",
            "9/quantity",
            "11/quantity",
        ),
        counts=states(5, 5, no_quote=1),
    ),
    Case(
        "ranges_and_tolerances.xlsx",
        rows(
            [1, 1, "24 +1/8 -0", "OD", "1/4", 48, "A36"],
            [2, 1, "20-24", "OD", "1/4", 48, "A36"],
            [3, 1, "24 ± 1/16", "ID", "1/4", 48, "A36"],
            [4, 1, "24 -1/8", "ID", "1/4", 48, "A36"],
        ),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36"), cyl("3", 1, 24, INSIDE, 48, 0.25, "A36")],
        asked=("2/diameter", "4/diameter"),
        counts=states(2, 2),
    ),
    Case(
        "pipe_sizes.csv",
        rows(
            ["1", "1", "DN600", "1/4", "48", "A36"],
            ["2", "1", "NPS 12", "1/4", "48", "A36"],
            ["3", "1", '24" pipe', "1/4", "48", "A36"],
            head=["Item", "Qty", "Dia", "Thk (in)", "Length", "Material"],
        ),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36"), cyl("2", 1, 12.75, OUTSIDE, 48, 0.25, "A36")],
        asked=("3/basis",),
        counts=states(2, 1),
    ),
    Case(
        "size_column.csv",
        rows(
            ["1", "1", "48 OD x 1/4 x 60", "A36"],
            ["2", "1", '36" ID x 3/8" wall x 48" LG', "A36"],
            ["3", "1", "PL 1/2 x 60 x 12'-0", "A36"],
            ["4", "1", "48 x 24 x 12", "A36"],
            head=["Item", "Qty", "Size", "Material"],
        ),
        [cyl("1", 1, 48, OUTSIDE, 60, 0.25, "A36"), cyl("2", 1, 36, INSIDE, 48, 0.375, "A36")],
        asked=("3/diameter", "4/size"),
        counts=states(2, 2),
    ),
    Case(
        "arcs.xlsx",
        [
            Grid(
                [
                    [
                        "Item",
                        "Qty",
                        "Shape",
                        "Radius (in)",
                        "Basis",
                        "Degrees",
                        "Chord",
                        "Rise",
                        "Arc Length",
                        "Thk",
                        "Width",
                        "Matl",
                    ],
                    [1, 2, "arc", 36, "IR", 90, "", "", "", 0.25, 48, "A36"],
                    [2, 2, "segment", "", "OR", "", 80, 20, "", 0.25, 48, "A36"],
                    [3, 1, "half shell", 24, "IR", "", "", "", "", 0.5, 60, "A36"],
                    [4, 1, "arc", 36, "IR", "", "", "", 30, 0.25, 48, "A36"],
                    [5, 1, "arc", 36, "IR", "", "", "", "", 0.25, 48, "A36"],
                    [6, 1, "", 36, "IR", "", "", "", "", 0.25, 48, "A36"],
                    [7, 1, "arc", 36, "OR", "", 36, "", "", 0.25, 48, "A36"],
                    [8, 1, "arc", 40, "mean", "", "", "", 40, 0.25, 48, "A36"],
                ]
            )
        ],
        [
            arc("1", 2, 36, INSIDE, 90, 48, 0.25, "A36"),
            arc("2", 2, 50, OUTSIDE, round(degrees(4 * atan(0.5)), 3), 48, 0.25, "A36"),
            arc("3", 1, 24, INSIDE, 180, 60, 0.5, "A36"),
            arc("7", 1, 36, OUTSIDE, round(2 * degrees(asin(0.5)), 3), 48, 0.25, "A36"),
            arc("8", 1, 40, MEAN, round(degrees(1), 3), 48, 0.25, "A36"),
        ],
        asked=("4/arc_length_on", "5/angle", "6/angle"),
        counts=states(5, 3),
    ),
    Case(
        "cones.xlsx",
        rows(
            [1, 1, 48, 24, 30, "", 0.25, "A36"],
            [2, 1, 48, 24, "", 36, 0.25, "A36"],
            [3, 1, 48, "", 30, "", 0.25, "A36"],
            head=[
                "Item",
                "Qty",
                "Large End OD (in)",
                "Small End OD (in)",
                "Height (in)",
                "Length (in)",
                "Thk (in)",
                "Material",
            ],
        ),
        [cone("1", 1, 48, 24, OUTSIDE, 30, 0.25, "A36")],
        asked=("2/height", "3/small"),
        counts=states(1, 2),
    ),
    Case(
        "cone_top_bottom.csv",
        rows(
            ["1", "1", "600", "1200", "500", "6", "A36"],
            head=[
                "Pos",
                "Qty",
                "Top dia OD (mm)",
                "Bottom dia OD (mm)",
                "Height (mm)",
                "Thk (mm)",
                "Material",
            ],
        ),
        [cone("1", 1, 1200, 600, OUTSIDE, 500, 6, "A36", 1)],
        counts=states(1),
        metric=True,
    ),
    Case(
        "length_or_girth.xlsx",
        rows(
            [1, 1, 24, "OD", 0.25, 74.6, 48, "A36"],
            [2, 1, 24, "OD", 0.25, 60, 48, "A36"],
            [3, 1, 24, "OD", 0.25, 75, "", "A36"],
            head=["Item", "Qty", "Dia (in)", "ID/OD", "Thk (in)", "Length", "Width", "Material"],
        ),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36")],
        asked=("2/length", "3/length"),
        counts=states(1, 2),
    ),
    Case(
        "units_conflict.xlsx",
        rows(
            [1, 1, 600, "1/4", 1200, "A36"],
            [2, 1, 600, '1/4"', 1200, "A36"],
            [3, 1, 600, 6, 1200, "A36"],
            [4, 1, 600, "6mm", 1000, "A36"],
            head=["Item", "Qty", "OD (mm)", "Thk (mm)", "Length (mm)", "Material"],
        ),
        [cyl("3", 1, 600, OUTSIDE, 1200, 6, "A36", 1), cyl("4", 1, 600, OUTSIDE, 1000, 6, "A36", 1)],
        asked=("1/thickness", "2/thickness"),
        counts=states(2, 2),
        metric=True,
    ),
    Case(
        "no_units.csv",
        rows(
            ["1", "1", "24", "2", "48", "A36"],
            ["2", "1", "30", "1", "48", "A36"],
            head=["Item", "Qty", "OD", "Thk", "Length", "Material"],
        ),
        asked=("all/unit",),
        noted=(),
        counts=states(0, 2),
    ),
    Case(
        "mixed_units_per_cell.csv",
        rows(
            ["1", "1", "24 in OD", '1/4"', '48"', "A36"],
            ["2", "1", "600 mm OD", "6 mm", "1200 mm", "A36"],
            ["3", "1", "600 OD", "6", "1200", "A36"],
            head=["Item", "Qty", "Dia", "Thk", "Length", "Material"],
        ),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36"), cyl("2", 1, 600, OUTSIDE, 1200, 6, "A36", 1)],
        asked=("all/unit",),
        counts=states(2, 1),
    ),
    Case(
        "hidden_rows.xlsx",
        rows(
            [1, 1, 24, "OD", 0.25, 48, "A36"],
            [2, 1, 25, "OD", 0.25, 48, "A36"],
            [3, 1, 26, "OD", 0.25, 48, "A36"],
            hidden_rows=(2,),
        ),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36"), cyl("3", 1, 26, OUTSIDE, 48, 0.25, "A36")],
        asked=("2/hidden",),
        counts=states(2, 1),
    ),
    Case(
        "hidden_sheet.xlsx",
        [
            Grid([HEAD, [1, 1, 24, "OD", 0.25, 48, "A36"]], name="Order"),
            Grid([HEAD, [1, 9, 30, "OD", 0.25, 48, "A36"]], name="Old", hidden=True),
        ],
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36")],
        counts=states(1, ignored=3),
    ),
    Case(
        "several_sheets.xlsx",
        [
            Grid([["Terms and conditions"], ["Net 30"]], name="Cover"),
            Grid([HEAD, [1, 1, 24, "OD", 0.25, 48, "A36"]], name="Carbon"),
            Grid([HEAD, [1, 2, 30, "ID", 0.25, 48, "304L"]], name="Stainless"),
        ],
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36"), cyl("1-r2", 2, 30, INSIDE, 48, 0.25, "304L")],
        noted=("all/ends",),
        counts=states(2, ignored=4),
    ),
    Case(
        "error_cells.xlsx",
        rows(
            [1, 1, ("=1/0", "#DIV/0!"), "OD", 0.25, 48, "A36"],
            [2, ("=1+1", 2), 24, "OD", 0.25, 48, "A36"],
            [3, 1, 24, "OD", ("=NA()", "#N/A"), 48, "A36"],
        ),
        [cyl("2", 2, 24, OUTSIDE, 48, 0.25, "A36")],
        asked=("1/diameter", "3/thickness"),
        counts=states(1, 2),
    ),
    Case(
        "duplicate_lines.csv",
        rows(
            ["1", "1", "24", "OD", "1/4", "48", "A36"],
            ["2", "1", "24", "OD", "1/4", "48", "A36"],
            ["3", "2", "24", "OD", "1/4", "48", "A36"],
        ),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36"), cyl("3", 2, 24, OUTSIDE, 48, 0.25, "A36")],
        asked=("2/duplicate",),
        counts=states(2, 1),
    ),
    Case(
        "dates.xlsx",
        rows(
            [1, 1, 24, "OD", 0.25, 48, "A36", date(2026, 4, 1)],
            [2, 1, 25, "OD", 0.25, 48, "A36", date(2025, 4, 1)],
            [3, 1, 26, "OD", 0.25, 48, "A36", "04/05/2026"],
            [4, 1, 27, "OD", 0.25, 48, "A36", "ASAP"],
            [5, 1, 28, "OD", 0.25, 48, "A36", "15 May 2026"],
            head=[*HEAD, "Need by"],
        ),
        [
            cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36", due="2026-04-01"),
            cyl("2", 1, 25, OUTSIDE, 48, 0.25, "A36", due=None),
            cyl("3", 1, 26, OUTSIDE, 48, 0.25, "A36", due="2026-04-05"),
            cyl("4", 1, 27, OUTSIDE, 48, 0.25, "A36", due=None),
            cyl("5", 1, 28, OUTSIDE, 48, 0.25, "A36", due="2026-05-15"),
        ],
        noted=("2/due", "3/due", "4/due", "all/ends"),
        counts=states(5),
    ),
    Case(
        "ductwork.csv",
        rows(
            ["1", "6", "24", "ID", "10 ga", "48", "A36", "duct, no pre-bend"],
            ["2", "6", "18", "ID", "16 ga", "48", "304L", "ductwork"],
            ["3", "2", "30", "ID", "1/4", "48", "304L", "pre-bend both ends, re-round after weld"],
            ["4", "2", "30", "ID", "3/8", "48", "304L", "trim flats"],
            head=[*HEAD, "Remarks"],
        ),
        [
            cyl("1", 6, 24, INSIDE, 48, 0.1345, "A36", ends="leave flat"),
            cyl("3", 2, 30, INSIDE, 48, 0.25, "304L", ends="pre-bend", re_round=True),
            cyl("4", 2, 30, INSIDE, 48, 0.375, "304L", ends="trim after rolling"),
        ],
        asked=("2/stock_thickness",),
        noted=(),
        counts=states(3, 1),
    ),
    Case(
        "certificates.xlsx",
        rows(
            [1, 1, 24, "OD", 0.25, 48, "A36", "yes", "no", "C"],
            [2, 1, 25, "OD", 0.25, 48, "A36", "3.1", "customer", "A"],
            [3, 1, 26, "OD", 0.25, 48, "A36", "no", "", ""],
            head=[*HEAD, "MTR req'd", "Free issue", "Rev"],
        ),
        [
            cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36", certificate=True, free_issue=False, drawn_revision="C"),
            cyl("2", 1, 25, OUTSIDE, 48, 0.25, "A36", certificate=True, free_issue=True, drawn_revision="A"),
            cyl("3", 1, 26, OUTSIDE, 48, 0.25, "A36", certificate=False, free_issue=False),
        ],
        counts=states(3),
    ),
    Case(
        "ditto_marks.csv",
        rows(
            ["1", "1", "24", "OD", "1/4", "48", "A36"],
            ["2", "1", "30", '"', '"', "ditto", "do."],
            ["3", "1", "36", "ID", "", "48", "A36"],
        ),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36"), cyl("2", 1, 30, OUTSIDE, 48, 0.25, "A36")],
        asked=("3/thickness",),
        counts=states(2, 1),
    ),
    Case(
        "merged_material.xlsx",
        rows(
            [1, 1, 24, "OD", 0.25, 48, ""],
            [2, 1, 30, "OD", 0.25, 48, ""],
            [3, 1, 30, "ID", 0.25, 48, ""],
            merged={"G2:G3": "304L"},
        ),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "304L"), cyl("2", 1, 30, OUTSIDE, 48, 0.25, "304L")],
        asked=("3/material",),
        counts=states(2, 1),
    ),
    Case(
        "utf16.tsv",
        rows(["1", "1", "24", "OD", "1/4", "48", "A36"]),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36")],
        counts=states(1),
        separator="\t",
        encoding="utf-16",
    ),
    Case(
        "windows_1252.csv",
        rows(["1", "1", "24½", "OD", "¼", "48", "A36", "Ø nach Maß"], head=[*HEAD, "Remarks"]),
        [cyl("1", 1, 24.5, OUTSIDE, 48, 0.25, "A36")],
        counts=states(1),
        encoding="cp1252",
    ),
    Case(
        "sep_line.csv",
        rows(["1", "1", "24", "OD", "1/4", "48", "A36"]),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36")],
        counts=states(1, ignored=2),
        separator="|",
        head="sep=|\r\n",
    ),
    Case(
        "thickness_not_stocked.xlsx",
        rows(
            [1, 1, 24, "OD", 0.3, 48, "A36"],
            [2, 1, 24, "OD", 0.188, 48, "A36"],
            [3, 1, 24, "OD", 0.3, 48, "AR400"],
        ),
        [cyl("2", 1, 24, OUTSIDE, 48, 0.188, "A36"), cyl("3", 1, 24, OUTSIDE, 48, 0.3, "AR400")],
        asked=("1/stock_thickness",),
        counts=states(2, 1),
    ),
    Case(
        "old_format.xls",
        rows(
            [1, 1, 24, "OD", 0.25, 48, "A36"],
            [2, 1, 24, "", 0.25, 48, "A36"],
            [3, 1, 24, "OD", date(2026, 1, 4), 48, "A36"],
        ),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36")],
        asked=("2/basis", "3/thickness"),
        counts=states(1, 2),
    ),
    Case(
        "open_document.ods",
        rows(
            [1, 1, 24, "OD", 0.25, 48, "A36"],
            [2, 1, 24, "OD", 0.25, "", "A36"],
            [3, 1, 24, "OD", date(2026, 3, 8), 48, "A36"],
        ),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36")],
        asked=("2/length", "3/thickness"),
        counts=states(1, 2),
    ),
    Case(
        "macro_book.xlsm",
        rows([1, 1, 24, "OD", 0.25, 48, "A36"]),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36")],
        counts=states(1),
    ),
    Case(
        "numbers_as_text.xlsx",
        rows(["1", "2", "24", "OD", "0.25", " 48 ", "A36"]),
        [cyl("1", 2, 24, OUTSIDE, 48, 0.25, "A36")],
        counts=states(1),
    ),
    Case(
        "unknown_columns.xlsx",
        rows([1, 1, 24, "OD", 0.25, 48, "A36", "2B", "Ship by road"], head=[*HEAD, "Finish", "Haulage"]),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36", remarks=["Finish: 2B", "Haulage: Ship by road"])],
        counts=states(1),
    ),
    Case(
        "not_rolled.xlsx",
        rows(
            [1, 1, "flat bar", "", "", 0.25, 48, "A36"],
            [2, 1, "elbow", 24, "OD", 0.25, 48, "A36"],
            [3, 1, "cylinder", 24, "OD", 0.25, 48, "A36"],
            [4, 1, "widget", 24, "OD", 0.25, 48, "A36"],
            head=["Item", "Qty", "Shape", *HEAD[2:]],
        ),
        [cyl("3", 1, 24, OUTSIDE, 48, 0.25, "A36")],
        asked=("4/shape",),
        counts=states(1, 1, no_quote=2),
    ),
    Case(
        "said_for_all.xlsx",
        [
            Grid(
                [
                    ["All diameters are ID. All dimensions in inches."],
                    ["Material: A36"],
                    ["Item", "Qty", "Dia", "Thk", "Length"],
                    [1, 1, 24, 0.25, 48],
                    [2, 1, "30 OD", 0.25, 48],
                ]
            )
        ],
        [cyl("1", 1, 24, INSIDE, 48, 0.25, "A36")],
        asked=("2/basis",),
        counts=states(1, 1, ignored=3),
    ),
    Case(
        "inside_and_outside.xlsx",
        rows(
            [1, 1, 24, 23.5, 0.25, 48, "A36"],
            [2, 1, 24, 23, 0.25, 48, "A36"],
            [3, 1, 26, "", 0.25, 48, "A36"],
            head=["Item", "Qty", "OD (in)", "ID (in)", "Thk (in)", "Length", "Material"],
        ),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36"), cyl("3", 1, 26, OUTSIDE, 48, 0.25, "A36")],
        asked=("2/diameter",),
        counts=states(2, 1),
    ),
    Case(
        "described_shapes.xlsx",
        rows(
            [1, 1, "Half shell", 24, "OD", 0.25, 48, "A36"],
            [2, 1, "Roll segment", 24, "OD", 0.25, 48, "A36"],
            [3, 1, "Tank shell", 24, "OD", 0.25, 48, "A36"],
            head=["Item", "Qty", "Description", *HEAD[2:]],
        ),
        [arc("1", 1, 12, OUTSIDE, 180, 48, 0.25, "A36"), cyl("3", 1, 24, OUTSIDE, 48, 0.25, "A36")],
        asked=("2/angle",),
        counts=states(2, 1),
    ),
    Case(
        "girth_given.xlsx",
        rows(
            [1, 1, round(24 * pi, 3), 0.25, 48, "A36"],
            head=["Item", "Qty", "Developed length (in)", "Thk (in)", "Width (in)", "Material"],
        ),
        asked=("1/shape",),
        noted=(),
        counts=states(0, 1),
    ),
    Case(
        "formula_text.csv",
        rows(
            ["1", "1", "24", "OD", "1/4", "48", "A36", "=2+3"],
            ["2", "1", "24", "ID", "1/4", "48", "A36", "@SUM(A1)"],
            head=[*HEAD, "Remarks"],
        ),
        [
            cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36", remarks=["=2+3"]),
            cyl("2", 1, 24, INSIDE, 48, 0.25, "A36", remarks=["@SUM(A1)"]),
        ],
        counts=states(2),
    ),
    Case(
        "thousands_ambiguous.csv",
        rows(
            ["1", "1", "1.219", "6", "1.500", "A36"],
            head=["Pos", "Qty", "OD mm", "Thk mm", "Length mm", "Matl"],
        ),
        asked=("1/diameter", "1/length"),
        noted=(),
        counts=states(0, 1),
        separator=";",
    ),
    Case(
        "no_line_numbers.csv",
        rows(["2", "24", "OD", "1/4", "48", "A36"], ["1", "24 OD", "", "1/4", "36", "A36"], head=HEAD[1:]),
        [cyl("2", 2, 24, OUTSIDE, 48, 0.25, "A36"), cyl("3", 1, 24, OUTSIDE, 36, 0.25, "A36")],
        counts=states(2),
    ),
    Case(
        "both_systems.csv",
        rows(
            ["1", "1", "24 (609.6)", "1/4", "48 [1219]", "A36"],
            ["2", "1", "24 (36)", "1/4", "48", "A36"],
            head=["Item", "Qty", "OD (in)", "Thk", "Length", "Material"],
        ),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36")],
        asked=("2/diameter",),
        counts=states(1, 1),
    ),
    Case(
        "description_only.xlsx",
        rows(
            [1, 2, "Roll 1/4 PL x 48 OD x 60 LG A36"],
            [2, 1, "Shell 36 ID x 3/8 x 48, 304L"],
            [3, 1, "as last time"],
            head=["Item", "Qty", "Description"],
        ),
        [cyl("1", 2, 48, OUTSIDE, 60, 0.25, "A36"), cyl("2", 1, 36, INSIDE, 48, 0.375, "304L")],
        asked=("3/diameter", "3/reference_ok", "3/thickness", "all/material"),
        counts=states(2, 1),
    ),
    Case(
        "remarks_contradict.xlsx",
        rows(
            [1, 1, 24, "OD", 0.25, 48, "A36", "dia is ID!"],
            [2, 1, 25, "OD", 0.25, 48, "A36", "make from 3/8 plate"],
            [3, 1, 26, "OD", 0.25, 48, "A36", "qty 4 not 1"],
            [4, 1, 27, "OD", 0.25, 48, "A36", "27 OD, 1 pcs"],
            head=[*HEAD, "Remarks"],
        ),
        [cyl("4", 1, 27, OUTSIDE, 48, 0.25, "A36")],
        asked=("1/basis", "2/thickness", "3/quantity"),
        counts=states(1, 3),
    ),
    Case(
        "unit_per_row.csv",
        rows(
            ["1", "1", "24", "0.25", "48", "A36", "in"],
            ["2", "1", "600", "6", "1200", "A36", "mm"],
            head=["Item", "Qty", "OD", "Thk", "Length", "Material", "Unit"],
        ),
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36"), cyl("2", 1, 600, OUTSIDE, 1200, 6, "A36", 1)],
        counts=states(2),
    ),
    Case(
        "no_material_column.csv",
        rows(
            ["1", "1", "24", "1/4", "48"],
            ["2", "1", "30", "10 ga", "40"],
            head=["Item", "Qty", "OD (in)", "Thk", "Length"],
        ),
        asked=("all/material",),
        noted=(),
        counts=states(0, 2),
    ),
    Case(
        "weld_gap_and_ends.xlsx",
        [
            Grid(
                [
                    ["Item", "Qty", "OD (in)", "Thk (in)", "Length", "Material", "Root gap (in)", "Pre-bend"],
                    [1, 1, 24, 0.25, 48, "A36", "1/8", "no"],
                    [2, 1, 30, 0.25, 48, "A36", 0, ""],
                    ["All ends pre-bent unless noted."],
                ]
            )
        ],
        [
            cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36", weld_gap_mm=3.175, ends="leave flat"),
            cyl("2", 1, 30, OUTSIDE, 48, 0.25, "A36", weld_gap_mm=0.0, ends="pre-bend"),
        ],
        noted=(),
        counts=states(2, ignored=2),
    ),
    Case(
        "gauge_and_thickness.csv",
        rows(
            ["1", "1", "24", "1/4", "10", "48", "A36"],
            ["2", "1", "24", "0.1345", "10", "48", "A36"],
            head=["Item", "Qty", "OD (in)", "Thk (in)", "Ga", "Length", "Material"],
        ),
        [cyl("2", 1, 24, OUTSIDE, 48, 0.1345, "A36")],
        asked=("1/thickness",),
        counts=states(1, 1),
    ),
    Case(
        "section_materials.csv",
        [
            Grid(
                [
                    ["Material: A36"],
                    ["Item", "Qty", "OD (in)", "Thk", "Length"],
                    ["1", "1", "24", "1/4", "48"],
                    ["Material: 304L"],
                    ["2", "1", "24", "1/4", "48"],
                ]
            )
        ],
        [cyl("1", 1, 24, OUTSIDE, 48, 0.25, "A36"), cyl("2", 1, 24, OUTSIDE, 48, 0.25, "304L")],
        counts=states(2, 0, ignored=3),
    ),
    Case(
        "slash_is_no_fraction.csv",
        rows(
            ["1", "1", "1200/600", "6", "500", "A36"],
            ["2", "1", "900", "6", "500", "A36"],
            head=["Pos", "Qty", "ID mm", "Thk mm", "Length mm", "Matl"],
        ),
        [cyl("2", 1, 900, INSIDE, 500, 6, "A36", 1)],
        asked=("1/diameter",),
        counts=states(1, 1),
    ),
    Case(
        "to_be_decided.xlsx",
        rows(
            [1, 1, "TBD", "OD", 0.25, 48, "A36"],
            [2, 1, 24, "OD", "to suit", 48, "A36"],
            [3, 1, 24, "OD", 0.25, "?", "A36"],
        ),
        asked=("1/diameter", "2/thickness", "3/length"),
        noted=(),
        counts=states(0, 3),
    ),
)
