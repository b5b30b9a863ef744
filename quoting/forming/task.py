"""One rolling to be judged: what goes into the rolls and what shall come out."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, cos

from quoting.blanks import Blank, ConeForm
from quoting.core import Ends, RangeError
from quoting.shop import Material


def half_apex_rad(cone: ConeForm) -> float:
    """Return half the apex angle in rad: sin = (D - d) / 2 / slant.

    >>> from math import degrees
    >>> round(degrees(half_apex_rad(ConeForm(200, 100, 86.602540378, 100))), 6)
    30.0
    """
    taper = (cone.large_mm - cone.small_mm) / 2
    if not 0 < taper < cone.slant_mm:
        raise RangeError(
            "cone slant_mm", cone.slant_mm, f"more than half the difference of diameters, {taper:g} mm"
        )
    return asin(taper / cone.slant_mm)


@dataclass(frozen=True, slots=True)
class RollTask:
    """A flat piece and the form it is rolled to; lengths in mm, weight in kg.

    `width_mm` lies across the roll, `mean_diameter_mm` is the rolled mean diameter (of the small end of a
    cone), `girth_mm` the developed length. `yield_mpa` is a certificate value; without it loads are judged
    at the grade's least yield, as a roll's rating is given for one, and positions are worked out at the
    likely one. `first_off` is a first piece, whose positions are not known yet.
    """

    thickness_mm: float
    width_mm: float
    mean_diameter_mm: float
    girth_mm: float
    arc_deg: float
    ends: Ends
    weight_kg: float
    material: Material
    cone: ConeForm | None = None
    yield_mpa: float | None = None
    first_off: bool = True
    re_round: bool = False

    def __post_init__(self) -> None:
        for name in ("thickness_mm", "width_mm", "mean_diameter_mm", "girth_mm"):
            if not getattr(self, name) > 0:
                raise RangeError(name, getattr(self, name), "more than 0")
        if not self.mean_diameter_mm > self.thickness_mm:
            raise RangeError(
                "mean_diameter_mm", self.mean_diameter_mm, f"more than the thickness, {self.thickness_mm} mm"
            )
        if not 0 < self.arc_deg <= 360:
            raise RangeError("arc_deg", self.arc_deg, "more than 0 up to 360 degrees")
        if not self.weight_kg >= 0:
            raise RangeError("weight_kg", self.weight_kg, "0 or more")
        if self.yield_mpa is not None and not 0 < self.yield_mpa < self.material.elastic_mpa / 10:
            raise RangeError(
                "yield_mpa", self.yield_mpa, "more than 0, less than a tenth of the elastic modulus"
            )
        if self.cone is not None and self.cone.large_mm <= self.cone.small_mm:
            raise RangeError(
                "cone large_mm", self.cone.large_mm, f"more than small_mm = {self.cone.small_mm}"
            )

    @classmethod
    def of(
        cls,
        blank: Blank,
        material: Material,
        yield_mpa: float | None = None,
        *,
        first_off: bool = True,
        re_round: bool = False,
    ) -> RollTask:
        """Return the task of rolling one blank; `yield_mpa` is the certificate value where there is one."""
        return cls(
            thickness_mm=blank.thickness_mm,
            width_mm=blank.cone.slant_mm if blank.cone else blank.width_mm,
            mean_diameter_mm=blank.mean_diameter_mm,
            girth_mm=blank.girth_mm,
            arc_deg=blank.arc_deg,
            ends=blank.ends,
            weight_kg=blank.weight_kg,
            material=material,
            cone=blank.cone,
            yield_mpa=yield_mpa,
            first_off=first_off,
            re_round=re_round,
        )

    @property
    def closed(self) -> bool:
        """Return whether the piece closes on itself."""
        return self.arc_deg >= 360

    @property
    def inside_diameter_mm(self) -> float:
        """Return the inside diameter in mm (of the small end of a cone)."""
        return self.mean_diameter_mm - self.thickness_mm

    @property
    def bend_radius_mm(self) -> float:
        """Return the tightest mean radius in mm; of a cone r / cos(half apex angle) at its small end."""
        radius = self.mean_diameter_mm / 2
        if self.cone is None:
            return radius
        return radius / cos(half_apex_rad(self.cone))

    @property
    def load_yield_mpa(self) -> float:
        """Return the yield in MPa for loads: the certificate's, else the least of the grade."""
        return self.yield_mpa if self.yield_mpa is not None else self.material.yield_low_mpa

    @property
    def shape_yield_mpa(self) -> float:
        """Return the yield in MPa for positions: the certificate's, else the likely one."""
        return self.yield_mpa if self.yield_mpa is not None else self.material.yield_likely_mpa
