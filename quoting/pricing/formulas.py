"""The one place that states each part of a price; the books, the Decimal prices and the risk draws read it.

Each `PartFormula.template` is an arithmetic expression over names in braces, in the grammar that Excel and
Python share: + - * / ( ) <, numbers, and the functions MAX, ROUND and ROUNDUP. A name is either an input
(`INPUTS`) or an earlier formula of the table, so the rows can be worked out from the top.

For a costing book: write `line_inputs(...)` (quoting.pricing.inputs) into input cells, give every name the
address or defined name of its cell, and write `formula.excel(cells)` into the cell of `formula.name`; the
label goes beside it and the reason into its note. Binary floating point and Decimal differ in about the
15th digit; the inner ROUND of `unit` and `floor_unit` clears that, so both round up alike, for unit prices
up to a hundred million rounding steps (a million at a cent).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from decimal import ROUND_HALF_UP, ROUND_UP, Decimal
from types import CodeType
from typing import Any, TypeVar

Number = TypeVar("Number")


@dataclass(frozen=True, slots=True)
class InputName:
    """An input of the formulas: `owner` is who sets it - the line, the rates, the rules or the cutting."""

    name: str
    label: str
    unit: str
    owner: str


@dataclass(frozen=True, slots=True)
class PartFormula:
    """One named row of the costing: what it is called, why it is there, and how it is worked out.

    >>> formula = PartFormula("setup", "Set-up", "once a line", "{setup_minutes}/60*{setup_hour}")
    >>> formula.excel({"setup_minutes": "Lines!F7", "setup_hour": "setup_hour"})
    '=Lines!F7/60*setup_hour'
    """

    name: str
    label: str
    reason: str
    template: str
    code: CodeType = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        expression = self.template.replace("{", "").replace("}", "")
        object.__setattr__(self, "code", compile(expression, f"<formula {self.name}>", "eval"))

    def excel(self, cells: Mapping[str, str]) -> str:
        """Return the formula with each name replaced by its cell; KeyError when a name has no cell."""
        return "=" + self.template.format_map(cells)


INPUTS: tuple[InputName, ...] = (
    InputName("quantity", "Quantity", "pieces", "line"),
    InputName("plate_cost", "Plate", "money", "line"),
    InputName("drop_credit", "Value of the drop", "money", "line"),
    InputName("cutting_cost", "Cutting", "money", "line"),
    InputName("edge_m", "Edge prepared", "m", "line"),
    InputName("setup_minutes", "Set-up", "min", "line"),
    InputName("rolling_minutes", "Rolling", "min", "line"),
    InputName("crew", "People at the roll", "people", "line"),
    InputName("crane_minutes", "Crane", "min", "line"),
    InputName("bench_minutes", "Bench", "min", "line"),
    InputName("weld_minutes", "Welding", "min", "line"),
    InputName("consumables", "Filler, gas, discs", "money", "line"),
    InputName("outside_cost", "Outside work", "money", "line"),
    InputName("certified", "Certificate wanted", "1 or 0", "line"),
    InputName("roll_rate", "Roll", "money/h", "line"),
    InputName("operator_hour", "Operator", "money/h", "rates"),
    InputName("helper_hour", "Helper", "money/h", "rates"),
    InputName("setup_hour", "Set-up, setter and standing roll", "money/h", "rates"),
    InputName("crane_hour", "Crane", "money/h", "rates"),
    InputName("bench_hour", "Bench hand", "money/h", "rates"),
    InputName("welder_hour", "Welder", "money/h", "rates"),
    InputName("outside_markup_share", "Markup on outside work", "share of cost", "rates"),
    InputName("material_markup_share", "Markup on plate", "share of cost", "rules"),
    InputName("overhead_share", "Overhead on processing", "share of cost", "rules"),
    InputName("margin", "Margin on processing", "share of price", "rules"),
    InputName("floor_margin", "Floor margin", "share of price", "rules"),
    InputName("line_minimum", "Least charge for a line", "money", "rules"),
    InputName("rounding", "Unit prices rounded up to", "money", "rules"),
    InputName("certificate_charge", "Certificate, each line", "money", "rules"),
    InputName("shop_keeps_drop", "Shop keeps the drop", "1 or 0", "rules"),
    InputName("edge_cost_per_m", "Edge preparation", "money/m", "cutting"),
)

COST_FORMULAS: tuple[PartFormula, ...] = (
    PartFormula(
        "plate",
        "Plate",
        "The line's share of the plates it is cut from; less the drop's value when the shop keeps the drop.",
        "MAX({plate_cost}-{shop_keeps_drop}*{drop_credit},0)",
    ),
    PartFormula("cutting", "Cutting", "The line's share of cutting its plates.", "{cutting_cost}"),
    PartFormula("edge", "Edge preparation", "Metres of prepared edge at cost.", "{edge_m}*{edge_cost_per_m}"),
    PartFormula(
        "setup",
        "Set-up",
        "Once for the line, at the set-up rate (the setter and the roll standing still).",
        "{setup_minutes}/60*{setup_hour}",
    ),
    PartFormula(
        "rolling",
        "Rolling",
        "Minutes on the roll: the machine, its operator and the helpers the piece needs.",
        "{rolling_minutes}/60*({roll_rate}+{operator_hour}+{helper_hour}*({crew}-1))",
    ),
    PartFormula("lifting", "Lifting", "Minutes the crane is held.", "{crane_minutes}/60*{crane_hour}"),
    PartFormula(
        "bench",
        "Bench work",
        "Minutes off the roll: edges, grinding, trimming, templates.",
        "{bench_minutes}/60*{bench_hour}",
    ),
    PartFormula("welding", "Welding", "Minutes of the welder.", "{weld_minutes}/60*{welder_hour}"),
    PartFormula("filler", "Filler and gas", "What welding and trimming use up, at cost.", "{consumables}"),
    PartFormula(
        "overhead",
        "Overhead",
        "A share of the shop's own work; none on plate or outside work.",
        "{overhead_share}*({cutting}+{edge}+{setup}+{rolling}+{lifting}+{bench}+{welding}+{filler})",
    ),
    PartFormula("outside", "Outside work", "Work bought from others, at cost.", "{outside_cost}"),
    PartFormula(
        "certificate",
        "Certificate",
        "One charge for a certified line, passed on as it is.",
        "{certified}*{certificate_charge}",
    ),
    PartFormula(
        "processing",
        "Processing",
        "The shop's own work with its overhead.",
        "{cutting}+{edge}+{setup}+{rolling}+{lifting}+{bench}+{welding}+{filler}+{overhead}",
    ),
    PartFormula(
        "cost", "Cost", "What the line costs the shop.", "{plate}+{processing}+{outside}+{certificate}"
    ),
)

PRICE_FORMULAS: tuple[PartFormula, ...] = (
    PartFormula(
        "material_markup",
        "Markup on plate",
        "A share of the plate's cost.",
        "{plate}*{material_markup_share}",
    ),
    PartFormula(
        "outside_markup",
        "Markup on outside work",
        "A share of its cost.",
        "{outside}*{outside_markup_share}",
    ),
    PartFormula(
        "processing_margin",
        "Margin on processing",
        "A share of the processing price, not of its cost: price = cost / (1 - margin).",
        "{processing}/(1-{margin})-{processing}",
    ),
    PartFormula(
        "minimum_top_up",
        "Top-up to the least charge",
        "What the line is short of the least charge for a line of any quantity.",
        "MAX({line_minimum}-({cost}+{material_markup}+{outside_markup}+{processing_margin}),0)",
    ),
    PartFormula(
        "price",
        "Price before rounding",
        "The parts added up, for the whole quantity.",
        "{cost}+{material_markup}+{outside_markup}+{processing_margin}+{minimum_top_up}",
    ),
    PartFormula(
        "unit",
        "Unit price",
        "Price / quantity rounded up to the rounding step: the one rounding.",
        "ROUNDUP(ROUND({price}/{quantity}/{rounding},6),0)*{rounding}",
    ),
    PartFormula("extended", "Extended price", "Unit price x quantity, exactly.", "{unit}*{quantity}"),
    PartFormula(
        "floor", "Floor", "The price that leaves the shop's floor margin.", "{cost}/(1-{floor_margin})"
    ),
    PartFormula(
        "floor_unit",
        "Floor, each",
        "The least unit price on the rounding step that is not under the floor.",
        "ROUNDUP(ROUND({floor}/{quantity}/{rounding},6),0)*{rounding}",
    ),
    PartFormula("under_floor", "Under floor", "Below what the owner allows.", "{unit}<{floor_unit}"),
    PartFormula("profit", "Profit", "Extended price less cost.", "{extended}-{cost}"),
)

LINE_FORMULAS: tuple[PartFormula, ...] = COST_FORMULAS + PRICE_FORMULAS

ORDER_FORMULAS: tuple[PartFormula, ...] = (
    PartFormula(
        "order_top_up",
        "Top-up to the least order",
        "What the order is short of the least order; nothing when no line is priced.",
        "MAX({order_minimum}*({lines}>0)-{lines},0)",
    ),
    PartFormula("before_tax", "Before tax", "Rounded lines and top-up.", "{lines}+{order_top_up}"),
    PartFormula(
        "tax",
        "Tax",
        "On the amount before tax, rounded half up to the cent.",
        "ROUND({tax_share}*{before_tax},2)",
    ),
    PartFormula("total", "Total", "What the customer pays.", "{before_tax}+{tax}"),
)


def _round(value: Decimal, places: int) -> Decimal:
    return value.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)


def _round_up(value: Decimal, places: int) -> Decimal:
    return value.quantize(Decimal(1).scaleb(-places), ROUND_UP)


def _largest(*values: Decimal) -> Decimal:
    return Decimal(max(values))


DECIMAL_FUNCTIONS: Mapping[str, Callable[..., Any]] = {"MAX": _largest, "ROUND": _round, "ROUNDUP": _round_up}


def evaluate(
    inputs: Mapping[str, Number],
    formulas: tuple[PartFormula, ...] = LINE_FORMULAS,
    functions: Mapping[str, Callable[..., Any]] = DECIMAL_FUNCTIONS,
) -> dict[str, Any]:
    """Return inputs and results by name, worked out from the top of the table.

    The numbers may be Decimal, float or numpy arrays; `functions` are MAX, ROUND and ROUNDUP for them (the
    default is for Decimal). NameError when an input is missing.
    """
    values: dict[str, Any] = dict(inputs)
    scope = {"__builtins__": {}, **functions}
    for formula in formulas:
        # Only the constant expressions of this module are ever evaluated, never text from a user.
        values[formula.name] = eval(formula.code, scope, values)
    return values
