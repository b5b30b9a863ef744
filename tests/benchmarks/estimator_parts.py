"""Twenty usual parts and fifteen at the edge, with what a careful estimator would do and what we do.

`python -m tests.benchmarks.estimator_parts [--json]` reads each as a sheet of its own, prices
it alone on the demo's rolls (plate by weight) and prints the verdicts: priced; flagged (priced, and something
is said that an estimator signs with open eyes); asked; refused. Exit code 1 when one is not right.
Plates that the demo's rack does not list can be bought, at the grade's price. The expectations were written
before the first run; trade judgement, no source. Where one turned out to be at fault it stays as it was, with
what is right and why; both are counted.
"""

from __future__ import annotations

import argparse
import json
import sys
import tempfile
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from pathlib import Path

from quoting.core import MM_PER_INCH, State
from quoting.estimating import LineResult, estimate, judge_tolerances
from quoting.intake.read_orders import read_orders
from quoting.shop import Edge, Shop, StockPlate, load_shop

ROOT = Path(__file__).resolve().parents[2]
DAY = date(2026, 11, 30)
HEADS = "Line;Qty;Size;Thk;Length;Material;Ends;Remarks"


@dataclass(frozen=True)
class Part:
    """One part as a customer writes it, what is expected and why; `says` has to stand in what is said.

    `right` is the verdict that is right where the expectation was at fault, `fault` what was wrong with it.
    """

    name: str
    row: str
    wanted: str
    why: str
    says: str = ""
    right: str = ""
    fault: str = ""


