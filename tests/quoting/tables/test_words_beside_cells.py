"""What is said in comments and in boxes over the cells is said in the sheet."""

from __future__ import annotations

import zipfile
from datetime import date
from email.message import EmailMessage
from pathlib import Path

import pytest
import xlsxwriter
from reportlab.pdfgen.canvas import Canvas

from quoting.core import Order, State
from quoting.intake.read_orders import read_orders
from quoting.tables import Limits, read_sheets
from tests.benchmarks.intake_reader import grading_shop
from tests.office import saved_as

HEADS = ("Item", "Qty", "Description", "ID", "Thk", "Length", "Material")
LINES = ((1, 2, "Shell", 48, 0.375, 60, "A36"), (2, 1, "Shell", 36, 0.25, 48, "A36"))
BOX = "Item 2 is cancelled\nthank you"


@pytest.fixture(scope="module")
def commented(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An order with a comment on a size, one on a heading, and a box; an invented scenario."""
    file = tmp_path_factory.mktemp("said") / "order.xlsx"
    with xlsxwriter.Workbook(file) as book:
        sheet = book.add_worksheet("Parts")
        for number, row in enumerate((HEADS, *LINES)):
            sheet.write_row(number, 0, row)
        sheet.write_comment("F2", "Jo:\nchanged to 72", {"author": "Jo"})
        sheet.write_comment("D1", "ask Jo about this")
        sheet.insert_textbox(5, 1, BOX)
    return file


def read(file: Path) -> Order:
    return read_orders(file, grading_shop(), today=date(2026, 3, 2))


@pytest.mark.parametrize("kind", ["xlsx", "ods", "xls"])
def test_comments_and_boxes_are_read_from_each_format(commented: Path, tmp_path: Path, kind: str) -> None:
    file = commented if kind == "xlsx" else saved_as(kind, [commented], tmp_path)[0]
    (sheet,) = read_sheets(file, Limits())
    assert sheet.comments[0, 3] == "ask Jo about this"
    assert sheet.comments[1, 5].endswith("changed to 72")
    assert [line for text in sheet.boxes for line in text.splitlines()] == BOX.splitlines()
    assert sheet.asides == ()


def test_a_changed_size_in_a_comment_is_asked_at_its_cell(commented: Path) -> None:
    order = read(commented)
    assert [row.state for row in order.rows if row.number == "1"] == [State.QUESTION]
    asked = [question for question in order.questions if "changed to 72" in question.text]
    assert asked
    assert all((one.place.row, one.place.column) == (2, "F") for one in asked)


def test_what_a_box_calls_off_is_not_priced(commented: Path) -> None:
    order = read(commented)
    assert [row.state for row in order.rows if row.number == "2"] == [State.NO_QUOTE]


def test_a_comment_on_a_heading_is_passed_on(commented: Path) -> None:
    assert any("ask Jo about this" in question.text for question in read(commented).questions)


def test_a_thread_of_comments_is_read_and_not_what_points_to_it(commented: Path, tmp_path: Path) -> None:
    thread = (
        '<ThreadedComments xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments">'
        '<threadedComment ref="F2" id="{1}"><text>make it 72</text></threadedComment>'
        '<threadedComment ref="F2" id="{2}" parentId="{1}"><text>no, 66</text></threadedComment>'
        "</ThreadedComments>"
    )
    link = (
        '<Relationship Id="rId9" Target="../threadedComments/threadedComment1.xml" Type="'
        'http://schemas.microsoft.com/office/2017/10/relationships/threadedComment"/></Relationships>'
    )
    file = tmp_path / "thread.xlsx"
    with zipfile.ZipFile(commented) as old, zipfile.ZipFile(file, "w") as new:
        for name in old.namelist():
            data = old.read(name).decode("utf-8", "surrogateescape")
            if name == "xl/worksheets/_rels/sheet1.xml.rels":
                data = data.replace("</Relationships>", link)
            new.writestr(name, data.encode("utf-8", "surrogateescape"))
        new.writestr("xl/threadedComments/threadedComment1.xml", thread)
    (sheet,) = read_sheets(file, Limits())
    assert sheet.comments == {(0, 3): "ask Jo about this", (1, 5): "make it 72\nno, 66"}


def test_comments_on_a_data_sheet_of_one_part_hang_on_its_values(tmp_path: Path) -> None:
    pairs = (
        ("Item", 1), ("Quantity", 2), ("Inside diameter", "48 in"), ("Thickness", "3/8 in"),
        ("Length", "60 in"), ("Material", "A36"),
    )  # fmt: skip
    file = tmp_path / "part.xlsx"
    with xlsxwriter.Workbook(file) as book:
        sheet = book.add_worksheet("Part")
        for number, pair in enumerate(pairs):
            sheet.write_row(number, 0, pair)
    assert [row.state for row in read(file).rows if row.number == "1"] == [State.PRICED]
    with xlsxwriter.Workbook(file) as book:
        sheet = book.add_worksheet("Part")
        struck = book.add_format({"font_strikeout": True})
        for number, pair in enumerate(pairs):
            sheet.write_row(number, 0, pair, struck if number == 4 else None)
        sheet.write_comment("B2", "this part is on hold")
    asked = [question.text for question in read(file).questions]
    assert any("struck through" in text for text in asked)
    assert any("on hold" in text for text in asked)


def test_what_was_written_on_a_pdf_afterwards_is_read(tmp_path: Path) -> None:
    file = tmp_path / "order.pdf"
    page = Canvas(str(file))
    for row, cells in enumerate((HEADS, *LINES)):
        for column, cell in enumerate(cells):
            page.drawString(40 + 75 * column, 700 - 20 * row, str(cell))
    page.textAnnotation("item 1 is on hold", Rect=[300, 650, 320, 670])
    page.freeTextAnnotation("thank you", "/Helv 10 Tf 0 g", Rect=[300, 600, 400, 620])
    page.save()
    (sheet,) = read_sheets(file, Limits())
    assert sheet.boxes == ("item 1 is on hold", "thank you")
    states = {row.number: row.state for row in read(file).rows}
    assert states["1"] is State.QUESTION
    assert states["2"] is State.PRICED


def test_letters_crossed_out_in_a_plain_cell_are_seen(tmp_path: Path) -> None:
    file = tmp_path / "letters.xlsx"
    with xlsxwriter.Workbook(file) as book:
        sheet = book.add_worksheet("Parts")
        struck, plain = book.add_format({"font_strikeout": True}), book.add_format({})
        for number, row in enumerate((HEADS, *LINES)):
            sheet.write_row(number, 0, row)
        sheet.write_rich_string("C2", struck, "Half ", plain, "shell")
        sheet.write_rich_string("G3", struck, "A3", struck, "6")
    (sheet,) = read_sheets(file, Limits())
    assert sheet.struck == {(2, 6)}
    assert sheet.comments == {(1, 2): 'The part "Half" is struck through in this cell'}
    assert [row.state for row in read(file).rows if row.number] == [State.QUESTION, State.QUESTION]


def test_rows_crossed_out_in_a_mail_are_not_priced(tmp_path: Path) -> None:
    rows = [
        "".join(f"<td>{cell}</td>" for cell in HEADS),
        "".join(f'<td><span style="text-decoration: line-through">{cell}</span></td>' for cell in LINES[0]),
        "".join(f"<td>{cell}</td>" for cell in LINES[1]).replace("<td>48<", "<td><s>48</s> <b>50</b><"),
        "".join(f"<td>{cell}</td>" for cell in (3, *LINES[1][1:])),
    ]
    table = "".join(f"<tr>{row}</tr>" for row in rows)
    mail = EmailMessage()
    mail["From"], mail["Subject"] = "jo@example.org", "rolled shells"
    mail.set_content("see the table")
    mail.add_alternative(f"<p>Please quote</p><table>{table}</table>", subtype="html")
    file = tmp_path / "order.eml"
    file.write_bytes(mail.as_bytes())
    states = {row.number: row.state for row in read(file).rows if row.number}
    assert states == {"1": State.NO_QUOTE, "2": State.QUESTION, "3": State.PRICED}
