"""The table of grades, and the names that customers call them."""

from __future__ import annotations

import string
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.core import InputError
from quoting.shop import Family, Material, find_material
from quoting.shop.book import starter_text
from quoting.shop.book.read_book import read_book
from quoting.shop.grades import names_of, plain_name, published_grades, usual_grades
from tests.quoting.shop.shop_folder import shop_with

GRADES = read_book(starter_text(), "shop.toml").materials


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("A36", "A36"),
        ("a-36", "A36"),
        ("ASTM A36 plate", "A36"),
        ("mild steel", "A36"),
        ("SA516-70N", "A516-70"),
        ("SA-516 Gr. 70", "A516-70"),
        ("ASME SA 516 grade 70", "A516-70"),
        ("A572 Gr 50", "A572-50"),
        ("304L", "304/304L"),
        ("304/304L", "304/304L"),
        ("SS 316L", "316/316L"),
        ("EN 1.4301", "1.4301"),
        ("x5crni18-10", "1.4301"),
        ("S355J2+N", "S355J2"),
        ("St 37-2", "S235JR"),
        ("galv", "galvanized"),
        ("5052-h32", "5052-H32"),
        ("AR400F", "AR400"),
        ("HR sheet", "A1011 CS"),
        ("CSA G40.21 44W", "44W"),
        ("p355nl1", "P355NH"),
        ("16MnR", "Q345R"),
        ("Ст3сп5", "Ст3сп"),
        ("09г2с", "09Г2С"),
        ("1.4571", "1.4571"),
        ("JIS G3101 SS400", "SS400"),
    ],
)
def test_a_grade_goes_by_many_names(text: str, key: str) -> None:
    found = find_material(text, GRADES)
    assert found is not None
    assert found.key == key


@pytest.mark.parametrize("text", ["", "A37", "steel", "stainless", "aluminum", "A516-55", "3", "?"])
def test_a_name_that_says_no_grade_is_never_guessed(text: str) -> None:
    assert find_material(text, GRADES) is None


def test_no_name_belongs_to_two_grades() -> None:
    names = [
        plain_name(name) for grade in GRADES for name in {plain_name(n): n for n in (grade.key, *grade.names)}
    ]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("grade", GRADES, ids=lambda grade: grade.key)
def test_the_numbers_of_a_grade_can_be_true(grade: Material) -> None:
    assert 80 <= grade.yield_low_mpa <= grade.yield_likely_mpa <= grade.yield_high_mpa
    assert grade.yield_low_mpa < grade.tensile_mpa < 1500
    stiffness = {
        Family.CARBON: (200e3, 210e3),
        Family.STAINLESS: (193e3, 200e3),
        Family.ALUMINIUM: (69e3, 72e3),
    }
    density = {Family.CARBON: (7850, 7850), Family.STAINLESS: (7700, 8000), Family.ALUMINIUM: (2650, 2720)}
    if grade.key.startswith(("N0", "N1")):  # nickel alloys, handled like stainless
        stiffness[grade.family], density[grade.family] = (179e3, 220e3), (7900, 9300)
    for value, (low, high) in (
        (grade.elastic_mpa, stiffness[grade.family]),
        (grade.density_kg_m3, density[grade.family]),
    ):
        assert low <= value <= high
    assert 0.28 <= grade.poisson <= 0.33
    assert grade.price_per_kg > 0 or grade.key not in usual_grades()


def test_every_grade_names_its_source_or_says_from_memory() -> None:
    for key, row in published_grades().items():
        assert any(
            word in row["source"]
            for word in ("from memory", "tabulated in", "as on", "as in", "table", "scribd.com")
        ), key


def test_galvanized_and_stainless_have_their_own_gauges() -> None:
    tables = {grade.key: grade.gauge_table for grade in GRADES}
    assert (tables["A36"], tables["galvanized"], tables["304/304L"], tables["5052-H32"]) == (
        "steel",
        "galvanized",
        "stainless",
        "aluminium",
    )


@given(st.sampled_from([name for grade in GRADES for name in (grade.key, *grade.names)]), st.data())
def test_case_spaces_and_hyphens_do_not_matter(name: str, data: st.DataObject) -> None:
    noise = data.draw(st.lists(st.sampled_from([" ", "-", "  "]), min_size=2, max_size=2))
    written = noise[0] + name.swapcase() + noise[1]
    first, second = find_material(name, GRADES), find_material(written, GRADES)
    assert first is second is not None


@given(st.text(alphabet=string.printable, max_size=20))
def test_plain_names_are_stable(text: str) -> None:
    plain = plain_name(text)
    assert all(sign.isalnum() and sign == sign.upper() for sign in plain)


NAMES = names_of(GRADES)
WRITTEN = ("{}", "{} HR", "HR plate {}", "ASTM {}", "{} hot rolled", "steel plate {}", "EN {}", "mat. {}")


@pytest.mark.parametrize("written", WRITTEN)
@pytest.mark.parametrize("grade", GRADES, ids=lambda grade: grade.key)
def test_the_order_sheet_the_rack_and_the_price_table_read_one_name_alike(
    grade: Material, written: str
) -> None:
    for name in (grade.key, *grade.names):
        said = written.format(name)
        sheet, own = NAMES.find(said), find_material(said, GRADES)
        if sheet.rest:
            assert own is None, said
        elif len(sheet.keys) == 1:
            assert own is not None, said
            assert own.key == sheet.keys[0]


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("A36 HR", "A36"),
        ("A572 Gr.50", "A572-50"),
        ("A572 GR50", "A572-50"),
        ("TP304L", "304/304L"),
        ("Type.316", "316/316L"),
    ],
)
def test_what_one_of_them_dropped_is_read_by_all(tmp_path: Path, text: str, key: str) -> None:
    assert names_of(GRADES).find(text).keys == (key,)
    row = f"P,{text},0.25,60,120,mill,1,99,plate,,\n"
    assert [plate.material for plate in shop_with(tmp_path, rack=row).stock] == [key]


def test_a_price_may_stand_under_any_name_of_its_grade(tmp_path: Path) -> None:
    usual = shop_with(tmp_path)
    stands = next(line for line in starter_text().splitlines() if line.startswith('"A36" ='))
    other = shop_with(tmp_path, {stands: stands.replace('"A36" =', '"ASTM A36 HR" =')})
    assert other.material("A36").price_per_kg == usual.material("A36").price_per_kg
    with pytest.raises(InputError, match="is a second price for A36"):
        shop_with(tmp_path, {stands: stands + "\n" + stands.replace('"A36" =', '"SA-36" =')})
