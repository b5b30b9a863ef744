"""A price worked out a second time, from the record and the shop's book alone.

Nothing of the pricing or the costing is imported: `result.json`, `shop.toml`, `rack.xlsx` and the densities
of the grades are read as they are, the sums are exact fractions, and the rules are written from what the
comments of the book, the README and the heads of the costing book say they mean:

- a plate costs its weight at its own price or its grade's; a remnant without one the drop's share of that;
- all plates of a group, and what their drops count for, are shared by the area of the blanks, cutting by
  their outlines, in whole cents, those left over going to the largest remainders;
- the shop's own work with its overhead is priced by margin, cost / (1 - margin), plate and outside work by
  markup, the certificate as it is; a line costs at least the least charge; a unit price is rounded up once;
- metres and minutes become money through a ten-thousandth of one.

Taken from the record as they are: minutes on the roll, strokes of a shear, who wants a certificate, and break
prices at other quantities than the quoted one (but not their sums).
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from decimal import Decimal
from fractions import Fraction
from functools import cached_property
from math import ceil, floor, pi
from pathlib import Path
from typing import Any, TypeAlias

import openpyxl

Shares: TypeAlias = tuple[Fraction, Fraction, Fraction]

INCH_MM = Fraction("25.4")
FOOT_M = Fraction("0.3048")
POUND_KG = Fraction("0.45359237")
DENSITIES = next((Path(__file__).resolve().parents[2] / "quoting").rglob("materials.toml"))
TEN_THOUSANDTH = Fraction(1, 10_000)


class Book:
    """The shop's book as it is written: `shop.toml`, the rows of `rack.xlsx`, the densities of the grades."""

    def __init__(self, folder: Path) -> None:
        text = (folder / "shop.toml").read_text(encoding="utf-8")
        self.settings = tomllib.loads(text, parse_float=Decimal)
        self._rack = folder / "rack.xlsx"
        self._read: dict[tuple[str, str, Any], Fraction] = {}

    def number(self, table: str, name: str) -> Fraction:
        """A setting; what was read once is kept until the settings are changed."""
        value = self.settings[table][name]
        if (table, name, value) not in self._read:
            self._read[table, name, value] = Fraction(value)
        return self._read[table, name, value]

    def roll_rate(self, name: str) -> Fraction:
        return next(Fraction(roll["rate_per_hour"]) for roll in self.settings["roll"] if roll["name"] == name)

    @cached_property
    def rack(self) -> dict[str, dict[str, Any]]:
        """Rows of both sheets by plate id, each by its headings."""
        rows: dict[str, dict[str, Any]] = {}
        for sheet in openpyxl.load_workbook(self._rack, data_only=True):
            heads: tuple[Any, ...] = ()
            for row in sheet.iter_rows(values_only=True):
                if row[0] == "Plate id":
                    heads = row
                elif heads and row[0]:
                    rows[str(row[0])] = dict(zip(heads, row, strict=True))
        return rows

    @cached_property
    def densities(self) -> dict[str, Fraction]:
        """kg per mm3 of each grade."""
        table = tomllib.loads(DENSITIES.read_text(encoding="utf-8"), parse_float=Decimal)
        usual = {family: grade["density_kg_m3"] for family, grade in table["defaults"].items()}
        return {
            grade["key"]: Fraction(grade.get("density_kg_m3", usual[grade["family"]])) / 10**9
            for grade in table["material"]
        }

    @cached_property
    def likely_mpa(self) -> dict[str, Fraction]:
        """The yield that each grade's plate is likely to come with."""
        table = tomllib.loads(DENSITIES.read_text(encoding="utf-8"), parse_float=Decimal)
        return {grade["key"]: Fraction(grade["yield_likely_mpa"]) for grade in table["material"]}

    def plate_price(self, id: str, material: str, thickness: Fraction, area_mm2: Fraction) -> Fraction:
        """The price of a plate: its own, by weight or as a whole, or its grade's."""
        row = self.rack[id]
        kg = area_mm2 * thickness * self.densities[material]
        if row["Price"] is not None:
            price = Fraction(str(row["Price"]))
            return price * {"lb": kg / POUND_KG, "kg": kg, "plate": Fraction(1)}[row["Per"]]
        share = self.number("cutting", "drop_value_share") if row.get("Remnant") == "yes" else Fraction(1)
        return kg / POUND_KG * Fraction(self.settings["price_per_lb"][material]) * share


