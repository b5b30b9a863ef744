"""The handling steps of one piece on the roll, each with its minutes and the reason for them."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, isinf

from quoting.blanks import Blank
from quoting.core import RangeError
from quoting.labour.lifting import Lift, weight_words
from quoting.shop import Band, LabourSteps, PassRules, WeightBand


@dataclass(frozen=True, slots=True)
class HandlingTask:
    """What is rolled and how: `quantity` pieces of one blank on one roll.

    `passes` are those of the first piece, `passes_repeat` of the others (None: the same). `re_rolls` are the
    passes of the re-rounding after the long seam is welded, 0 when it is not re-rounded. `tack` says whether
    the seam is tacked in the rolls. `trials` are passes that find the diameter of
    the first piece, where plate of the grade springs back too differently. The roll's surface speed is in mm
    a minute. `inch` is the system that weights are said in, None for both.
    """

    blank: Blank
    quantity: int
    passes: int
    pre_bend: bool
    lift: Lift
    roll_speed_mm_min: float
    passes_repeat: int | None = None
    re_rolls: int = 0
    tack: bool = False
    trials: int = 0
    inch: bool | None = None

    def __post_init__(self) -> None:
        for name in ("quantity", "passes", "roll_speed_mm_min"):
            if not getattr(self, name) > 0:
                raise RangeError(name.replace("_", " "), getattr(self, name), "more than 0")
        if self.passes_repeat is not None and self.passes_repeat < 1:
            raise RangeError("passes of a repeat", self.passes_repeat, "1 or more")
        if self.re_rolls < 0:
            raise RangeError("re-rolls", self.re_rolls, "0 or more")

    @property
    def travel_minutes(self) -> float:
        """Return the minutes of one pass: the blank's whole length past the rolls at surface speed."""
        return self.blank.flat_length_mm / self.roll_speed_mm_min


@dataclass(frozen=True, slots=True)
class Step:
    """One step: its minutes, why, and whether it is hand work (which gets quicker with practice)."""

    name: str
    band: Band
    why: str
    hand: bool = False


RE_ROUND = "re-round after welding"
TRIAL = "trial and correction"
CHANCE = "chance of a re-roll or scrap"


def piece_steps(task: HandlingTask, steps: LabourSteps, *, passes: int, checks: int) -> tuple[Step, ...]:
    """Return the steps of one piece up to setting it down, in working order, minutes as low / likely / high.

    A pre-bend on an initial-pinch roll means squaring, bending, turning end for end, squaring again and
    bending the other end. The cone factor multiplies everything done at the rolls, not the lifting. Without
    re-rounding and chances: see `re_round_step` and `chance_step`.
    """
    factor = steps.cone_factor if task.blank.cone else 1.0
    cone = f", cone x {factor:g}" if task.blank.cone else ""
    weight = weight_band(task.blank.weight_kg, steps)
    ends = 2 if task.pre_bend else 1
    squaring = "twice, once for each end" if task.pre_bend else "once"
    travel = passes * task.travel_minutes * factor
    found = [
        Step("load", weight.load, f"{weight_words(task.blank.weight_kg, task.inch)}, {task.lift.method}"),
        Step("square to the pinch", steps.square.times(ends * factor), f"{squaring}{cone}", hand=True),
    ]
    if task.pre_bend:
        found += [
            Step("pre-bend both ends", steps.pre_bend.times(2 * factor), f"2 ends{cone}"),
            Step("turn end for end", weight.turn, "an initial-pinch roll pre-bends one end at a time"),
        ]
    found += [
        Step("passes", Band(travel, travel, travel), f"{passes} x {task.travel_minutes:.2f} min{cone}"),
        Step("adjust", steps.adjust_per_pass.times(passes * factor), f"{passes} passes{cone}", hand=True),
        Step("check", steps.check.times(checks * factor), f"template or tape, {checks} x{cone}", hand=True),
    ]
    if task.tack:
        found.append(Step("tack", steps.tack, "seam tacked in the rolls", hand=True))
    found += [
        Step("unload", weight.unload, f"{task.lift.method}"),
        Step("deburr and mark", steps.deburr_and_mark, "each piece", hand=True),
    ]
    return tuple(found)


def trial_passes(spread: float, rules: PassRules) -> int:
    """Return the trial passes for a diameter that may come out over this share of itself.

    One for each `spread_per_trial`, none up to `spread_flag`, never more than the shop's most.
    """
    if spread <= rules.spread_flag:
        return 0
    return (
        rules.most_trials if isinf(spread) else min(rules.most_trials, ceil(spread / rules.spread_per_trial))
    )


def trial_step(task: HandlingTask, steps: LabourSteps) -> Step | None:
    """Return the trial passes of the first piece with adjusting and checking, None without any."""
    if task.trials == 0:
        return None
    factor = steps.cone_factor if task.blank.cone else 1.0
    travel = task.travel_minutes
    one = Band(travel, travel, travel) + steps.adjust_per_pass + steps.check
    why = f"{task.trials} x: springback of the grade varies too much to trust one setting"
    return Step(TRIAL, one.times(task.trials * factor), why, hand=True)


def re_round_step(task: HandlingTask, steps: LabourSteps) -> Step | None:
    """Return the second handling after the seam is welded, or None: load, true up, passes, unload."""
    if task.re_rolls == 0:
        return None
    weight = weight_band(task.blank.weight_kg, steps)
    travel = task.re_rolls * task.travel_minutes
    band = weight.load + steps.re_round + Band(travel, travel, travel) + weight.unload
    return Step(RE_ROUND, band, f"loaded again, {task.re_rolls} passes, unloaded")


def chance_step(task: HandlingTask, steps: LabourSteps, piece: Band, *, re_rolls: float) -> Step:
    """Return what may go wrong with one piece; it only enters the high figure.

    `re_rolls` more passes with adjusting and checking, and the scrap chance times the piece's own minutes.
    """
    factor = steps.cone_factor if task.blank.cone else 1.0
    again = (task.travel_minutes + steps.adjust_per_pass.high + steps.check.high) * factor
    high = re_rolls * again + steps.scrap_chance * piece.high
    return Step(CHANCE, Band(0.0, 0.0, high), f"{re_rolls:g} re-roll, {steps.scrap_chance:.0%} scrap")


def weight_band(weight_kg: float, steps: LabourSteps) -> WeightBand:
    """Return the shop's handling minutes for this weight; above the last band the last one counts."""
    for band in steps.weight_bands:
        if weight_kg <= band.up_to_kg:
            return band
    if not steps.weight_bands:
        raise RangeError("labour weight bands", 0, "at least one")
    return steps.weight_bands[-1]
