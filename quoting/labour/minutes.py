"""Roll minutes of a batch: the first piece, the average repeat and the total, low / likely / high."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from quoting.labour.learning import unit_factor, unit_total
from quoting.labour.steps import HandlingTask, Step, chance_step, piece_steps, re_round_step, trial_step
from quoting.shop import Band, LabourSteps

NONE = Band(0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class RollMinutes:
    """Minutes on the roll without set-up, which depends on what ran before.

    `first` is the sum of `steps`; `repeat` is the average of the others (with a quantity of one: what a
    second would take); `total` is the whole batch. `re_round` is the part of each piece that only starts once
    its seam is welded (zero without); it is inside the three others. `repeat_hand` and `repeat_rest` are the
    hand part of a repeat before learning and what no practice shortens, from which any quantity follows.
    """

    quantity: int
    first: Band
    repeat: Band
    total: Band
    steps: tuple[Step, ...]
    re_round: Band
    repeat_hand: Band
    repeat_rest: Band


def roll_minutes(task: HandlingTask, steps: LabourSteps) -> RollMinutes:
    """Return the minutes of `task.quantity` pieces, from the shop's own minutes for each step.

    First piece: a check after every pass but the first, and trial passes where springback is uncertain.
    Repeats: the settings are known, so one check; their hand part (squaring, adjusting, checking, tacking,
    deburring) follows a learning curve in unit form down to the shop's floor piece; roll travel, pre-bending
    and lifting do not. The high figure of the first piece counts one re-roll if the shop has any; of the
    repeats the shop's chance of one; both the chance of scrap.
    """
    first_work = piece_steps(task, steps, passes=task.passes, checks=max(1, task.passes - 1))
    trial = trial_step(task, steps)
    first_work = (*first_work, *((trial,) if trial else ()))
    repeat_work = piece_steps(task, steps, passes=task.passes_repeat or task.passes, checks=1)
    re_round = re_round_step(task, steps)
    after = (re_round,) if re_round else ()
    first_sum = _total(step.band for step in first_work)
    chance = chance_step(task, steps, first_sum, re_rolls=1.0 if steps.re_roll_chance > 0 else 0.0)
    shown = (*first_work, *after, chance)
    repeats = (*repeat_work, *after)
    alone = RollMinutes(
        quantity=1,
        first=_total(step.band for step in shown),
        repeat=NONE,
        total=NONE,
        steps=shown,
        re_round=re_round.band if re_round else NONE,
        repeat_hand=_total(step.band for step in repeats if step.hand),
        repeat_rest=_total(step.band for step in repeats if not step.hand),
    )
    return minutes_at(alone, task, steps, task.quantity)


def minutes_at(known: RollMinutes, task: HandlingTask, steps: LabourSteps, quantity: int) -> RollMinutes:
    """Return the minutes of another quantity of the same task; the steps of a piece stay what they are."""
    learned = average_repeat_factor(quantity, steps.learning_rate, steps.learning_floor_piece)
    piece = known.repeat_hand.times(learned) + known.repeat_rest
    repeat = piece + chance_step(task, steps, piece, re_rolls=steps.re_roll_chance).band
    return replace(known, quantity=quantity, repeat=repeat, total=known.first + repeat.times(quantity - 1))


def average_repeat_factor(quantity: int, rate: float, floor_piece: int) -> float:
    """Return the average of pieces 2 to `quantity` over the first, unit form; of the second for one piece.

    >>> round(average_repeat_factor(10, 0.9, 10), 4)  # (7.994 - 1) / 9
    0.7772
    """
    if quantity == 1:
        return unit_factor(2, rate, floor_piece)
    return (unit_total(quantity, rate, floor_piece) - 1) / (quantity - 1)


def _total(bands: Iterable[Band]) -> Band:
    low = likely = high = 0.0
    for band in bands:
        low += band.low
        likely += band.likely
        high += band.high
    return Band(low, likely, high)


def _minus(whole: Band, part: Band) -> Band:
    return Band(
        max(0.0, whole.low - part.low),
        max(0.0, whole.likely - part.likely),
        max(0.0, whole.high - part.high),
    )
