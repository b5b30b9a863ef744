"""Recorded rolls, what the model says of their readouts, and the robust fit of the few unknowns."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from quoting.core import RangeError
from quoting.forming.machine import Direction, Nip, couple_arm, radius_for_lift, setting_for_loaded
from quoting.forming.plate import PlateLaw, loaded_curvature, plate_law
from quoting.forming.range_checks import Floats, floats
from quoting.shop import Material

_STEPS = 40
_BIWEIGHT = 4.685
"""Tuning constant of Tukey's biweight for 95 % efficiency on normal errors (Huber 1981; from memory)."""
_LEAST_SCALE_MM = 0.05
"""Readouts are not trusted to less than this: the robust weights would else see outliers in rounding."""
_YIELD_STEP = 1e-3
LEAST_READINGS_FOR_YIELD = 3
"""Readings of one material without certificate from which its yield is fitted."""


@dataclass(frozen=True, slots=True)
class RecordedRoll:
    """One rolled piece as the floor wrote it down, lengths in mm.

    `readout_mm` is the display at the last pass in the normal direction, `mean_radius_mm` what came out.
    `yield_mpa` is a certificate value; without it the yield of its material is fitted. `where` says where
    the record stands.
    """

    thickness_mm: float
    width_mm: float
    material: Material
    readout_mm: float
    mean_radius_mm: float
    yield_mpa: float | None = None
    where: str = ""

    def __post_init__(self) -> None:
        for name in ("thickness_mm", "width_mm"):
            if not getattr(self, name) > 0:
                raise RangeError(
                    f"{self.where or 'recorded roll'}: {name}", getattr(self, name), "more than 0"
                )
        if not self.mean_radius_mm > self.thickness_mm / 2:
            raise RangeError(
                f"{self.where or 'recorded roll'}: mean_radius_mm",
                self.mean_radius_mm,
                f"more than half the thickness, {self.thickness_mm / 2:g} mm",
            )


class ReadoutModel:
    """Readouts that the model expects, as a function of (readout zero, yields of the fitted materials)."""

    def __init__(self, records: tuple[RecordedRoll, ...], nip: Nip, zero_mm: float, flat_t: float) -> None:
        self.records, self.nip, self.zero_mm, self.flat_t = records, nip, zero_mm, flat_t
        counts: dict[str, int] = {}
        for record in records:
            if record.yield_mpa is None:
                counts[record.material.key] = counts.get(record.material.key, 0) + 1
        self.fitted = {key: n for key, n in counts.items() if n >= LEAST_READINGS_FOR_YIELD}
        self.materials = {record.material.key: record.material for record in records}
        places = {key: i for i, key in enumerate(self.fitted, start=1)}
        self.place = np.array(
            [places.get(r.material.key, 0) if r.yield_mpa is None else 0 for r in records], dtype=np.int64
        )
        self.thickness = floats([record.thickness_mm for record in records])
        self.readout = floats([record.readout_mm for record in records])
        self.curvature = 1 / floats([record.mean_radius_mm for record in records])
        self.given = floats([record.yield_mpa or record.material.yield_likely_mpa for record in records])

    def start_yields(self) -> Floats:
        """Return the likely yields of the fitted materials in MPa."""
        return floats([self.materials[key].yield_likely_mpa for key in self.fitted])

    def bounds(self) -> tuple[Floats, Floats]:
        """Return the bounds: the zero is free, a yield lies between half its least and tensile."""
        materials = [self.materials[key] for key in self.fitted]
        low = [-np.inf, *(material.yield_low_mpa / 2 for material in materials)]
        return floats(low), floats([np.inf, *(material.tensile_mpa for material in materials)])

    def law(self, values: Floats) -> PlateLaw:
        """Return the bending law of every record with the given yields."""
        strength = np.where(self.place > 0, values[self.place], self.given)
        metals = [record.material for record in self.records]
        hard = [m.strength_mpa is not None and m.hardening is not None for m in metals]
        return plate_law(
            self.thickness,
            floats([record.width_mm for record in self.records]),
            floats([m.elastic_mpa for m in metals]),
            floats([m.poisson for m in metals]),
            strength,
            floats([m.strength_mpa or 0.0 if h else 0.0 for m, h in zip(metals, hard, strict=True)]),
            floats([m.hardening or 0.0 if h else 0.0 for m, h in zip(metals, hard, strict=True)]),
        )

    def readouts(self, values: Floats) -> Floats:
        """Return the readouts at which the obtained radii should have come out."""
        law = self.law(values)
        loaded = loaded_curvature(law, self.curvature)
        arm = couple_arm(law, loaded, self.flat_t * self.thickness)
        return floats(setting_for_loaded(self.nip, law, loaded, Direction.NORMAL, arm).lift_mm - values[0])

    def jacobian(self, values: Floats) -> Floats:
        """Return the derivatives of the readouts by (zero, yields), one row a record."""
        base = self.readouts(values)
        columns = [np.full(len(base), -1.0)]
        for i in range(1, len(values)):
            step = values.copy()
            step[i] *= 1 + _YIELD_STEP
            columns.append((self.readouts(step) - base) / (step[i] - values[i]))
        return np.stack(columns, axis=1)

    def diameter_errors(self, values: Floats) -> Floats:
        """Return by how many percent the predicted diameter at the readout misses the obtained one."""
        law = self.law(values)
        loaded = loaded_curvature(law, self.curvature)
        arm = couple_arm(law, loaded, self.flat_t * self.thickness)
        predicted = radius_for_lift(self.nip, law, self.readout + values[0], Direction.NORMAL, arm)
        return 100 * (predicted * self.curvature - 1)