def differences(record: Mapping[str, Any], book: Book) -> Iterator[str]:
    """Every figure of a price in the record that the book does not bear out, in words."""
    lines = {line["id"]: line for line in record["lines"] if line["state"] == "priced"}
    shares: dict[str, Shares] = {}
    for group in record["nest"]:
        yield from _plate_prices(group, book)
        shares |= _shares(group, lines, book)
    for id, line in lines.items():
        if id not in shares:
            yield f"{id}: has no share in any nest"
            continue
        yield from (f"{id}: {text}" for text in _drivers(line, shares[id], book))
        yield from (f"{id}: {text}" for text in _price(line, book))
        yield from (f"{id}: {text}" for text in _breaks(line))
    for order in record["orders"]:
        yield from (f"{order['file']}: {text}" for text in _total(order, lines.values(), book))


def _plate_prices(group: Mapping[str, Any], book: Book) -> Iterator[str]:
    thickness = Fraction(group["thickness_mm"])
    remnants, share = _remnants(group), book.number("cutting", "drop_value_share")
    for plate in group["plates"]:
        area = Fraction(plate["width_mm"]) * Fraction(plate["length_mm"])
        price = _nearest(book.plate_price(plate["plate"], group["material"], thickness, area))
        if Decimal(price).scaleb(-2) != Decimal(plate["price"]):
            yield f"{plate['id']}: costs {Decimal(price).scaleb(-2)}, the record says {plate['price']}"
        for drop in plate["drops"]:
            part = Fraction(drop["dx_mm"]) * Fraction(drop["dy_mm"]) / area
            worth = part * Fraction(plate["price"]) * (1 if plate["plate"] in remnants else share)
            worth -= book.number("cutting", "drop_keep_cost")
            if worth <= 0:
                yield f"{plate['id']}: a drop is kept that is worth no more than keeping it"
            if not 0 <= worth - Fraction(drop["value"]) < Fraction(1, 100):
                yield f"{plate['id']}: a drop counts for {float(worth):.4f}, the record says {drop['value']}"


def _remnants(group: Mapping[str, Any]) -> set[str]:
    return {plate["plate"] for plate in group["plates"] if plate["remnant"]}


def _shares(group: Mapping[str, Any], lines: Mapping[str, Any], book: Book) -> dict[str, Shares]:
    """Cents, not rounded, of plate, drops and cutting that each line of a group bears."""
    areas: dict[str, Fraction] = {}
    outlines: dict[str, Fraction] = {}
    cutting = 0
    for plate in group["plates"]:
        metres = Fraction(0)
        for put in plate["pieces"]:
            area, outline = _flat(put, lines[put["id"]])
            areas[put["id"]] = areas.get(put["id"], Fraction(0)) + area
            outlines[put["id"]] = outlines.get(put["id"], Fraction(0)) + outline
            metres += outline / 1000
        cutting += _cutting_cents(plate, group["method"], metres, book)
    plates = sum(_cents(plate["price"]) for plate in group["plates"])
    drops = sum(_cents(drop["value"]) for plate in group["plates"] for drop in plate["drops"])
    each = zip(_shared(plates, areas), _shared(drops, areas), _shared(cutting, outlines), strict=True)
    return dict(zip(areas, each, strict=True))


def _flat(put: Mapping[str, Any], line: Mapping[str, Any]) -> tuple[Fraction, Fraction]:
    """Area in mm2 and outline in mm of a placed blank."""
    sector = line["blank"]["sector"]
    if sector is None:
        dx, dy = Fraction(put["dx_mm"]), Fraction(put["dy_mm"])
        return dx * dy, 2 * (dx + dy)
    outer, inner = Fraction(sector["outer_radius_mm"]), Fraction(sector["inner_radius_mm"])
    angle = Fraction(pi) * Fraction(sector["angle_deg"]) / 180
    return angle / 2 * (outer**2 - inner**2), angle * (outer + inner) + 2 * (outer - inner)


