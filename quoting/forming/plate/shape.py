"""The shape of the plate between the nip and the bending roll, cheap to solve for many plates.

The moment is taken as falling linearly along the plate from the nip to the contact with the bending roll
(exact for a flat cantilever; the elastica in the tests shows what that costs). Then the angle turned up to
a point is proportional to the free length L, so a shape is a set of quadrature nodes with an angle per mm
of L.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from quoting.forming.plate.bending import PlateLaw, bending_work, elastic_strain, moment, stiffness_at
from quoting.forming.range_checks import Floats

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(8)
_NODES, _WEIGHTS = (_NODES + 1) / 2, _WEIGHTS / 2


@dataclass(frozen=True, slots=True)
class FreeShape:
    """Quadrature of the free plate: `turn` and `weight` have a first axis of nodes, then the lines.

    `turn` is the angle in rad turned from the nip to the node per mm of free length, `weight` the share of
    the free length that the node stands for, `end_turn` the angle per mm at the contact.
    """

    turn: Floats
    weight: Floats
    end_turn: Floats


def unloading_shape(law: PlateLaw, loaded: Floats) -> FreeShape:
    """Return the shape when the metal comes out of the nip and unloads on its way (normal direction).

    `loaded` is the curvature in 1/mm at the nip. Curvature falls from it linearly to the final one.
    """
    u = _column(_NODES, loaded)
    drop = moment(law, loaded) / law.stiffness
    turn = loaded * u - drop * u**2 / 2
    return FreeShape(turn, np.broadcast_to(_column(_WEIGHTS, loaded), turn.shape), loaded - drop / 2)


def loading_shape(law: PlateLaw, loaded: Floats) -> FreeShape:
    """Return the shape when flat metal comes in over the bending roll and is loaded up to the nip (pre-bend).

    With the moment linear in s the angle has a closed form in the local curvature k:
    theta(k) = L [(k_i M_i - k M) - (W(k_i) - W(k))] / M_i, where W is the work of bending.
    """
    end, plateau = elastic_strain(law)
    t = law.thickness_mm
    k1 = np.minimum(2 * end / t, loaded)
    k2 = np.minimum(2 * plateau / t, loaded)
    u, w = _column(_NODES, loaded), _column(_WEIGHTS, loaded)
    k = np.concatenate((k1 * u, k1 * (k2 / k1) ** u, k2 * (loaded / k2) ** u))
    dk = np.concatenate(
        (k1 * w, k[8:16] * np.log(k2 / k1) * w, k[16:] * np.log(loaded / k2) * w),
    )
    top, work = moment(law, loaded), bending_work(law, loaded)
    turn = ((loaded * top - k * moment(law, k)) - (work - bending_work(law, k))) / top
    return FreeShape(turn, stiffness_at(law, k) * dk / top, loaded - work / top)


def _column(values: Floats, like: Floats) -> Floats:
    return values.reshape(values.shape + (1,) * like.ndim)
