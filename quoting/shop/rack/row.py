"""One row of the rack to a stock plate, or to the words that tell why it cannot be used."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal, InvalidOperation
from typing import Any

from quoting.shop.grades import GradeNames
from quoting.shop.model import Edge, Material, StockPlate
from quoting.shop.quantities import KG_PER_POUND
from quoting.shop.rack.sizes import read_size

_YES, _NO = ("yes", "y", "true", "1", "x"), ("no", "n", "false", "0", "")
_EDGES = {
    **dict.fromkeys(("", "mill", "mill edge"), Edge.MILL),
    **dict.fromkeys(("trimmed", "trim", "sheared", "cut"), Edge.TRIMMED),
}
_GRAINS = {"": "", "length": "length", "along length": "length", "width": "width", "along width": "width"}
_PRICES = {"price": "", "price_kg": "kg", "price_lb": "lb", "price_plate": "plate"}
_PER = {"kg": "kg", "lb": "lb", "lbs": "lb", "pound": "lb", "plate": "plate", "each": "plate", "ea": "plate"}
_THOUSANDS = re.compile(r"\d{1,3}(,\d{3})+(\.\d+)?")
_DECIMAL_COMMA = re.compile(r"\d+,\d{1,2}")
_CENT = Decimal("0.01")
_THICKEST_MM, _LONGEST_MM = 1_000.0, 100_000.0
_MOST_PLATES, _MOST_DAYS = 100_000, 3_650
_MOST_MONEY = Decimal(10**9)


class BadCellError(Exception):
    """One cell of a row that cannot be used: the field, what is wrong, what would do."""

    def __init__(self, field: str, problem: str, would_do: str = "") -> None:
        self.field, self.problem, self.would_do = field, problem, would_do
        super().__init__(problem)


@dataclass(frozen=True, slots=True)
class RackRowReader:
    """Reads rows of one sheet. `inches` tells for each size field whether a bare number is in inches.

    A remnant without a price of its own stands at `remnant_share` of new plate, as it did when it was kept.
    """

    materials: Sequence[Material]
    names: GradeNames
    inches: Mapping[str, bool]
    buyable: bool
    remnant_share: Decimal = Decimal(1)

    def plate(self, cells: Mapping[str, Any], row: int) -> StockPlate:
        """Return the plate of a row; BadCellError names the first cell that cannot be used."""
        material = self._material(cells)
        thickness = self._size(cells, "thickness", material)
        under = {side: self._size(cells, side, material) for side in ("width", "length")}
        sides = sorted(under.values())
        weight_kg = thickness * sides[0] * sides[1] * material.density_kg_m3 * 1e-9
        remnant = _yes(cells, "remnant")
        return StockPlate(
            id=as_text(cells.get("id")) or f"{'buy' if self.buyable else 'rack'} row {row}",
            material=material.key,
            thickness_mm=thickness,
            width_mm=sides[0],
            length_mm=sides[1],
            edge=_edge(cells),
            count=None if self.buyable else _whole(cells, "quantity", empty=1, most=_MOST_PLATES),
            price=_price(cells, weight_kg, material, self.remnant_share if remnant else Decimal(1)),
            heat=as_text(cells.get("heat")),
            remnant=remnant,
            lead_days=_whole(cells, "lead", empty=0, most=_MOST_DAYS) if self.buyable else 0,
            row=row,
            grain_across=_grain_across(cells, under),
            here_on=_day(cells, "here"),
        )

    def _material(self, cells: Mapping[str, Any]) -> Material:
        key = self.names.one(as_text(cells.get("material")))
        material = next((material for material in self.materials if material.key == key), None)
        if material is None:
            raise BadCellError(
                "material",
                "is no grade of this shop",
                "use a known name, or add the grade to shop.toml as [[material]]",
            )
        return material

    def _size(self, cells: Mapping[str, Any], field: str, material: Material) -> float:
        try:
            size = read_size(cells.get(field), inch=self.inches[field], gauge_table=material.gauge_table)
        except ValueError as error:
            raise BadCellError(field, str(error), "write 0.25, 1/4 as text, 10 ga or 6 mm") from error
        most = _THICKEST_MM if field == "thickness" else _LONGEST_MM
        if size > most:
            raise BadCellError(field, f"is more than any plate has ({most / 1000:g} m)", "check its unit")
        return size


def _edge(cells: Mapping[str, Any]) -> Edge:
    edge = _EDGES.get(as_text(cells.get("edge")).casefold())
    if edge is None:
        raise BadCellError("edge", "is no edge condition", "write mill or trimmed")
    return edge


def _grain_across(cells: Mapping[str, Any], under: Mapping[str, float]) -> bool:
    """Return whether the grain runs along the shorter side; `under` gives the size under each heading."""
    along = _GRAINS.get(as_text(cells.get("grain")).casefold())
    if along is None:
        raise BadCellError("grain", "is no grain direction", "write length or width")
    return bool(along) and under[along] < max(under.values())


def _day(cells: Mapping[str, Any], field: str) -> date | None:
    value = cells.get(field)
    if isinstance(value, datetime):
        return value.date()
    if isinstance(value, date):
        return value
    text = as_text(value)
    try:
        return date.fromisoformat(text) if text else None
    except ValueError as error:
        raise BadCellError(field, "is no day", "write 2026-12-04, or leave it empty") from error


def _whole(cells: Mapping[str, Any], field: str, *, empty: int, most: int) -> int:
    value = cells.get(field, "")
    if as_text(value) == "":
        return empty
    number = _number(value)
    if number is None or number < 0 or (number <= most and number != int(number)):
        raise BadCellError(field, "must be a whole number, 0 or more")
    if number > most:
        raise BadCellError(field, f"must be at most {most:,}", "check it")
    return int(number)


def _price(cells: Mapping[str, Any], weight_kg: float, material: Material, share: Decimal) -> Decimal:
    """Return the price of the whole plate, to the cent; without one a share of the grade's price per kg."""
    given = [field for field in _PRICES if as_text(cells.get(field)) != ""]
    if len(given) > 1:
        raise BadCellError(given[1], "is a second price for the same plate", "keep one of them")
    if not given and not material.price_per_kg:
        raise BadCellError(
            "price", f"has no price, nor has {material.key} one in shop.toml", "give one of them a price"
        )
    if not given:
        return (Decimal(str(weight_kg)) * material.price_per_kg * share).quantize(_CENT)
    amount = _number(cells[given[0]])
    if amount is None or amount < 0:
        raise BadCellError(given[0], "must be an amount of money, 0 or more")
    if amount > _MOST_MONEY:
        raise BadCellError(given[0], f"must be at most {_MOST_MONEY:,}", "check its decimal point")
    per = _PRICES[given[0]] or _PER.get(_plain_per(cells))
    if per is None:
        raise BadCellError("per", "the price does not say per what", "write lb, kg or plate")
    weight = {"plate": Decimal(1), "kg": Decimal(str(weight_kg))}.get(per)
    if weight is None:
        weight = Decimal(str(weight_kg / KG_PER_POUND))
    price = (amount * weight).quantize(_CENT)
    if price > _MOST_MONEY:
        raise BadCellError(given[0], f"makes a plate dearer than {_MOST_MONEY:,}", "check what it is per")
    return price


def _plain_per(cells: Mapping[str, Any]) -> str:
    return as_text(cells.get("per")).casefold().removeprefix("per ").removeprefix("/").strip()


def _yes(cells: Mapping[str, Any], field: str) -> bool:
    text = as_text(cells.get(field)).casefold()
    if text in _YES:
        return True
    if text in _NO:
        return False
    raise BadCellError(field, "must be yes or no")


def _number(value: Any) -> Decimal | None:
    text = as_text(value).lstrip("$€£").strip()
    if _THOUSANDS.fullmatch(text):
        text = text.replace(",", "")
    elif _DECIMAL_COMMA.fullmatch(text):
        text = text.replace(",", ".")
    try:
        number = Decimal(text)
    except InvalidOperation:
        return None
    return number if number.is_finite() else None


def as_text(value: Any) -> str:
    """Return a cell as text: 3.0 as "3", true as "true", an empty cell as ""."""
    if value is None:
        return ""
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return str(value).strip()
