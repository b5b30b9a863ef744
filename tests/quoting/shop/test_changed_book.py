"""A changed book beside the old one, and in its place, in both forms."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from quoting.core import InputError
from quoting.shop import Band, BookEdit, book_ending, changed_book, load_shop, take_book, write_starter

EDITS = (
    BookEdit("labour", "square", Band(1, 2, 4), Band(1.2, 2.4, 4.8), "learnt from 9 jobs"),
    BookEdit("labour.handling[2]", "load", Band(1, 1.5, 3), Band(1.5, 2.25, 4.5)),
    BookEdit("setups", "gap", Band(1, 1, 1), Band(1.25, 1.25, 1.25)),
    BookEdit("risk", "setup_most_share", Band(1.8, 1.8, 1.8), Band(1.5, 1.5, 1.5)),
)


@pytest.mark.parametrize("text", [True, False])
def test_settings_change_and_all_else_stays(tmp_path: Path, text: bool) -> None:
    write_starter(tmp_path / "shop", text=text)
    before = load_shop(tmp_path / "shop")
    made = tmp_path / f"proposed.{book_ending(tmp_path / 'shop')}"
    changed = changed_book(tmp_path / "shop", EDITS, made)
    assert changed.labour.square == Band(1.2, 2.4, 4.8)
    assert changed.labour.weight_bands[1].load == Band(1.5, 2.25, 4.5)
    assert changed.setups.gap_per_mm == pytest.approx(1.25 * before.setups.gap_per_mm)
    assert changed.risk.setup_most_share == 1.5
    assert (changed.labour.check, changed.rates) == (before.labour.check, before.rates)
    assert load_shop(tmp_path / "shop") == before, "the book itself is as it was"
    kept = take_book(tmp_path / "shop", made, date(2026, 12, 14))
    assert kept.name.startswith("shop-before-2026-12-14.")
    assert load_shop(tmp_path / "shop").labour.square == Band(1.2, 2.4, 4.8)
    assert take_book(tmp_path / "shop", made, date(2026, 12, 14)).name.startswith("shop-before-2026-12-14-2")


def test_a_text_keeps_its_remarks_and_says_what_was_learnt(tmp_path: Path) -> None:
    write_starter(tmp_path, text=True)
    book = tmp_path / "shop.toml"
    book.write_text(
        book.read_text("utf-8").replace("cleaning_min = 25.0", "# our own remark\ncleaning_min = 25.0")
    )
    changed_book(tmp_path, EDITS[:1], tmp_path / "new.toml")
    new = (tmp_path / "new.toml").read_text("utf-8")
    assert "# our own remark" in new
    line = next(line for line in new.splitlines() if line.startswith("square_min"))
    assert line.endswith("each time it goes in; learnt from 9 jobs")
    assert "[1.2, 2.4, 4.8]" in line


def test_a_setting_that_the_book_leaves_out_is_put_in(tmp_path: Path) -> None:
    write_starter(tmp_path, text=True)
    book = tmp_path / "shop.toml"
    lines = [line for line in book.read_text("utf-8").splitlines() if not line.startswith("square_min")]
    book.write_text("\n".join(lines))
    assert changed_book(tmp_path, EDITS[:1], tmp_path / "new.toml").labour.square == Band(1.2, 2.4, 4.8)


def test_a_setting_over_two_lines_is_told(tmp_path: Path) -> None:
    write_starter(tmp_path, text=True)
    book = tmp_path / "shop.toml"
    book.write_text(book.read_text("utf-8").replace("square_min = [1.0, ", "square_min = [1.0,\n "))
    with pytest.raises(InputError, match="on several lines"):
        changed_book(tmp_path, EDITS[:1], tmp_path / "new.toml")
