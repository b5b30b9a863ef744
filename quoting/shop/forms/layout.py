"""Which part of the shop's book stands on which sheet of the form, and what is asked for first."""

from __future__ import annotations

from dataclasses import dataclass

FIRST = (
    "shop.name",
    "shop.contact",
    "shop.units",
    "rates.currency",
    "rates.operator_per_hour",
    "rates.helper_per_hour",
    "cutting.rate_per_hour",
    "pricing.overhead_share",
    "pricing.margin",
    "pricing.line_minimum",
)
"""The settings that make a usable shop together with its rolls; the form has them on its first sheet."""

FIRST_MARK = "[fill these first]"
PRICES = "price"
"""The records of all price tables together: grade, price, unit."""

RECORDS = frozenset({"roll.rated", "labour.handling", "shift", "closed", PRICES, "material"})


@dataclass(frozen=True, slots=True)
class FormPage:
    """One sheet of the form: its name, what it says at its head, and its tables in order."""

    name: str
    said: str
    tables: tuple[str, ...]


PAGES = (
    FormPage(
        "Rolls",
        "One column a roll; sizes from the machine's own plate or manual, or by tape. What cannot be read "
        "off it may stay empty: the last column says what is taken then. A further roll takes the next one.",
        ("roll", "roll.rated"),
    ),
    FormPage(
        "Shop and letter",
        "What stands on the quotes, and what holds where an order is silent.",
        ("shop", "ledger"),
    ),
    FormPage(
        "Rates and price",
        "What an hour costs, and how a price grows out of a cost. A share is written as per cent.",
        ("rates", "pricing", "risk"),
    ),
    FormPage(
        "Minutes",
        "Minutes for one piece: likely, and how little and how much it may be. Clock a few jobs first.",
        ("labour", "labour.handling", "setups"),
    ),
    FormPage(
        "Rolling and lifting", "How fast the diameter comes down, and who lifts.", ("passes", "lifting")
    ),
    FormPage("Cutting", "Shear and thermal cutting, allowances, what a drop is worth.", ("cutting",)),
    FormPage(
        "Off the roll",
        "Priced only where an order asks for it or the part needs it.",
        ("edges", "welding", "handwork", "tolerance", "freight", "press"),
    ),
    FormPage(
        "Calendar",
        "Shifts, people and days off. A night shift is written as two.",
        ("working_time", "shift", "closed", "promise"),
    ),
    FormPage(
        "Grades",
        "Plate prices, for rack rows and sizes to buy that have none of their own.",
        (PRICES,),
    ),
    FormPage(
        "Own grades",
        "What differs from the known grades, or a grade of your own; an empty cell stays as known.",
        ("material",),
    ),
)
