"""A job in the words of the floor: plate, blank, pinch gap, bending-roll positions, lift, cautions."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from quoting.core import MM_PER_INCH, format_length, format_stock, format_weight
from quoting.record import PassesRecord, StepRecord
from scheduler.jobs import RE_ROUND, WonLine
from scheduler.week import PlannedOperation


def dial(mm: float | None, *, inch: bool) -> str:
    """Return a position as it is dialled: thousandths of an inch or tenths of a millimetre.

    >>> dial(79.25, inch=True), dial(79.25, inch=False)
    ('3.120', '79.2')
    """
    if mm is None:
        return "?"
    return f"{mm / MM_PER_INCH:.3f}" if inch else f"{mm:.1f}"


def job_words(slot: PlannedOperation, line: WonLine) -> str:
    """Return who it is for and what is made, in two or three lines."""
    what = f"{line.quantity} × {line.part}"
    if slot.work.kind == RE_ROUND:
        what = f"RE-ROUND after welding: {what}"
    number = f", line {line.number}" if line.number and line.number != line.id else ""
    return f"{line.customer}{number}\n{what}"


def plate_words(line: WonLine, *, inch: bool) -> str:
    """Return thickness and material.

    A thickness is shown as the shop reads it, `1/4" A36`.
    """
    return f"{format_stock(line.thickness_mm, inch=inch)} {line.material}"


def blank_words(line: WonLine, *, inch: bool) -> str:
    """Return the flat blank, width across the roll first, and how many there are."""
    size = f"{format_length(line.width_mm, inch=inch)} wide"
    pieces = line.quantity
    if blank := line.blank:
        pieces *= blank.pieces
        length = format_length(blank.length_mm, inch=inch)
        size = f"{format_length(line.width_mm, inch=inch, mark=inch)} × {length}"
        if sector := blank.sector:
            outer, inner = (
                format_length(radius, inch=inch)
                for radius in (sector.outer_radius_mm, sector.inner_radius_mm)
            )
            size = f"sector R {outer} / {inner}, {sector.angle_deg:.1f}°"
    words = [size, f"{pieces} blank{'s' if pieces > 1 else ''}"]
    kinds = len(line.choices[0].settings)
    if kinds > 1:
        words.append(f"{kinds} kinds, first shown")
    return "\n".join(words)


def gap_words(slot: PlannedOperation, line: WonLine, *, inch: bool) -> str:
    """Return the pinch gap to dial; with several kinds of blank each that differs."""
    gaps = [dial(setting.pinch_gap_mm, inch=inch) for setting in line.settings_on(slot.machine)]
    return "\n".join(dict.fromkeys(gaps))


def passes_words(slot: PlannedOperation, line: WonLine, *, inch: bool) -> str:
    """Return what the bending roll's display shall show in every pass, in order, and what to mind."""
    settings = line.settings_on(slot.machine)
    if not settings:
        return "No positions in the record: find them by trial, start bigger"
    if slot.work.kind == RE_ROUND:
        return _re_rolls(settings, inch=inch)
    told = {setting.blank: _steps(setting, inch=inch) for setting in settings}
    if len(set(told.values())) == 1:
        return next(iter(told.values()))
    return "\n".join(f"{blank}:\n{words}" for blank, words in told.items())


def lift_words(line: WonLine, *, inch: bool) -> str:
    """Return the heaviest blank's weight, how it is lifted and by how many."""
    people = f"{line.crew} {'people' if line.crew > 1 else 'person'}"
    lift = line.lift if line.lift == "two people" else f"{line.lift}, {people}"
    return f"{format_weight(line.weight_kg, inch=inch)}\n{lift}"


def _re_rolls(settings: Sequence[PassesRecord], *, inch: bool) -> str:
    runs = [step for setting in settings for step in setting.steps if step.re_roll]
    told = dict.fromkeys(f"Re-roll {step.end_leading}: {_position(step, inch=inch)}" for step in runs)
    return "\n".join(told)


def _steps(setting: PassesRecord, *, inch: bool) -> str:
    steps = setting.steps
    bends = [step for step in steps if step.pre_bend]
    passes = [step for step in steps if not step.pre_bend and not step.re_roll]
    words = [f"Pre-bend {step.end_leading}: {_position(step, inch=inch)}" for step in bends]
    words += [f"Pass {number}: {_position(step, inch=inch)}" for number, step in enumerate(passes, 1)]
    if setting.tilt_mm_per_m is not None:
        words.append(f"Tilt {_tilt(setting.tilt_mm_per_m, inch=inch)}, small edge closer")
    if setting.stop_before_tail_mm and passes:
        words.append(f"Stop {format_tail(setting.stop_before_tail_mm, inch=inch)} to tail")
    return "\n".join(words)


def _tilt(mm_per_m: float, *, inch: bool) -> str:
    """Return the tilt of the bending roll over a foot or a metre of its length."""
    return f"{mm_per_m * 12 / 1000:.3f} in a foot" if inch else f"{mm_per_m:.1f} mm a metre"


def format_tail(mm: float, *, inch: bool) -> str:
    """Return a length that is judged by eye: to an eighth of an inch or a millimetre, rounded up.

    >>> format_tail(25.0, inch=True), format_tail(25.2, inch=False)
    ('1"', '26 mm')
    """
    if inch:
        return format_length(ceil(mm / MM_PER_INCH * 8 - 1e-9) / 8 * MM_PER_INCH, inch=True)
    return f"{ceil(mm - 1e-9)} mm"


def _position(step: StepRecord, *, inch: bool) -> str:
    if step.readout_mm is None:
        radius = format_length(step.loaded_radius_mm, inch=inch)
        return f"by trial to R {radius}"
    return dial(step.readout_mm, inch=inch)
