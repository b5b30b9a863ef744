"""Forces on the rolls, what drives the plate, and the rolls as beams.

Loads are per mm of plate width until they meet a roll. The moment at the nip is held by top and pinch roll
standing a couple arm apart along the plate, and balanced by the bending roll at the end of the free length.
"""

from __future__ import annotations

from math import pi

import numpy as np
from numpy.typing import ArrayLike

from quoting.forming.plate import PlateLaw, bending_work, moment
from quoting.forming.range_checks import Floats, floats, positive, require

ROLL_STEEL_MPA = 206e3
"""Elastic modulus of a steel roll in MPa (handbook value; from memory)."""


def plastic_work(law: PlateLaw, loaded: ArrayLike, before: ArrayLike = 0.0) -> Floats:
    """Return the work that stays in the plate, N mm per mm^2, which is the pull in N per mm of width.

    The work of bending less the elastic part given back, W(k) - M^2 / (2 D), D = E' t^3 / 12; `before` is the
    largest loaded curvature of earlier passes. Energy balance, no roll friction in it.
    """
    return np.maximum(_stored(law, floats(loaded)) - _stored(law, floats(before)), 0.0)


def _stored(law: PlateLaw, k: Floats) -> Floats:
    safe = np.maximum(k, 1e-12)
    return bending_work(law, safe) - moment(law, safe) ** 2 / (2 * law.stiffness)


def couple_arm(law: PlateLaw, loaded: ArrayLike, flat_mm: ArrayLike) -> Floats:
    """Return the distance in mm between top-roll and pinch-roll contact that leaves a wanted flat at an end.

    Over the couple arm e the moment grows from 0 at the pinch roll to M_i at the top roll. An end gripped
    at the pinch roll keeps the residual curvature of that rising moment, so it lacks the angle of a
    straight length e (1 - mean residual curvature / final curvature), which is the flat that a template
    shows.
    """
    flat = floats(flat_mm)
    require("flat after pre-bend (mm)", flat, flat > 0, "more than 0")
    return flat / flat_share(law, loaded)


def flat_share(law: PlateLaw, loaded: ArrayLike) -> Floats:
    """Return the flat as a share of the couple arm: 1 - (k_i - W/M_i - M_i/(2D)) / k_f, between 0 and 1."""
    k = floats(loaded)
    positive(loaded_curvature=k)
    top = moment(law, k)
    left = k - (bending_work(law, k) / top + top / (2 * law.stiffness))
    final = k - top / law.stiffness
    with np.errstate(divide="ignore", invalid="ignore"):
        share = 1 - np.where(final > 0, left / final, 0.0)
    return floats(np.clip(share, 0.05, 1.0))


def lightest_pinch(pull_n_mm: ArrayLike, bending_force_n_mm: ArrayLike, friction: ArrayLike) -> Floats:
    """Return the pinch force in N per mm of width below which the driven rolls slip.

    Top roll and pinch roll drive; the top roll also carries the bending roll: mu (2 P + F) = pull (Coulomb).

    >>> float(lightest_pinch(9.0, 20.0, 0.15))
    20.0
    """
    mu = floats(friction)
    require("friction", mu, (mu > 0) & (mu <= 1), "more than 0 up to 1")
    return np.maximum((floats(pull_n_mm) / mu - floats(bending_force_n_mm)) / 2, 0.0)


def drive_torque(pull_n: ArrayLike, top_roll_mm: ArrayLike) -> Floats:
    """Return the torque in N mm, reduced to the top roll's axis, that a pull in N needs; no losses in it."""
    return floats(pull_n) * floats(top_roll_mm) / 2


def drive_power(pull_n: ArrayLike, speed_mm_min: ArrayLike) -> Floats:
    """Return the power in kW that a pull in N needs at a plate speed in mm/min; no losses in it.

    >>> float(drive_power(60_000, 1_000))
    1.0
    """
    return floats(pull_n) * floats(speed_mm_min) / 60e6


def beam_moment(load_n: ArrayLike, span_mm: ArrayLike, width_mm: ArrayLike) -> Floats:
    """Return the largest moment in N mm of a roll on two bearings, load spread over a width in its middle.

    W (2 L - b) / 8, statics; it is W L / 4 for a point load and W L / 8 for a load over the whole span.

    >>> float(beam_moment(8.0, 100.0, 100.0))
    100.0
    """
    return floats(load_n) * (2 * floats(span_mm) - floats(width_mm)) / 8


def beam_deflection(
    load_n: ArrayLike, span_mm: ArrayLike, width_mm: ArrayLike, roll_mm: ArrayLike
) -> tuple[Floats, Floats]:
    """Return the deflection in mm of a solid steel roll in its middle and at the edges of the plate.

    Simply supported, load W over a width b in the middle of the span L:
    middle W (8 L^3 - 4 L b^2 + b^3) / (384 E I), edge theta x - W x^3 / (12 E I) with x = (L - b) / 2 and
    theta = W (3 L^2 - b^2) / (48 E I). Reduces to W L^3 / (48 E I) and 5 W L^3 / (384 E I).
    """
    w, span, b, d = floats(load_n), floats(span_mm), floats(width_mm), floats(roll_mm)
    positive(span_mm=span, roll_mm=d)
    require("plate width (mm)", b, (b >= 0) & (b <= span), "0 up to the span between the bearings")
    bend = ROLL_STEEL_MPA * pi * d**4 / 64
    middle = w * (8 * span**3 - 4 * span * b**2 + b**3) / (384 * bend)
    x = (span - b) / 2
    edge = w * (3 * span**2 - b**2) / (48 * bend) * x - w * x**3 / (12 * bend)
    return middle, edge
