"""Learning the machine from the shop's own rolled pieces: yield strength by material and the readout's
offset.

For each recorded roll the model says at which readout it should have come out; the difference to the
readout that was used is explained by one offset for the machine and one yield strength a material. The fit
is a damped Gauss-Newton iteration with Tukey's biweight, so that one bad reading has no say; the
uncertainties are the square roots of the diagonal of s^2 (J' W J)^-1. Nothing is changed here: the result
is a proposal.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from math import ceil, isfinite

import numpy as np

from quoting.core import RangeError
from quoting.forming.learning.readout_model import (
    LEAST_READINGS_FOR_YIELD,
    ReadoutModel,
    RecordedRoll,
    robust_fit,
)
from quoting.forming.machine import nip_of
from quoting.forming.range_checks import Floats
from quoting.shop import Roll

LEAST_FREEDOM = 3
"""Readings more than unknowns, before the scatter of readings means anything; common practice, no source."""

SURE_SHARE = 0.15
"""A yield whose standard error is more than this share of it is not proposed."""


class Fit(StrEnum):
    """What was fitted."""

    OFFSET = "readout offset only"
    OFFSET_AND_YIELD = "readout offset and yield strength"


@dataclass(frozen=True, slots=True)
class FittedValue:
    """A fitted value with its standard error and the number of readings it rests on."""

    value: float
    error: float
    readings: int


@dataclass(frozen=True, slots=True)
class ReadingError:
    """What the model said for one record before and after the fit: error of the diameter in percent.

    `weight` is 0 for a reading that was set aside and 1 for one that counts in full. NaN: no radius for the
    readout.
    """

    record: RecordedRoll
    before_percent: float
    after_percent: float
    weight: float


@dataclass(frozen=True, slots=True)
class Calibration:
    """The proposal: new `readout_zero_mm` and yields by material key, with errors before and after.

    `before_percent` and `after_percent` are the medians of the absolute error of the diameter over the
    readings that count. `notes` say what could not be told apart.
    """

    fit: Fit
    readout_zero_mm: FittedValue
    yields_mpa: dict[str, FittedValue]
    before_percent: float
    after_percent: float
    readings: tuple[ReadingError, ...]
    notes: tuple[str, ...]

    @property
    def more_readings(self) -> int:
        """Return how many more readings it takes before anything can be said of the readout's zero, 0: none.

        Three more than there are unknowns must count; with fewer there is no telling how sure a value is.
        """
        lacking = 1 + len(self.yields_mpa) + LEAST_FREEDOM - self.readout_zero_mm.readings
        return max(0 if isfinite(self.readout_zero_mm.error) else 1, lacking)

    def more_for(self, material: str) -> int:
        """Return how many more readings of a material it takes to tell its yield to 15 %, 0: none.

        The error falls with the root of the readings; where it is not known yet, as `more_readings`.
        """
        value = self.yields_mpa[material]
        if not isfinite(value.error):
            return max(1, self.more_readings)
        share = value.error / (SURE_SHARE * value.value)
        return max(0, ceil(value.readings * (share * share - 1))) if share > 1 else 0


def calibrate(records: Sequence[RecordedRoll], roll: Roll, flat_after_pre_bend_t: float) -> Calibration:
    """Return the readout zero and the yields that fit the recorded rolls best.

    A material's yield is fitted when at least three of its records have no certificate, and kept between
    half its band's low and its tensile strength. Raises RangeError without records or without slide
    geometry.
    """
    nip = nip_of(roll)
    if nip is None:
        raise RangeError(
            f"roll {roll.name}: slide geometry", "missing", "measure the slide to learn from readouts"
        )
    if not records:
        raise RangeError("recorded rolls", 0, "at least one record")
    model = ReadoutModel(tuple(records), nip, roll.readout_zero_mm, flat_after_pre_bend_t)
    start = np.concatenate(([roll.readout_zero_mm], model.start_yields()))
    values, errors, weights = robust_fit(model, start)
    before, after = model.diameter_errors(start), model.diameter_errors(values)
    fitted = {
        key: FittedValue(float(values[i]), float(errors[i]), count)
        for i, (key, count) in enumerate(model.fitted.items(), start=1)
    }
    used = weights > 0
    return Calibration(
        fit=Fit.OFFSET_AND_YIELD if fitted else Fit.OFFSET,
        readout_zero_mm=FittedValue(float(values[0]), float(errors[0]), int(np.count_nonzero(used))),
        yields_mpa=fitted,
        before_percent=float(np.nanmedian(np.abs(before[used]))),
        after_percent=float(np.nanmedian(np.abs(after[used]))),
        readings=tuple(
            ReadingError(record, *row)
            for record, *row in zip(records, before.tolist(), after.tolist(), weights.tolist(), strict=True)
        ),
        notes=_notes(model, fitted, weights),
    )


def _notes(model: ReadoutModel, fitted: dict[str, FittedValue], weights: Floats) -> tuple[str, ...]:
    notes = []
    for key in model.materials:
        if key not in fitted and any(r.material.key == key and r.yield_mpa is None for r in model.records):
            notes.append(f"{key}: fewer than {LEAST_READINGS_FOR_YIELD} readings, its likely yield was kept")
    for key, value in fitted.items():
        if not value.error < SURE_SHARE * value.value:
            notes.append(
                f"{key}: yield and readout offset cannot be told apart well; record pieces of other "
                "thickness and diameter before taking the yield over"
            )
    for record, weight in zip(model.records, weights, strict=True):
        if weight == 0:
            notes.append(f"set aside: {record.where or 'a reading'} does not fit the others")
    return tuple(notes)
