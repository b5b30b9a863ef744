"""Over 200 crafted files, by every reader: one message or sheets of cells, never anything else."""

from __future__ import annotations

import os
import resource
import stat
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from email.message import EmailMessage
from pathlib import Path
from typing import Any

import pytest

from quoting.books import ReturnedCosting
from quoting.commands.machine_readings import read_readings
from quoting.core import InputError, Place
from quoting.intake import read_answers
from quoting.intake.read_orders import read_orders
from quoting.shop.rack import read_rack
from quoting.tables import Limits, Sheet, read_formula_book, read_own_text, read_sheets, toml_data
from quoting.tables.child import ask, worker
from quoting.tables.child.wire import limits_data
from tests.quoting.intake.small_shop import TODAY, small_shop
from tests.quoting.tables import hostile_others, hostile_xlsx
from tests.quoting.tables.hostile_xlsx import book, one, rows

KINDS: dict[str, Callable[[], Iterator[tuple[str, bytes]]]] = {
    "xlsx": hostile_xlsx.files,
    "ods": hostile_others.ods_files,
    "xls": hostile_others.xls_files,
    "text": hostile_others.text_files,
}
READERS: dict[str, Callable[[Path], Any]] = {
    "order": lambda path: read_orders(path, small_shop(), today=TODAY),
    "answers": read_answers,
    "rack": lambda path: read_rack([path], small_shop().materials, inch=True),
    "readings": lambda path: read_readings(path, small_shop()),
    "costing": lambda path: read_formula_book(path, ["S"]),
}
LARGEST = 300_000


def outcome(read: Callable[[Path], Any], path: Path) -> str:
    """Return the message that a file is refused with, or nothing when it is read."""
    try:
        read(path)
    except InputError as error:
        return str(error)
    return ""


def test_the_corpus_is_large_and_its_files_are_small() -> None:
    sizes = [len(data) for make in KINDS.values() for _, data in make()]
    assert len(sizes) >= 200
    assert max(sizes) <= LARGEST


@pytest.mark.parametrize("kind", KINDS)
def test_every_reader_survives_every_crafted_file(tmp_path: Path, kind: str) -> None:
    broke = []
    for name, data in KINDS[kind]():
        path = tmp_path / name
        path.write_bytes(data)
        for reader, read in READERS.items():
            if kind != "xlsx" and reader == "costing":
                continue
            if reader in ("answers", "readings") and len(name) % 4:
                continue  # they open a file as the rack does
            start = time.process_time()
            try:
                said = outcome(read, path)
            except Exception as error:
                broke.append(f"{reader} {name}: {type(error).__name__} {error}"[:160])
                continue
            if time.process_time() - start > 5:
                broke.append(f"{reader} {name}: slow")
            if said and name not in said:
                broke.append(f"{reader} {name}: no name in {said[:80]}")
    assert broke == []
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted(name for name, _ in KINDS[kind]())


def test_a_costing_book_that_merges_all_cells_is_refused_before_they_are_made(tmp_path: Path) -> None:
    path = tmp_path / "merged.xlsx"
    merged = '<mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>'
    path.write_bytes(book(one("<c><v>1</v></c>", after=merged)))
    with pytest.raises(InputError, match="merged cells reach too far"):
        read_formula_book(path, ["S"])


@pytest.mark.parametrize(
    "sheet",
    [
        one('<c r="xfd1048576"><v>1</v></c>'),
        one('<c r="A99999999999999999999"><v>1</v></c>'),
        rows('<row r="1048576"><c><v>1</v></c></row>'),
        one('<c q=">" r="XFD1048576"><v>1</v></c>'),
        rows("<row><c r='A1'><v>1</v></c><c r='XFD20000'><v xml:space='preserve'>1</v></c></row>"),
    ],
)
@pytest.mark.parametrize("part", ["xl/worksheets/sheet1.xml", "xl/other/s.bin"])
def test_a_sheet_that_reaches_too_far_is_refused_wherever_it_stands(
    tmp_path: Path, sheet: str, part: str
) -> None:
    """The guard refuses it itself: the reader behind it is not asked."""
    path = tmp_path / "order.xlsx"
    path.write_bytes(book(sheet, part=part, target=part.removeprefix("xl/")))
    said = outcome(READERS["rack"], path)
    assert "more than the limit" in said or "that a spreadsheet has" in said


def test_spaces_and_columns_by_the_million_are_refused(tmp_path: Path) -> None:
    path = tmp_path / "order.ods"
    for inside in ('<text:s text:c="2000000000"/>', '<text:s text:c="99999"/>' * 20):
        path.write_bytes(
            hostile_others.ods(hostile_others._table(hostile_others._row(hostile_others._cell(text=inside))))
        )
        assert outcome(READERS["rack"], path) != ""


def test_a_sheet_without_an_end_takes_linear_time(tmp_path: Path) -> None:
    """Each of these took quadratic time in its length."""
    path = tmp_path / "order.xlsx"
    attack = f'<styleSheet xmlns="{hostile_xlsx.MAIN}"><numFmts><numFmt numFmtId="164" formatCode="'
    for sheet, styles in (
        (one("<c " * 60_000), ""),
        (one("<c r='A1' t='e'>" + "<v>" * 60_000), ""),
        (one('<c r="A1"><v>1</v></c>'), attack + ";&quot;" * 40_000 + '"/></numFmts></styleSheet>'),
    ):
        path.write_bytes(book(sheet, parts={"xl/styles.xml": styles}))
        start = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime
        outcome(READERS["rack"], path)
        ask._close_all()
        assert resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime - start < 5