def _cutting_cents(plate: Mapping[str, Any], method: str, metres: Fraction, book: Book) -> int:
    """The station by the hour, and what is used up: gas by the metre and the pierce, blades by the stroke."""
    handling = book.number("labour", "cutting_per_plate_min")
    if method == "thermal":
        minutes = metres / FOOT_M * book.number("labour", "cutting_min_per_ft") + handling
        used = round(metres, 4) / FOOT_M * book.number("cutting", "cost_per_ft")
        used += len(plate["pieces"]) * book.number("cutting", "cost_per_pierce")
    else:
        minutes = Fraction(str(plate["cutting_minutes"]))
        strokes = (minutes - handling) / book.number("labour", "shear_per_stroke_min")
        assert strokes == int(strokes), f"{plate['id']}: {float(strokes)} strokes"
        used = strokes * book.number("cutting", "cost_per_stroke")
    return _nearest(used + round(minutes, 4) / 60 * book.number("cutting", "rate_per_hour"))


def _shared(cents: int, weights: Mapping[str, Fraction]) -> list[Fraction]:
    """By weight, not rounded: what weighs the same costs the same."""
    whole = sum(weights.values())
    return [cents * weight / whole for weight in weights.values()]


def _drivers(line: Mapping[str, Any], share: Shares, book: Book) -> Iterator[str]:
    """What the line takes, but for its minutes on the roll, which are the record's own."""
    said = line["drivers"]
    roll = next(one for one in line["rolls"] if one["roll"] == line["verdict"]["roll"])
    expected = {
        "quantity": Fraction(line["quantity"]),
        "plate_cost": Fraction(share[0], 100),
        "drop_credit": Fraction(share[1], 100),
        "cutting_cost": Fraction(share[2], 100),
        "edge_m": Fraction(0),  # no demo order asks for a prepared edge
        "setup_minutes": _setup_minutes(line, book),
        "crew": Fraction(line["lift"]["crew"]),
        "crane_minutes": _crane_minutes(line, book),
        "bench_minutes": _bench_minutes(line, book),
        "weld_minutes": Fraction(0),  # nor for a weld of ours
        "consumables": Fraction(_nearest(_trimmed_feet(line) * book.number("cutting", "cost_per_ft")), 100),
        "outside_cost": Fraction(0),  # nor for work bought from others
        "roll_rate": book.roll_rate(line["verdict"]["roll"]),
    }
    for name, value in expected.items():
        if abs(Fraction(str(said[name])) - value) > (
            TEN_THOUSANDTH if "minutes" in name else MILLIONTHS if name in SHARED else 0
        ):
            yield f"{name} is {float(value):.4f}, the record says {said[name]}"
    for minutes in (line["minutes"], roll["minutes"]):
        if abs(Fraction(str(said["rolling_minutes"])) - Fraction(str(minutes["likely"]))) > Fraction(1, 1000):
            yield f"rolling takes {minutes['likely']} minutes, the price has {said['rolling_minutes']}"


SHARED = ("plate_cost", "drop_credit", "cutting_cost")
MILLIONTHS = Fraction(2, 1_000_000)


def _setup_minutes(line: Mapping[str, Any], book: Book) -> Fraction:
    """Another thickness by half of this one, another diameter, the first-off; tilt, rigging and a clean."""
    half_in = Fraction(line["thickness_mm"]) / 2 / INCH_MM
    minutes = book.number("setups", "gap_fixed_min") + half_in * book.number("setups", "gap_min_per_in")
    minutes += book.number("setups", "bending_roll_min") + book.number("setups", "first_off_min")
    if line["shape"]["kind"] == "cone":
        minutes += book.number("setups", "cone_tilt_min")
    if line["lift"]["crane"]:
        minutes += book.number("setups", "crane_rig_min")
    if line["family"] != "carbon":
        minutes += book.number("setups", "cleaning_min")
    return minutes


def _bench_minutes(line: Mapping[str, Any], book: Book) -> Fraction:
    """Flats cut off, edges of hard plate ground, and what is too thin to stand by itself hung up."""
    return _trimming(line, book) + _grinding(line, book) + _hanging(line, book)


