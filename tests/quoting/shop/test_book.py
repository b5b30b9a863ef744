"""The shop's book: what it says is what is loaded, and everything wrong with it is named at once."""

from __future__ import annotations

import re
from dataclasses import MISSING, fields
from datetime import date, time
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.core import Ends, InputError
from quoting.shop import Band, Cutting, Family, PassRules, Roll, load_shop
from quoting.shop.book import starter_text
from quoting.shop.book.read_book import read_book
from quoting.shop.findings import BookError
from tests.quoting.shop.shop_folder import book_with, shop_with

SECOND_SHIFT = '[[shift]]\ndays = ["Fri", "Sat"]\nstart = 15:00:00\nend = 20:00:00\ncrew = 1\n\n'


def problems(folder: Path, changes: dict[str, str]) -> tuple[str, ...]:
    with pytest.raises(BookError) as caught:
        shop_with(folder, changes)
    return caught.value.problems


def line_of(start: str) -> int:
    """Return the number of the starter book's first line that starts so."""
    lines = book_with({}).splitlines()
    return next(number for number, line in enumerate(lines, start=1) if line.startswith(start))


def test_the_starter_book_is_what_it_says(tmp_path: Path) -> None:
    shop = shop_with(tmp_path)
    roll = shop.rolls[0]
    assert (roll.top_roll_mm, roll.working_length_mm) == (279.4, 3073.4)
    assert roll.surface_speed_mm_min == 15 * 304.8
    assert roll.rated[0].pre_bend
    assert roll.rated[0].yield_mpa == pytest.approx(248.2113, abs=1e-4)
    assert shop.rates.operator_hour == Decimal("42.00")
    assert shop.labour.square == Band(1, 2, 4)
    assert shop.default_ends is Ends.PRE_BEND
    assert shop.working_time.shifts[0].breaks[0] == (time(9, 30), time(9, 45))
    assert shop.working_time.closures[0].first == date(2026, 12, 25)
    assert shop.cutting.cost_per_m == Decimal("1.804462")  # 0.55 / 0.3048
    assert shop.warnings == (f"{tmp_path.name} holds no rack.xlsx: nothing in stock, nothing to buy",)


def test_inch_and_metric_settings_mean_the_same(tmp_path: Path) -> None:
    metric = shop_with(
        tmp_path,
        {
            "top_roll_in = 11.0": "top_roll_mm = 279.4",
            "largest_weight_lb = 8000": "largest_weight_kg = 3628.73896",
            "surface_speed_ft_min = 15.0": "surface_speed_m_min = 4.572",
            "power_hp = 20.0": "power_kw = 14.913997432",
        },
    )
    assert metric.rolls == shop_with(tmp_path).rolls


def test_a_length_in_inches_may_be_a_fraction(tmp_path: Path) -> None:
    shop = shop_with(tmp_path, {"thickness_in = 0.5 ": 'thickness_in = "1/2" '})
    assert shop.rolls[0].rated[0].thickness_mm == 12.7


def test_a_setting_without_unit_is_refused(tmp_path: Path) -> None:
    (told,) = problems(tmp_path, {"working_length_in = 121.0": "working_length = 121.0"})
    line = line_of("working_length_in")
    assert told == (
        f'shop.toml line {line}, [[roll]] "Roll 1 (example)" working_length: does not say its unit - '
        'read "121.0"; '
        "write working_length_mm or working_length_in or working_length_m or working_length_ft"
    )


def test_a_setting_in_two_units_is_refused(tmp_path: Path) -> None:
    (told,) = problems(tmp_path, {"top_roll_in = 11.0": "top_roll_mm = 280\ntop_roll_in = 11.0"})
    assert "is given twice, as top_roll_mm and top_roll_in" in told


def test_a_misspelt_setting_is_refused_with_the_right_one(tmp_path: Path) -> None:
    told = problems(tmp_path, {"scrap_chance = 0.01": "scrap_chanse = 0.01"})
    assert len(told) == 1
    assert told[0].endswith(
        '[labour] scrap_chanse: is not a setting of this table; did you mean "scrap_chance"?'
    )


