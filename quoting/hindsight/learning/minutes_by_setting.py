"""Which settings of the shop's book a job's minutes are made of, and how many minutes each of them gives.

Minutes are a sum of settings, each so many times. How many times is worked out by the formulas of the labour
room themselves, with one setting at 1 and all others at 0, so that nothing is written down a second time.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, fields, replace
from typing import Any

from quoting.labour import HandlingTask, roll_minutes
from quoting.shop import Band, LabourSteps, SetupMinutes, Shop

_PIECE = ("square", "pre_bend", "adjust_per_pass", "check", "tack", "deburr_and_mark", "re_round")
_HANDLING = ("load", "turn", "unload")
_CUTTING = {
    "cutting_minutes_per_m": "cutting",
    "cutting_minutes_per_plate": "cutting_per_plate",
    "shear_minutes_per_stroke": "shear_per_stroke",
}
_NONE, _ONE = Band(0, 0, 0), Band(0, 1, 1)
TRAVEL = "surface_speed"


@dataclass(frozen=True, slots=True, order=True)
class BookPlace:
    """A setting: its table, numbered where there are several (`labour.handling[2]`), and its name."""

    table: str
    name: str

    @property
    def group(self) -> str:
        """Return the kind of work that it belongs to: these drift together."""
        if self.table == "setups":
            return "set-up"
        return "cutting" if self.name in _CUTTING.values() else "rolling"

    def unit(self, shop: Shop) -> tuple[float, str]:
        """Return what the minutes are multiplied by to be those of the shop's own unit, and its words."""
        if self.name == "gap":
            return (25.4, "min an inch") if shop.inch else (1.0, "min a mm")
        if self.name == "cutting":
            return (0.3048, "min a foot") if shop.inch else (1.0, "min a metre")
        return 1.0, "min"

    def words(self, shop: Shop) -> str:
        """Return the setting as the floor calls it."""
        words = self.name.replace("_", " ")
        if self.name == TRAVEL:
            return f"pass on {shop.rolls[_number(self.table)].name}"
        if self.table.startswith("labour.handling"):
            pounds = shop.labour.weight_bands[_number(self.table)].up_to_kg
            size = f"{pounds / 0.45359237:,.0f} lb" if shop.inch else f"{pounds:,.0f} kg"
            return f"{words}, up to {size}"
        return f"set-up: {words}" if self.table == "setups" else words


def _number(table: str) -> int:
    return int(table.rpartition("[")[2].rstrip("]")) - 1


def rolling_by_setting(
    tasks: Sequence[HandlingTask], roll: str, shop: Shop, *, re_round: bool
) -> dict[BookPlace, float]:
    """Return the likely minutes of some rollings by setting: those before welding, or of the re-rounding.

    Passes go at the roll's surface speed, which stands for them.
    """
    speed = next(k for k, one in enumerate(shop.rolls, 1) if one.name == roll)
    now = [replace(task, roll_speed_mm_min=shop.roll(roll).surface_speed_mm_min) for task in tasks]
    travel = _likely(now, only_labour(shop.labour, None), re_round)
    found = {BookPlace(f"roll[{speed}]", TRAVEL): travel}
    for place, minutes in labour_minutes(shop.labour).items():
        count = _likely(now, only_labour(shop.labour, place), re_round) - travel
        found[place] = count * minutes
    return {place: minutes for place, minutes in found.items() if minutes > 1e-9}


def _likely(tasks: Iterable[HandlingTask], steps: LabourSteps, re_round: bool) -> float:
    total = 0.0
    for task in tasks:
        minutes = roll_minutes(task, steps)
        again = minutes.re_round.likely * task.quantity
        total += again if re_round else minutes.total.likely - again
    return total