USUAL = (
    Part("1", '4;36" OD;1/4;60;A36;pre-bend;', "priced", "everyday shell"),
    Part("2", '2;48" ID;3/8;96;A36;pre-bend;', "priced", "everyday shell"),
    Part("3", '2;24" OD;3/16;48;304;pre-bend;', "priced", "stainless shell"),
    Part("4", '1;60" ID;1/2;72;SA-516-70;pre-bend;MTR required', "priced", "vessel shell"),
    Part("5", '2;30" OD;1/8;36;5052-H32;pre-bend;', "flagged", "aluminium springs far"),
    Part(
        "6",
        '6;40" IR 90 deg;1/4;48;A36;pre-bend;',
        "priced",
        "segment",
        right="flagged",
        fault="80 in across in 1/4 in springs further than parts 9 and 12, which were expected to be flagged",
    ),
    Part("7", '2;24" IR 180 deg;3/8;60;A36;pre-bend;', "priced", "half shell"),
    Part("8", '1;cone 48" OD x 24" OD x 30" high;1/4;;A36;pre-bend;', "priced", "cone"),
    Part("9", '1;72" OD;1/4;96;A36;pre-bend;', "flagged", "the blank is longer than plates: segments"),
    Part("10", '2;20" OD;1/2;40;A36;pre-bend;', "priced", "stout can"),
    Part("11", '8;18" ID;16 ga;48;galvanized;leave flat;', "flagged", "duct: thin, springs"),
    Part("12", '1;96" OD;3/8;60;A36;pre-bend;', "flagged", "in segments, and its springback"),
    Part("13", '2;36" OD;1/4;60;A36;pre-bend;37.5 deg bevel, both long edges', "priced", "bevel is priced"),
    Part("14", '2;48" OD;3/8;60;A36;pre-bend;full pen weld long seam by you', "priced", "weld is priced"),
    Part("15", '2;48" ID;3/8;48;A36;trim after rolling;', "priced", "both cuts are priced"),
    Part("16", '1;30" ID;1/4;30;A36;pre-bend;out of round 3/8 max', "priced", "held as rolled"),
    Part(
        "17",
        '2;40" OD;3/8;48;A36;pre-bend;free issue plate',
        "priced",
        "the customer's plate",
        right="asked",
        fault="nobody knows the plate's size and when it comes; the blind corpora want it asked",
    ),
    Part("18", '2;24" dia;1/4;48;A36;pre-bend;', "asked", "inside or outside", "inside, outside"),
    Part("19", '2;24" OD;10 ga;48;;pre-bend;', "asked", "which metal, which gauge", "which material"),
    Part(
        "20",
        '2;20" IR 180 deg;3/8;48;AR400;pre-bend;',
        "flagged",
        "hard plate springs and is strong",
        "springback",
    ),
)
EDGE = (
    Part(
        "E1",
        '4;10" IR 10 deg;1/4;6;A36;pre-bend;',
        "refused",
        "does not reach the bending roll",
        "must reach the bending roll",
    ),
    Part(
        "E2",
        '1;6" OD;1/4;12;A36;pre-bend;',
        "refused",
        "tighter than any roll closes",
        "least inside diameter",
    ),
    Part(
        "E3",
        '1;96" ID;22 ga;36;galvanized;pre-bend;',
        "refused",
        "nobody can promise a radius",
        "nobody can promise a radius",
    ),
    Part("E4", '1;24" ID;1/2;60;AR400;pre-bend;', "refused", "stronger than the rolls", "rated"),
    Part(
        "E5",
        '1;144" OD;1;118;A36;pre-bend;',
        "refused",
        "beyond crane or door",
        "crane",
        right="flagged",
        fault="15,000 lb is within the demo's crane of 20,000 lb and 144 in passes its door of 168 in",
    ),
    Part(
        "E6",
        '1;60" OD;1/4;144;A36;pre-bend;',
        "flagged",
        "wider than the roll: courses, said so",
        "made in 2 courses",
    ),
    Part(
        "E7",
        '1;48" OD;3/8;240;A36;pre-bend;',
        "flagged",
        "twenty feet: courses, said so",
        "made in 3 courses",
    ),
    Part("E8", '1;48" OD;2;24;A36;pre-bend;', "refused", "thicker than the rolls open", "largest thickness"),
    Part(
        "E9",
        '1;12" OD;26 ga;24;galvanized;pre-bend;',
        "refused",
        "thinner than the rolls grip",
        "least thickness",
    ),
    Part(
        "E10", '1;48" OD;1/4;48;A36;pre-bend;+/- 1/32 on OD', "flagged", "exception in writing", "EXCEPTION"
    ),
    Part(
        "E11",
        '1;48" OD;1/4;48;A36;pre-bend;out of round 1/32 max',
        "flagged",
        "exception in writing",
        "EXCEPTION",
    ),
    Part(
        "E12",
        '2;10" IR 10 deg;1/4;6;A36;;',
        "flagged",
        "rolled longer and cut, or pressed: priced",
        "in a press",
    ),
    Part("E13", '1;96" OD;1-1/4;118;A36;pre-bend;', "refused", "too much force or weight", "rated"),
    Part(
        "E14",
        '2;30" IR 90 deg;3/8;36;A36;pre-bend;weld seam by you',
        "flagged",
        "an arc has no seam",
        "no seam",
    ),
    Part("E15", '1;60" ID;16 ga;48;A1011;leave flat;', "flagged", "thin for its diameter", "springback"),
)


@dataclass(frozen=True)
class Verdict:
    """What became of a part."""

    part: Part
    got: str
    said: str
    price: str

    @property
    def as_wanted(self) -> bool:
        """Return whether it is as expected before the first run."""
        return self.got == self.part.wanted and self.part.says in self.said

    @property
    def right(self) -> bool:
        """Return whether it is what a careful estimator would do."""
        return self.got == self.part.right if self.part.right else self.as_wanted


def verdicts(parts: tuple[Part, ...] = (*USUAL, *EDGE), shop: Shop | None = None) -> list[Verdict]:
    """Return what becomes of each part on the demo's rolls."""
    own = _with_plates(shop or load_shop(ROOT / "demo_orders" / "shop"))
    with tempfile.TemporaryDirectory() as folder:
        return [_verdict(part, own, Path(folder)) for part in parts]