def test_a_misspelt_table_is_refused_with_the_right_one(tmp_path: Path) -> None:
    (told,) = problems(tmp_path, {"[setups]": "[setup]"})
    assert '[setup]: is not a table of the shop\'s book; did you mean "setups"?' in told


def test_every_problem_is_named_at_once(tmp_path: Path) -> None:
    told = problems(
        tmp_path,
        {
            "top_roll_in = 11.0": "top_roll_in = -11.0",
            "cones = true": 'cones = "yes"',
            "square_min = [1.0, 2.0, 4.0]": "square_min = [4.0, 2.0, 1.0]",
            "margin = 0.28": "margin = 28",
            'start = "07:00"': 'start = "7 am"',
            'machine = ""': 'machine = "Rol 1"',
            'default_ends = "pre-bend"': 'default_ends = "prebend"',
        },
    )
    assert len(told) == 7
    for wanted in (
        'top_roll_in: must be more than 0 - read "-11.0"',
        'cones: must be true or false, without quotation marks - read "yes"',
        'square_min: must rise from low to high, none below 0 - read "[4.0, 2.0, 1.0]"',
        'margin: must be at most 0.95 - read "28"; write 30 per cent as 0.30',
        'start: must be a time of day - read "7 am"; write "07:00"',
        "default_ends: must be one of",
        'did you mean "pre-bend"?',
    ):
        assert any(wanted in one for one in told), wanted


def test_a_closure_must_name_a_roll_of_the_shop(tmp_path: Path) -> None:
    (told,) = problems(tmp_path, {'machine = ""': 'machine = "Rol 1"'})
    assert 'machine: is no roll of this shop - read "Rol 1"; rolls: Roll 1 (example)' in told


def test_a_setting_left_out_is_the_example_and_says_so(tmp_path: Path) -> None:
    line = next(line for line in book_with({}).splitlines() if line.startswith("cleaning_min"))
    shop = shop_with(tmp_path, {line + "\n": ""})
    assert shop.setups.cleaning == 25.0
    assert shop.warnings[0].endswith("[setups] cleaning_min is not given: the example value 25.0 is used")


def test_a_roll_has_no_example_to_fall_back_on(tmp_path: Path) -> None:
    line = next(line for line in book_with({}).splitlines() if line.startswith("top_roll_in"))
    (told,) = problems(tmp_path, {line + "\n": ""})
    where = f'shop.toml line {line_of("[[roll]]")}, [[roll]] "Roll 1 (example)"'
    assert told.startswith(f"{where}: top_roll_mm is missing; add top_roll_mm or top_roll_in")


