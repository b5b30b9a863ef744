"""Renders known parts as the sheets customers send, to see whether they come back or are asked about.

A line that comes back with another size than it was written with is a silent guess.
"""

from __future__ import annotations

import csv
import random
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

from quoting.core import Cylinder, Order
from quoting.intake.read_orders import read_orders
from tests.quoting.intake.small_shop import TODAY, small_shop

_SIXTEENTHS = (3, 4, 5, 6, 8, 10, 12, 16, 20)
_GRADES = ("A36", "SA-516-70", "304L", "316L", "AR400")
_HEADS = {
    "number": ("Item", "Line", "Pos.", "Line no.", "#"),
    "quantity": ("Qty", "Quantity", "Pcs", "No. off", "Qty req'd"),
    "thickness": ("Thk", "Thickness", "Wall", "Plate thickness", "T"),
    "length": ("Length", "Lg", "Width", "L", "Shell length"),
    "material": ("Material", "Mat'l", "Grade", "Spec"),
    "diameter": ("Dia", "Diameter", "Ø", "Dia."),
    "inside": ("ID", "I.D.", "Inside dia", "Inside diameter"),
    "outside": ("OD", "O.D.", "Outside dia.", "Outside diameter"),
    "basis": ("ID/OD", "Basis"),
    "remarks": ("Remarks", "Notes", "Comments"),
}
_UNITS = {True: ("in", "inch", "inches", "in."), False: ("mm", "millimeters")}


@dataclass(frozen=True)
class Part:
    """One part as it was meant, sizes in the sheet's unit."""

    number: int
    quantity: int
    diameter: Fraction
    basis: str
    thickness: Fraction
    length: Fraction
    grade: str


def random_part(rng: random.Random, number: int, *, inch: bool) -> Part:
    """Return a part in sizes the trade writes: sixteenths of an inch, whole and half millimetres."""
    if inch:
        diameter = (
            Fraction(rng.randint(12 * 16, 96 * 16), 16)
            if rng.random() < 0.5
            else Fraction(rng.randint(12, 96))
        )
        length = Fraction(rng.randint(6 * 8, 96 * 8), 8)
        thickness = Fraction(rng.choice(_SIXTEENTHS), 16)
    else:
        diameter, length = Fraction(rng.randint(600, 4800), 2), Fraction(rng.randint(300, 4800), 2)
        thickness = Fraction(rng.choice((3, 4, 5, 6, 8, 10, 12, 15, 16, 20)))
    basis = rng.choice(("inside", "outside"))
    return Part(number, rng.randint(1, 30), diameter, basis, thickness, length, rng.choice(_GRADES))


def inch_text(rng: random.Random, size: Fraction) -> str:
    """Return a size in inches in one of the forms people type."""
    whole, part = divmod(size, 1)
    forms = [f"{float(size):g}"]
    if part:
        mixed = f"{whole}{rng.choice(('-', ' '))}{part}" if whole else f"{part}"
        forms += [mixed, mixed, f"{mixed}{rng.choice(_MARKS)}"]
    else:
        forms.append(f"{whole}{rng.choice(_MARKS)}")
    if size >= 12:
        feet, rest = divmod(size, 12)
        inches, fraction = divmod(rest, 1)
        tail = f"{inches} {fraction}" if fraction else f"{inches}"
        forms += [f"{feet}'-{tail}\"", f"{feet}' {tail}\"", f"{feet}ft {tail}in"]
    return rng.choice(forms)


_MARKS = ('"', " in", "in.", "''", "”")


def metric_text(rng: random.Random, size: Fraction, *, comma: bool) -> str:
    """Return a size in millimetres in one of the forms people type."""
    text = f"{float(size):g}"
    if comma:
        text = text.replace(".", ",")
    return rng.choice((text, text, f"{text} mm", f"{text}mm"))