def _grinding(line: Mapping[str, Any], book: Book) -> Fraction:
    """All round the blank, from a likely yield on; square blanks only."""
    limit = book.number("handwork", "hard_edge_yield_ksi") * Fraction("6.894757293168361")
    if book.likely_mpa[line["material"]] < limit:
        return Fraction(0)
    assert line["blank"]["sector"] is None
    sides = Fraction(line["blank"]["length_mm"]) + Fraction(line["blank"]["width_mm"])
    feet = 2 * sides / INCH_MM / 12 * Fraction(line["blank"]["pieces"] * line["quantity"])
    return feet * book.number("handwork", "grind_min_per_ft")


def _trimmed_feet(line: Mapping[str, Any]) -> Fraction:
    """Feet cut in place: two cuts across each piece."""
    if line["ends"] != "trim after rolling":
        return Fraction(0)
    pieces = int(line["blank"]["pieces"] * line["quantity"])
    return 2 * Fraction(pieces) * Fraction(line["blank"]["width_mm"]) / INCH_MM / 12


def _trimming(line: Mapping[str, Any], book: Book) -> Fraction:
    if line["ends"] != "trim after rolling":
        return Fraction(0)
    cuts = Fraction(2 * line["blank"]["pieces"] * line["quantity"])
    each = book.number("handwork", "trim_mark_min") + book.number("handwork", "trim_handling_min")
    foot = book.number("labour", "cutting_min_per_ft") * book.number("handwork", "trim_cut_factor")
    return cuts * each + _trimmed_feet(line) * foot


def _hanging(line: Mapping[str, Any], book: Book) -> Fraction:
    shape, ratio = line["shape"], book.number("lifting", "overhead_support_ratio")
    inside = Fraction(line["inside_diameter_mm"])
    if shape["kind"] == "cone":
        inside = Fraction(shape["large_mm"])
        inside += Fraction(line["thickness_mm"]) * {"inside": 0, "mean": -1, "outside": -2}[shape["basis"]]
    round_enough = shape["kind"] != "arc" or shape["angle_deg"] >= 180
    if not round_enough or inside / Fraction(line["thickness_mm"]) <= ratio:
        return Fraction(0)
    return book.number("handwork", "support_min") * Fraction(line["blank"]["pieces"] * line["quantity"])


def _crane_minutes(line: Mapping[str, Any], book: Book) -> Fraction:
    """The crane holds a shell that sags all the time, else while it loads, turns and unloads a piece."""
    if line["lift"]["method"] == "crane with overhead support":
        return Fraction(str(line["drivers"]["rolling_minutes"]))
    if not line["lift"]["crane"]:
        return Fraction(0)
    pounds = Fraction(line["blank"]["weight_kg"]) / POUND_KG
    bands = book.settings["labour"]["handling"]
    band = next((one for one in bands if pounds <= one["up_to_lb"]), bands[-1])
    steps = ["load_min", "unload_min"] + ["turn_min"] * (line["ends"] == "pre-bend")
    pieces = Fraction(line["blank"]["pieces"] * line["quantity"])
    return pieces * sum((Fraction(band[step][1]) for step in steps), Fraction(0))


