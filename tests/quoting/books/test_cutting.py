"""The cutting book and the rack afterwards: counts, stops, heat numbers and metal add up with the nest."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from functools import cache
from pathlib import Path

import ezdxf  # type: ignore[attr-defined,unused-ignore]
import pytest
from openpyxl.worksheet.worksheet import Worksheet

from quoting.books import MADE, cutting_writers
from quoting.books.cutting import cut_sheets, remnants
from quoting.books.cutting.remnants import taken_plates
from quoting.books.cutting.stroke_list import Part, Stroke, strokes
from quoting.core import Basis, Cone, Cylinder, InputError, Order, OrderLine, Place
from quoting.estimating import Estimate, estimate
from quoting.estimating.plates.stocking import sides_to_grain
from quoting.nesting import ShearCut
from quoting.shop import Edge, Shop, StockPlate, load_shop
from tests.office import recalculated
from tests.quoting.books.factories import NASTY
from tests.quoting.books.package import book, shared_texts
from tests.quoting.shop.shop_folder import RACK_HEAD, book_with

TODAY = date(2026, 11, 30)
INCH = 25.4
ROWS = (
    "P-1,A36,0.25,60,120,trimmed,3,0.60,lb,H1,no,bay 1\n"
    "P-2,A36,0.1875,48,96,mill,2,,,H2,no,bay 2\n"
    "R-1,A36,0.25,38,92,trimmed,1,40,plate,H3,yes,bay 3\n"
    "BAD,unobtainium,0.25,10,10,mill,1,,,,no,keep me\n"
    "P-9,304/304L,0.25,60,120,trimmed,0,,,H9,no,none left\n"
    ",A36,0.5,96,120,mill,1,,,H4,no,no id\n"
)
BUYABLE = (
    "Plate id,Material,Thickness,Width,Length,Edge,Price,Per,Lead days\n"
    "B-1,304/304L,0.25,60,120,trimmed,2,lb,6\n"
)


def _folder(path: Path) -> Path:
    path.mkdir(exist_ok=True)
    (path / "shop.toml").write_text(book_with({}), "utf-8")
    (path / "rack.csv").write_text(RACK_HEAD.strip() + ",Where\n" + ROWS, "utf-8")
    (path / "buyable.csv").write_text(BUYABLE, "utf-8")
    return path


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return _folder(tmp_path_factory.mktemp("shop"))


def _order() -> Order:
    def line(
        number: str, shape: Cylinder | Cone, thickness_in: float, material: str, count: int
    ) -> OrderLine:
        return OrderLine(
            f"T-{number}",
            number,
            "=Tank & <Works>",
            Place("t.xlsx", "RFQ", int(number)),
            count,
            shape,
            thickness_in * INCH,
            material,
            due=date(2026, 12, 10 + int(number)),
            part_no=NASTY[0],
        )

    lines = (
        line("1", Cylinder(30 * INCH, Basis.INSIDE, 36 * INCH), 0.25, "A36", 1),
        line("2", Cylinder(25 * INCH, Basis.INSIDE, 30 * INCH), 0.25, "A36", 2),
        line("3", Cylinder(24 * INCH, Basis.INSIDE, 20 * INCH), 0.1875, "A36", 1),
        line("4", Cylinder(28 * INCH, Basis.INSIDE, 40 * INCH), 0.25, "304/304L", 2),
        line("5", Cone(24 * INCH, 16 * INCH, Basis.MEAN, 20 * INCH), 0.25, "A36", 1),
        replace(line("6", Cylinder(24 * INCH, Basis.INSIDE, 20 * INCH), 0.25, "A36", 1), free_issue=True),
    )
    return Order("t.xlsx", "=Tank & <Works>", lines=lines)


@cache
def _run(shop_dir: Path) -> Estimate:
    return estimate((_order(),), load_shop(shop_dir), today=TODAY, effort="quick")


def _written(run: Estimate, shop_dir: Path, out: Path) -> Mapping[str, Path]:
    (out / "cutting").mkdir(parents=True)
    writers = cutting_writers(run, shop_dir)
    for name, write in writers.items():
        write(out / name)
    return {name: out / name for name in writers}


@pytest.fixture(scope="module")
def files(folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, Path]:
    return _written(_run(folder), folder, tmp_path_factory.mktemp("out"))


def _adopted(rack: Path, into: Path) -> Shop:
    """The shop that has taken the copy of the rack as its own."""
    into.mkdir()
    (into / "shop.toml").write_text(book_with({}), "utf-8")
    (into / "rack.xlsx").write_bytes(rack.read_bytes())
    return load_shop(into)


def _area(plates: tuple[StockPlate, ...]) -> float:
    return sum(p.width_mm * p.length_mm * (p.count or 0) for p in plates if not p.buyable)


def _rows(page: Worksheet) -> list[list[object]]:
    return [list(row) for row in page.iter_rows(values_only=True)]


def test_every_layout_has_its_drawings_and_every_blank_its_outline(
    folder: Path, files: Mapping[str, Path]
) -> None:
    sheets = cut_sheets(_run(folder))
    names = {name for name in files if name.startswith("cutting/")}
    for sheet in sheets:
        assert {f"cutting/{sheet.stem}.svg", f"cutting/{sheet.stem}.dxf"} <= names
    assert sum(name.startswith("cutting/blank-") for name in names) == 6  # the customer's own plate too
    assert all(any(Path(name).match(pattern) for pattern in MADE) for name in names)
    for name in names:
        if name.endswith(".dxf"):
            assert not ezdxf.readfile(files[name]).audit().errors  # type: ignore[attr-defined,unused-ignore]


def test_every_cut_plate_stands_on_one_sheet(folder: Path) -> None:
    run = _run(folder)
    sheets = cut_sheets(run)
    cut = Counter((c.plate, c.copy) for sheet in sheets for c in sheet.cuts)
    assert cut == Counter((c.plate, c.copy) for group in run.nests for c in group.nest.cut_plates)
    assert [sheet.number for sheet in sheets] == list(range(1, len(sheets) + 1))


def test_the_rack_s_copy_is_read_as_the_shop_s_rack(
    folder: Path, files: Mapping[str, Path], tmp_path: Path
) -> None:
    run = _run(folder)
    kept = remnants(run, cut_sheets(run))
    after = _adopted(files["rack-after-2026-11-30.xlsx"], tmp_path / "s")
    stock = {plate.id: plate for plate in after.stock}
    used = Counter(c.plate for group in run.nests for c in group.nest.cut_plates)
    for plate in run.shop.stock:
        left = None if plate.buyable else (plate.count or 0) - used[plate.id]
        if left == 0:
            assert plate.id not in stock
        elif not plate.id.startswith("rack row"):
            found = stock[plate.id]
            assert (found.count, found.price, found.heat) == (left, plate.price, plate.heat)
            assert (found.width_mm, found.length_mm, found.edge) == (
                plate.width_mm,
                plate.length_mm,
                plate.edge,
            )
    for remnant in kept:
        found = stock[remnant.id]
        assert found.remnant
        assert (found.material, found.heat, found.price) == (
            remnant.sheet.group.material,
            remnant.heat,
            remnant.value,
        )
        assert sides_to_grain(found) == pytest.approx((remnant.across_mm, remnant.along_mm), abs=1e-4)
        assert found.thickness_mm == pytest.approx(remnant.sheet.group.thickness_mm, abs=1e-4)


def test_the_copy_serves_as_rack_for_the_next_run(
    folder: Path, files: Mapping[str, Path], tmp_path: Path
) -> None:
    first = remnants(_run(folder), cut_sheets(_run(folder)))
    shop = _adopted(files["rack-after-2026-11-30.xlsx"], tmp_path / "s")
    run = estimate((_order(),), shop, today=TODAY, effort="quick")
    again = _written(run, tmp_path / "s", tmp_path / "out")["rack-after-2026-11-30.xlsx"]
    copy = book(again)
    assert copy.sheetnames == ["Rack", "Buyable sizes", "What changed"]
    heads = [str(cell) for cell in _rows(copy["Rack"])[0] if cell]
    assert len(heads) == len(set(heads))
    new = remnants(run, cut_sheets(run))
    assert not {remnant.id for remnant in new} & {remnant.id for remnant in first}
    assert {remnant.id for remnant in new} <= {plate.id for plate in _adopted(again, tmp_path / "t").stock}


def test_a_rack_that_lists_only_sizes_to_buy_gets_a_table_of_remnants(tmp_path: Path) -> None:
    shop_dir = _folder(tmp_path / "shop")
    (shop_dir / "rack.csv").write_text(
        "Plate id,Material,Thickness,Width,Length,Edge,Price,Per,Lead days\n"
        "B-1,304/304L,0.25,60,120,trimmed,2,lb,6\nB-2,A36,0.25,60,120,trimmed,1,lb,6\n"
        "B-3,A36,0.1875,60,120,trimmed,1,lb,6\n"
    )
    (shop_dir / "buyable.csv").unlink()
    run = _run(shop_dir)
    kept = remnants(run, cut_sheets(run))
    assert kept
    path = _written(run, shop_dir, tmp_path / "out")["rack-after-2026-11-30.xlsx"]
    after = _adopted(path, tmp_path / "s")
    found = {plate.id: plate for plate in after.stock}
    assert {"B-1", "B-2", "B-3"} <= set(found)
    for remnant in kept:
        assert sides_to_grain(found[remnant.id]) == pytest.approx((remnant.across_mm, remnant.along_mm))
        assert (found[remnant.id].heat, found[remnant.id].price) == ("", remnant.value)
        assert found[remnant.id].edge is Edge.TRIMMED


def test_the_metal_adds_up(folder: Path, files: Mapping[str, Path], tmp_path: Path) -> None:
    run = _run(folder)
    after = _adopted(files["rack-after-2026-11-30.xlsx"], tmp_path / "s")
    cut = [(group.problem, c) for group in run.nests for c in group.nest.cut_plates]
    bought = sum(p.plate(c.plate).area_mm2 for p, c in cut if p.plate(c.plate).count is None)
    pieces = sum(p.piece(put.piece).outline.area_mm2 for p, c in cut for put in c.placements)
    drops = sum(d.dx_mm * d.dy_mm for _, c in cut for d in c.drops)
    whole = sum(p.plate(c.plate).area_mm2 for p, c in cut)
    scrap = whole - pieces - drops
    rounded = drops - sum(r.across_mm * r.along_mm for r in remnants(run, cut_sheets(run)))
    assert 0 <= rounded < 0.02 * drops
    before = _area(run.shop.stock)
    assert before + bought == pytest.approx(_area(after.stock) + pieces + scrap + rounded, rel=1e-6)
    assert bought > 0
    assert drops > 0


def test_what_cannot_be_read_and_what_the_shop_adds_stays(files: Mapping[str, Path]) -> None:
    copy = book(files["rack-after-2026-11-30.xlsx"])
    assert copy.sheetnames == ["Rack", "Buyable sizes", "What changed"]
    rows = _rows(copy["Rack"])
    where = rows[0].index("Where")
    notes = [row[where] for row in rows]
    assert {"keep me", "none left", "bay 2"} <= set(notes)


def test_the_shop_s_own_files_are_never_changed(tmp_path: Path) -> None:
    shop_dir = _folder(tmp_path / "shop")
    before = {path.name: hashlib.sha256(path.read_bytes()).digest() for path in shop_dir.iterdir()}
    _written(_run(shop_dir), shop_dir, tmp_path / "out")
    assert {path.name: hashlib.sha256(path.read_bytes()).digest() for path in shop_dir.iterdir()} == before


def test_a_rack_that_changed_during_the_run_is_told(tmp_path: Path) -> None:
    shop_dir = _folder(tmp_path / "shop")
    run = _run(shop_dir)
    used = next(c.plate for group in run.nests for c in group.nest.cut_plates if c.plate.startswith("P"))
    text = (shop_dir / "rack.csv").read_text()
    (shop_dir / "rack.csv").write_text(text.replace(f"{used},", "OTHER,"))
    with pytest.raises(InputError, match=rf"rack\.csv: .*{used} is no longer in row \d+; run again"):
        cutting_writers(run, shop_dir)


def test_new_remnants_never_take_an_id_that_the_rack_has(folder: Path) -> None:
    run = _run(folder)
    first = remnants(run, cut_sheets(run))
    ids = [remnant.id for remnant in first]
    assert ids[0] == "D261130-01"
    assert len(set(ids)) == len(ids)
    held = replace(run.shop.stock[0], id=ids[-1])
    again = replace(run, shop=replace(run.shop, stock=(*run.shop.stock, held)))
    assert not {remnant.id for remnant in remnants(again, cut_sheets(again))} & set(ids)


def test_a_drop_s_side_along_the_plate_is_its_side_along_the_grain(folder: Path) -> None:
    run = _run(folder)
    kept = remnants(run, cut_sheets(run))
    assert kept
    for remnant in kept:
        drop = remnant.sheet.cut.drops[remnant.drop]
        for chalked, there in ((remnant.across_mm, drop.dy_mm), (remnant.along_mm, drop.dx_mm)):
            assert 0 <= there - chalked < INCH / 8
            assert chalked / INCH * 8 == pytest.approx(round(chalked / INCH * 8))
        assert remnant.heat == (remnant.sheet.plate.heat or "")


def test_a_remnant_that_two_lines_wanted_says_who_got_it(folder: Path, files: Mapping[str, Path]) -> None:
    run = _run(folder)
    taken = [item for item in taken_plates(run, cut_sheets(run)) if item.plate.remnant]
    assert taken, "the remnant is cheap and holds a blank: it is used"
    (item,) = taken
    assert item.plate.id == "R-1"
    assert item.missed
    assert not set(item.missed) & set(item.used_by)
    rows = _rows(book(files["cutting-2026-11-30.xlsx"])["Remnants"])
    heads = next(row for row in rows if row[0] == "Taken from the rack")
    told = next(row for row in rows if str(row[0]).startswith("R-1 #1"))
    used, missed = heads.index("Used by"), heads.index("Would also have held, but get nothing of it")
    for column, lines in ((used, item.used_by), (missed, item.missed)):
        assert [name.rpartition(" ")[2] for name in str(told[column]).split(", ")] == [
            line.removeprefix("T-") for line in lines
        ]


def test_the_buy_list_counts_plates_money_and_waiting_lines(folder: Path, files: Mapping[str, Path]) -> None:
    run = _run(folder)
    rows = _rows(book(files["cutting-2026-11-30.xlsx"])["Buy"])
    heads = next(row for row in rows if row[0] == "Size to buy")
    (row,) = [dict(zip(heads, row, strict=True)) for row in rows if row[0] == "B-1"]
    bought = sum(c.plate == "B-1" for group in run.nests for c in group.nest.cut_plates)
    assert (row["Plates"], row["Lead days"]) == (bought, 6)
    assert bought == 2  # cut alike, on one sheet
    assert str(row["Lines that wait for it, with their due day"]).endswith("4 (14 Dec 2026)")


@pytest.mark.slow
def test_totals_are_recalculated_to_what_was_written(files: Mapping[str, Path], tmp_path: Path) -> None:
    path = files["cutting-2026-11-30.xlsx"]
    (again,) = recalculated([path], tmp_path / "lo")
    written, counted = book(path, values=True), book(again, values=True)
    for name in ("Buy", "Remnants"):
        pairs = zip(
            written[name].iter_rows(values_only=True), counted[name].iter_rows(values_only=True), strict=False
        )
        for one, two in pairs:
            if str(one[0]).startswith("All, "):
                assert two[: len(one)] == pytest.approx(one)


def test_shear_stops_free_every_piece(folder: Path) -> None:
    run = _run(folder)
    sheared = [sheet for sheet in cut_sheets(run) if sheet.station == "shear"]
    assert sheared
    for sheet in sheared:
        names = {piece.id: piece.id for piece in sheet.problem.pieces}
        drops = [f"drop {n}" for n, _ in enumerate(sheet.cut.drops)]
        done = strokes(sheet.plate, sheet.cut, names, drops)
        assert [stroke.cut.number for stroke in done] == list(range(1, len(done) + 1))
        parts = [Part(0, 0, sheet.plate.length_mm, sheet.plate.width_mm)]
        for stroke in done:  # done again from the stops alone
            parts.remove(stroke.part)
            low = stroke.part.x0 if stroke.cut.axis == "x" else stroke.part.y0
            parts += stroke.part.split(stroke.cut.axis, low + stroke.stop_mm)
        for put in sheet.cut.placements:
            box = Part(put.x_mm, put.y_mm, put.x_mm + put.dx_mm, put.y_mm + put.dy_mm)
            assert any(part.same(box) for part in parts), put


def test_a_stroke_through_no_part_is_refused(folder: Path) -> None:
    sheet = next(sheet for sheet in cut_sheets(_run(folder)) if sheet.cut.cuts)
    names = {piece.id: piece.id for piece in sheet.problem.pieces}
    drops = ["drop"] * len(sheet.cut.drops)
    wrong = replace(sheet.cut.cuts[-1], start_mm=-50.0)
    broken = replace(sheet.cut, cuts=(*sheet.cut.cuts[:-1], wrong))
    with pytest.raises(ValueError, match=f"stroke {wrong.number} goes through no part in hand"):
        strokes(sheet.plate, broken, names, drops)


def test_the_cut_list_has_every_piece_and_the_customer_s_own_plate(
    folder: Path, files: Mapping[str, Path]
) -> None:
    page = book(files["cutting-2026-11-30.xlsx"])["Cut list"]
    texts = [str(value) for row in _rows(page) for value in row if value is not None]
    for sheet in cut_sheets(_run(folder)):
        assert sheet.name in texts
    assert any("customer's own plate" in text for text in texts)


def test_customers_text_is_never_a_formula(files: Mapping[str, Path]) -> None:
    for name in ("cutting-2026-11-30.xlsx", "rack-after-2026-11-30.xlsx"):
        formulas = [
            cell.value
            for page in book(files[name]).worksheets
            for row in page.iter_rows()
            for cell in row
            if cell.data_type == "f"
        ]
        assert all(str(formula).startswith(("=SUM(", "=D")) for formula in formulas)
    assert any("=Tank" in text for text in shared_texts(files["cutting-2026-11-30.xlsx"]))


def test_the_same_run_gives_the_same_files(folder: Path, files: Mapping[str, Path], tmp_path: Path) -> None:
    again = _written(_run(folder), folder, tmp_path / "out")
    assert {name: path.read_bytes() for name, path in again.items()} == {
        name: path.read_bytes() for name, path in files.items()
    }


def test_grain_that_runs_along_the_short_side_is_kept(tmp_path: Path) -> None:
    shop_dir = _folder(tmp_path / "shop")
    head = RACK_HEAD.strip() + ",Grain\n"
    (shop_dir / "rack.csv").write_text(
        head
        + "L,A36,0.25,40,60,trimmed,1,,,,yes,length\n"
        + "W,A36,0.25,40,60,trimmed,1,,,,yes,Width\n"
        + "T,A36,0.25,60,40,trimmed,1,,,,yes,length\n"
        + "E,A36,0.25,40,60,trimmed,1,,,,yes,\n"
        + "X,A36,0.25,40,60,trimmed,1,,,,yes,round\n"
    )
    shop = load_shop(shop_dir)
    along = {plate.id: sides_to_grain(plate)[1] / INCH for plate in shop.stock if not plate.buyable}
    assert along == pytest.approx({"L": 60, "W": 40, "T": 40, "E": 60})
    assert "is no grain direction" in shop.warnings[-1]
    assert "write length or width" in shop.warnings[-1]


def test_a_stop_is_read_in_fractions_of_an_inch_and_in_millimetres() -> None:
    """75.598 in is no mark on a scale; 75-19/32 in is, and 0.1 mm off."""
    part = Part(0.0, 0.0, 3048.0, 1219.2)
    stroke = Stroke(ShearCut(1, 1, "x", 1920.19, 0.0, 1219.2), part, 1920.19, "A-5", "scrap")
    assert stroke.stop_words(inch=True) == '75-19/32"'
    assert stroke.stop_words(inch=False) == "1920.19 mm"
