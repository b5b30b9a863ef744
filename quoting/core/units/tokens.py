"""Splits a size as people write it into tokens that keep their place in the text."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum

from quoting.core.units.measure import NumberStyle, SizeError

LONGEST_TEXT = 200
"""Characters; no size on an order sheet is longer, and a cell may hold 32,767."""

_SAME_SIGNS: dict[str, str] = {
    **dict.fromkeys("’‘′ʹ´`", "'"),
    **dict.fromkeys("“”″„ʺ", '"'),
    **dict.fromkeys("‐‑‒–—−", "-"),
    **dict.fromkeys("×✕✖", "x"),
    **dict.fromkeys("⁄∕", "/"),
    **dict.fromkeys("øØ⌀∅Φφ", "Ø"),
    **dict.fromkeys("º˚", "°"),
    **{chr(0xFF01 + i): chr(0x21 + i) for i in range(94)},  # full-width forms of ASCII
    **dict.fromkeys("\u00a0\u202f\u2007\u2009\u3000\t\r\n", " "),
}
_SAME = str.maketrans(_SAME_SIGNS)
_VULGAR = {
    "½": (1, 2), "⅓": (1, 3), "⅔": (2, 3), "¼": (1, 4), "¾": (3, 4),
    "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8),
}  # fmt: skip
_TOKEN = re.compile(
    r"""(?P<number>[0-9]+(?:[.,][0-9]+)*(?:\.(?![0-9]))?|[.,][0-9]+)
      | (?P<vulgar>[½⅓⅔¼¾⅛⅜⅝⅞])
      | (?P<word>[Cc]/[Ll](?![A-Za-z])|[A-Za-zµ]+(?:\.[A-Za-z]+)*\.?)
      | (?P<mark>\+\s?/\s?-|\+-|±|''|["'Ø°*+/~#-])
      | (?P<space>\s+)
      | (?P<other>.)""",
    re.VERBOSE,
)


class TokenKind(StrEnum):
    """What a token is."""

    NUMBER = "number"
    VULGAR = "vulgar"
    WORD = "word"
    MARK = "mark"
    END = "end"


@dataclass(frozen=True, slots=True)
class Token:
    """One token: its text (words in lower case, no dots), its place, whether a space stands before it."""

    kind: TokenKind
    text: str
    start: int
    end: int
    spaced: bool

    @property
    def vulgar(self) -> tuple[int, int]:
        """Return numerator and denominator of a one-character fraction."""
        return _VULGAR[self.text]


def tokens_of(text: str, *, prose: bool = False) -> list[Token]:
    """Return the tokens of a size, with an END token last.

    Raises SizeError for a character no size holds and for a text longer than `LONGEST_TEXT`; in prose such a
    character only parts what stands on its two sides.
    """
    if len(text) > LONGEST_TEXT and not prose:
        raise SizeError(text[:40] + "...", 0, 0, f"a size has at most {LONGEST_TEXT} characters")
    plain = text.translate(_SAME)
    tokens: list[Token] = []
    spaced = False
    for match in _TOKEN.finditer(plain):
        kind = match.lastgroup
        if kind == "space":
            spaced = True
            continue
        if (kind == "other" or kind is None) and prose:
            tokens.append(Token(TokenKind.MARK, ";", match.start(), match.end(), True))
            continue
        if kind == "other" or kind is None:
            raise SizeError(text, match.start(), match.end(), "this sign is not part of a size")
        tokens.extend(_split(Token(TokenKind(kind), match.group(), match.start(), match.end(), spaced)))
        spaced = False
    tokens.append(Token(TokenKind.END, "", len(plain), len(plain), spaced))
    return tokens


def _split(token: Token) -> list[Token]:
    """Return the token tidied; a word that ends in the `x` between two sizes (6mmx1500) becomes two."""
    if token.kind is TokenKind.MARK:
        text = '"' if token.text == "''" else token.text
        text = "±" if text.startswith("+") and text.endswith("-") else text
        return [Token(TokenKind.MARK, text, token.start, token.end, token.spaced)]
    if token.kind is TokenKind.NUMBER:
        return [Token(TokenKind.NUMBER, token.text.rstrip("."), token.start, token.end, token.spaced)]
    if token.kind is not TokenKind.WORD:
        return [token]
    word = token.text.lower().replace(".", "")
    if word in ("x", "by"):
        return [Token(TokenKind.MARK, "*", token.start, token.end, token.spaced)]
    if len(word) > 2 and word.endswith("x") and word not in ("max", "approx"):
        cut = token.end - 1
        return [
            Token(TokenKind.WORD, word[:-1], token.start, cut, token.spaced),
            Token(TokenKind.MARK, "*", cut, token.end, False),
        ]
    return [Token(TokenKind.WORD, word, token.start, token.end, token.spaced)]


def number_of(digits: str, style: NumberStyle) -> float | None:
    """Return the value of digits with decimal and thousands marks, or None when they can be read two ways.

    >>> number_of("1.234,5", NumberStyle.UNKNOWN), number_of("1,500", NumberStyle.UNKNOWN)
    (1234.5, None)

    Raises ValueError for digits that no style writes.
    """
    points, commas = digits.count("."), digits.count(",")
    if not points and not commas:
        return float(digits)
    if points and commas:
        mark = "." if digits.rfind(".") > digits.rfind(",") else ","
        return _grouped(digits, mark)
    mark = "." if points else ","
    if points + commas > 1:
        return _grouped(digits, "," if mark == "." else ".")
    whole, part = digits.split(mark)
    if len(part) != 3 or not 1 <= len(whole) <= 3 or whole.startswith("0"):
        return float(f"{whole or '0'}.{part}")
    if style is NumberStyle.UNKNOWN:
        return None
    decimal = (style is NumberStyle.POINT) == (mark == ".")
    return float(f"{whole}.{part}") if decimal else float(whole + part)


def _grouped(digits: str, decimal: str) -> float:
    """Return the value of digits in groups of three, with at most one decimal mark."""
    thousands = "," if decimal == "." else "."
    whole, _, part = digits.partition(decimal)
    groups = whole.split(thousands)
    regular = all(len(group) == 3 for group in groups[1:]) and 1 <= len(groups[0]) <= 3
    if not regular or (part and not part.isdigit()):
        raise ValueError(f"{digits} is not written as numbers are")
    return float("".join(groups) + "." + (part or "0"))