def _verdict(part: Part, shop: Shop, folder: Path) -> Verdict:
    sheet = folder / f"part-{part.name}.csv"
    sheet.write_text(f"{HEADS}\n{part.name};{part.row}\n", encoding="utf-8")
    order = read_orders(sheet, shop, today=DAY)
    found = estimate((order,), shop, today=DAY, effort="quick", nested=False).orders[0]
    if not found.lines:
        reason = "; ".join(question.text for question in found.questions) or found.rows[-1].reason
        asked = any(row.state is State.QUESTION for row in found.rows)
        return Verdict(part, "asked" if asked else "refused", reason, "")
    (result,) = found.lines
    if result.price is None:
        return Verdict(part, "refused", f"{result.reason}; {' / '.join(result.nearest[:2])}", "")
    said = [*_looked_at(result, shop), *(question.text for question in found.questions)]
    return Verdict(part, "flagged" if said else "priced", "; ".join(said), f"{result.price.extended:,.2f}")


def _with_plates(shop: Shop) -> Shop:
    """Return the shop with large sizes to buy of every plate that these parts need."""
    more: list[StockPlate] = []
    for key, thickness in _PLATES:
        material = shop.material(key)
        width, length = 96 * MM_PER_INCH, 360 * MM_PER_INCH
        kg = thickness * width * length * material.density_kg_m3 / 1e9
        price = (material.price_per_kg * Decimal(str(round(kg, 3)))).quantize(Decimal(1))
        name = f"P-{len(more) + 1}"
        more.append(StockPlate(name, key, thickness, width, length, Edge.MILL, None, max(price, Decimal(1))))
    return replace(shop, stock=(*shop.stock, *more))


_PLATES = (
    ("galvanized", 0.0336 * MM_PER_INCH),
    ("galvanized", 0.0217 * MM_PER_INCH),
    ("A1011 CS", 0.0598 * MM_PER_INCH),
    ("AR400", 12.7),
    ("A36", 25.4),
    ("A36", 31.75),
    ("A36", 50.8),
    ("A36", 12.7),
    ("A36", 9.525),
    ("A36", 6.35),
)


def _looked_at(result: LineResult, shop: Shop) -> list[str]:
    """Return what is said of a priced line: flags of its route, pieces, other ways, tolerances not held."""
    route = result.route
    assert route is not None
    said = [*route.flags, *route.governing.verdict.flags, *result.offers]
    said += [text for text in result.assumptions if text.startswith("made in")]
    judged = judge_tolerances(result.line, route, shop)
    return said + [one.words(inch=True) for one in judged if one.held.value.isupper()]


def main() -> int:
    """Print the table; return 1 when a verdict is not as expected."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--json", action="store_true", help="print JSON")
    options = parser.parse_args()
    found = verdicts()
    wrong = [one for one in found if not one.right]
    wanted = sum(one.as_wanted for one in found)
    if options.json:
        rows = [
            {"part": one.part.name, "wanted": one.part.wanted, "got": one.got, "price": one.price}
            for one in found
        ]
        counts = {"parts": len(found), "as_expected_before": wanted, "not_right": len(wrong)}
        print(json.dumps({**counts, "rows": rows}, indent=1))
    else:
        for one in found:
            mark = "!" if not one.right else " " if one.as_wanted else "*"
            row = one.part.row.replace(";", " ").rstrip()
            print(f"{mark} {one.part.name:>3}  {one.part.wanted:8} {one.got:8} {one.price:>10}  {row}")
            print(f"       {one.part.why}: {one.said[:160] or 'nothing to say'}")
            if one.part.fault:
                print(f"       the expectation was at fault: {one.part.fault}")
        print(f"{wanted} of {len(found)} as expected before the first run")
        print(f"{len(found) - len(wrong)} of {len(found)} as a careful estimator would")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
