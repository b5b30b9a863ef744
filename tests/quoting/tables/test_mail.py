"""Mail and PDF as they come: tables in bodies and attachments, who sent them, and hostile ones."""

from __future__ import annotations

import io
import time
import zlib
from collections.abc import Sequence
from email.message import EmailMessage
from pathlib import Path
from typing import Any

import pytest
import xlsxwriter
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import PageBreak, Paragraph, SimpleDocTemplate, Table

from quoting.core import Basis, Cylinder, InputError, Order
from quoting.intake.read_orders import read_orders
from tests.quoting.intake.small_shop import TODAY, small_shop
from tests.quoting.tables.saved_mail import saved_mail

HEADS = ("Line", "Qty", "OD in", "Thk in", "Length in", "Material", "Ends")
ROW = ("1", "2", "30", "0.25", "48", "A36", "pre-bend")
CSV = (",".join(HEADS) + "\n" + ",".join(ROW) + "\n").encode()
SHELL = Cylinder(762.0, Basis.OUTSIDE, 1219.2)
SENDER = "Jane Doe <jane@example.com>"


def mail(
    body: str = "Please quote.", html: str = "", files: Sequence[tuple[str, bytes]] = ()
) -> EmailMessage:
    made = EmailMessage()
    made["From"], made["Subject"], made["Message-ID"] = SENDER, "RFQ 4471", "<1@example.com>"
    made.set_content(body)
    if html:
        made.add_alternative(html, subtype="html")
    for name, data in files:
        made.add_attachment(data, maintype="application", subtype="octet-stream", filename=name)
    return made


def read(folder: Path, data: bytes, name: str = "mail.eml") -> Order:
    path = folder / name
    path.write_bytes(data)
    return read_orders(path, small_shop(), today=TODAY)


def asked(order: Order) -> str:
    return "\n".join(question.text for question in order.questions)


def table(rows: Sequence[Sequence[str]]) -> str:
    return (
        "<table>"
        + "".join(f"<tr>{''.join(f'<td>{cell}</td>' for cell in row)}</tr>" for row in rows)
        + "</table>"
    )


@pytest.mark.parametrize(
    ("made", "where"),
    [
        (mail(files=[("orders.csv", CSV)]), "orders.csv"),
        (mail(html=f"<p>Hello,</p>{table([HEADS, ROW])}<p>Thanks</p>"), "mail"),
        (mail(html=f"<table><tr><td>Hello {table([HEADS, ROW])}</td></tr></table>"), "mail"),
        (mail('Hi,\n\n2 pc shell 30" OD x 1/4" x 48" long A36, pre-bend\n\nThanks\nJane'), "mail"),
        (mail("\t".join(HEADS) + "\n" + "\t".join(ROW)), "mail"),
        (mail(f"Hello all,\nplease quote, as last time\n\n{CSV.decode()}\nThanks\nJane"), "mail"),
        (
            mail("  ".join(HEADS) + "\n" + "   ".join(ROW) + "\n> an earlier mail, 5 pc 12 OD\n-- \nJane"),
            "mail",
        ),
    ],
)
def test_a_mail_is_an_order_wherever_its_table_stands(tmp_path: Path, made: EmailMessage, where: str) -> None:
    order = read(tmp_path, made.as_bytes())
    (line,) = order.lines
    assert (line.quantity, line.shape, line.thickness_mm, line.material) == (2, SHELL, 6.35, "A36")
    assert line.place.sheet == where
    assert (order.customer, order.reference, order.reply_to) == ("Jane Doe", "RFQ 4471", SENDER)
    assert order.message_id == "<1@example.com>"
    assert "4471" not in asked(order)
    assert "Jane" not in asked(order)


def test_a_title_block_in_the_sheet_goes_before_the_sender(tmp_path: Path) -> None:
    head = b"Customer,Example Tank Works\nRFQ,77-B\n\n"
    order = read(tmp_path, mail(files=[("a.csv", head + CSV)]).as_bytes())
    assert (order.customer, order.reference, order.reply_to) == ("Example Tank Works", "77-B", SENDER)


