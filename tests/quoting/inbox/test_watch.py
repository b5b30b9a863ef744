"""Order sheets dropped into a folder, with real files: each is quoted once, none is lost."""

from __future__ import annotations

import io
import json
import os
import shutil
import signal
import sqlite3
import subprocess
import sys
import threading
import time
import zipfile
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass, field, replace
from datetime import date
from email import message_from_bytes, policy
from email.message import EmailMessage
from pathlib import Path

import pytest

from quoting.books import locked
from quoting.books.reply import write_reply
from quoting.commands import QuoteRequest
from quoting.core import InputError, Place, shown_name
from quoting.estimating import estimate
from quoting.inbox import WatchRequest, watch_job
from quoting.inbox.arrivals import Arrivals
from quoting.inbox.journal import Journal, Received
from quoting.inbox.note import Note, NotePart
from quoting.inbox.parcel import copied
from quoting.intake.customer_files import map_path
from quoting.intake.read_orders import read_orders
from quoting.shop import load_shop
from tests.quoting.books.package import book, cells
from tests.quoting.tables.test_mail import mail

ROOT = Path(__file__).resolve().parents[3]
SHEET = (
    "Example Yard (invented)\nLine,Qty,OD in,Thk in,Length in,Material,Ends\n1,2,30,0.25,48,A36,pre-bend\n"
)
ASKS = "From: Jane Doe <jane@example.com>\nSubject: RFQ 7\n\n" + SHEET.replace("OD in", "Dia in")


@dataclass
class Yard:
    """A shop with an inbox; what a watcher says is kept."""

    request: WatchRequest
    said: list[str] = field(default_factory=list)

    def drop(self, name: str, text: str | bytes) -> Path:
        path = self.request.inbox / name
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return path

    def watch(self, **changed: object) -> int:
        request = replace(self.request, **changed)  # type: ignore[arg-type]
        return watch_job(request, say=self.said.append, fault=lambda error: f"our fault: {error!r}")

    def folders(self, sub: str = "") -> list[Path]:
        there = self.request.out_dir / sub
        return sorted(path for path in there.iterdir() if path.is_dir()) if there.is_dir() else []

    def came(self) -> list[Path]:
        return [path for path in self.folders() if (path / "note.html").is_file()]

    def inbox(self) -> list[str]:
        return sorted(os.listdir(self.request.inbox))


@pytest.fixture
def yard(tmp_path: Path) -> Yard:
    without_ledger = shutil.ignore_patterns("ledger*")  # the demo may have been run here before
    shutil.copytree(ROOT / "demo_orders" / "shop", tmp_path / "shop", ignore=without_ledger)
    (tmp_path / "inbox").mkdir()
    day = date(2026, 11, 30)
    return Yard(
        WatchRequest(tmp_path / "inbox", tmp_path / "shop", tmp_path / "quotes", day, 0.05, once=True)
    )


def test_what_is_dropped_is_quoted_into_a_folder_of_its_own_with_a_note(yard: Yard) -> None:
    yard.drop("orders yard.csv", SHEET)
    yard.drop("asks.eml", ASKS)  # a mail, the table in its body
    assert yard.watch() == 1  # one line waits
    asks, sure = yard.came()
    assert sure.name.startswith("2026-11-30-orders-yard-")
    assert (sure / "received" / "orders yard.csv").read_text() == SHEET
    assert {"result.json", "note.txt", "note.html"} < set(os.listdir(sure))
    assert list(sure.glob("quote-*.pdf"))
    text = (sure / "note.txt").read_text()
    assert "1 line priced" in text
    assert 'line 1, Cylinder 30" OD' in text
    asked = (asks / "note.txt").read_text()
    assert "To: jane@example.com" in next(asks.glob("reply-*.eml")).read_text()
    assert "Asked, the line waits:\n  - line 1: Is the diameter" in asked
    assert "read it in your mail program and send it" in asked
    mail = Path("received", "asks.eml")
    assert f"questions-2026-11-30.xlsx has its answers filled in: rollwright quote {asks / mail}" in asked
    assert "when it is won: rollwright won 20261130-01 --shop" in text
    assert '<a href="result.json">result.json</a>' in (sure / "note.html").read_text()
    assert yard.inbox() == []
    # After a restart the same content under another name is the same order; a file is never thrown away.
    yard.drop("sent again.csv", SHEET)
    assert yard.watch() == 0
    assert len(yard.came()) == 2
    (again,) = yard.folders("came-again")
    assert (again / "sent again.csv").read_text() == SHEET
    assert f"quoted on 2026-11-30, in {sure.name}" in yard.said[-2]


