"""Looks into a written workbook: its parts as text, its cells, and what LibreOffice makes of it."""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterator
from pathlib import Path
from xml.etree import ElementTree

import openpyxl
from openpyxl.cell.cell import Cell
from openpyxl.workbook import Workbook


def parts(path: Path) -> dict[str, str]:
    """Return every XML part of the package as text."""
    with zipfile.ZipFile(path) as package:
        return {
            name: package.read(name).decode("utf-8")
            for name in package.namelist()
            if name.endswith((".xml", ".rels"))
        }


def book(path: Path, *, values: bool = False) -> Workbook:
    return openpyxl.load_workbook(path, data_only=values)


def cells(workbook: Workbook) -> Iterator[Cell]:
    for sheet in workbook.worksheets:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.value is not None and isinstance(cell, Cell):
                    yield cell


def texts(workbook: Workbook, sheet: str) -> list[str]:
    return [str(cell.value) for row in workbook[sheet].iter_rows() for cell in row if cell.value is not None]


def shared_texts(path: Path) -> list[str]:
    """Return every text of the package, whatever part it stands in."""
    found = []
    for name, text in parts(path).items():
        if not name.endswith(".rels"):
            found += [part for part in ElementTree.fromstring(text).itertext() if part.strip()]
    return found


def numbers(path: Path) -> set[float]:
    """Return every number in the package's cells and texts."""
    found: set[float] = set()
    for text in shared_texts(path):
        for number in re.findall(r"\d[\d,]*\.?\d*", text):
            found.add(float(number.replace(",", "").rstrip(".") or 0))
    return found


def named(workbook: Workbook, name: str) -> Cell:
    """Return the cell that a defined name stands for."""
    sheet, _, address = workbook.defined_names[name].attr_text.partition("!")
    cell = workbook[sheet][address.replace("$", "")]
    assert isinstance(cell, Cell)
    return cell