def test_what_was_not_read_is_asked_and_names_lead_nowhere(tmp_path: Path) -> None:
    files = [
        ("../../etc/orders.csv", CSV),
        ("drawings.zip", b"PK\x03\x04"),
        ("C:\\tmp\\x.dwg", b"AC"),
        ("logo.png", b""),
    ]
    order = read(tmp_path, mail(files=files).as_bytes())
    assert order.lines[0].place.sheet == "orders.csv"
    assert "attachment not read: drawings.zip: files of kind .zip are not read" in asked(order)
    assert "attachment not read: x.dwg" in asked(order)
    assert "logo.png" not in asked(order)
    assert "attachment logo.png is no order sheet and was not read" in order.notes


def test_fifty_attachments_are_one_order(tmp_path: Path) -> None:
    order = read(tmp_path, mail(files=[("orders.csv", CSV)] * 50).as_bytes())
    assert len({line.place for line in order.lines} | {row.place for row in order.rows}) >= 50
    assert "orders.csv (50)" in {row.place.sheet for row in order.rows}
    with pytest.raises(InputError, match="more than 100 sheets"):
        read(tmp_path, mail(files=[("orders.csv", CSV)] * 150).as_bytes())


def test_a_mail_within_a_mail_is_read(tmp_path: Path) -> None:
    outer = mail("see below")
    outer.add_attachment(mail(files=[("orders.csv", CSV)]))
    order = read(tmp_path, outer.as_bytes())
    assert order.lines[0].place.sheet == "RFQ 4471: orders.csv"


def test_a_wrong_or_unknown_encoding_is_read_as_it_can_be(tmp_path: Path) -> None:
    plain = mail('2 pc shell 30" OD x 1/4" x 48" long A36, Gr\u00f6\u00dfe').as_bytes()
    for charset in (b"utf-7-nonsense", b"ascii", b"utf-16"):
        order = read(tmp_path, plain.replace(b'"utf-8"', b'"' + charset + b'"'))
        assert order.lines[0].shape == SHELL
    broken = plain.replace(b"From: Jane Doe <jane@example.com>", b"From: =?utf-8?b?////?= <@<>@@>,,;\xff")
    assert read(tmp_path, broken).lines


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "is empty"),
        (b"\0" * 5000, "mail"),
        (mail("Good morning").as_bytes(), "no row of headers"),
        (
            mail(files=[("plan.zip", b"PK")]).as_bytes(),
            "attachment not read: plan.zip: files of kind .zip are not read; unpack it",
        ),
    ],
)
def test_what_holds_no_order_is_one_message(tmp_path: Path, data: bytes, words: str) -> None:
    with pytest.raises(InputError, match=words) as told:
        read(tmp_path, data)
    assert "mail.eml" in str(told.value)


def test_nests_and_floods_end_in_time(tmp_path: Path) -> None:
    head = b"From: a@example.com\r\nMIME-Version: 1.0\r\n"
    deep = head + b"".join(
        b'Content-Type: multipart/mixed; boundary="b%d"\r\n\r\n--b%d\r\n' % (n, n) for n in range(3000)
    )
    flood = mail("x", html="<table>" * 20_000 + "<td colspan=9999>" * 20_000)
    start = time.monotonic()
    for data in (deep, flood.as_bytes()):
        with pytest.raises(InputError):
            read(tmp_path, data)
    assert time.monotonic() - start < 60


def workbook() -> bytes:
    """The same order as a workbook; larger than what a saved mail keeps among its small streams."""
    held = io.BytesIO()
    with xlsxwriter.Workbook(held) as book:
        sheet = book.add_worksheet("Parts")
        for number, row in enumerate((HEADS, ROW)):
            sheet.write_row(number, 0, row)
    return held.getvalue()