def test_the_customers_columns_and_language_are_used_unasked(yard: Yard) -> None:
    """The sheet names its customer; what the shop's folder keeps of it holds, as with --customer."""
    name = "Example Yard (invented)"
    kept = map_path(yard.request.shop_dir, name)
    kept.parent.mkdir(exist_ok=True)
    kept.write_text(f'name = "{name}"\nlanguage = "de"\n[columns]\n"Ring" = "diameter outside in"\n')
    yard.drop("pinned.csv", SHEET.replace("OD in", "Ring"))
    yard.drop("other.csv", SHEET.replace("Example Yard", "Another Yard").replace("OD in", "Ring"))
    yard.watch()
    other, pinned = yard.came()
    assert "columns and language as kept for Example Yard (invented)" in (pinned / "note.txt").read_text()
    assert "1 line priced" in (pinned / "note.txt").read_text()
    assert "Stückpreis" in quote_words(next(pinned.glob("quote-*.xlsx")))
    assert "1 line priced" not in (other / "note.txt").read_text()
    assert "Unit price" in quote_words(next(other.glob("quote-*.xlsx")))
    assert kept.with_suffix(".json").is_file()  # what was learnt of this sheet is kept


def quote_words(path: Path) -> str:
    return " ".join(str(cell.value) for cell in cells(book(path)))


def test_what_cannot_be_read_is_put_aside_and_the_others_are_quoted(yard: Yard) -> None:
    yard.drop("drawing.dwg", b"AC1027" + bytes(300))
    yard.drop("cut off.xlsx", b"PK\x03\x04" + bytes(50))
    yard.drop("letter.csv", "Dear all,\nno parts here\n")
    yard.drop("orders.csv", SHEET)
    (yard.request.inbox / "older").mkdir()
    yard.drop("~$orders.xlsx", b"lock of an office program")
    yard.drop("coming.xlsx.part", b"half")
    assert yard.watch() == 1
    assert len(yard.came()) == 1
    aside = yard.folders("could-not-read")
    assert sorted(path.name.split("-")[3] for path in aside) == ["cut", "drawing", "letter"]
    for folder in aside:
        assert len(list(folder.iterdir())) == 3  # the file, the note as text and as page
        assert "ask the sender again" in (folder / "note.txt").read_text()
    assert yard.inbox() == ["coming.xlsx.part", "older", "~$orders.xlsx"]
    assert any(text.startswith("older is a folder") for text in yard.said)


def test_odd_mails_are_quoted_or_put_aside_by_name(yard: Yard) -> None:
    """Fifty attachments, a zip, a mail within a mail, a wrong encoding: quoted or told, none is lost."""
    sheet = SHEET.encode()
    fifty = [(f"orders {n}.csv", SHEET.replace("1,2,30", f"{n},{n + 1},30").encode()) for n in range(50)]
    nested = mail("see below")
    nested.add_attachment(mail(files=[("orders.csv", sheet)]))
    body = f"Gr\u00f6\u00dfe\n\n{SHEET}"
    mails = {
        "fifty.eml": mail(files=fifty).as_bytes(),
        "nested.eml": nested.as_bytes(),
        "encoding.eml": mail(body).as_bytes().replace(b'"utf-8"', b'"utf-16"'),
        "zip and sheet.eml": mail(files=[("d.zip", b"PK\x03\x04"), ("orders.csv", sheet)]).as_bytes(),
        "zip.eml": mail(files=[("drawings.zip", b"PK\x03\x04")]).as_bytes(),
        "drawings.zip": b"PK\x03\x04" + bytes(200),
    }
    for name, data in mails.items():
        yard.drop(name, data)
    yard.watch()
    assert yard.inbox() == []
    came = {next((folder / "received").iterdir()).name: folder for folder in yard.came()}
    assert set(came) == {"fifty.eml", "nested.eml", "encoding.eml", "zip and sheet.eml"}
    assert "priced" in (came["nested.eml"] / "note.txt").read_text()
    assert "attachment not read: d.zip" in (came["zip and sheet.eml"] / "note.txt").read_text()
    notes = " ".join((folder / "note.txt").read_text() for folder in yard.folders("could-not-read"))
    assert "attachment not read: drawings.zip" in notes
    assert len(yard.folders("could-not-read")) == 2


