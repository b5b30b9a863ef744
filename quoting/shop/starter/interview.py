"""The interview that starts a shop: at most twelve questions, everything else stays an example."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from math import pi
from typing import Any

from quoting.core import InputError
from quoting.shop.book import BookTables, NoNumberError, read_tables, typed_amount, typed_number
from quoting.shop.findings import BookError, Findings
from quoting.shop.forms import metric_data, starter_data
from quoting.shop.quantities import KG_PER_POUND, LENGTH, WEIGHT

MOST_ROLLS = 3
ANSWERED = frozenset(
    {f"roll.{stem}_in" for stem in ("top_roll", "pinch_roll", "bending_roll", "working_length")}
    | {"roll.largest_thickness_in", "rates.currency", "rates.operator_per_hour", "rates.helper_per_hour"}
    | {"pricing.margin", "shift", "roll.rated"}
)
"""The shop's own after an interview: settings by their names in the starter book, rows by their table."""
WORKED_OUT = frozenset({"roll.largest_weight_lb", "roll.cones"})
"""What nobody was asked for: the weight of the largest rated shell, and no cones."""
_STEEL_KG_MM3 = 7.85e-6
"""Density of carbon steel, EN 10025 and plate weight tables; here only to weigh the largest rated shell."""


@dataclass(frozen=True, slots=True)
class Asked:
    """One question: a name, the words, and what an empty answer means."""

    name: str
    words: str
    default: str = ""


ABOUT_SHOP = (
    Asked("name", "What is the shop called on its quotes"),
    Asked("units", "Do you work in inch or metric", "inch"),
    Asked("currency", "In which currency do you quote", "USD"),
    Asked("operator", "What does an hour of the roll operator cost, with all wage costs", "42"),
    Asked("helper", "And an hour of a helper", "30"),
    Asked("crew", "How many people work at the rolls", "3"),
    Asked("hours", "From when to when do you work, Monday to Friday", "07:00-15:30"),
    Asked("crane", "How much does the crane over the rolls lift (empty: not known)"),
    Asked("margin", "Which margin do you want on the price, in per cent", "28"),
)
ROLL = Asked(
    "roll",
    "Roll {number}: its name; diameter of top, pinch and bending roll; working length; the thickest plate it "
    "pre-bends at full length; the least inside diameter it closes with that plate. Parted by "
    "semicolons, such as {example}",
)
_NEXT_ROLL = "Roll {number} in the same way (empty: no further roll)"
_EXAMPLES = {
    "inch": "Big roll; 11; 10-1/2; 9-1/2; 10'-1; 1/2; 36",
    "metric": "Big roll; 280; 270; 240; 3070; 12; 900",
}


def roll_question(number: int, units: str) -> str:
    """Return the words of the question about the next roll."""
    words = ROLL.words if number == 1 else _NEXT_ROLL
    return words.format(number=number, example=_EXAMPLES[units])


def checked_answer(asked: Asked, text: str) -> str:
    """Return an answer as it can be used; InputError says what else to write."""
    text = text.strip()
    found = typed_number(text)
    if asked.name == "name" and not text:
        raise InputError("a quote needs a name on it")
    if asked.name == "units":
        units = {"i": "inch", "m": "metric"}.get(text[:1].casefold())
        if not units:
            raise InputError("write inch or metric")
        return units
    if asked.name in ("operator", "helper", "crew", "margin"):
        if not found or found[1] not in ("", "%") or found[0] < 0:
            raise InputError("write a number, such as " + asked.default)
        if asked.name == "crew" and (found[0] < 1 or found[0] != int(found[0])):
            raise InputError("write a whole number of people, 1 or more")
        if asked.name == "margin" and found[0] > 95:
            raise InputError("a margin is a share of the price and at most 95 per cent")
        return str(found[0])
    if asked.name == "hours" and not re.fullmatch(r"\d{1,2}:\d\d\s*(-|to)\s*\d{1,2}:\d\d", text):
        raise InputError("write it as 07:00-15:30")
    if asked.name == "crane" and text and not _is_weight(text):
        raise InputError("write a weight, such as 10000 lb or 5000 kg, or nothing")
    return text


