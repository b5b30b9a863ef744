"""Roll minutes of a batch: every step, the repeats, and what may go wrong."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.blanks import Blank, HowCut, develop
from quoting.core import Basis, Cone, Cylinder, Ends, RangeError
from quoting.labour import HandlingTask, Lift, PieceSize, Step, choose_lift, minutes_at, roll_minutes
from quoting.labour.learning import unit_total
from quoting.labour.minutes import average_repeat_factor
from quoting.labour.steps import CHANCE, RE_ROUND, weight_band
from quoting.shop import Band
from tests.quoting.labour.shop_settings import LABOUR, LIFT_RULES

SPEED = 4500.0


def shell(diameter: float = 1200, length: float = 1500, thickness: float = 10) -> Blank:
    shape = Cylinder(diameter, Basis.INSIDE, length)
    return develop(shape, thickness, 7850, ends=Ends.PRE_BEND).blanks[0]


def lift_of(blank: Blank) -> Lift:
    return choose_lift(blank.weight_kg, blank.thickness_mm, PieceSize.of(blank), LIFT_RULES)


def task_of(blank: Blank, quantity: int = 1, passes: int = 3, *, pre_bend: bool = True) -> HandlingTask:
    return HandlingTask(blank, quantity, passes, pre_bend, lift_of(blank), SPEED)


blanks = st.builds(shell, st.floats(300, 3000), st.floats(100, 3000), st.floats(1, 30))
tasks = st.builds(
    lambda blank, quantity, passes, pre_bend, re_rolls, tack: replace(
        task_of(blank, quantity, passes, pre_bend=pre_bend), re_rolls=re_rolls, tack=tack
    ),
    blanks,
    st.integers(1, 60),
    st.integers(1, 10),
    st.booleans(),
    st.integers(0, 3),
    st.booleans(),
)


def step(steps: tuple[Step, ...], name: str) -> Step:
    (found,) = (step for step in steps if step.name == name)
    return found


def no_greater(less: Band, more: Band) -> bool:
    slack = 1 + 1e-9
    return (
        less.low <= more.low * slack and less.likely <= more.likely * slack and less.high <= more.high * slack
    )


@given(tasks)
def test_low_likely_high_keep_their_order(task: HandlingTask) -> None:
    minutes = roll_minutes(task, LABOUR)
    for band in (minutes.first, minutes.repeat, minutes.total, minutes.re_round):
        assert 0 <= band.low <= band.likely <= band.high


@given(tasks)
def test_the_first_piece_is_the_sum_of_the_steps_shown(task: HandlingTask) -> None:
    minutes = roll_minutes(task, LABOUR)
    assert minutes.first.likely == pytest.approx(sum(step.band.likely for step in minutes.steps))
    assert minutes.first.high == pytest.approx(sum(step.band.high for step in minutes.steps))
    assert minutes.total.likely == pytest.approx(
        minutes.first.likely + (task.quantity - 1) * minutes.repeat.likely
    )


@given(tasks, st.integers(1, 30))
def test_more_pieces_take_longer_and_each_costs_less(task: HandlingTask, more: int) -> None:
    fewer = roll_minutes(task, LABOUR)
    longer = roll_minutes(replace(task, quantity=task.quantity + more), LABOUR)
    assert longer.total.likely > fewer.total.likely
    assert no_greater(fewer.total, longer.total)
    assert no_greater(longer.repeat, fewer.repeat)


@given(tasks, st.integers(1, 5))
def test_more_passes_never_take_less_time(task: HandlingTask, more: int) -> None:
    longer = replace(task, passes=task.passes + more)
    assert no_greater(roll_minutes(task, LABOUR).total, roll_minutes(longer, LABOUR).total)


@given(tasks, st.floats(1, 20))
def test_a_heavier_piece_never_takes_less_time(task: HandlingTask, times: float) -> None:
    heavier = replace(task.blank, weight_kg=task.blank.weight_kg * times)
    heavy = replace(task, blank=heavier)
    assert no_greater(roll_minutes(task, LABOUR).total, roll_minutes(heavy, LABOUR).total)


@given(tasks)
def test_repeats_are_never_slower_than_the_first(task: HandlingTask) -> None:
    minutes = roll_minutes(task, LABOUR)
    assert no_greater(minutes.repeat, minutes.first)


def test_pre_bending_squares_twice_and_turns_the_plate_end_for_end() -> None:
    blank = shell()
    with_bend = roll_minutes(task_of(blank), LABOUR)
    without = roll_minutes(task_of(blank, pre_bend=False), LABOUR)
    turn = weight_band(blank.weight_kg, LABOUR).turn
    assert step(with_bend.steps, "square to the pinch").band == LABOUR.square.times(2)
    assert step(without.steps, "square to the pinch").band == LABOUR.square
    assert step(with_bend.steps, "turn end for end").band == turn
    extra = LABOUR.square.likely + 2 * LABOUR.pre_bend.likely + turn.likely
    assert with_bend.first.likely - without.first.likely == pytest.approx(extra)


def test_passes_travel_the_whole_blank_at_roll_speed() -> None:
    plan = develop(Cylinder(1200, Basis.INSIDE, 1500), 10, 7850, ends=Ends.TRIM, how=HowCut(trim_mm=75))
    task = task_of(plan.blanks[0], passes=4, pre_bend=False)
    travel = 4 * (plan.blanks[0].girth_mm + 150) / SPEED
    assert step(roll_minutes(task, LABOUR).steps, "passes").band.likely == pytest.approx(travel)


def test_a_batch_by_hand() -> None:
    # Ten shells, worked out by hand from the example settings.
    blank = shell()
    band, minutes = weight_band(blank.weight_kg, LABOUR), roll_minutes(task_of(blank, 10, 3), LABOUR)
    travel = 3 * blank.girth_mm / SPEED
    lifting = band.load.likely + band.turn.likely + band.unload.likely
    machine = lifting + 2 * 2.5 + travel
    first = machine + 2 * 2 + 3 * 0.5 + 2 * 1 + 2
    hand_repeat = 2 * 2 + 3 * 0.5 + 1 * 1 + 2
    learned = (unit_total(10, 0.95, 8) - 1) / 9
    assert minutes.first.likely == pytest.approx(first)
    assert minutes.repeat.likely == pytest.approx(machine + hand_repeat * learned)
    assert minutes.total.likely == pytest.approx(first + 9 * (machine + hand_repeat * learned))


def test_learning_touches_the_hand_part_only() -> None:
    task = task_of(shell(), 30)
    flat = roll_minutes(task, replace(LABOUR, learning_rate=1.0))
    steep = roll_minutes(task, replace(LABOUR, learning_rate=0.8))
    machine = sum(step.band.likely for step in flat.steps if not step.hand)
    assert flat.first == steep.first
    assert machine < steep.repeat.likely < flat.repeat.likely


def test_one_piece_has_no_learning_and_shows_what_a_second_would_take() -> None:
    minutes = roll_minutes(task_of(shell(), 1), LABOUR)
    assert minutes.total == minutes.first
    assert average_repeat_factor(1, 0.95, 8) == pytest.approx(0.95)
    assert minutes.repeat.likely < minutes.first.likely


def test_chances_only_enter_the_high_figure() -> None:
    task = task_of(shell(), 5)
    sure = roll_minutes(task, replace(LABOUR, scrap_chance=0.0, re_roll_chance=0.0))
    risky = roll_minutes(task, LABOUR)
    assert (sure.total.low, sure.total.likely) == (risky.total.low, risky.total.likely)
    assert risky.first.high > sure.first.high
    assert risky.repeat.high > sure.repeat.high
    again = task.travel_minutes + LABOUR.adjust_per_pass.high + LABOUR.check.high
    scrap = LABOUR.scrap_chance * sure.first.high
    assert step(risky.steps, CHANCE).band.high == pytest.approx(again + scrap)


def test_cones_take_longer_at_the_rolls_and_not_on_the_crane() -> None:
    (blank,) = develop(Cone(1500, 900, Basis.INSIDE, 700), 10, 7850, ends=Ends.PRE_BEND).blanks
    steps = roll_minutes(task_of(blank), LABOUR).steps
    assert step(steps, "pre-bend both ends").band == LABOUR.pre_bend.times(2 * 1.8)
    assert step(steps, "load").band == weight_band(blank.weight_kg, LABOUR).load
    assert "cone x 1.8" in step(steps, "adjust").why


def test_re_rounding_is_a_second_handling_that_can_be_taken_apart() -> None:
    blank = shell()
    again = roll_minutes(replace(task_of(blank, 4), re_rolls=2), LABOUR)
    band = weight_band(blank.weight_kg, LABOUR)
    expected = band.load.likely + band.unload.likely + 7 + 2 * blank.girth_mm / SPEED
    assert step(again.steps, RE_ROUND).band.likely == pytest.approx(expected)
    assert again.re_round.likely == pytest.approx(expected)


def test_fewer_passes_on_repeats_once_the_setting_is_known() -> None:
    task = task_of(shell(), 10, 6)
    assert (
        roll_minutes(replace(task, passes_repeat=2), LABOUR).repeat.likely
        < roll_minutes(task, LABOUR).repeat.likely
    )


def test_heavier_than_the_last_weight_band_uses_the_last() -> None:
    assert weight_band(99999, LABOUR) is LABOUR.weight_bands[-1]
    with pytest.raises(RangeError, match="labour weight bands = 0"):
        weight_band(10, replace(LABOUR, weight_bands=()))


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"quantity": 0}, "quantity = 0 is out of range"),
        ({"passes": 0}, "passes = 0 is out of range"),
        ({"passes_repeat": 0}, "passes of a repeat = 0"),
        ({"re_rolls": -1}, "re-rolls = -1"),
    ],
)
def test_impossible_tasks_name_the_value(changes: dict[str, int], message: str) -> None:
    with pytest.raises(RangeError, match=message):
        replace(task_of(shell()), **changes)  # type: ignore[arg-type]


@given(st.integers(1, 40), st.integers(1, 40))
def test_another_quantity_follows_from_the_minutes_of_one(first: int, second: int) -> None:
    known = roll_minutes(task_of(shell(), first), LABOUR)
    other = task_of(shell(), second)
    assert minutes_at(known, other, LABOUR, second) == roll_minutes(other, LABOUR)
