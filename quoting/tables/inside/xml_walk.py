"""Walks over the tags of XML once, in linear time, and refuses what no spreadsheet program writes.

The parser is expat with namespaces. A part is handed over in one piece: old versions of expat scan a long
token again for each piece they are given.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from xml.parsers import expat

from quoting.tables.inside.refusals import DAMAGED, SMALLER, SUSPECT, RefusedError
from quoting.tables.limits import Limits

Start = Callable[[str, Mapping[str, str]], None]
End = Callable[[str], None]


class _Plain(dict[str, str]):
    """Names of tags without their namespace, each taken apart once; a stranger's many names are not kept."""

    def __missing__(self, name: str) -> str:
        plain = name.rpartition(" ")[2]
        if len(self) < _MOST_NAMES:
            self[name] = plain
        return plain


_MOST_NAMES = 1_000


class Walk:
    """One walk over one part at a time; the tags of all parts count against one limit.

    Names come without their namespace: `c` for a cell, whatever its prefix is.
    """

    def __init__(self, limits: Limits) -> None:
        self._limits = limits
        self._left = limits.elements
        self._parser = expat.ParserCreate()

    def over(self, data: bytes, start: Start | None = None, end: End | None = None) -> None:
        """Call `start` and `end` for each tag of a part.

        Raises RefusedError when the part is not well-formed, declares entities, or holds too many tags.
        """
        parser = self._parser = expat.ParserCreate(namespace_separator=" ")
        parser.buffer_text = True
        parser.StartDoctypeDeclHandler = parser.EntityDeclHandler = _refuse_declaration

        left, plain = self._left, _Plain()

        def count(name: str, attributes: Mapping[str, str]) -> None:
            nonlocal left
            left -= 1
            if left < 0:
                raise RefusedError(f"it holds more than {self._limits.elements:,} tags", SMALLER)
            if start is not None:
                start(plain[name], attributes)

        parser.StartElementHandler = count
        if end is not None:
            parser.EndElementHandler = lambda name: end(name.rpartition(" ")[2])
        try:
            parser.Parse(data, True)
        except (expat.ExpatError, ValueError, LookupError) as error:
            raise RefusedError(DAMAGED) from error
        finally:
            self._left = left

    def listen(self, text: Callable[[str], None] | None, end: End | None) -> None:
        """From here on, or no longer, hand over texts and ends of tags: most tags need neither."""
        self._parser.CharacterDataHandler = text
        self._parser.EndElementHandler = None if end is None else lambda name: end(name.rpartition(" ")[2])


def _refuse_declaration(*_: object) -> None:
    raise RefusedError("its XML declares entities, which no spreadsheet program writes", SUSPECT)


def whole(text: str | None, *, otherwise: int, most: int) -> int:
    """Return a whole number of an attribute; `otherwise` when there is none.

    Raises RefusedError when it is no number or beyond `most`: no spreadsheet program writes that.
    """
    if text is None:
        return otherwise
    plain = text.strip()
    if not plain.isascii() or not plain.isdigit() or len(plain) > 12 or int(plain) > most:
        raise RefusedError(f'a number in its XML is none that a spreadsheet has ("{plain[:20]}")', SUSPECT)
    return int(plain)
