"""Travellers and week sheets answer what an operator asks, whatever the customer wrote."""

from __future__ import annotations

import shutil
import subprocess
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from quoting.shop import Shop, load_shop, write_starter
from scheduler.papers import paper_writers
from scheduler.papers.job_sheet import job_sheets
from scheduler.papers.traveller_head import job_code
from scheduler.papers.traveller_pdf import write_travellers
from scheduler.papers.week_pdf import write_week_sheets
from scheduler.week import PlannedOperation, WeekPlan
from tests.quoting.drawings.letters_drawn import letters_drawn
from tests.scheduler.books.sample import sample_week

HOSTILE = '<script>alert("x")</script> ${{7*7}} <font size=99>板 न & =cmd'
needs_poppler = pytest.mark.skipif(
    shutil.which("pdftotext") is None, reason="poppler is not here: pages are not read back"
)


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Shop:
    folder = tmp_path_factory.mktemp("shop") / "new"
    write_starter(folder)
    return load_shop(folder)


def _text(path: Path, *, first: int = 1, last: int = 99) -> str:
    command = ["pdftotext", "-layout", "-f", str(first), "-l", str(last), str(path), "-"]
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


def _hostile_week() -> WeekPlan:
    week = sample_week()

    def spoilt(slot: PlannedOperation) -> PlannedOperation:
        if slot.line is None:
            return slot
        line = replace(slot.line, customer=HOSTILE * 4, part=HOSTILE * 3, material=HOSTILE)
        return replace(slot, work=replace(slot.work, line=line))

    return replace(week, slots=tuple(map(spoilt, week.slots)))


def test_every_job_has_a_sheet_in_run_order(shop: Shop) -> None:
    week = sample_week()
    sheets = job_sheets(week, shop)
    planned = [slot.work.operation.id for roll in week.rolls for slot in week.on(roll)]
    assert [sheet.slot.work.operation.id for sheet in sheets] == planned
    assert [sheet.place for sheet in sheets[:2]] == [(1, 2), (2, 2)]


def test_a_re_round_shows_only_its_own_passes(shop: Shop) -> None:
    sheets = {job_code(sheet): sheet for sheet in job_sheets(sample_week(), shop)}
    again = sheets["JOB/L-3/RE-ROUND"]
    assert [step.name for step in again.steps] == ["Re-roll 1"]
    first = sheets["JOB/L-3/ROLL"]
    assert [step.name for step in first.steps] == ["Pre-bend", "Pre-bend", "Pass 1", "Pass 2"]
    assert [step.leads for step in first.steps] == ["A", "B", "A", "A"]
    assert first.steps[-1].shows == "2.500"
    assert first.steps[-1].last


def test_what_nobody_told_is_a_box_and_no_number(shop: Shop) -> None:
    sheet = job_sheets(sample_week(), shop)[0]
    checks = dict(sheet.checks)
    assert checks["Tolerance"] == ""
    assert checks["Max less min dia"] == ""
    assert "not in the record" in sheet.springback[0]


@needs_poppler
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_one_page_a_job_answers_what_an_operator_asks(shop: Shop, tmp_path: Path, paper: str) -> None:
    path = tmp_path / "t.pdf"
    week = sample_week()
    write_travellers(week, replace(shop, paper=paper), path)
    pages = _text(path).split("\f")[:-1]
    assert len(pages) == sum(len(week.on(roll)) for roll in week.rolls)
    first = pages[0]
    assert "L-1" in first
    for asked in ("DIAL", "2.500", "leads", "PINCH GAP", "CHECK", "LIFT", "heat no.", "scrap", "MIND"):
        assert asked in first, asked
    assert "trained people come" in first


@needs_poppler
def test_hostile_and_endless_names_stay_text_on_their_page(shop: Shop, tmp_path: Path) -> None:
    path, week = tmp_path / "t.pdf", _hostile_week()
    write_travellers(week, shop, path)
    text = _text(path)
    assert len(text.split("\f")) - 1 == sum(len(week.on(roll)) for roll in week.rolls)
    assert "<script>alert" in text
    assert "letters this paper cannot print" in text
    write_week_sheets(week, shop, tmp_path / "w.pdf")
    week_sheet = _text(tmp_path / "w.pdf")
    assert "<script>alert" in week_sheet
    assert "letters this paper cannot print" in week_sheet