def render(rng: random.Random, parts: list[Part], *, inch: bool) -> list[list[str]]:
    """Return the rows of a sheet; units stand in headers, cells, a note or nowhere, ID or OD likewise."""
    comma = not inch and rng.random() < 0.5
    where = rng.choice(("header", "note", "cells", "nowhere"))
    how = rng.choice(("columns", "cell", "column", "unsaid"))
    fields = ["number", "quantity", "thickness", "length", "material"]
    fields += {
        "columns": ["inside", "outside"],
        "cell": ["diameter"],
        "column": ["diameter", "basis"],
        "unsaid": ["diameter"],
    }[how]
    if rng.random() < 0.4:
        fields.append("remarks")
    rng.shuffle(fields)
    sized = {"thickness", "length", "diameter", "inside", "outside"}
    head = []
    for name in fields:
        text = rng.choice(_HEADS[name])
        unit = rng.choice(_UNITS[inch])
        head.append(f"{text} ({unit})" if where == "header" and name in sized else text)
    rows = [head]
    for part in parts:
        rows.append(
            [_cell(rng, name, part, how, inch=inch, comma=comma, marked=where == "cells") for name in fields]
        )
    if where == "note":
        rows.insert(0, [f"All dimensions in {'inches' if inch else 'mm'}"])
    return rows


def _cell(
    rng: random.Random, name: str, part: Part, how: str, *, inch: bool, comma: bool, marked: bool
) -> str:
    def size(value: Fraction) -> str:
        text = inch_text(rng, value) if inch else metric_text(rng, value, comma=comma)
        plain = (
            text.replace(",", "")
            .replace(".", "")
            .replace("-", "")
            .replace(" ", "")
            .replace("/", "")
            .isdecimal()
        )
        return text + ('"' if inch else " mm") if marked and plain else text

    values: dict[str, Any] = {
        "number": str(part.number),
        "quantity": rng.choice((str(part.quantity), f"{part.quantity} ea", f"{part.quantity} pcs")),
        "thickness": size(part.thickness),
        "length": size(part.length),
        "material": part.grade,
        "basis": "ID" if part.basis == "inside" else "OD",
        "remarks": rng.choice(("", "deburr", "call before delivery", "mark item no.")),
        "inside": size(part.diameter) if part.basis == "inside" else "",
        "outside": size(part.diameter) if part.basis == "outside" else "",
    }
    if name == "diameter":
        mark = {"inside": (" ID", " I.D."), "outside": (" OD", " O.D.")}[part.basis]
        return size(part.diameter) + (rng.choice(mark) if how == "cell" else "")
    return str(values[name])


def wrong_lines(order: Order, parts: list[Part], rows: list[list[str]], *, inch: bool) -> list[str]:
    """Return the lines that came back as another part than they were written, or with a side nobody gave."""
    said = " ".join(cell for row in rows for cell in row).lower().replace(".", "")
    if not any(word in said.split() for word in ("id", "od", "id/od", "inside", "outside")):
        return [f"line {line.number}: inside or outside was never said" for line in order.lines]
    unit = 25.4 if inch else 1.0
    wanted = {str(part.number): part for part in parts}
    found = []
    for line in order.lines:
        part = wanted.get(line.number)
        shape = line.shape
        if part is None or not isinstance(shape, Cylinder):
            found.append(f"line {line.number}: {shape}")
            continue
        pairs = (
            (shape.diameter_mm, float(part.diameter) * unit),
            (line.thickness_mm, float(part.thickness) * unit),
            (shape.length_mm, float(part.length) * unit),
        )
        exact = all(abs(read - meant) < 0.01 for read, meant in pairs)
        if not exact or (line.quantity, line.material, str(shape.basis)) != (
            part.quantity,
            part.grade,
            part.basis,
        ):
            found.append(
                f"line {line.number}: {part} came back as {line.quantity} x {shape} {line.thickness_mm}"
            )
    return found


def rendered_sheets(rng: random.Random, count: int, folder: Path) -> dict[str, Any]:
    """Render and read so many sheets; return lines written, read, asked, and the silent guesses."""
    shop = small_shop(stock=False)
    written = read = 0
    guesses: list[str] = []
    for _ in range(count):
        inch = rng.random() < 0.6
        parts = [random_part(rng, number, inch=inch) for number in range(1, rng.randint(2, 7))]
        rows = render(rng, parts, inch=inch)
        file = folder / "rendered.csv"
        with file.open("w", encoding="utf-8", newline="") as stream:
            csv.writer(stream, delimiter=rng.choice((",", ";", "\t"))).writerows(rows)
        order = read_orders(file, shop, today=TODAY)
        written, read = written + len(parts), read + len(order.lines)
        guesses += [f"{wrong} in {rows}" for wrong in wrong_lines(order, parts, rows, inch=inch)]
    return {"written": written, "read": read, "asked": written - read, "silent_guesses": guesses}