def robust_fit(model: ReadoutModel, start: Floats) -> tuple[Floats, Floats, Floats]:
    """Return the fitted values, their standard errors and the weight of every reading."""
    low, high = model.bounds()
    values = start.copy()
    residual = model.readout - model.readouts(values)
    values[0] -= float(np.nanmedian(residual))
    weights = np.ones(len(model.records))
    for _ in range(_STEPS):
        residual = model.readout - model.readouts(values)
        weights = _biweight(residual)
        matrix, aim = model.jacobian(values), np.nan_to_num(residual)
        usable = np.nan_to_num(matrix)
        step = np.linalg.lstsq(usable * np.sqrt(weights)[:, None], aim * np.sqrt(weights), rcond=None)[0]
        following = np.clip(values + step, low, high)
        done = bool(np.all(np.abs(following - values) < 1e-7 * np.maximum(np.abs(values), 1.0)))
        values = following
        if done:
            break
    return values, _standard_errors(model, values, weights), weights


def _biweight(residual: Floats) -> Floats:
    """Return Tukey's weights, (1 - (r / c s)^2)^2, with the scale from the median of absolute residuals."""
    size = np.abs(residual)
    scale = max(1.4826 * float(np.nanmedian(size)), _LEAST_SCALE_MM)
    ratio = np.nan_to_num(size / (_BIWEIGHT * scale), nan=np.inf)
    return np.where(ratio < 1, (1 - np.minimum(ratio, 1.0) ** 2) ** 2, 0.0)


def _standard_errors(model: ReadoutModel, values: Floats, weights: Floats) -> Floats:
    residual = np.nan_to_num(model.readout - model.readouts(values))
    freedom = float(weights.sum()) - len(values)
    if freedom <= 0:
        return np.full(len(values), np.inf)
    variance = max(float(np.sum(weights * residual**2)) / freedom, 0.0)
    matrix = np.nan_to_num(model.jacobian(values)) * np.sqrt(weights)[:, None]
    normal = matrix.T @ matrix
    if np.linalg.cond(normal) > 1e14:
        return np.full(len(values), np.inf)
    return np.sqrt(variance * np.diag(np.linalg.inv(normal)))