@needs_poppler
def test_what_has_no_room_stands_on_the_next_page_and_the_first_one_says_so(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = job_sheets(sample_week(), shop)[0]
    asked = tuple(f"wish {number}: the seam on the side of the nozzle, marked" for number in range(40))
    cautions = tuple(f"caution {number}: {'keep clear of it ' * 6}" for number in range(30))
    full = replace(first, asked_for=asked, cautions=cautions)
    monkeypatch.setattr("scheduler.papers.traveller_pdf.job_sheets", lambda *_: (full,))
    write_travellers(sample_week(), shop, tmp_path / "t.pdf")
    one, *further = _text(tmp_path / "t.pdf").split("\f")[:-1]
    assert "MORE TO MIND: next page" in one
    assert further
    assert all("more to mind" in page for page in further)
    said = " ".join(" ".join((one, *further)).split())
    assert all(f"wish {number}:" in said for number in range(40))
    assert all(f"caution {number}:" in said for number in range(30))


def test_a_crowded_page_gives_up_room_before_it_gives_up_a_caution(
    shop: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = job_sheets(sample_week(), shop)[0]
    steps = (*first.steps, *first.steps)
    full = replace(first, steps=steps, cautions=tuple(f"caution {n}: {'stand clear ' * 5}" for n in range(9)))
    monkeypatch.setattr("scheduler.papers.traveller_pdf.job_sheets", lambda *_: (full,))
    with letters_drawn() as drawn:
        write_travellers(sample_week(), shop, tmp_path / "t.pdf")
    words = [text for text, _ in drawn]
    assert not any("more to mind" in text.lower() for text in words)
    assert sum(text.startswith("caution ") for text in words) == 9


@needs_poppler
def test_the_week_sheet_has_times_set_ups_and_waits(shop: Shop, tmp_path: Path) -> None:
    path = tmp_path / "w.pdf"
    write_week_sheets(sample_week(), shop, path)
    text = _text(path)
    assert "clean rolls, stainless after carbon" in text
    assert "07:42" in text  # the set-up of the first job starts 18 minutes before eight
    assert "LATE" in text
    assert "CRANE" in text


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_no_letter_at_the_rolls_is_under_eight_points(shop: Shop, tmp_path: Path, paper: str) -> None:
    for week in (sample_week(), _hostile_week()):
        with letters_drawn() as drawn:
            for name, write in paper_writers(week, replace(shop, paper=paper)).items():
                write(tmp_path / name)
        assert not {words for words, mm in drawn if mm < 8 * 25.4 / 72}


def test_the_same_week_gives_the_same_bytes(shop: Shop, tmp_path: Path) -> None:
    for name, write in paper_writers(sample_week(), shop).items():
        write(tmp_path / name)
        before = (tmp_path / name).read_bytes()
        write(tmp_path / name)
        assert (tmp_path / name).read_bytes() == before, name


def test_an_empty_week_has_papers_that_say_so(shop: Shop, tmp_path: Path) -> None:
    week = replace(sample_week(), slots=())
    for name, write in paper_writers(week, shop).items():
        write(tmp_path / name)
        assert (tmp_path / name).stat().st_size > 500


@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="poppler is not here: no page is looked at")
def test_the_code_on_a_traveller_is_read_back_from_its_page(shop: Shop, tmp_path: Path) -> None:
    zxing = pytest.importorskip("zxingcpp")
    from PIL import Image  # noqa: PLC0415

    path = tmp_path / "t.pdf"
    week = sample_week()
    write_travellers(week, shop, path)
    corner = ["-x", "950", "-y", "0", "-W", "325", "-H", "300"]  # of a Letter page, where the code stands
    picture = ["pdftoppm", "-r", "150", "-gray", "-png", *corner]
    subprocess.run([*picture, str(path), str(tmp_path / "p")], check=True)
    read = [
        found.text
        for page in sorted(tmp_path.glob("p-*.png"))
        for found in zxing.read_barcodes(Image.open(page))
    ]
    assert read == [job_code(sheet) for sheet in job_sheets(week, shop)]


@needs_poppler
def test_traveller_and_week_sheet_say_what_a_set_up_job_waits_for(shop: Shop, tmp_path: Path) -> None:
    week = sample_week()
    first = next(slot for slot in week.slots if slot.line is not None and slot.setup_minutes)
    waiting = replace(
        first,
        start=first.start + timedelta(hours=2),
        end=first.end + timedelta(hours=2),
        waits_for="the crane",
    )
    late = replace(week, slots=tuple(waiting if slot is first else slot for slot in week.slots))
    for write in (write_travellers, write_week_sheets):
        write(late, shop, tmp_path / "p.pdf")
        assert _text(tmp_path / "p.pdf").lower().count("waits for the crane") == 1
