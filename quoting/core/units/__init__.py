"""Sizes as people write them (1/4, 5'-6 1/2", 10 ga, 6 mm) into millimetres, and back."""

from quoting.core.units.formats import LB_PER_KG, format_length, format_stock, format_weight
from quoting.core.units.gauges import (
    MM_PER_INCH,
    gauge_tables,
    gauge_to_mm,
    pipe_outside_mm,
    pipe_wall_mm,
)
from quoting.core.units.grammar import parse_length, parse_measure, parse_measures
from quoting.core.units.measure import Mark, Measure, NumberStyle, SizeError, Unit
from quoting.core.units.prose import Sighting, sizes_in_prose
from quoting.core.units.tokens import number_of
from quoting.core.units.vocabulary import MARKS as SIZE_WORDS

__all__ = [
    "LB_PER_KG",
    "MM_PER_INCH",
    "SIZE_WORDS",
    "Mark",
    "Measure",
    "NumberStyle",
    "Sighting",
    "SizeError",
    "Unit",
    "format_length",
    "format_stock",
    "format_weight",
    "gauge_tables",
    "gauge_to_mm",
    "number_of",
    "parse_length",
    "parse_measure",
    "parse_measures",
    "pipe_outside_mm",
    "pipe_wall_mm",
    "sizes_in_prose",
]