def test_a_mail_saved_by_a_mail_program_is_read(tmp_path: Path) -> None:
    data = saved_mail(SENDER, "RFQ 4471", "Please quote.\r\n", {"orders.csv": CSV, "plan.zip": b"PK"})
    order = read(tmp_path, data, "mail.msg")
    assert (order.customer, order.reference, order.reply_to) == ("Jane Doe", "RFQ 4471", SENDER)
    assert order.lines[0].shape == SHELL
    assert "plan.zip" in asked(order)
    with_book = saved_mail(SENDER, "RFQ 4472", "Please quote.\r\n", {"orders.xlsx": workbook()})
    assert read(tmp_path, with_book, "book.msg").lines[0].shape == SHELL
    for broken in (data[:700], data[:512] + bytes(len(data) - 512), b"From: x"):
        with pytest.raises(InputError, match=r"mail\.msg"):
            read(tmp_path, broken, "mail.msg")


def pdf(pages: Sequence[Sequence[Sequence[str]]], *, ruled: bool) -> bytes:
    held = io.BytesIO()
    style: Any = [("GRID", (0, 0), (-1, -1), 1, "black")] if ruled else []
    blocks: list[Any] = [Paragraph("Example Works", getSampleStyleSheet()["Normal"])]
    for rows in pages:
        blocks += [Table([list(row) for row in rows], colWidths=60, style=style), PageBreak()]
    SimpleDocTemplate(held, invariant=1).build(blocks)
    return held.getvalue()


@pytest.mark.parametrize("ruled", [True, False])
def test_a_pdf_with_a_table_of_text_is_an_order_and_says_so(tmp_path: Path, ruled: bool) -> None:
    second = ("2", "1", "24", "3/8", "60", "A36", "flat")
    order = read(tmp_path, pdf([[HEADS, ROW], [second]], ruled=ruled), "orders.pdf")
    first, other = order.lines
    assert (first.shape, first.thickness_mm, first.quantity) == (SHELL, 6.35, 2)
    assert (other.thickness_mm, other.quantity) == (9.525, 1)
    assert all("every value is read from a PDF" in line.assumptions for line in order.lines)
    assert order.customer == "Example Works"


def test_a_value_that_stands_under_no_heading_is_asked(tmp_path: Path) -> None:
    held = io.BytesIO()
    canvas = Canvas(held, invariant=1)
    for at, heading in enumerate(HEADS):
        canvas.drawString(40 + 75 * at, 700, heading)
        canvas.drawString(40 + 75 * at, 680, ROW[at])
        canvas.drawString(40 + 75 * at + (38 if at == 3 else 0), 660, "3" if at == 0 else ROW[at])
    canvas.save()
    order = read(tmp_path, held.getvalue(), "orders.pdf")
    assert [line.number for line in order.lines] == ["1"]
    assert 'The columns of this row in a PDF are not certain. Read as "3 | 2 | 30' in asked(order)


def test_a_scan_a_locked_and_a_broken_pdf_are_told(tmp_path: Path) -> None:
    held = io.BytesIO()
    canvas = Canvas(held, invariant=1)
    canvas.rect(50, 50, 300, 300, fill=1)
    canvas.save()
    locked = io.BytesIO()
    secret = Canvas(locked, encrypt="secret")
    secret.drawString(50, 50, "hidden")
    secret.save()
    bomb = zlib.compress(b"0 0 m " * 20_000_000, 9)
    bombed = (
        held.getvalue()
        .replace(b"/Contents", b"/Old")
        .replace(b"/Type /Page\n", b"/Type /Page /Contents 99 0 R\n")
    )
    bombed = bombed.replace(
        b"xref",
        b"99 0 obj<</Filter/FlateDecode/Length %d>>stream\n" % len(bomb) + bomb + b"\nendstream endobj\nxref",
    )
    for data, words in (
        (held.getvalue(), "is a scan"),
        (locked.getvalue(), "locked with a password"),
        (b"%PDF-1.7\n" + b"junk" * 100, "cannot be read as a PDF"),
        (bombed, "orders.pdf"),
    ):
        with pytest.raises(InputError, match=words):
            read(tmp_path, data, "orders.pdf")
