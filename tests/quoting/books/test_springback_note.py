"""What the customer is told where the grade's plate springs back too unevenly to trust one setting."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from quoting.books.quote import write_quote
from quoting.core import Basis, Cylinder, OrderLine
from quoting.estimating import Rolling, estimate, springback_band
from tests.quoting.books import factories
from tests.quoting.books.package import book, cells


def _quoted(tmp_path: Path, line: OrderLine) -> str:
    order = replace(factories.tidy(), lines=(line,), questions=(), rows=())
    found = estimate((order,), factories.shop(), today=factories.TODAY, effort="quick", nested=False)
    assert found.lines[0].price is not None, found.lines[0].reason
    write_quote(found, found.orders[0], tmp_path / "q.xlsx", number="1")
    return " ".join(str(cell.value) for cell in cells(book(tmp_path / "q.xlsx")))


def _shell(inside_in: float, yield_mpa: float | None = None) -> OrderLine:
    line = factories.tidy().lines[0]
    shape = Cylinder(inside_in * 25.4, Basis.INSIDE, 24 * 25.4)
    return replace(line, shape=shape, quantity=1, breaks=(), yield_mpa=yield_mpa, due=None)


def test_a_gentle_bend_in_thin_plate_says_what_one_setting_may_give(tmp_path: Path) -> None:
    shown = _quoted(tmp_path, _shell(90))
    assert "Springback: plate of this grade comes out from" in shown
    assert "Trial passes that correct the springback; the mill test report before rolling helps" in shown


def test_a_usual_shell_and_one_with_a_certified_yield_say_nothing_of_it(tmp_path: Path) -> None:
    assert "Springback:" not in _quoted(tmp_path, _shell(24))
    assert "Springback:" not in _quoted(tmp_path, _shell(90, yield_mpa=260.0))


def test_trial_passes_that_are_priced_are_said_to_be_included_also_without_a_warning(tmp_path: Path) -> None:
    shown = _quoted(tmp_path, _shell(48))
    assert "Springback:" not in shown
    assert "Trial passes that correct the springback" in shown
    assert "Trial passes" not in _quoted(tmp_path, _shell(24))


def test_an_everyday_shell_of_thin_plate_is_nothing_to_warn_of() -> None:
    """A shell of 48 in (190 thicknesses) opens by less than half, one of 90 in by more."""
    shop = factories.shop()
    everyday, gentle = _routed(_shell(48)), _routed(_shell(90))
    assert everyday.passes.spread > shop.passes.spread_flag
    assert everyday.passes.springback_share < shop.passes.springback_flag <= gentle.passes.springback_share
    assert everyday.task.trials > 0, "trial passes are priced all the same"
    said = [springback_band((one,), shop, inch=True, arc=False) for one in (everyday, gentle)]
    assert said[0] == ""
    assert said[1]
    always = replace(shop, passes=replace(shop.passes, springback_flag=0.0))
    assert springback_band((everyday,), always, inch=True, arc=False)


def _routed(line: OrderLine) -> Rolling:
    order = replace(factories.tidy(), lines=(line,), questions=(), rows=())
    found = estimate((order,), factories.shop(), today=factories.TODAY, effort="quick", nested=False)
    assert found.lines[0].route
    return found.lines[0].route.governing