def test_a_sheet_that_trickles_in_over_a_slow_share_is_quoted_once_and_whole(yard: Yard) -> None:
    """Each piece comes before the file has been left alone for long enough, the last one after a pause."""
    path = yard.request.inbox / "slow.csv"
    lines = SHEET.splitlines(keepends=True)

    def copy() -> None:
        with path.open("w") as stream:
            for line in lines[:2]:
                stream.write(line)
                stream.flush()
                time.sleep(0.3)
            time.sleep(1.5)  # longer than the wait: what is there so far has no part in it
            stream.writelines(lines[2:])

    thread = threading.Thread(target=copy)
    thread.start()
    time.sleep(0.1)
    try:
        assert yard.watch(wait=0.4) == 0
    finally:
        thread.join()
    (folder,) = yard.came()
    assert (folder / "received" / "slow.csv").read_text() == SHEET
    assert yard.folders("could-not-read") == []


def test_a_mistake_in_the_shops_book_puts_no_order_aside(yard: Yard) -> None:
    yard.drop("orders.csv", SHEET)
    book = yard.request.shop_dir / "shop.toml"
    book.write_text("= no =")
    with pytest.raises(InputError, match=r"shop\.toml"):
        yard.watch()
    assert yard.inbox() == ["orders.csv"]
    assert yard.folders() == []


