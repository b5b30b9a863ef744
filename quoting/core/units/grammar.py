"""The grammar of sizes: from `PL 1/2 x 60 x 12'-0` to numbers with units, marks and tolerances.

sizes     = size { ("x" | "by" | "*") size }
size      = { mark } quantity { mark } [ tolerance ] { mark }
quantity  = gauge | pipe | value [ unit ] [ ("-" | "to") value [ unit ] ]
gauge     = whole ("ga" | "gauge" | "gage") | ("ga" | "#") whole
pipe      = ("NPS" | "DN") value
value     = feet [ "-" ] [ inches ] | whole [ "-" ] fraction | fraction | number
tolerance = "±" value [ unit ] | "+" value [ unit ] [ "/" ] "-" value [ unit ] | the same, minus first
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from quoting.core.order import Basis
from quoting.core.units.measure import MM_PER_UNIT, Mark, Measure, NumberStyle, SizeError, Unit
from quoting.core.units.numbers import NumberParser, Value
from quoting.core.units.tokens import TokenKind
from quoting.core.units.vocabulary import GAUGE, MARKS, METALS


@lru_cache(maxsize=8192)
def parse_measures(text: str, style: NumberStyle = NumberStyle.POINT) -> tuple[Measure, ...]:
    """Return the sizes of a text, one or several joined by `x`.

    Raises SizeError, which tells the part that was not understood.

    >>> [m.to_mm(inch=True) / 25.4 for m in parse_measures("PL 1/2 x 60 x 12'-0")]
    [0.5, 60.0, 144.0]
    """
    return SizeParser(text, style).sizes()


def parse_measure(text: str, style: NumberStyle = NumberStyle.POINT) -> Measure:
    """Return the one size of a text; SizeError when there is none, more than one, or something else with it.

    >>> parse_measure('5\\'-6 1/2"').low
    66.5
    """
    first, *more = parse_measures(text, style)
    if more:
        raise SizeError(text, more[0].start, more[0].end, "one size, not several")
    return first


def parse_length(text: str, *, inch: bool, style: NumberStyle = NumberStyle.POINT) -> float:
    """Return a plain length in mm (no range, tolerance, gauge, pipe size); `inch` is for a bare number.

    >>> parse_length("1-1/2", inch=True)
    38.099999999999994

    Raises SizeError for anything else.
    """
    size = parse_measure(text, style)
    plain = size.unit is None or size.unit in MM_PER_UNIT
    if not plain or size.is_range or size.plus is not None or size.minus is not None:
        raise SizeError(text, size.start, size.end, "a plain length")
    return size.to_mm(inch=inch)


class SizeParser(NumberParser):
    """Reads the sizes of one text."""

    def sizes(self) -> tuple[Measure, ...]:
        """Read all sizes of the text, joined by x."""
        found = [self.size()]
        while self.take("*"):
            found.append(self.size())
        if self.token.kind is not TokenKind.END:
            raise self.fail("this part is no size, unit or mark")
        return tuple(found)

    def size(self) -> Measure:
        """Read one size with its marks and tolerance."""
        first = self.token
        mark, basis = self.marks(None, None)
        measure = self.quantity()
        mark, basis = self.marks(mark, basis)
        measure = self.tolerance(measure)
        mark, basis = self.marks(mark, basis)
        if measure.unit in (Unit.NPS, Unit.DN):
            mark, basis = mark or Mark.DIAMETER, basis or Basis.OUTSIDE
        if measure.unit is Unit.GAUGE:
            mark = mark or Mark.THICKNESS
        return replace(measure, mark=mark, basis=basis, start=first.start, end=self.tokens[self.at - 1].end)

    def marks(self, mark: Mark | None, basis: Basis | None) -> tuple[Mark | None, Basis | None]:
        """Read OD, thk, R and the like, before or after the number; two that disagree are not understood."""
        while self.token.kind in (TokenKind.WORD, TokenKind.MARK) and self.token.text in MARKS:
            new_mark, new_basis = MARKS[self.token.text]
            clash = (new_mark and mark and new_mark is not mark) or (
                new_basis and basis and new_basis is not basis
            )
            if clash:
                raise self.fail("it contradicts the mark before it")
            mark, basis = new_mark or mark, new_basis or basis
            self.at += 1
        return mark, basis

    def quantity(self) -> Measure:
        """Read a gauge, a pipe size or a length."""
        token = self.token
        if token.kind is TokenKind.WORD and token.text in ("nps", "dn", "nb"):
            self.at += 1
            unit = Unit.NPS if token.text == "nps" else Unit.DN
            number = self.value().number
            self.take('"', "in") if unit is Unit.NPS else self.take("mm")
            return Measure(number, number, unit)
        if token.text in GAUGE or token.text == "#":
            self.at += 1
            return self.gauge(self.whole())
        if token.kind is TokenKind.NUMBER and self.peek(1).text in GAUGE:
            number = self.whole()
            self.at += 1
            return self.gauge(number)
        return self.pipe_after(self.length())

    def pipe_after(self, size: Measure) -> Measure:
        """Read `18" NPS` and `18 NB` as the pipe sizes that `NPS 18` is."""
        if size.is_range or not self.take("nps", "nb"):
            return size
        return Measure(size.low, size.low, Unit.NPS)

    def gauge(self, number: int) -> Measure:
        """Read the metal after a gauge number."""
        self.take(*GAUGE)
        metal = ""
        while self.token.kind is TokenKind.WORD and self.token.text in METALS:
            metal = metal if metal == "galvanized" else METALS[self.token.text]
            self.at += 1
        return Measure(float(number), float(number), Unit.GAUGE, metal=metal)

    def length(self) -> Measure:
        """Read a length or a range of lengths."""
        low = self.value()
        high = self.range_end(low)
        unit = low.unit or (high.unit if high else None)
        if high and high.unit and low.unit and high.unit is not low.unit:
            raise self.fail("both ends of a range need the same unit", self.tokens[self.at - 1])
        end = high.number if high else low.number
        return Measure(low.number, end, unit, fraction=low.fraction or bool(high and high.fraction))

    def range_end(self, low: Value) -> Value | None:
        """Return the upper end of `10-12` or `10 to 12`; a smaller second number starts a tolerance."""
        start = self.at
        words = self.take("to")
        if not words and not self.take("-"):
            return None
        if self.token.kind not in (TokenKind.NUMBER, TokenKind.VULGAR):
            if words:
                raise self.fail("the upper end of the range")
            self.at = start
            return None
        high = self.value()
        if high.number > low.number:
            return high
        if words or self.token.text not in ("+", "/"):
            raise self.fail("a range goes from small to large", self.tokens[start])
        self.at = start
        return None

    def tolerance(self, measure: Measure) -> Measure:
        """Read `±1/16`, `+1/8 -0` or `-0 +1/8` after a size."""
        signs: dict[str, float] = {}
        unit = measure.unit
        while self.token.text in ("±", "+", "-") and self.token.kind is TokenKind.MARK:
            sign = self.token
            both = sign.text == "±"
            if sign.text in signs or (both and signs):
                raise self.fail("this tolerance was already given")
            self.at += 1
            value = self.value(tolerance=True)
            if value.unit and unit and value.unit is not unit and unit is not Unit.GAUGE:
                raise self.fail("a tolerance needs the unit of its size", sign)
            unit = unit or value.unit
            signs.update({"+": value.number, "-": value.number} if both else {sign.text: value.number})
            if self.token.text == "/" and self.peek(1).text in ("+", "-"):
                self.at += 1
            if both:
                break
        return replace(measure, unit=unit, plus=signs.get("+"), minus=signs.get("-"))