def test_memory_and_time_are_the_systems_to_keep(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "order.xlsx"
    strings = f'<sst xmlns="{hostile_xlsx.MAIN}"><si><t>{"x" * 30_000}</t></si></sst>'
    uses = "".join('<row><c t="s"><v>0</v></c></row>' for _ in range(9_000))
    path.write_bytes(book(rows(uses), parts={"xl/sharedStrings.xml": strings}))
    tight = replace(Limits(), memory_bytes=150 << 20, unpacked_bytes=10**12, text=10**12)
    with pytest.raises(InputError, match=r"order\.xlsx: cannot be read: (it takes more|reading it broke)"):
        read_sheets(path, tight)
    monkeypatch.setattr(ask, "_WAIT", 0.0)
    with pytest.raises(InputError, match=r"order\.xlsx: cannot be read: reading it broke off"):
        read_sheets(path, Limits())
    monkeypatch.undo()
    path.write_bytes(book(one('<c r="A1"><v>1</v></c>')))
    (sheet,) = read_sheets(path, Limits())
    assert isinstance(sheet, Sheet), "the next file is read by a new process"


def test_a_small_file_has_little_time_and_a_large_one_more(tmp_path: Path) -> None:
    """The names of 20,000 parameters take the library of mails minutes."""
    small, large = (Limits().seconds_for(size) for size in (300_000, 1_800_000))
    assert small == 4  # the system ends it within a second more
    assert large > 8
    path = tmp_path / "order.eml"
    flood = b"".join(b"; name*%d=a" % number for number in range(20_000))
    path.write_bytes(b"From: a@example.com\r\nContent-Type: text/plain" + flood + b"\r\n\r\nx")
    ask._close_all()
    before = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime
    with pytest.raises(
        InputError, match=r"order\.eml: cannot be read: reading it broke off, or took more than 1 s"
    ):
        read_sheets(path, replace(Limits(), least_seconds=1, seconds_per_mb=0))
    ask._close_all()
    assert resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime - before < 3


def test_a_mail_with_many_sheets_does_not_fill_the_memory_of_who_asked(tmp_path: Path) -> None:
    mail = EmailMessage()
    mail["From"] = "a@example.com"
    for number in range(3):
        rows = f"{number}" + ",x" * 39 + "\n"
        mail.add_attachment(rows * 8_000, filename=f"{number}.csv")
    path = tmp_path / "order.eml"
    path.write_bytes(bytes(mail))
    with pytest.raises(InputError, match="all sheets together hold more than 800,000 cells"):
        read_sheets(path, Limits())


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda path: path.mkdir(), "is a folder; give the files in it"),
        (os.mkfifo, "is a pipe between programs and no file; give a file"),
        (lambda path: path.symlink_to("/dev/zero"), "is a "),
    ],
)
def test_what_is_no_file_is_named(tmp_path: Path, make: Callable[[Path], None], words: str) -> None:
    path = tmp_path / "order.xlsx"
    make(path)
    for name in ("order", "rack", "answers", "readings", "costing"):
        assert f"order.xlsx: {words}" in outcome(READERS[name], path)
    with pytest.raises(InputError, match=words.partition(";")[0]):
        read_own_text(path, "the file of wishes")
    assert stat.S_IFMT(path.lstat().st_mode) != stat.S_IFREG


@pytest.mark.parametrize(
    "text",
    [
        "a = " + "[" * 100_000,
        "a = " + "9" * 5_000,
        "a = 1e99999999999999999999",
        "a." * 3_000 + "b = 1",
        "x = {" + "a." * 200_000 + "b = 1}",
        "\n".join(f"k{number} = 1" for number in range(100_000)),
        "\0",
    ],
)
def test_a_text_of_settings_that_nobody_could_mean_is_one_message(tmp_path: Path, text: str) -> None:
    path = tmp_path / "shop.toml"
    path.write_text(text)
    said = outcome(lambda file: toml_data(read_own_text(file, "it"), Place(file.name)), path)
    assert "is not valid TOML" in said or said == ""


def test_a_costing_book_is_read_in_the_same_way(tmp_path: Path) -> None:
    path = tmp_path / "costing.xlsx"
    path.write_bytes(book(one('<c r="XFD1048576"><v>1</v></c>')))
    with pytest.raises(InputError, match=r"costing\.xlsx: cannot be read .*more than the limit"):
        ReturnedCosting(path, None, "id")  # type: ignore[arg-type]


def test_a_fault_of_a_compiled_parser_is_one_message(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Seven of a thousand mutated .xls ended the reader so; the next file has a new one."""

    class PanicError(BaseException):
        pass

    def panics(*_: object) -> None:
        raise PanicError

    monkeypatch.setattr(worker, "read_any", panics)
    monkeypatch.setattr(worker, "limit_seconds", lambda _: None)
    path = tmp_path / "order.xls"
    path.write_bytes(b"x")
    answer, spent = worker._answer({"what": "sheets", "path": str(path), "limits": limits_data(Limits())})
    assert b"order.xls" in answer
    assert b"it is damaged, or made as no program makes it" in answer
    assert spent
