"""Outside diameters of nominal pipe sizes against the open library `fluids` 1.3.1 (its piping module names
ASME B36.10M and B36.19M), cross-read with Perry's Table 10-22 and a published schedule chart. Editions
differ by 0.1 mm, hence the window.
"""

from __future__ import annotations

import pytest

from quoting.core.units.gauges import pipe_outside_mm, pipe_wall_mm

# NPS, DN, outside diameter in inches and in mm as printed.
SIZES = (
    (0.5, 15, 0.840, 21.3),
    (0.75, 20, 1.050, 26.7),
    (1, 25, 1.315, 33.4),
    (1.25, 32, 1.660, 42.2),
    (1.5, 40, 1.900, 48.3),
    (2, 50, 2.375, 60.3),
    (2.5, 65, 2.875, 73.0),
    (3, 80, 3.500, 88.9),
    (3.5, 90, 4.000, 101.6),
    (4, 100, 4.500, 114.3),
    (5, 125, 5.563, 141.3),
    (6, 150, 6.625, 168.3),
    (8, 200, 8.625, 219.1),
    (10, 250, 10.750, 273.0),
    (12, 300, 12.750, 323.8),
    (14, 350, 14.000, 355.6),
    (16, 400, 16.000, 406.4),
    (18, 450, 18.000, 457.0),
    (20, 500, 20.000, 508.0),
    (22, 550, 22.000, 559.0),
    (24, 600, 24.000, 610.0),
    (26, 650, 26.000, 660.0),
    (28, 700, 28.000, 711.0),
    (30, 750, 30.000, 762.0),
    (32, 800, 32.000, 813.0),
    (34, 850, 34.000, 864.0),
    (36, 900, 36.000, 914.0),
    (42, 1050, 42.000, 1067.0),
    (48, 1200, 48.000, 1219.0),
)


@pytest.mark.parametrize(("nps", "dn", "inches", "millimetres"), SIZES)
def test_the_outside_diameter_is_the_printed_one(
    nps: float, dn: float, inches: float, millimetres: float
) -> None:
    assert pipe_outside_mm(nps, dn=False) == pytest.approx(inches * 25.4, abs=1e-6)
    assert pipe_outside_mm(nps, dn=False) == pytest.approx(millimetres, abs=0.5)
    assert pipe_outside_mm(dn, dn=True) == pipe_outside_mm(nps, dn=False)


WALLS = (
    # Perry's Chemical Engineers' Handbook, Table 10-22: NPS 1/2, 3/4 and 1, schedules 40 and 80, inches.
    (0.5, "40", 0.109),
    (0.5, "80", 0.147),
    (0.75, "40", 0.113),
    (0.75, "80", 0.154),
    (1, "40", 0.133),
    (1, "80", 0.179),
    # Inch walls of the trade, from memory: standard and extra strong from NPS 12, and some schedules.
    (12, "STD", 0.375),
    (12, "40", 0.406),
    (16, "40", 0.500),
    (18, "40", 0.562),
    (20, "40", 0.594),
    (24, "STD", 0.375),
    (24, "XS", 0.500),
    (24, "40", 0.688),
    (30, "20", 0.500),
    (36, "STD", 0.375),
)


@pytest.mark.parametrize(("nps", "schedule", "inches"), WALLS)
def test_the_wall_is_the_printed_one(nps: float, schedule: str, inches: float) -> None:
    wall = pipe_wall_mm(pipe_outside_mm(nps, dn=False), schedule)
    assert wall == pytest.approx(inches * 25.4, abs=0.02)