def test_a_shop_without_rolls_is_refused(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text('[shop]\nname = "Bare"\n', "utf-8")
    with pytest.raises(BookError) as caught:
        load_shop(tmp_path)
    assert caught.value.problems == ("shop.toml: has no [[roll]]; describe at least one roll",)


def test_two_rolls_of_one_name_are_refused(tmp_path: Path) -> None:
    text = book_with({})
    start, end = text.index("[[roll]]\n"), text.index("# ---- Money per hour")
    (tmp_path / "shop.toml").write_text(text[:end] + text[start:end] + text[end:], "utf-8")
    with pytest.raises(BookError, match="two rolls of the same name"):
        load_shop(tmp_path)


def test_a_missing_book_tells_how_to_start_one(tmp_path: Path) -> None:
    with pytest.raises(
        InputError, match=r"the shop's book is missing; name the folder that holds shop\.xlsx or shop\.toml"
    ):
        load_shop(tmp_path / "nowhere")


def test_broken_toml_is_one_clear_message(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_text("[shop\nname = 3", "utf-8")
    with pytest.raises(InputError, match=r"shop\.toml: is not valid TOML - read .*line 1"):
        load_shop(tmp_path)


def test_a_book_that_is_no_text_is_one_clear_message(tmp_path: Path) -> None:
    (tmp_path / "shop.toml").write_bytes(b"\xff\xfe\x00\x01")
    with pytest.raises(InputError, match="is no UTF-8 text"):
        load_shop(tmp_path)


def test_the_shop_changes_a_grade_and_keeps_the_rest(tmp_path: Path) -> None:
    own = '\n[[material]]\nkey = "A36"\nnames = ["plain plate"]\nyield_likely_ksi = 44\nprice_per_kg = 1.5\n'
    (tmp_path / "shop.toml").write_text(book_with({}) + own, "utf-8")
    steel = load_shop(tmp_path).material("A36")
    assert steel.yield_likely_mpa == pytest.approx(303.369, abs=1e-3)
    assert (steel.yield_low_mpa, steel.tensile_mpa) == (250, 400)
    assert steel.names[0] == "plain plate"
    assert "mild steel" in steel.names
    assert steel.price_per_kg == Decimal("1.5")


def test_the_shop_adds_a_grade(tmp_path: Path) -> None:
    own = (
        '\n[[material]]\nkey = "titanium 2"\nfamily = "stainless"\ndensity_lb_in3 = 0.163\n'
        "elastic_gpa = 105\npoisson = 0.37\nyield_low_mpa = 275\nyield_likely_mpa = 320\n"
        "yield_high_mpa = 450\ntensile_mpa = 345\n"
        'least_bend_radius_t = 3\nstrain_flag_percent = 5\ngauge_table = "stainless"\nhardening = 0.1\n'
    )
    (tmp_path / "shop.toml").write_text(book_with({}) + own, "utf-8")
    added = load_shop(tmp_path).material("titanium 2")
    assert added.family is Family.STAINLESS
    assert added.density_kg_m3 == pytest.approx(4511.8, abs=0.1)
    assert added.hardening == 0.1
    assert added.source == "the shop's book"


@pytest.mark.parametrize(
    ("own", "wanted"),
    [
        (
            '[[material]]\nkey = "A36"\nyield_likely_mpa = 900',
            "the yield must not fall from low over likely to high",
        ),
        ('[[material]]\nkey = "X1"\nfamily = "carbon"', "density_kg_m3 is missing"),
        ('[[material]]\nkey = "2205"\nnames = ["A36"]', 'the name "A36" belongs to A36 already'),
        ('[[material]]\nkey = "A36"\n[[material]]\nkey = "A36"', "two [[material]] tables with one key"),
        ('[price_per_kg]\n"A36" = 1.4', "is a second price for A36"),
        ('[price_per_kg]\n"A63" = 1.4', 'is no grade of this shop; did you mean "A36"?'),
    ],
)
def test_a_grade_that_cannot_be_used_is_named(tmp_path: Path, own: str, wanted: str) -> None:
    (tmp_path / "shop.toml").write_text(f"{book_with({})}\n{own}\n", "utf-8")
    with pytest.raises(BookError) as caught:
        load_shop(tmp_path)
    assert any(wanted in told for told in caught.value.problems), caught.value.problems


@pytest.mark.parametrize(
    ("change", "wanted"),
    [
        ({'days = ["Mon",': 'days = ["Xon",'}, "days: must be weekdays"),
        ({'end = "15:30"': 'end = "06:00"'}, "end: must be later than start"),
        ({'"09:30-09:45"': '"05:30-05:45"'}, "breaks: each break must lie inside the shift"),
        ({"first = 2026-12-25": 'first = "25 Dec"'}, "first: must be a date"),
        ({"last = 2026-12-25": "last = 2026-12-20"}, "last: must not be before first"),
        (
            {"break_quantities = [1, 2,": "break_quantities = [2, 1,"},
            "break_quantities: must be rising whole numbers",
        ),
        ({'drop_owner = "shop"': 'drop_owner = "me"'}, "drop_owner: must be one of 'shop', 'customer'"),
        ({"up_to_lb = 30 ": "up_to_lb = 3000 "}, "the [[labour.handling]] tables must rise in weight"),
        (
            {"least_thickness_in = 0.0747": "least_thickness_in = 1"},
            "the least thickness is more than the largest",
        ),
        ({"angle_deg = 30.0": "angle_deg = 95"}, "angle_deg: must be less than 90 degrees"),
        (
            {"width_in = 120.0 ": "width_in = 125.0 "},
            "the rated width is more than the roll's working length",
        ),
        ({"thickness_in = 0.5 ": "thickness_in = 5 "}, "the rated thickness is more than the roll's largest"),
        ({"inside_diameter_in = 36.0 ": "inside_diameter_in = 3.6 "}, "is less than the top roll"),
        ({"floor_margin = 0.12": "floor_margin = 0.30"}, "floor_margin: must not be more than margin"),
        ({"overhead_share = 0.12": "overhead_share = 12"}, "overhead_share: must be at most 3"),
        ({"[[closed]]": SECOND_SHIFT + "[[closed]]"}, "two shifts overlap on one day"),
        ({"crew_two = 2": "crew_two = 2.5"}, "crew_two: must be a whole number, 1 or more"),
        ({"most_passes = 12": "most_passes = 0"}, "most_passes: must be a whole number, 1 or more"),
    ],
)
def test_a_value_that_cannot_be_meant_is_named(tmp_path: Path, change: dict[str, str], wanted: str) -> None:
    assert any(wanted in told for told in problems(tmp_path, change))


SETTINGS = [number for number, line in enumerate(book_with({}).splitlines()) if re.match(r"^\w+ = ", line)]
ODD = st.sampled_from(
    ["-1", "0", "true", '"text"', "[1]", "[]", "{}", "1e400", "nan", "07:00:00", "2026-01-01", "[[1]]"]
)


@pytest.mark.slow
@settings(max_examples=150, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(SETTINGS), st.none() | ODD), min_size=1, max_size=4))
def test_no_setting_whatever_it_holds_ends_in_a_crash(changes: list[tuple[int, str | None]]) -> None:
    lines = book_with({}).splitlines()
    for number, value in changes:
        key = book_with({}).splitlines()[number].split(" = ")[0]
        lines[number] = "" if value is None else f"{key} = {value}"
    told: tuple[str, ...] = ()
    try:
        assert read_book("\n".join(lines), "shop.toml").rolls
    except BookError as error:
        told = error.problems or ("nothing was told",)
    assert all(one.startswith("shop.toml") for one in told)