def test_a_fault_of_ours_puts_the_file_aside_and_ends_nothing(
    yard: Yard, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> int:
        raise ZeroDivisionError

    monkeypatch.setattr("quoting.inbox.desk.quote_job", broken)
    yard.drop("orders.csv", SHEET)
    assert yard.watch() == 1
    (aside,) = yard.folders("could-not-read")
    assert "our fault: ZeroDivisionError()" in (aside / "note.txt").read_text()


@pytest.mark.slow
def test_a_kill_between_quote_and_journal_leads_to_the_same_folder_and_number(yard: Yard) -> None:
    yard.drop("orders.csv", SHEET)
    yard.watch()
    (folder,) = yard.came()
    (yard.request.out_dir / "received.jsonl").unlink()  # as if it had never come to that
    yard.drop("orders.csv", SHEET)
    yard.watch(today=date(2026, 12, 1))
    assert yard.came() == [folder]
    with closing(sqlite3.connect(yard.request.shop_dir / "ledger.db")) as ledger:
        assert ledger.execute("select number from quotes").fetchall() == [("20261130-01",)]


def test_a_second_watcher_is_told(yard: Yard) -> None:
    with locked(yard.request.inbox), pytest.raises(InputError, match="another watcher is at work"):
        yard.watch()


def test_the_inbox_is_no_folder_of_ours(yard: Yard) -> None:
    with pytest.raises(InputError, match="also the shop's folder"):
        yard.watch(inbox=yard.request.shop_dir)
    with pytest.raises(InputError, match="no such folder"):
        yard.watch(inbox=yard.request.inbox / "typo")


def test_a_file_that_is_still_growing_waits(tmp_path: Path) -> None:
    arrivals = Arrivals(tmp_path, wait=3)
    copied = tmp_path / "orders.csv"
    copied.write_text("Line,")
    assert arrivals.ready(now=0) == []
    copied.write_text("Line,Qty")
    assert arrivals.ready(now=4) == []  # it changed since the last look
    assert arrivals.ready(now=6.9) == []
    assert arrivals.ready(now=7) == [copied]
    arrivals.done(copied)
    assert arrivals.ready(now=20) == []
    copied.write_text("the next one of this name")
    arrivals.ready(now=21)
    assert arrivals.ready(now=24) == [copied]


def test_a_share_that_goes_away_is_tried_again(tmp_path: Path) -> None:
    arrivals = Arrivals(tmp_path / "share", wait=0)
    with pytest.raises(OSError, match="share"):
        arrivals.ready(now=0)
    (tmp_path / "share").mkdir()
    (tmp_path / "share" / "orders.csv").write_text("1")
    assert [path.name for path in arrivals.ready(now=1)] == ["orders.csv"]


def test_a_torn_line_of_the_journal_spoils_no_other(tmp_path: Path) -> None:
    one, two = (Received(digest, "orders.csv", "folder", "2026-11-30") for digest in ("aa", "bb"))
    Journal(tmp_path).add(one)
    with (tmp_path / "received.jsonl").open("a") as stream:
        stream.write('{"digest": "to')
    Journal(tmp_path).add(two)
    assert [Journal(tmp_path).known(digest) for digest in ("aa", "bb", "to")] == [one, two, None]


def test_what_a_customer_writes_is_text_in_the_note(tmp_path: Path) -> None:
    Note("<b>x", "</p><script>", (NotePart("<i>", ("<img src=x>",)),)).write(tmp_path)
    page = (tmp_path / "note.html").read_text()
    assert "<script>" not in page
    assert "<img" not in page
    assert "&lt;b&gt;x" in page


@pytest.mark.slow
@pytest.mark.skipif(sys.platform == "win32", reason="Ctrl-C reaches a child differently there")
def test_the_command_watches_quotes_and_stops_cleanly(yard: Yard) -> None:
    asked = yard.request
    watching = subprocess.Popen(
        [
            *(sys.executable, "-m", "scheduler", "watch", asked.inbox),
            *("--shop", asked.shop_dir, "--out", asked.out_dir, "--wait", "0.2"),
        ],
        cwd=ROOT,
        stderr=subprocess.PIPE,
        text=True,
    )
    try:
        assert watching.stderr is not None
        assert "watching" in watching.stderr.readline()
        copied = asked.inbox / "orders.csv"
        copied.write_text(SHEET[:40])
        time.sleep(0.1)
        copied.write_text(SHEET)
        assert "1 line priced" in watching.stderr.readline()
        watching.send_signal(signal.SIGINT)
        assert "stopped; 1 quoted" in watching.stderr.read()
        assert watching.wait(10) == 130
    finally:
        watching.kill()
    assert yard.inbox() == []
    lines = (asked.out_dir / "received.jsonl").read_text().splitlines()
    assert [json.loads(line)["name"] for line in lines] == ["orders.csv"]


def test_what_is_no_plain_file_is_passed_over_whatever_it_is_called(yard: Yard) -> None:
    inbox = yard.request.inbox
    os.mkfifo(inbox / "pipe.csv")
    (inbox / "link.csv").symlink_to("/etc/hostname")
    (inbox / "folder.csv").mkdir()
    assert yard.watch() == 0
    assert sorted(text.partition(" is a ")[0] for text in yard.said[:-1]) == [
        "folder.csv",
        "link.csv",
        "pipe.csv",
    ]
    assert yard.inbox() == ["folder.csv", "link.csv", "pipe.csv"]
    assert yard.folders() == []


def test_names_are_only_names(yard: Yard, monkeypatch: pytest.MonkeyPatch) -> None:
    """Markup, signs that steer a screen, bytes of no encoding, names of our own files."""
    monkeypatch.setattr("quoting.inbox.desk.quote_job", _no_table)
    names = [
        "<img src=x onerror=alert(1)>.csv",
        "a\x1b[31m\nb.csv",
        "note.html",
        "NOTE.TXT",
        "-rf.csv",
        "CON.csv",
    ]
    for name in names:
        yard.drop(name, f"<script>{name}</script>")
    bad = os.fsencode(yard.request.inbox) + b"/bad\xff.csv"
    Path(os.fsdecode(bad)).write_text("bytes")
    assert yard.watch() == 1
    aside = yard.folders("could-not-read")
    assert len(aside) == len(names) + 1
    for folder in aside:
        page = (folder / "note.html").read_text()
        assert page.startswith("<!doctype html>")
        assert not {"<script", "<img", "\x1b"} & {page[at : at + 7] for at in range(len(page))}
        assert "\x1b" not in page
    kept = [
        path.read_text(errors="replace") for folder in aside for path in folder.rglob("*") if path.is_file()
    ]
    for name in names:
        assert f"<script>{name}</script>" in kept, "nothing that came is lost"
    assert all("\n" not in text and "\x1b" not in text for text in yard.said)
    assert yard.inbox() == []


def _files(folder: Path) -> list[Path]:
    return [path for path in folder.rglob("*") if path.is_file()]


def _no_table(request: QuoteRequest, **_: object) -> int:
    raise InputError("no row of headers was found", place=Place(shown_name(request.orders[0])))


def test_a_mail_with_bombs_is_put_aside_and_the_next_file_is_quoted(yard: Yard) -> None:
    bomb = io.BytesIO()
    with zipfile.ZipFile(bomb, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/workbook.xml", "<a/>")
        archive.writestr("xl/worksheets/sheet1.xml", b" " * 130_000_000)
    made = EmailMessage()
    made["From"], made["Subject"] = "Jane Doe <jane@example.com>", "RFQ"
    made.set_content("see attached")
    for name in ("../../a.xlsx", "b.xlsx"):
        made.add_attachment(bomb.getvalue(), maintype="application", subtype="octet-stream", filename=name)
    yard.drop("a bombs.eml", bytes(made))
    yard.drop("b order.csv", SHEET)
    assert yard.watch() == 1
    (aside,) = yard.folders("could-not-read")
    assert "attachment not read: a.xlsx" in (aside / "note.txt").read_text()
    assert len(yard.came()) == 1
    assert not list(yard.request.out_dir.parent.rglob("*a.xlsx"))


def test_a_file_that_changes_while_it_is_copied_waits_for_the_next_look(
    yard: Yard, monkeypatch: pytest.MonkeyPatch
) -> None:
    source, elsewhere = yard.drop("orders.csv", SHEET), yard.request.inbox / "link.csv"
    elsewhere.symlink_to("/etc/hostname")
    for change in (
        lambda: source.write_text(SHEET + "2,1,30,0.25,48,A36,plain\n"),
        lambda: os.replace(elsewhere, source),
        source.unlink,  # the link itself
    ):
        with monkeypatch.context() as patched:
            patched.setattr(shutil, "copyfile", _and_then(change))
            with copied(source, yard.request.inbox.parent) as parcel:
                assert parcel is None
    assert not list(yard.request.inbox.parent.glob(".arriving-*"))


def _and_then(change: Callable[[], object]) -> Callable[..., None]:
    copy: Callable[..., object] = shutil.copyfile

    def meanwhile(*given: object, **more: object) -> None:
        copy(*given, **more)
        change()

    return meanwhile


def test_ten_thousand_files_are_looked_through_at_once(tmp_path: Path) -> None:
    for number in range(10_000):
        (tmp_path / f"{number}.csv").touch()
    start = time.process_time()
    arrivals = Arrivals(tmp_path, wait=0)
    assert len(arrivals.ready(now=1)) == 10_000
    assert time.process_time() - start < 5


def test_headers_of_a_mail_put_nothing_into_the_reply(tmp_path: Path) -> None:
    sheet = SHEET.replace("OD in", "Dia in")
    path = tmp_path / "order.eml"
    path.write_bytes(
        b"From: =?utf-8?q?Jane=0D=0ABcc=3A_victim=40example=2Ecom?= <jane@example.com>\r\n"
        b"Subject: =?utf-8?q?RFQ=0D=0ABcc=3A_victim=40example=2Ecom=0D=0A=0D=0Abody?=\r\n"
        b"Message-ID: <a@b>\r\n Bcc: victim@example.com\r\n\r\n" + sheet.encode()
    )
    shop = load_shop(ROOT / "demo_orders" / "shop")
    order = read_orders(path, shop, today=date(2026, 11, 30), prefix="A-")
    found = estimate([order], shop, today=date(2026, 11, 30), effort="quick", nested=False)
    write_reply(found, found.orders[0], tmp_path / "reply.eml", number="1", attached=[])
    reply = message_from_bytes((tmp_path / "reply.eml").read_bytes(), policy=policy.default)
    assert reply["Bcc"] is None
    assert reply["To"] == "jane@example.com"
    assert "\n" not in str(reply["Subject"])
    assert all("victim" not in str(value) for name, value in reply.items() if name != "Subject")
