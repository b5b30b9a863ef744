"""Files that cannot be used give one clear message each."""

from __future__ import annotations

import random
import zipfile
from pathlib import Path

import pytest

from quoting.core import InputError
from quoting.intake.read_orders import read_all, read_orders
from quoting.tables import Limits
from tests.benchmarks.hostile_files import HOSTILE, compound_file, xlsx
from tests.quoting.intake.fuzzing import fuzz_grammar, fuzz_workbooks
from tests.quoting.intake.sheets import GOOD, HEAD, read_rows
from tests.quoting.intake.small_shop import TODAY, small_shop

LARGE = frozenset(
    (
        "zip_bomb.xlsx",
        "eight_million_cells.xlsx",
        "one_long_line.csv",
        "ten_million_commas.csv",
        "too_big.csv",
        "lying_size.xlsx",
        "many_cells_one_address.xlsx",
        "unclosed_quote.csv",
        "many_parts.xlsx",
        "cells_without_address.xlsx",
    )
)
"""Slow to make; the benchmark reads them."""


def refusal(file: Path, limits: Limits | None = None) -> str:
    with pytest.raises(InputError) as caught:
        read_orders(file, small_shop(), today=TODAY, limits=limits)
    return str(caught.value)


@pytest.mark.parametrize("name", sorted(set(HOSTILE) - LARGE))
def test_a_hostile_file_is_refused_by_name_with_what_would_do(tmp_path: Path, name: str) -> None:
    file = tmp_path / name
    HOSTILE[name](file)
    message = refusal(file)
    assert message.startswith(name)
    assert ";" in message


def test_an_empty_file(tmp_path: Path) -> None:
    (tmp_path / "order.xlsx").touch()
    assert refusal(tmp_path / "order.xlsx") == "order.xlsx: the file is empty; ask for it again"


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    assert refusal(tmp_path / "nix.xlsx") == "nix.xlsx: there is no such file; check its name and folder"


def test_a_file_of_another_kind(tmp_path: Path) -> None:
    (tmp_path / "order.docx").write_bytes(b"PK")
    expected = "order.docx: files of kind .docx are not read; save it as .xlsx, .ods or .csv"
    assert refusal(tmp_path / "order.docx") == expected


def test_a_zip_that_is_no_workbook(tmp_path: Path) -> None:
    HOSTILE["plain_zip.xlsx"](tmp_path / "order.xlsx")
    assert "it is a zip file, but no workbook" in refusal(tmp_path / "order.xlsx")


def test_a_locked_book(tmp_path: Path) -> None:
    compound_file(tmp_path / "order.xlsx", "EncryptedPackage", b"x" * 5000)
    message = refusal(tmp_path / "order.xlsx")
    assert message == (
        "order.xlsx: cannot be read: it is locked with a password; ask for a copy without the password"
    )


def test_a_sheet_without_headers_says_which_are_needed(tmp_path: Path) -> None:
    (tmp_path / "order.csv").write_text("hello,world\n1,2\n")
    message = refusal(tmp_path / "order.csv")
    assert message.startswith(
        'order.csv, sheet "order", row 1: no row of headers was found - read "hello, world"'
    )
    assert "quantity, thickness, diameter, length, material" in message


@pytest.mark.parametrize(
    ("left_out", "problem"),
    [
        (1, "no column gives the quantity"),
        (2, "no column gives the diameter"),
        (4, "no column gives the thickness"),
        (5, "no column gives the length"),
    ],
)
def test_a_missing_column_is_one_message(tmp_path: Path, left_out: int, problem: str) -> None:
    file = tmp_path / "order.csv"
    cells = [[*HEAD], [*GOOD], ["2", *GOOD[1:]]]
    for row in cells:
        row[left_out] = "Odd" if row[0] == "Item" else ""
    file.write_text("\n".join(",".join(row) for row in cells))
    message = refusal(file)
    assert message.startswith(f'order.csv, sheet "order", row 1: {problem} - read "Odd"; head it ')


def test_headers_without_lines(tmp_path: Path) -> None:
    (tmp_path / "order.csv").write_text(",".join(HEAD) + "\n")
    assert "a row of headers and no lines under it" in refusal(tmp_path / "order.csv")


def test_the_limits_are_settings(tmp_path: Path) -> None:
    read_rows(tmp_path, *[[str(number), *GOOD[1:]] for number in range(30)])
    message = refusal(tmp_path / "order.csv", Limits(rows=20))
    assert "more than 20 rows" in message
    xlsx(tmp_path / "order.xlsx", b"<worksheet/>" + b" " * 5000)
    assert "more than the limit" in refusal(tmp_path / "order.xlsx", Limits(unpacked_bytes=1000))


def test_text_that_looks_like_a_formula_stays_text(tmp_path: Path) -> None:
    head = [*HEAD, "Remarks"]
    order = read_rows(tmp_path, [*GOOD, '=HYPERLINK("http://x")'], head=head)
    assert order.lines[0].remarks == ('=HYPERLINK("http://x")',)


def test_two_hundred_random_sizes_and_damaged_workbooks_never_trace_back() -> None:
    rng = random.Random(7)
    orders = Path(__file__).parents[2] / "data" / "orders"
    assert fuzz_grammar(rng, 2000) == []
    assert fuzz_workbooks(rng, 200, orders) == []


@pytest.mark.parametrize("name", ["ods", "xlsx"])
def test_a_workbook_whose_xml_is_broken_is_refused_before_the_reader_sees_it(
    tmp_path: Path, name: str
) -> None:
    """Such an .ods kept the reader busy for ever."""
    orders = Path(__file__).parents[2] / "data" / "orders"
    source = next(file for file in sorted(orders.iterdir()) if file.suffix == f".{name}")
    broken = tmp_path / source.name
    part = "content.xml" if name == "ods" else "xl/worksheets/sheet1.xml"
    with zipfile.ZipFile(source) as old, zipfile.ZipFile(broken, "w") as new:
        for one in old.namelist():
            data = old.read(one)
            new.writestr(
                one, data[: len(data) // 2] + b"<</" + data[len(data) // 2 :] if one == part else data
            )
    with pytest.raises(InputError, match="it is cut off or damaged"):
        read_orders(broken, small_shop(), today=TODAY)


def test_a_bad_file_is_refused_alone(tmp_path: Path) -> None:
    read_rows(tmp_path, GOOD)
    bad = tmp_path / "bad.csv"
    bad.write_text("hello,world\n")
    good, refused = read_all([tmp_path / "order.csv", bad], small_shop(), today=TODAY)
    assert len(good.lines) == 1
    assert refused.lines == ()
    assert "bad.csv" in refused.questions[0].text
    with pytest.raises(InputError):
        read_all([bad], small_shop(), today=TODAY)
