"""What a spreadsheet would work out from the formulas is what the price says."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from decimal import Decimal

import pytest
from hypothesis import given

from quoting.pricing import INPUTS, LINE_FORMULAS, ORDER_FORMULAS, CostDrivers, line_inputs, price_line
from quoting.pricing.formulas import PartFormula
from quoting.shop import PricingRules
from tests.quoting.pricing.samples import CUTTING, DRIVERS, RATES, RULES
from tests.quoting.pricing.test_line import lines, rule_sets


def _round(value: float, places: int) -> float:
    return float(Decimal(repr(value)).quantize(Decimal(1).scaleb(-places), "ROUND_HALF_UP"))


def _round_up(value: float, places: int) -> float:
    return float(math.ceil(value * 10.0**places) / 10.0**places)


SHEET_FUNCTIONS: dict[str, Callable[..., float]] = {"MAX": max, "ROUND": _round, "ROUNDUP": _round_up}


def sheet(formulas: tuple[PartFormula, ...], inputs: Mapping[str, float]) -> dict[str, float]:
    """Work the formulas out as a spreadsheet does: cells by address, binary floating point throughout."""
    names = [*inputs, *(formula.name for formula in formulas)]
    cells = {name: f"$B${row}" for row, name in enumerate(names, start=2)}
    values = {cells[name]: value for name, value in inputs.items()}
    for formula in formulas:
        text = formula.excel(cells)
        assert text.startswith("=")
        expression = re.sub(r"\$B\$\d+", lambda found: f"cells['{found.group()}']", text[1:])
        values[cells[formula.name]] = eval(expression, {"cells": values, **SHEET_FUNCTIONS})
    return {name: values[cells[name]] for name in names}


@given(lines, rule_sets)
def test_a_sheet_of_the_formulas_gives_the_same_price(drivers: CostDrivers, rules: PricingRules) -> None:
    line = price_line(drivers, RATES, rules, CUTTING)
    cells = sheet(
        LINE_FORMULAS,
        {name: float(value) for name, value in line_inputs(drivers, RATES, rules, CUTTING).items()},
    )
    for name in ("plate", "cutting", "edge", "setup", "rolling", "lifting", "outside", "certificate"):
        assert cells[name] == pytest.approx(float(getattr(line.parts, name)), abs=0.001)
    for name in ("overhead", "material_markup", "outside_markup", "processing_margin", "minimum_top_up"):
        assert cells[name] == pytest.approx(float(getattr(line.parts, name)), abs=0.001)
    for name in ("processing", "cost", "price"):
        assert cells[name] == pytest.approx(float(getattr(line.parts, name)), abs=0.001)
    assert _round(cells["unit"], 2) == float(line.unit)
    assert _round(cells["extended"], 2) == float(line.extended)
    assert _round(cells["floor_unit"], 2) == float(line.floor_unit)
    assert bool(cells["under_floor"]) == line.under_floor
    assert cells["profit"] == pytest.approx(float(line.profit), abs=0.001)


def test_every_name_in_a_formula_is_an_input_or_stands_above_it() -> None:
    known = {given_input.name for given_input in INPUTS}
    for formula in LINE_FORMULAS:
        assert set(re.findall(r"\{(\w+)\}", formula.template)) <= known
        assert formula.name not in known
        known.add(formula.name)


def test_every_input_is_used_and_has_a_value() -> None:
    used = {name for formula in LINE_FORMULAS for name in re.findall(r"\{(\w+)\}", formula.template)}
    named = [given_input.name for given_input in INPUTS]
    assert set(named) <= used
    assert list(line_inputs(DRIVERS, RATES, RULES, CUTTING)) == named


def test_every_name_in_the_templates_is_in_braces() -> None:
    for formula in LINE_FORMULAS + ORDER_FORMULAS:
        bare = re.sub(r"\{\w+\}", "", formula.template)
        assert set(re.findall(r"[A-Za-z_]+", bare)) <= {"MAX", "ROUND", "ROUNDUP"}
        assert set(re.sub(r"[A-Za-z_]", "", bare)) <= set("0123456789+-*/()<>,")


def test_a_name_without_a_cell_is_an_error() -> None:
    with pytest.raises(KeyError, match="setup_hour"):
        next(formula for formula in LINE_FORMULAS if formula.name == "setup").excel({"setup_minutes": "A1"})


def test_a_sheet_of_the_order_formulas_gives_the_same_total() -> None:
    cells = sheet(ORDER_FORMULAS, {"lines": 1234.0, "order_minimum": 250.0, "tax_share": 0.0825})
    assert cells["order_top_up"] == 0
    assert cells["tax"] == 101.81  # 101.805 rounds half up
    assert cells["total"] == pytest.approx(1335.81)
