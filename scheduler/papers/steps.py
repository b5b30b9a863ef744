"""The passes of one job as rows: which end leads, what the display shows, which radius in and out of the
rolls."""

from __future__ import annotations

from dataclasses import dataclass

from quoting.record import PassesRecord, StepRecord
from scheduler.books import dial, format_tail
from scheduler.jobs import WonLine
from scheduler.papers.sizes import Sizes

TRIAL = "by trial"


@dataclass(frozen=True, slots=True)
class RollStep:
    """One run through the rolls. `loaded` and `free` are inside radii; `last` is the pass that finishes."""

    name: str
    leads: str
    shows: str
    loaded: str
    free: str
    last: bool
    record: StepRecord


def steps_of(
    line: WonLine, setting: PassesRecord | None, sizes: Sizes, *, re_round: bool
) -> tuple[RollStep, ...]:
    """Return the rows of a job's passes: those before welding, or the re-rolls after it."""
    steps = [step for step in (setting.steps if setting else ()) if step.re_roll == re_round]
    rows = []
    passes = 0
    for index, step in enumerate(steps):
        passes += not step.pre_bend
        name = "Re-roll" if re_round else "Pre-bend" if step.pre_bend else "Pass"
        if name != "Pre-bend":
            name = f"{name} {passes}"
        half = line.thickness_mm / 2
        readout = step.readout_mm
        rows.append(
            RollStep(
                name=name,
                leads=step.end_leading,
                shows=TRIAL if readout is None else dial(readout, inch=sizes.inch),
                loaded=sizes.near(step.loaded_radius_mm - half),
                free=sizes.near(step.final_radius_mm - half),
                last=index == len(steps) - 1,
                record=step,
            )
        )
    return tuple(rows)


def stop_words(setting: PassesRecord | None, sizes: Sizes, *, re_round: bool) -> tuple[tuple[str, str], ...]:
    """Return where a pass stops, and what stays straight at both ends."""
    if setting is None or re_round:
        return ()
    lead, tail = setting.flat_lead_mm, setting.flat_tail_mm
    rows = [("Stop before the tail", format_tail(setting.stop_before_tail_mm, inch=sizes.inch))]
    flats = ["?" if flat is None else format_tail(flat, inch=sizes.inch) for flat in (lead, tail)]
    same = flats[0] == flats[1]
    rows.append(("Flat at the ends", f"{flats[0]} each" if same else f"{flats[0]} lead, {flats[1]} tail"))
    return tuple(rows)


def tilt_words(setting: PassesRecord | None, sizes: Sizes) -> tuple[tuple[str, str], ...]:
    """Return the tilt of the bending roll for a cone."""
    tilt = setting.tilt_mm_per_m if setting else None
    if tilt is None:
        return ()
    words = f"{tilt * 12 / 1000:.3f} in a foot" if sizes.inch else f"{tilt:.1f} mm a metre"
    return (("Tilt, small edge closer", words), ("Cone stop", "at the small edge"))