def _is_weight(text: str) -> bool:
    try:
        return typed_amount(text, WEIGHT, "lb") > 0
    except NoNumberError:
        return False


def roll_of_answer(text: str, units: str) -> dict[str, Any]:
    """Return a roll from one line of an answer; InputError says what is missing."""
    parts = [part.strip() for part in text.split(";")]
    if len(parts) != 7 or not all(parts):
        raise InputError(f"{len(parts)} of 7 figures found; write them like {_EXAMPLES[units]}")
    unit = "in" if units == "inch" else "mm"
    try:
        top, pinch, bending, length, thick, inside = (typed_amount(part, LENGTH, unit) for part in parts[1:])
    except NoNumberError as error:
        raise InputError(f"one of the sizes is no length: {error}") from error
    mm = Decimal("25.4") if unit == "in" else Decimal(1)
    kilograms = float(length * thick * (inside + thick)) * pi * float(mm) ** 3 * _STEEL_KG_MM3
    pounds = int(kilograms / KG_PER_POUND)
    weight = {"largest_weight_kg": int(kilograms)} if unit == "mm" else {"largest_weight_lb": pounds}
    thinnest = Decimal("1.9") if unit == "mm" else Decimal("0.0747")
    sizes = {
        "top_roll": top, "pinch_roll": pinch, "bending_roll": bending, "working_length": length,
        "least_thickness": min(thinnest, thick), "largest_thickness": thick,
    }  # fmt: skip
    rated = {"thickness": thick, "width": length, "inside_diameter": inside}
    stress = {"yield_ksi": Decimal("36.0")} if unit == "in" else {"yield_mpa": 248}
    speed = ("surface_speed_ft_min", "15.0") if unit == "in" else ("surface_speed_m_min", "4.572")
    return {
        "name": parts[0],
        **{f"{stem}_{unit}": value for stem, value in sizes.items()},
        "least_diameter_factor": Decimal("1.3"),
        speed[0]: Decimal(speed[1]),
        **weight,
        "cones": False,
        "rate_per_hour": Decimal("38.00"),
        "rated": [{"pre_bend": True, **{f"{stem}_{unit}": value for stem, value in rated.items()}, **stress}],
    }


def check_roll(roll: Mapping[str, Any]) -> None:
    """Raise InputError when the readers of the book would not take a roll."""
    data = {**starter_data(), "roll": [dict(roll)], "closed": []}
    try:
        read_tables(BookTables(data, {}, Findings("the answer")))
    except BookError as error:
        raise InputError("; ".join(error.problems)) from error


def data_of_answers(answers: Mapping[str, str], rolls: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """Return the tables of a book: the starter's examples with what was answered in their place."""
    data = starter_data() if answers["units"] == "inch" else metric_data(starter_data())
    data["shop"] |= {"name": answers["name"]}
    data["shop"]["note"] = "Minutes, and what was not asked, are still examples"
    data["rates"] |= {
        "currency": answers["currency"],
        "operator_per_hour": Decimal(answers["operator"]),
        "helper_per_hour": Decimal(answers["helper"]),
    }
    data["pricing"]["margin"] = Decimal(answers["margin"]) / 100
    data["pricing"]["floor_margin"] = min(data["pricing"]["floor_margin"], data["pricing"]["margin"])
    start, end = re.split(r"\s*(?:-|to)\s*", answers["hours"])
    start, end = start.zfill(5), end.zfill(5)
    kept = [one for one in data["shift"][0]["breaks"] if start <= one[:5] and one[-5:] <= end]
    data["shift"][0] |= {"start": start, "end": end, "breaks": kept, "crew": int(Decimal(answers["crew"]))}
    if answers.get("crane"):
        unit = "lb" if answers["units"] == "inch" else "kg"
        data["lifting"][f"crane_capacity_{unit}"] = answers["crane"]
    data["roll"] = [dict(roll) for roll in rolls]
    return data
