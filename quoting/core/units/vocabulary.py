"""The words of the size grammar: units, gauges, metals, and what a number can be marked as."""

from __future__ import annotations

from quoting.core.order import Basis
from quoting.core.units.measure import Mark, Unit

UNITS = {
    "mm": Unit.MM, "millimeter": Unit.MM, "millimeters": Unit.MM, "millimetre": Unit.MM,
    "millimetres": Unit.MM,
    "cm": Unit.CM, "m": Unit.M, "meter": Unit.M, "meters": Unit.M, "metre": Unit.M, "metres": Unit.M,
    "in": Unit.INCH, "inch": Unit.INCH, "inches": Unit.INCH, "ins": Unit.INCH, '"': Unit.INCH,
    "deg": Unit.DEGREE, "degs": Unit.DEGREE, "degree": Unit.DEGREE, "degrees": Unit.DEGREE, "°": Unit.DEGREE,
}  # fmt: skip
FEET = frozenset(("'", "ft", "feet", "foot"))
GAUGE = frozenset(("ga", "gauge", "gage", "gge"))
METALS = {
    "hr": "steel", "cr": "steel", "hrs": "steel", "crs": "steel", "ms": "steel", "steel": "steel",
    "hrpo": "steel", "galv": "galvanized", "gi": "galvanized", "galvanized": "galvanized",
    "galvanised": "galvanized", "ss": "stainless", "sst": "stainless", "stainless": "stainless",
    "al": "aluminium", "alum": "aluminium", "aluminum": "aluminium", "aluminium": "aluminium",
}  # fmt: skip
_I, _O, _M = Basis.INSIDE, Basis.OUTSIDE, Basis.MEAN
MARKS: dict[str, tuple[Mark | None, Basis | None]] = {
    "od": (Mark.DIAMETER, _O), "id": (Mark.DIAMETER, _I), "md": (Mark.DIAMETER, _M),
    "dia": (Mark.DIAMETER, None), "diam": (Mark.DIAMETER, None), "diameter": (Mark.DIAMETER, None),
    "Ø": (Mark.DIAMETER, None), "d": (Mark.DIAMETER, None), "pipe": (Mark.DIAMETER, None),
    "r": (Mark.RADIUS, None), "rad": (Mark.RADIUS, None), "radius": (Mark.RADIUS, None),
    "ir": (Mark.RADIUS, _I), "or": (Mark.RADIUS, _O), "clr": (Mark.RADIUS, _M), "mr": (Mark.RADIUS, _M),
    "inside": (None, _I), "inner": (None, _I), "int": (None, _I), "internal": (None, _I),
    "outside": (None, _O), "outer": (None, _O), "ext": (None, _O),
    "external": (None, _O),
    "mean": (None, _M), "c/l": (None, _M), "cl": (None, _M), "centerline": (None, _M),
    "centreline": (None, _M), "neutral": (None, _M),
    "thk": (Mark.THICKNESS, None), "thick": (Mark.THICKNESS, None), "thickness": (Mark.THICKNESS, None),
    "pl": (Mark.THICKNESS, None), "plate": (Mark.THICKNESS, None), "wall": (Mark.THICKNESS, None),
    "wt": (Mark.THICKNESS, None),
    "t": (Mark.THICKNESS, None), "thck": (Mark.THICKNESS, None), "plt": (Mark.THICKNESS, None),
    "lg": (Mark.LENGTH, None), "long": (Mark.LENGTH, None), "length": (Mark.LENGTH, None),
    "l": (Mark.LENGTH, None), "w": (Mark.WIDTH, None), "wide": (Mark.WIDTH, None),
    "width": (Mark.WIDTH, None), "h": (Mark.HEIGHT, None), "high": (Mark.HEIGHT, None),
    "height": (Mark.HEIGHT, None), "ht": (Mark.HEIGHT, None),
    "len": (Mark.LENGTH, None), "lgth": (Mark.LENGTH, None), "lng": (Mark.LENGTH, None),
    "lngth": (Mark.LENGTH, None), "wdth": (Mark.WIDTH, None), "wid": (Mark.WIDTH, None),
    "hgt": (Mark.HEIGHT, None), "tall": (Mark.HEIGHT, None), "thkn": (Mark.THICKNESS, None),
    "girth": (Mark.GIRTH, None), "arclength": (Mark.ARC_LENGTH, None), "chord": (Mark.CHORD, None),
    "rise": (Mark.RISE, None), "slant": (Mark.SLANT, None), "largeend": (Mark.LARGE, None),
    "smallend": (Mark.SMALL, None),
}  # fmt: skip
