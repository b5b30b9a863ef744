"""Numbers of the size grammar: `1-1/2`, `5'-6 1/2"`, `1 500 mm`, `.25`, and the unit written at them.

value     = feet [ "-" ] [ inches ] | whole [ "-" ] fraction | fraction | number
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from quoting.core.units.measure import NumberStyle, SizeError, Unit
from quoting.core.units.tokens import Token, TokenKind, number_of, tokens_of
from quoting.core.units.vocabulary import FEET, UNITS

DENOMINATORS = frozenset((2, 4, 8, 16, 32, 64, 128))
"""Of an inch, as rules are divided; `1200/600` is two sizes and `24/7` no size at all."""


@dataclass(frozen=True, slots=True)
class Value:
    """A number with what its writing gave away."""

    number: float
    unit: Unit | None
    fraction: bool = False


class NumberParser:
    """Walks over the tokens of one text and reads values; recursive descent."""

    def __init__(self, text: str, style: NumberStyle, *, prose: bool = False) -> None:
        self.text, self.style = text, style
        self.tokens = tokens_of(text, prose=prose)
        self.at = 0

    @property
    def token(self) -> Token:
        """Return the token that is read next."""
        return self.tokens[self.at]

    def peek(self, ahead: int) -> Token:
        """Return a later token, the last one at most."""
        return self.tokens[min(self.at + ahead, len(self.tokens) - 1)]

    def take(self, *texts: str) -> bool:
        """Pass over the next token if it is one of these words or marks."""
        if self.token.kind in (TokenKind.MARK, TokenKind.WORD) and self.token.text in texts:
            self.at += 1
            return True
        return False

    def fail(self, expected: str, token: Token | None = None) -> SizeError:
        """Return the error for a token that does not fit, the next one unless another is given."""
        bad = token or self.token
        return SizeError(self.text, bad.start, bad.end, expected)

    def value(self, *, tolerance: bool = False) -> Value:
        """Read a number with its unit, in feet and inches or alone; in a tolerance a dash is a sign."""
        if self.token.kind is TokenKind.VULGAR:
            value = Value(self.fraction(0), None, fraction=True)
        elif self.token.kind is TokenKind.NUMBER:
            value = self.number_or_fraction(tolerance=tolerance)
        else:
            raise self.fail("a number was expected here")
        if self.token.text in FEET and value.unit is None:
            return self.feet(value)
        if self.token.text in UNITS and self.token.kind is not TokenKind.NUMBER:
            unit = UNITS[self.token.text]
            self.at += 1
            value = Value(value.number, unit, value.fraction)
        return value

    def number_or_fraction(self, *, tolerance: bool) -> Value:
        """Read `1/4`, `1-1/2`, `1 1/2` or a plain number."""
        token, after = self.token, self.peek(1)
        if after.text == "/" and self.peek(2).kind is TokenKind.NUMBER:
            return Value(self.fraction(0), None, fraction=True)
        if after.kind is TokenKind.VULGAR:
            return Value(self.fraction(self.whole()), None, fraction=True)
        dash = 1 if after.text == "-" else 0
        top = self.peek(1 + dash)
        slash = top.kind is TokenKind.NUMBER and self.peek(2 + dash).text == "/"
        if token.text.isdigit() and (top.kind is TokenKind.VULGAR or slash):
            if dash and after.spaced and not top.spaced:
                if tolerance:
                    return Value(self.number(), None)
                return self.whole_then_dash(dash)
            whole = self.whole()
            self.at += dash
            return Value(self.fraction(whole), None, fraction=True)
        return Value(self.number(), None)

    def whole_then_dash(self, dash: int) -> Value:
        """Read `24 -1/8`: a tolerance when a plus follows, otherwise it could be one or a mixed fraction."""
        start = self.at
        number = self.number()
        self.at += dash
        self.fraction(0)
        if self.token.text in ("+", "/"):
            self.at = start + 1
            return Value(number, None)
        raise self.fail("it could be a mixed fraction or a minus tolerance", self.tokens[start + 1])

    def fraction(self, whole: int) -> float:
        """Read numerator / denominator after a whole number (0 when there is none)."""
        token = self.token
        if token.kind is TokenKind.VULGAR:
            self.at += 1
            top, bottom = token.vulgar
        else:
            top = self.whole()
            self.at += 1
            bottom = self.whole()
        if token.kind is not TokenKind.VULGAR and bottom not in DENOMINATORS:
            raise self.fail("inches are divided by 2, 4, 8, 16, 32, 64 or 128", self.tokens[self.at - 1])
        if top >= bottom:
            raise self.fail("a fraction is less than 1; two sizes need an x between them", token)
        return whole + top / bottom

    def feet(self, value: Value) -> Value:
        """Read the inches after `5'`; they must be under 12."""
        self.at += 1
        start = self.at
        self.take("-")
        if (
            self.token.kind not in (TokenKind.NUMBER, TokenKind.VULGAR)
            or not float(value.number).is_integer()
        ):
            self.at = start
            return Value(value.number * 12, Unit.INCH, value.fraction)
        first = self.token
        rest = self.number_or_fraction(tolerance=False)
        if self.token.text in UNITS and UNITS[self.token.text] is Unit.INCH:
            self.at += 1
        if rest.number >= 12:
            raise self.fail("inches after feet must be less than 12", first)
        return Value(value.number * 12 + rest.number, Unit.INCH, rest.fraction)

    def number(self) -> float:
        """Read a plain number in the decimal style of the text."""
        token = self.token
        text = token.text + "".join(group.text for group in self.space_groups())
        self.at += 1
        try:
            value = number_of(text, self.style)
        except ValueError:
            raise self.fail("numbers are not written like this", token) from None
        if value is None:
            raise self.fail("the sign in it could be a decimal mark or mark thousands", token)
        if len(text) > 12 or value > 1e7:
            raise self.fail("no size is this large", token)
        return value

    def space_groups(self) -> list[Token]:
        """Take the groups of three digits of `1 500 mm`; with no metric unit after them they are a doubt."""
        groups: list[Token] = []
        while self.token.text.isdigit() and len(self.tokens[self.at - len(groups)].text) <= 3:
            after = self.peek(1)
            if (
                after.kind is not TokenKind.NUMBER
                or not after.spaced
                or len(re.split("[.,]", after.text)[0]) != 3
            ):
                break
            groups.append(after)
            self.at += 1
        if groups and UNITS.get(self.peek(1).text) not in (Unit.MM, Unit.CM, Unit.M):
            raise self.fail("it could be one number with a space in it or two numbers", groups[0])
        return groups

    def whole(self) -> int:
        """Read a whole number."""
        token = self.token
        if token.kind is not TokenKind.NUMBER or not token.text.isdigit() or len(token.text) > 7:
            raise self.fail("a whole number was expected here")
        self.at += 1
        return int(token.text)
