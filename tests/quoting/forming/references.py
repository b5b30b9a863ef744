"""Independent numerics for tests only: the section cut into fibres, the free plate as an elastica."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, sin

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq, fsolve


def fibre_moment(
    curvature: float,
    thickness: float,
    elastic: float,
    yield_: float,
    strength: float = 0.0,
    hardening: float = 0.0,
) -> float:
    """Return the moment per mm of width of a section of many thin fibres, each on its stress-strain curve."""
    edges = np.linspace(0, thickness / 2, 20001)
    z = (edges[1:] + edges[:-1]) / 2
    strain = curvature * z
    plastic = np.maximum(yield_, strength * strain**hardening if strength else 0.0)
    stress = np.minimum(elastic * strain, plastic)
    return 2 * float(np.sum(stress * z * np.diff(edges)))


def fibre_springback(curvature: float, thickness: float, elastic: float, yield_: float) -> float:
    """Return the final curvature, at which elastic fibres have given back the moment of the loaded ones."""
    lost = fibre_moment(curvature, thickness, elastic, yield_)
    return float(
        brentq(lambda k: elastic * thickness**3 / 12 * (curvature - k) - lost, -curvature, curvature)
    )


@dataclass(frozen=True)
class Elastica:
    """Solution of the free plate with the exact lever arm of a normal force at the contact."""

    lift: float
    length: float
    force: float
    angle: float


def free_plate(
    curvature_of: Callable[[float], float],
    top_moment: float,
    thickness: float,
    top_radius: float,
    bending_radius: float,
    offset: float,
    lean: float,
    guess: tuple[float, float, float],
) -> Elastica:
    """Solve the plate from the contact back to a level clamp in the nip.

    Unknowns are the slope at the contact, the force and the length; met are slope 0 and the given moment at
    the nip, and the centre of the bending roll on its slide. The moment follows dM/ds = F cos(theta -
    theta_c) exactly.
    """

    def run(unknown: np.ndarray) -> tuple[np.ndarray, tuple[float, float]]:
        slope, force, length = unknown
        scale = force * thickness

        def rates(_: float, state: np.ndarray) -> list[float]:
            angle, _x, _y, moment = state
            return [-curvature_of(max(moment, 0.0)), -cos(angle), -sin(angle), force * cos(angle - slope)]

        path = solve_ivp(rates, (0, length), [slope, 0.0, 0.0, 0.0], rtol=1e-10, atol=1e-10)
        angle, x, y, moment = path.y[:, -1]
        reach = bending_radius + thickness / 2
        centre = (-x + reach * sin(slope), -thickness / 2 - y - reach * cos(slope))
        slide = (centre[0] - offset) * cos(lean) + (centre[1] + bending_radius) * sin(lean)
        return np.array([angle * 100, (moment - top_moment) / scale, slide / 10]), centre

    found, _, status, message = fsolve(lambda u: run(u)[0], guess, full_output=True, xtol=1e-12)
    if status != 1:
        raise ArithmeticError(message)
    _, (x, y) = run(found)
    lift = -(x - offset) * sin(lean) + (y + bending_radius) * cos(lean)
    return Elastica(lift, float(found[2]), float(found[1]), float(found[0]))


def fibre_history(curvatures: list[float], thickness: float, elastic: float, yield_: float) -> float:
    """Return the curvature left after bending to each curvature in turn and letting go, fibre by fibre.

    Every fibre remembers its plastic strain (perfect plasticity, either sign), so nothing is assumed about
    the order.
    """
    edges = np.linspace(-thickness / 2, thickness / 2, 8001)
    z = (edges[1:] + edges[:-1]) / 2
    area = np.diff(edges)
    plastic = np.zeros_like(z)

    def stress(k: float) -> np.ndarray:
        return np.clip(elastic * (k * z - plastic), -yield_, yield_)

    left = 0.0
    for k in curvatures:
        plastic = k * z - stress(k) / elastic
        left = float(brentq(lambda c: float(np.sum(stress(c) * z * area)), -k, k))
        plastic = left * z - stress(left) / elastic
    return left