def _price(line: Mapping[str, Any], book: Book) -> Iterator[str]:
    """The line's price from what it takes, part by part, and the sums that come of it."""
    takes = {
        name: Fraction(str(value)) for name, value in line["drivers"].items() if not isinstance(value, bool)
    }
    hour = {
        name: book.number("rates", f"{name}_per_hour")
        for name in ("operator", "helper", "setup", "crane", "bench", "welder")
    }
    rule = {name: book.number("pricing", name) for name in book.settings["pricing"] if _is_number(book, name)}
    quantity = takes["quantity"]
    drop = takes["drop_credit"] if book.settings["pricing"]["drop_owner"] == "shop" else Fraction(0)
    parts = {
        "plate": max(takes["plate_cost"] - drop, Fraction(0)),
        "cutting": takes["cutting_cost"],
        "edge": takes["edge_m"] / FOOT_M * book.number("cutting", "edge_prep_cost_per_ft"),
        "setup": takes["setup_minutes"] / 60 * hour["setup"],
        "rolling": takes["rolling_minutes"]
        / 60
        * (takes["roll_rate"] + hour["operator"] + (takes["crew"] - 1) * hour["helper"]),
        "lifting": takes["crane_minutes"] / 60 * hour["crane"],
        "bench": takes["bench_minutes"] / 60 * hour["bench"],
        "welding": takes["weld_minutes"] / 60 * hour["welder"],
        "filler": takes["consumables"],
    }
    own = sum(value for name, value in parts.items() if name != "plate")
    parts["overhead"] = own * rule["overhead_share"]
    own += parts["overhead"]
    parts["outside"] = takes["outside_cost"]
    parts["certificate"] = rule["certificate_charge"] * line["drivers"]["certificate"]
    cost = parts["plate"] + own + parts["outside"] + parts["certificate"]
    parts["material_markup"] = parts["plate"] * rule["material_markup"]
    parts["outside_markup"] = parts["outside"] * book.number("rates", "outside_markup")
    parts["processing_margin"] = own / (1 - rule["margin"]) - own
    asked = cost + parts["material_markup"] + parts["outside_markup"] + parts["processing_margin"]
    parts["minimum_top_up"] = max(rule["line_minimum"] - asked, Fraction(0))
    unit = _up((asked + parts["minimum_top_up"]) / quantity, rule["rounding"])
    least = cost / (1 - rule["floor_margin"])
    said = line["price"]
    exact = {"unit": unit, "extended": unit * quantity, "floor_unit": _up(least / quantity, rule["rounding"])}
    for name, value in exact.items():
        if Fraction(said[name]) != value:
            yield f"{name} is {float(value):.2f}, the record says {said[name]}"
    profit = unit * quantity - cost
    rounded = {"cost": cost, "floor": least, "margin": profit / (unit * quantity), "markup": profit / cost}
    for name, value in [*rounded.items(), *parts.items()]:
        told = said["parts"][name] if name in parts else said[name]
        if abs(Fraction(told) - value) > TEN_THOUSANDTH / 2 * Fraction("1.001"):
            yield f"{name} is {float(value):.4f}, the record says {told}"
    if said["parts"].keys() != parts.keys():
        yield f"the parts of a price are {sorted(parts)}, the record has {sorted(said['parts'])}"
    if said["under_floor"] != (unit < exact["floor_unit"]):
        yield f"under_floor is said to be {said['under_floor']}"


def _is_number(book: Book, name: str) -> bool:
    return isinstance(book.settings["pricing"][name], Decimal | int)


def _up(amount: Fraction, step: Fraction) -> Fraction:
    """Rounded up to the step; a millionth of a step is nothing."""
    return ceil(round(amount / step, 6)) * step


def _breaks(line: Mapping[str, Any]) -> Iterator[str]:
    for offer in line["breaks"]:
        if Decimal(offer["extended"]) != Decimal(offer["unit"]) * offer["quantity"]:
            yield f"{offer['quantity']} at {offer['unit']} do not make {offer['extended']}"
        if offer["quantity"] == line["quantity"] and offer["unit"] != line["price"]["unit"]:
            yield f"{offer['quantity']} are offered at {offer['unit']}, quoted at {line['price']['unit']}"


def _total(order: Mapping[str, Any], lines: Any, book: Book) -> Iterator[str]:
    own = [line for line in lines if line["place"]["file"] == order["file"]]
    goods = sum((Decimal(line["price"]["extended"]) for line in own), Decimal(0))
    pricing = book.settings["pricing"]
    top_up = max(pricing["order_minimum"] - goods, Decimal(0)) if own else Decimal(0)
    tax = Decimal(_nearest(Fraction(goods + top_up) * Fraction(pricing["tax_share"]))).scaleb(-2)
    found = {"lines": goods, "minimum_top_up": top_up, "tax": tax, "total": goods + top_up + tax}
    for name, value in found.items():
        if Decimal(order["total"][name]) != value:
            yield f"{name} of the order is {value}, the record says {order['total'][name]}"


def _nearest(money: Fraction) -> int:
    """Whole cents, half up."""
    return floor(money * 100 + Fraction(1, 2))


def _cents(money: str) -> int:
    return int(Decimal(money) * 100)
