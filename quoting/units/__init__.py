"""Sizes as people write them (1/4, 5'-6 1/2", 10 ga, 6 mm) into millimetres, and back."""

from quoting.units.formats import LB_PER_KG, format_length, format_measure, format_weight
from quoting.units.gauges import MM_PER_INCH, GaugeTable, gauge_tables, gauge_to_mm, pipe_outside_mm
from quoting.units.grammar import parse_length, parse_measure, parse_measures
from quoting.units.measure import Mark, Measure, NumberStyle, SizeError, Unit

__all__ = [
    "LB_PER_KG",
    "MM_PER_INCH",
    "GaugeTable",
    "Mark",
    "Measure",
    "NumberStyle",
    "SizeError",
    "Unit",
    "format_length",
    "format_measure",
    "format_weight",
    "gauge_tables",
    "gauge_to_mm",
    "parse_length",
    "parse_measure",
    "parse_measures",
    "pipe_outside_mm",
]