def test_what_a_roll_may_leave_out_can_be_set(tmp_path: Path) -> None:
    changed = shop_with(
        tmp_path,
        {
            "bearing_span_in = 132.0": "bearing_span_mm = 3300",
            "top_roll_crown_in = 0.0": "top_roll_crown_mm = 0.4",
            "friction = 0.15": "friction = 0.2",
            "readout_zero_in = 0.0": "readout_zero_mm = 5",
            'set_family = "carbon"': 'set_family = "stainless"',
            "cone_split_ratio = 0.4": "cone_split_ratio = 0.5",
        },
    )
    roll = changed.rolls[0]
    assert (roll.bearing_span_mm, roll.top_roll_crown_mm, roll.friction, roll.readout_zero_mm) == (
        3300,
        0.4,
        0.2,
        5,
    )
    assert roll.set_family is Family.STAINLESS
    assert changed.passes.cone_split_ratio == 0.5


def test_a_setting_that_the_model_knows_is_in_the_starter_book() -> None:
    shop = read_book(starter_text(), "shop.toml")
    left_out = [
        f"{kind.__name__}.{field.name}"
        for kind in (Roll, PassRules, Cutting)
        for field in fields(kind)
        if field.default is not MISSING
        and re.sub("_(mm|kw|per_m|per_hour)$", "", field.name) not in starter_text()
    ]
    assert left_out == []
    assert shop.rolls[0].slide is not None


def test_a_price_far_from_the_usual_is_asked_about(tmp_path: Path) -> None:
    def told(changes: dict[str, str]) -> list[str]:
        return [one for one in shop_with(tmp_path, changes).warnings if "price of" in one]

    assert told({}) == []
    assert told({'"A36" = 0.62': '"A36" = 0.85'}) == []
    (odd,) = told({'"A36" = 0.62': '"A36" = 62'})
    assert odd.startswith("shop.toml: the price of A36 is 100 times the usual")
    (per_kg,) = told({'"A36" = 0.62': '"A36" = 1.37'})  # the price of a kilogram
    assert per_kg.endswith(
        "is 2.21 times the usual against the other grades: is it per lb, per kg or per cwt?"
    )
    (carbon,) = told({'"304/304L" = 2.05': '"304/304L" = 0.62'})
    assert "the price of 304/304L is 0.302 times the usual" in carbon