def cutting_by_setting(minutes: Callable[[LabourSteps], float], shop: Shop) -> dict[BookPlace, float]:
    """Return the minutes of one plate at the cutting station by setting; `minutes` works them out."""
    none: dict[str, Any] = dict.fromkeys(_CUTTING, 0.0)
    nothing = replace(shop.labour, **none)
    found = {}
    for field, name in _CUTTING.items():
        found[BookPlace("labour", name)] = minutes(replace(nothing, **{field: getattr(shop.labour, field)}))
    return {place: one for place, one in found.items() if one > 1e-9}


def setup_by_setting(counts: Mapping[str, float], setups: SetupMinutes) -> dict[BookPlace, float]:
    """Return the minutes of a set-up by setting, from how often it does what each is about."""
    return {
        BookPlace("setups", "gap" if name == "gap_per_mm" else name): count * getattr(setups, name)
        for name, count in counts.items()
        if count * getattr(setups, name) > 1e-9
    }


def labour_minutes(steps: LabourSteps) -> dict[BookPlace, float]:
    """Return the likely minutes of every step at the rolls."""
    found = {BookPlace("labour", name): getattr(steps, name).likely for name in _PIECE}
    for number, band in enumerate(steps.weight_bands, start=1):
        for name in _HANDLING:
            found[BookPlace(f"labour.handling[{number}]", name)] = getattr(band, name).likely
    return found


def only_labour(steps: LabourSteps, place: BookPlace | None) -> LabourSteps:
    """Return steps in which one setting is one minute and every other none; None: all none."""

    def one(table: str, name: str) -> Band:
        return _ONE if place == BookPlace(table, name) else _NONE

    bands = tuple(
        replace(
            band,
            load=one(f"labour.handling[{number}]", "load"),
            turn=one(f"labour.handling[{number}]", "turn"),
            unload=one(f"labour.handling[{number}]", "unload"),
        )
        for number, band in enumerate(steps.weight_bands, start=1)
    )
    pieces: dict[str, Any] = {name: one("labour", name) for name in _PIECE}
    return replace(steps, weight_bands=bands, **pieces)


def book_bands(shop: Shop) -> dict[BookPlace, Band]:
    """Return every minute of the book that can be learnt, as low, likely and high; one figure thrice."""
    found: dict[BookPlace, Band] = {}
    for name in _PIECE:
        found[BookPlace("labour", name)] = getattr(shop.labour, name)
    for number, band in enumerate(shop.labour.weight_bands, start=1):
        for name in _HANDLING:
            found[BookPlace(f"labour.handling[{number}]", name)] = getattr(band, name)
    single = {BookPlace("labour", name): getattr(shop.labour, field) for field, name in _CUTTING.items()}
    for one in fields(SetupMinutes):
        name = "gap" if one.name == "gap_per_mm" else one.name
        single[BookPlace("setups", name)] = getattr(shop.setups, one.name)
    for number, roll in enumerate(shop.rolls, start=1):
        single[BookPlace(f"roll[{number}]", TRAVEL)] = roll.surface_speed_mm_min
    return found | {place: Band(value, value, value) for place, value in single.items()}


def with_bands(shop: Shop, new: Mapping[BookPlace, Band]) -> Shop:
    """Return the shop with other minutes in some places of its book."""
    labour, setups, rolls = shop.labour, shop.setups, list(shop.rolls)
    field_of = {name: field for field, name in _CUTTING.items()}
    for place, band in new.items():
        if place.table == "setups":
            name = "gap_per_mm" if place.name == "gap" else place.name
            setups = replace(setups, **{name: band.likely})
        elif place.table.startswith("roll["):
            at = _number(place.table)
            rolls[at] = replace(rolls[at], surface_speed_mm_min=band.likely)
        elif place.table == "labour":
            value: Any = band.likely if place.name in field_of else band
            labour = replace(labour, **{field_of.get(place.name, place.name): value})
        else:
            bands = list(labour.weight_bands)
            at = _number(place.table)
            changed: dict[str, Any] = {place.name: band}
            bands[at] = replace(bands[at], **changed)
            labour = replace(labour, weight_bands=tuple(bands))
    return replace(shop, labour=labour, setups=setups, rolls=tuple(rolls))
