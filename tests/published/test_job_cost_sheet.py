"""Whole job costs and prices from textbook exercises.

Sources:
[1] Financial and Managerial Accounting, 7th ed., chapter "Job Order Costing and Analysis", exercise 11
    (listed as q11e under that title in a study site's textbook index; solution printed at
    justaaa.com/accounting/59061): overhead 747,500 / 575,000 = 130 % of direct labour; materials 5,000 +
    7,020 + 3,330; labour 700 + 1,250 + 1,250; overhead 4,160; total cost 22,710.
[2] "Job X455", a job-order exercise whose solution is printed at partnerperformance.uonbi.ac.ke/preguntia/
    15178859: ten units, materials 870, labour 1,740, 80 machine hours at 2.50 variable + 442,500 / 59,000
    fixed overhead; cost 341 a unit, markup 20 % of cost 68.2, selling price 409.2. The page
    does not name the book.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from quoting.pricing import CostDrivers, price_line
from tests.quoting.pricing.samples import CUTTING, RATES, RULES


def test_job_13_56_costs_22710() -> None:  # [1]
    job = CostDrivers(
        quantity=5,
        plate_cost=Decimal(5000 + 7020 + 3330),
        drop_credit=Decimal(0),
        cutting_cost=Decimal(700 + 1250 + 1250),
        edge_m=0,
        setup_minutes=0,
        rolling_minutes=0,
        crew=1,
        crane_minutes=0,
        outside_cost=Decimal(0),
        certificate=False,
        roll_rate=Decimal(0),
    )
    rules = replace(RULES, overhead_share=Decimal(747_500) / Decimal(575_000))
    parts = price_line(job, RATES, rules, CUTTING).parts
    assert parts.overhead == 4160
    assert parts.cost == 22_710


def test_job_x455_sells_at_409_20_each() -> None:  # [2]
    hours = 80
    job = CostDrivers(
        quantity=10,
        plate_cost=Decimal(870),
        drop_credit=Decimal(0),
        cutting_cost=Decimal(0),
        edge_m=0,
        setup_minutes=0,
        rolling_minutes=hours * 60,
        crew=1,
        crane_minutes=0,
        outside_cost=Decimal(0),
        certificate=False,
        roll_rate=Decimal("2.50") + Decimal(442_500) / Decimal(59_000),
    )
    rates = replace(RATES, operator_hour=Decimal(1740) / hours)
    markup = Decimal("0.20")
    rules = replace(RULES, overhead_share=Decimal(0), material_markup=markup, margin=markup / (1 + markup))
    line = price_line(job, rates, rules, CUTTING)
    assert line.parts.cost / 10 == 341
    assert line.unit == Decimal("409.20")
    assert line.extended == 4092
