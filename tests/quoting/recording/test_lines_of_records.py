"""Every line of an order is a line of its record: no two share the place that matches rows and lines."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from quoting.core import InputError
from quoting.estimating import estimate
from quoting.intake.read_orders import read_orders
from quoting.recording import describe
from quoting.shop import load_shop
from tests.benchmarks.intake_reader import grading_shop
from tests.data.sheet_model import TODAY
from tests.data.sheet_writer import CORPORA, corpus, write_sheet

ROOT = Path(__file__).resolve().parents[3]


@pytest.mark.slow
@pytest.mark.parametrize("name", CORPORA)
def test_no_two_parts_of_a_sheet_share_a_place(tmp_path: Path, name: str) -> None:
    shop = grading_shop()
    for sheet in corpus(name):
        try:
            order = read_orders(write_sheet(sheet, tmp_path), shop, today=TODAY)
        except InputError:
            continue
        places = Counter(draft.place.cell for draft in order.drafts)
        assert max(places.values(), default=1) == 1, sheet.name
        assert places.keys() <= {row.place.cell for row in order.rows}, sheet.name
        assert len({draft.id for draft in order.drafts}) == len(order.drafts), sheet.name


@pytest.mark.parametrize("name", ["two_lists_side_by_side", "us_transposed_flare_knockout"])
def test_parts_side_by_side_and_along_columns_are_lines_of_the_record(tmp_path: Path, name: str) -> None:
    shop = load_shop(ROOT / "demo_orders" / "shop")
    sheets = (*corpus("second_corpus"), *corpus("twenty_first_corpus"))
    sheet = next(one for one in sheets if one.name == name)
    order = read_orders(write_sheet(sheet, tmp_path), shop, today=TODAY)
    found = estimate((order,), shop, today=TODAY, effort="quick", nested=False)
    record = describe(found)
    assert sorted(line.id for line in record.lines) == sorted(draft.id for draft in order.drafts)
    assert record.orders[0].rows.priced == sum(line.price is not None for line in found.lines)
