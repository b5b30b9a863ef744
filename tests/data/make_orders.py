"""Writes the corpus of order sheets in tests/data/orders, each with its expected reading beside it as JSON.

Every customer, part and number is invented. The expected readings are written by hand, from what a person
reads in the sheet; the program under test has no part in them. Run `python -m tests.data.make_orders`; the
.xls and .ods sheets need LibreOffice (`soffice`) and are left as they are without it.
"""

from __future__ import annotations

import csv
import io
import json
import shutil
import subprocess
import tempfile
from pathlib import Path

from tests.data.order_cases import CASES, Case, Grid

HERE = Path(__file__).parent / "orders"


def write_csv(case: Case, file: Path) -> None:
    """Write a text sheet in the case's encoding and separator."""
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, delimiter=case.separator, lineterminator="\r\n")
    for row in case.sheets[0].rows:
        writer.writerow(["" if cell is None else cell for cell in row])
    file.write_bytes((case.head + stream.getvalue()).encode(case.encoding))


def write_xlsx(case: Case, file: Path) -> None:
    """Write a workbook with hidden rows and sheets, merged cells, dates and formulas as the case says."""
    import xlsxwriter  # noqa: PLC0415

    book = xlsxwriter.Workbook(str(file), {"strings_to_numbers": False})
    date_format = book.add_format({"num_format": "d-mmm"})
    for grid in case.sheets:
        sheet = book.add_worksheet(grid.name)
        for row, cells in enumerate(grid.rows, grid.top):
            for column, cell in enumerate(cells, grid.left):
                _put(sheet, row, column, cell, date_format)
        for row in grid.hidden_rows:
            sheet.set_row(row, None, None, {"hidden": True})
        for area in grid.merged:
            sheet.merge_range(area, "")
            _put(sheet, *_corner(area), grid.merged[area], date_format)
        if grid.hidden:
            sheet.hide()
    book.close()


def _corner(area: str) -> tuple[int, int]:
    from xlsxwriter.utility import xl_cell_to_rowcol  # noqa: PLC0415

    row, column = xl_cell_to_rowcol(area.split(":", maxsplit=1)[0])
    return int(row), int(column)


def _put(sheet: object, row: int, column: int, cell: object, date_format: object) -> None:
    write = sheet  # one name for the library's untyped worksheet
    if cell is None or cell == "":
        return
    if hasattr(cell, "year"):
        write.write_datetime(row, column, cell, date_format)  # type: ignore[attr-defined]
    elif isinstance(cell, tuple):
        write.write_formula(row, column, cell[0], None, cell[1])  # type: ignore[attr-defined]
    elif isinstance(cell, (int, float)):
        write.write_number(row, column, cell)  # type: ignore[attr-defined]
    else:
        write.write_string(row, column, str(cell))  # type: ignore[attr-defined]


def convert(source: Path, target: Path) -> bool:
    """Turn a workbook into another format with LibreOffice; False when it is not installed."""
    office = shutil.which("soffice")
    if office is None:
        return False
    with tempfile.TemporaryDirectory() as folder:
        profile = f"-env:UserInstallation=file://{folder}/profile"
        kind = target.suffix[1:]
        command = [office, profile, "--headless", "--convert-to", kind, "--outdir", folder, str(source)]
        subprocess.run(command, check=True, capture_output=True, timeout=120)
        shutil.copyfile(Path(folder) / f"{source.stem}.{kind}", target)
    return True


def write_case(case: Case, folder: Path = HERE) -> None:
    """Write one sheet and its expected reading."""
    file = folder / case.file
    if file.suffix in (".csv", ".tsv"):
        write_csv(case, file)
    elif file.suffix in (".xlsx", ".xlsm"):
        write_xlsx(case, file)
    else:
        with tempfile.TemporaryDirectory() as temporary:
            source = Path(temporary) / f"{file.stem}.xlsx"
            write_xlsx(case, source)
            convert(source, file)
    expected = json.dumps(case.expected(), indent=1, ensure_ascii=False)
    (folder / f"{case.file}.json").write_text(expected + "\n", encoding="utf-8")


def main() -> None:
    """Write the whole corpus."""
    HERE.mkdir(exist_ok=True)
    for case in CASES:
        write_case(case)
    print(f"{len(CASES)} sheets in {HERE}")


__all__ = ["Grid", "main", "write_case"]

if __name__ == "__main__":
    main()
