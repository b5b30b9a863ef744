"""The shop's own book: machines, materials, rates, stock rack and working time.

`load_shop(folder)` reads a shop folder into one frozen `Shop`; `write_starter(folder)` starts a new one.

The folder
==========
`shop.xlsx`, or `shop.toml`
    The book, as a workbook to fill in or as a text file, one of the two. Every setting has one sentence with
    its meaning, its unit and a mark while it is an example. `rollwright init DIR` writes it, `rollwright shop
    convert` turns one form into the other.
`rack.xlsx` (or `rack.ods`, `rack.xls`, `rack.csv`)
    The stock rack: a sheet of plates in the house and a sheet, "buy" in its name, of sizes that can be
    bought (for CSV a second file, `buyable.csv`). Columns are found by their headings.
`order-sheet.xlsx`, `order-sheet-mm.xlsx`
    Blank order sheets with drop-down lists, to send to customers; nothing is read from them here.

Settings
========
A setting carries its unit in its name, and exactly one unit: `working_length_in` or `working_length_mm`
(also `_ft`, `_m`); `_lb` or `_kg`; `_ksi`, `_mpa` or `_gpa`; `_in_min`, `_ft_min`, `_mm_min` or `_m_min`;
`_hp` or `_kw`; `_lb_in3` or `_kg_m3`; money `_per_lb` or `_per_kg`, `_per_ft` or `_per_m`; minutes `_min`.
Minutes may be one number or `[low, likely, high]`. A length in inches may be a text such as `"3/16"`.

| table | what it holds |
|---|---|
| `[shop]` | name, note, units, paper, and the ends and weld gap when the order does not say |
| `[[roll]]` | one machine: roll diameters, working length, thickness range, speed, largest weight, cones |
| `[[roll.rated]]`, `[roll.slide]` | what it is known to do (one point or more); its bending roll's travel |
| `[rates]` | currency, people, set-up and crane per hour, markup on outside work |
| `[labour]` | minutes of each step, with `[[labour.handling]]` for load, turn and unload by weight |
| `[lifting]` | when hands, two people or the crane lift |
| `[setups]` | minutes between two jobs on one roll |
| `[passes]` | how fast the diameter may come down |
| `[cutting]` | shear and thermal cutting, allowances, costs, what drop is worth keeping |
| `[edges]`, `[welding]`, `[handwork]` | work off the roll, priced where it is asked for or needed |
| `[freight]` | carriage by weight and volume of the rolled parts; all 0 is ex works |
| `[press]` | forming of pieces too short for the rolls, the shop's own press or bought in |
| `[tolerance]` | how close the shop comes: diameter, roundness, straightness, length |
| `[pricing]` | overhead, margin, floor, minimums, breaks, rounding, validity, tax |
| `[risk]` | when a line is called risky, and how far set-up and delivered plate scatter |
| `[promise]` | how sure a promised day is, and what may go wrong on the way to it |
| `[working_time]` | overtime, cranes, lead times; with `[[shift]]` and `[[closed]]` |
| `[price_per_lb]` or `[price_per_kg]` | plate price by grade, for rack rows without one |
| `[[material]]` | changes a known grade or adds one; what it leaves out stays as it is |

A setting that is left out takes the starter book's example value, and `Shop.warnings` says so. Anything
wrong is a `BookError` that names every problem at once: file, line, table, key, what was read, what would
do. An unknown key is an error with the nearest known one, because a misspelt setting would otherwise be
silently an example.

The rack
========
Plate id, material (any name the grade goes by), thickness (decimal, fraction, gauge or mm), width, length,
edge (mill or trimmed; mill when empty), quantity (1 when empty), price per lb, kg or plate (the grade's price
when empty), heat number, remnant yes or no, the side that the grain runs along, length or width (the longer
one when empty), and for buyable sizes lead days. A bare number is in the unit of
the heading, `Thickness (in)`, else in the shop's unit. A row that cannot be used is left out and named in
`Shop.warnings`; so is the second row with the same plate id. `StockPlate.price` is the price of the whole
plate, rounded to the cent; width is the shorter side.

Sources
=======
`materials.toml` gives each grade with the source of its strength, or says that it is from memory. What no
source publishes (minutes, rates, what yield plate really arrives with) is an example and says so.
"""

from quoting.shop.book import hours_a_week
from quoting.shop.changed_book import BookEdit, book_ending, changed_book, take_book
from quoting.shop.convert import convert_book
from quoting.shop.findings import Findings, did_you_mean
from quoting.shop.forms import metric_data, starter_data
from quoting.shop.grades import (
    FAMILY_WORDS,
    Materials,
    find_material,
    materials_of,
    plain_name,
    plate_standard,
    thickness_tolerance,
)
from quoting.shop.loader import load_ledger_settings, load_shop, rack_files
from quoting.shop.model import (
    Band,
    Cutting,
    Edge,
    EdgeRules,
    Family,
    LabourSteps,
    LedgerSettings,
    LiftRules,
    Material,
    PassRules,
    PressRules,
    PricingRules,
    PromiseSettings,
    RatedPoint,
    Rates,
    Roll,
    SetupMinutes,
    Shift,
    Shop,
    StockPlate,
    WeightBand,
    WeldRules,
)
from quoting.shop.quantities import KG_PER_POUND, MPA_PER_KSI
from quoting.shop.rack import HEADINGS, NEEDED, as_text, is_buyable, read_size, unit_of_sizes
from quoting.shop.sheet_style import add_list, formats_of, open_book, set_up_page
from quoting.shop.starter import (
    ABOUT_SHOP,
    ANSWERED,
    MOST_ROLLS,
    WORKED_OUT,
    check_roll,
    checked_answer,
    data_of_answers,
    roll_of_answer,
    roll_question,
    write_starter,
)
from quoting.shop.still_examples import StillExample, book_at_hand, still_examples

__all__ = [
    "ABOUT_SHOP",
    "ANSWERED",
    "FAMILY_WORDS",
    "HEADINGS",
    "KG_PER_POUND",
    "MOST_ROLLS",
    "MPA_PER_KSI",
    "NEEDED",
    "WORKED_OUT",
    "Band",
    "BookEdit",
    "Cutting",
    "Edge",
    "EdgeRules",
    "Family",
    "Findings",
    "LabourSteps",
    "LedgerSettings",
    "LiftRules",
    "Material",
    "Materials",
    "PassRules",
    "PressRules",
    "PricingRules",
    "PromiseSettings",
    "RatedPoint",
    "Rates",
    "Roll",
    "SetupMinutes",
    "Shift",
    "Shop",
    "StillExample",
    "StockPlate",
    "WeightBand",
    "WeldRules",
    "add_list",
    "as_text",
    "book_at_hand",
    "book_ending",
    "changed_book",
    "check_roll",
    "checked_answer",
    "convert_book",
    "data_of_answers",
    "did_you_mean",
    "find_material",
    "formats_of",
    "hours_a_week",
    "is_buyable",
    "load_ledger_settings",
    "load_shop",
    "materials_of",
    "metric_data",
    "open_book",
    "plain_name",
    "plate_standard",
    "rack_files",
    "read_size",
    "roll_of_answer",
    "roll_question",
    "set_up_page",
    "starter_data",
    "still_examples",
    "take_book",
    "thickness_tolerance",
    "unit_of_sizes",
    "write_starter",
]
