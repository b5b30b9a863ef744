"""A measure written out again, so that the size grammar can be held against itself."""

from __future__ import annotations

from quoting.core import Measure, Unit


def format_measure(measure: Measure) -> str:
    """Return a measure in a form that the grammar reads back as the same measure.

    >>> format_measure(Measure(24, 24, Unit.INCH, plus=0.125, minus=0.0))
    '24" +0.1250" -0"'
    """
    if measure.unit is Unit.GAUGE:
        text = f"{measure.low:g} ga" + (f" {measure.metal}" if measure.metal else "")
    elif measure.unit in (Unit.NPS, Unit.DN):
        text = f"{measure.unit} {_digits(measure.low)}"
    else:
        text = _with_unit(measure, measure.low)
        if measure.is_range:
            text += f" to {_with_unit(measure, measure.high)}"
    for sign, value in (("+", measure.plus), ("-", measure.minus)):
        if value is not None:
            text += f" {sign}{_with_unit(measure, value)}"
    words = [str(measure.mark)] if measure.mark else []
    words += [str(measure.basis)] if measure.basis else []
    return " ".join([text, *words])


def _with_unit(measure: Measure, value: float) -> str:
    units = {None: "", Unit.INCH: '"', Unit.DEGREE: " deg", Unit.GAUGE: '"'}
    return _digits(value) + units.get(measure.unit, f" {measure.unit}")


def _digits(value: float) -> str:
    text = f"{value:.9f}".rstrip("0").rstrip(".")
    # three decimals exactly could be read as thousands, so one more is written
    return text + "0" if len(text.partition(".")[2]) == 3 else text
