"""Least yield and tensile strength of the grades against printed tables, MPa.

1. "Steel grades according to American standards", https://www.scribd.com/document/350457765: A36-04b,
   A572-04, A588-04.
2. BS EN 10025-2 table 7 (up to 16 mm; tensile from 3 mm), as on
   https://readle.co.uk/references/steel-grades-eurocodes.php
3. ASTM A516 grade 70 on a plate seller's page (name withheld): yield 38 ksi [260], tensile 70-90 ksi
   [485-620].
4. ASTM A213/SA-213 minimum of alloys 304 and 304L, https://tubingchina.com/304-Mechanical-Property.htm.
   Plate that is certified to both grades meets the higher, 304.
5. Comparison of EN 10028-2:2003 P355GH with SA-516 grade 70, https://www.scribd.com/document/140350812:
   yield 355 MPa up to 16 mm, tensile 510-650.
6. CSA G40.21 table of plates, https://www.portlandbolt.com/csa: 44W yield 44 ksi = 300 MPa by the
   standard's own conversion, tensile 65 ksi; 50W 50 ksi = 350 MPa, 65 ksi; 50A 50 ksi, 70 ksi (ksi to MPa
   of tensile worked out).
7. Plate maker's product table (name withheld), https://www.scribd.com/document/471563986: JIS G3101 SS400
   yield 245 up to 16 mm, tensile 400-510; A283 grade C 205, 380-515.
8. JIS G3106-2004, https://ja.scribd.com/doc/53050790: SM490A to C 325 up to 16 mm, 490-610; SM490YA 365,
   490-610.
9. Q235 on a plate seller's page, https://www.steelgalvanized.com: yield 235 MPa up to 16 mm, tensile
   370-500.
10. Data sheet of aluminium 5052 and 6061, https://www.cctprecision.com/materials/aluminum-data-sheet/:
   density 2.68 and 2.7 g/cc, modulus 70.3 and 68.9 GPa; its strengths are typical ones, so the least must
   lie below.
"""

from __future__ import annotations

import pytest

from quoting.shop import MPA_PER_KSI
from quoting.shop.book import starter_text
from quoting.shop.book.read_book import read_book

SHOP = read_book(starter_text(), "shop.toml")


@pytest.mark.parametrize(
    ("key", "least_yield", "tensile"),
    [
        ("A36", 250, 400),  # source 1
        ("A572-50", 345, 450),  # source 1
        ("A588", 345, 485),  # source 1
        ("S235JR", 235, 360),  # source 2
        ("S275JR", 275, 410),  # source 2
        ("S355J2", 355, 470),  # source 2
        ("A516-70", 260, 485),  # source 3
        ("304/304L", 205, 515),  # source 4
        ("P355GH", 355, 510),  # source 5
        ("44W", 300, 450),  # source 6
        ("50W", 350, 450),  # source 6
        ("50A", 350, 480),  # source 6
        ("SS400", 245, 400),  # source 7
        ("A283-C", 205, 380),  # source 7
        ("SM490", 325, 490),  # source 8
        ("SM490YA", 365, 490),  # source 8
        ("Q235B", 235, 370),  # source 9
    ],
)
def test_the_low_end_of_the_band_is_the_least_of_the_specification(
    key: str, least_yield: int, tensile: int
) -> None:
    grade = SHOP.material(key)
    assert (grade.yield_low_mpa, grade.tensile_mpa) == (least_yield, tensile)


@pytest.mark.parametrize(("key", "ksi"), [("A36", 36), ("A572-50", 50), ("A588", 50), ("A516-70", 38)])
def test_the_metric_value_is_the_inch_one_rounded(key: str, ksi: int) -> None:
    assert SHOP.material(key).yield_low_mpa == pytest.approx(ksi * MPA_PER_KSI, abs=2.5)  # sources 1, 3


@pytest.mark.parametrize(
    ("key", "density", "modulus", "typical_yield", "typical_tensile"),
    [("5052-H32", 2680, 70.3, 193, 228), ("6061-T6", 2700, 68.9, 276, 310)],  # source 10
)
def test_aluminium(key: str, density: int, modulus: float, typical_yield: int, typical_tensile: int) -> None:
    grade = SHOP.material(key)
    assert grade.density_kg_m3 == density
    assert grade.elastic_mpa / 1000 == pytest.approx(modulus, abs=0.35)
    assert grade.yield_low_mpa < typical_yield
    assert grade.yield_likely_mpa == pytest.approx(typical_yield, abs=5)
    assert grade.tensile_mpa < typical_tensile
