"""What a choice is said to be worth is what the total changes by when it is chosen, plates nested anew."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from quoting.core import Effort, Ends, Order, OrderLine
from quoting.estimating import Estimate, estimate, question_worth
from quoting.estimating.plates import GroupFound
from quoting.estimating.routes import LineRoutes, route_lines
from quoting.intake.answers import resolve
from quoting.intake.read_orders import read_orders
from quoting.shop import Shop, load_shop

DAY = date(2026, 12, 1)
HEAD = "Item,Qty,Dia (in),Thk (in),Length (in),Material,Ends"


@pytest.fixture(scope="module")
def shop() -> Shop:
    return load_shop(Path(__file__).parents[3] / "demo_orders" / "shop")


def _read(folder: Path, shop: Shop, *rows: str) -> Order:
    file = folder / "order.csv"
    file.write_text("\n".join((HEAD, *rows)))
    return read_orders(file, shop, today=DAY)


def _quoted(order: Order, shop: Shop) -> Estimate:
    return estimate([order], shop, today=DAY, effort="quick")


def _total(run: Estimate) -> Decimal:
    return run.orders[0].total.lines


def test_a_waiting_line_is_worth_what_it_adds_beside_the_others(tmp_path: Path, shop: Shop) -> None:
    order = _read(tmp_path, shop, "1,2,48 ID,1/4,60,A36,pre-bend", "2,3,24,1/4,36,A36,pre-bend")
    run = _quoted(order, shop)
    worths = run.worth["2/basis"]
    assert len(worths) == 3
    for worth in worths:
        answered = _quoted(resolve(order, {"2/basis": worth.label}, shop), shop)
        assert worth.price == _total(answered) - _total(run)


def test_a_priced_line_is_worth_the_difference(tmp_path: Path, shop: Shop) -> None:
    order = _read(tmp_path, shop, "1,2,48 ID,1/4,60,A36,", "2,3,24 ID,1/4,36,A36,pre-bend")
    run = _quoted(order, shop)
    worths = {worth.label: worth for worth in run.worth["all/ends"]}
    assert worths["pre-bend"].price == 0
    for label in ("leave flat", "trim after rolling"):
        answered = _quoted(resolve(order, {"all/ends": label}, shop), shop)
        assert worths[label].price == _total(answered) - _total(run)


def test_a_line_with_the_ends_it_was_priced_with_is_not_routed_again(
    tmp_path: Path, shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    order = _read(tmp_path, shop, "1,2,48 ID,1/4,60,A36,", "2,3,24 ID,1/4,36,A36,")
    routed: list[Ends | None] = []

    def counted(lines: list[OrderLine], shop: Shop, *, offers: bool) -> tuple[LineRoutes, ...]:
        routed.extend(line.ends for line in lines)
        return route_lines(lines, shop, offers=offers)

    plain = _quoted(order, shop).worth
    monkeypatch.setattr(question_worth, "route_lines", counted)
    assert _quoted(order, shop).worth == plain
    assert Counter(routed) == {Ends.LEAVE_FLAT: 2, Ends.TRIM: 2}
    monkeypatch.setattr(question_worth, "_made_alike", lambda *_: False)
    assert _quoted(order, shop).worth == plain


DEMO = Path(__file__).parents[3] / "demo_orders" / "orders-messy-placeholder-fabricators.xlsx"


def test_every_choice_of_the_messy_demo_is_worth_what_a_run_with_it_costs_more(shop: Shop) -> None:
    order = read_orders(DEMO, shop, today=DAY)
    run = _quoted(order, shop)
    asked = {question.id: question for question in order.questions}
    assert len(run.worth) >= 2
    for question, worths in run.worth.items():
        if not asked[question].line:
            continue
        able = [worth for worth in worths if worth.price is not None]
        for worth in (able[0], able[-1]):
            answered = _quoted(resolve(order, {question: worth.label}, shop), shop)
            assert worth.price == _total(answered) - _total(run)
            assert worth.exact


@settings(max_examples=3, deadline=None, phases=(Phase.generate,))
@given(
    st.lists(
        st.tuples(
            st.integers(1, 4), st.integers(24, 90), st.sampled_from(("1/4", "3/8")), st.integers(12, 90)
        ),
        min_size=2,
        max_size=5,
        unique_by=lambda line: line[3],  # two that are the same are asked about again
    ),
    st.integers(0, 4),
)
@pytest.mark.parametrize("effort", ["quick", "normal"])
def test_a_choice_is_worth_the_difference_of_two_runs_of_the_same_effort(
    shop: Shop, effort: Effort, lines: list[tuple[int, int, str, int]], without: int
) -> None:
    rows = [
        f"{at},{number},{dia}{'' if at == without % len(lines) + 1 else ' ID'},{thick},{long},A36,pre-bend"
        for at, (number, dia, thick, long) in enumerate(lines, 1)
    ]
    with TemporaryDirectory() as folder:
        order = _read(Path(folder), shop, *rows)
    run = estimate([order], shop, today=DAY, effort=effort)
    for question, worths in run.worth.items():
        for worth in worths:
            if worth.price is None or not question.endswith("/basis"):
                continue
            answers = {question: worth.label}
            answered = estimate([resolve(order, answers, shop)], shop, today=DAY, effort=effort)
            assert worth.price == _total(answered) - _total(run)


def test_beyond_so_much_plate_a_worth_is_told_about(
    tmp_path: Path, shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(question_worth, "_FEW_PIECES", 0)
    order = _read(tmp_path, shop, "1,1,48 ID,1/4,60,A36,pre-bend", "2,30,24,1/4,36,A36,pre-bend")
    normal = estimate([order], shop, today=DAY, effort="normal").worth["2/basis"]
    assert not any(worth.exact for worth in normal)
    quick = _quoted(order, shop).worth["2/basis"]
    assert [worth.price for worth in normal] == [worth.price for worth in quick]
    assert all(worth.exact for worth in quick)


def test_lines_that_wait_for_more_or_cannot_be_made_are_in_no_choice_about_all_lines(
    tmp_path: Path, shop: Shop
) -> None:
    rows = ("1,2,48 ID,1/4,60,A36,", "2,3,24,1/4,36,A36,", "3,1,12 ID,1/2,60,A36,")
    order = _read(tmp_path, shop, *rows)
    waiting = {draft.number for draft in order.drafts} - {line.number for line in order.lines}
    assert waiting == {"2"}
    run = _quoted(order, shop)
    for worth in run.worth["all/ends"]:
        answered = _quoted(resolve(order, {"all/ends": worth.label}, shop), shop)
        assert worth.price == _total(answered) - _total(run)
        assert not worth.problem


def test_beyond_much_more_plate_a_worth_is_told_about_by_weight(
    tmp_path: Path, shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    rows = ("1,1,48 ID,1/4,60,A36,pre-bend", "2,30,24,1/4,36,A36,pre-bend")
    exact = _quoted(_read(tmp_path, shop, *rows), shop).worth["2/basis"]
    monkeypatch.setattr(question_worth, "_FEW_QUICK_PIECES", 0)
    monkeypatch.setattr(question_worth, "_FEW_PIECES", 0)
    nested: list[int] = []

    def counted(groups: Sequence[object], *_: object) -> list[GroupFound]:
        nested.append(len(groups))
        return []

    monkeypatch.setattr(question_worth, "nest_each", counted)
    efforts: tuple[Effort, ...] = ("quick", "normal")
    for effort in efforts:
        order = _read(tmp_path, shop, *rows)
        about = estimate([order], shop, today=DAY, effort=effort).worth["2/basis"]
        assert [one.label for one in about] == [one.label for one in exact]
        assert not any(one.exact for one in about)
        for one, other in zip(about, exact, strict=True):
            assert one.price is not None
            assert other.price is not None
            assert abs(one.price / other.price - 1) < Decimal("0.35")
    assert not any(nested)
