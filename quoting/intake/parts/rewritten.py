"""Writes a text about one part with each size marked as the reader of rows knows it."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from quoting.core import NumberStyle
from quoting.intake.parts.marks import mark_at, plain_signs
from quoting.intake.parts.pieces import Writing, pieces_of
from quoting.intake.parts.sizes import About, Size, sizes_of
from quoting.intake.parts.snippet import Kind, Snippet
from quoting.intake.parts.told import NOTHING, Told

_CONICAL = re.compile(
    r"(?<![^\W\d_])(?:ubergang(?:e|sstuck)?|transitions?|riduzion[ei]|reduktions?\w*|reduc(?:oes|ao|tions?|ciones|cion)"
    r"|reduzier\w*|redukc\w*|zwezk\w*|verloop\w*|overgang(?:en|s)?|prechod\w*|koncentr\w*|konzentr\w*|concentr\w*|cones?|conical|conic\w*|conus|kon(?:us|isch\w*|a|i)?|frust\w*|reducers?|hopper"
    r"|taper(?:s|ed)?|con[eoi]s?|con|tronc(?!on)\w*|kegel\w*|stozek\w*|stozk\w*|kuze\w*|kup|kartio\w*|konik|trunchi\w*"
    r"|конус\w*|trichter)(?![^\W\d_])|锥|(?<=[\d\"']) ?(?:mm )?(?:→|-+>|=>) ?(?=ø|[io]?d ?\d|\d)"
)
_CALLED_CONE = re.compile(r"(?<![^\W\d_])(?:con(?:e|es|ical|ic)|reducers?|frust\w*|hopper)(?![^\W\d_])")
"""English words that say so by themselves."""
_BEVELLED = re.compile(
    r"(?<![^\W\d_])(?:edges?|bev\w*|prep\w*|chamf\w*|vee|anfas\w*|\w*fasen?|chanfrein\w*|bisel\w*|smuss\w*"
    r"|chanfr\w*|\w*schuin\w*|ukos\w*|faz\w*|skos\w*|pah\b|viiste\w*|leel\w*|sanfren\w*|tesit\w*)"
)
"""Degrees beside these are of an edge, and no part of a circle."""
_HEATED = re.compile(
    r"(?<![^\W\d_])(?:barg?|psi|kpa|mpa|temp\w*|design|hydro\w*|pression|presion|druck|trykk?|tlak)(?![^\W\d_])"
)
"""Degrees beside these are of heat."""
_UNSURE = re.compile(
    r"(?<![^\W\d_])(?:min|max|minimum|maximum|mini|maxi|mindestens|hochstens|at least|at most|between"
    r"|elsewhere|or|oder|ou|lub|albo|nebo|veya|vagy|sau|eller|tai|ili|или|instead|was|now|old|new|existing|forming|allow\w*"
    r"|zuschlag\w*|nadd\w*|surepaisseur|sobreespesor|sovraspessore|sobremetal|toeslag|tillagg|tillaeg|pridavek"
    r"|korro\w*|corros\w*|freight|transport\w*|fracht|galvani\w*|paint\w*)(?![^\W\d_])"
    r"|(?<=\d) ?o ?(?=\d)|\+ ?[^\W\d_]"
)
"""Words that make a size no plain one, or a row no part: they are about what stands beside them."""
_DELIVERED = re.compile(r"(?<=[^\W_])\+(?:n|ar|m|mc|z|a|qt|nt|at|cr|u)\d{0,3}(?![^\W_])")
"""S355J2+N: how plate is delivered (EN 10025-2), and no size more."""
_PIPE = re.compile(
    r"(?<![^\W\d_])(?:pipes?|tub(?:e|o|ing)s?|rohre?|rura|buis|r[oø]r|putki|boru|trubka|cso|teava)(?![^\W\d_])"
)
_ROLLED = re.compile(
    r"(?<![^\W\d_])(?:roll\w*|rld|cans?|plates?|fab\w*|casing|gewalzt\w*|cintr\w*|calandr\w*|zwij\w*|skru\w*)"
)
"""A pipe by its schedule alone may be one that is bought."""
_NAME = re.compile(r"[^\W\d_]{1,2}-?\d{1,3}(?:-\d{1,3})*")
_SIDES = {"inside": "I", "outside": "O", "mean": "M"}
_RADII = {"inside": "IR", "outside": "OR", "mean": "CLR", "": "R"}
_WORDS = {"L": "{} long", "W": "{} wide", "H": "{} high", "T": "{} thk", "C": "chord {}", "S": "rise {}",
          "B": "arc length {}", "K": "slant {}", "G": "girth {}", "A": "{} deg"}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Rewritten:
    """A text in two: its words without any size, and its sizes, each marked, with their values."""

    words: str
    marked: tuple[str, ...]
    sizes: tuple[Size, ...]


def rewritten(
    text: str, writing: Writing, masked: tuple[tuple[int, int], ...] = (), told: Told = NOTHING
) -> Rewritten | None:
    """Return the words and the sizes of a text about one part; nothing if it is not clear which is which.

    `masked` are the stretches that name grades, `told` is what the sheet says of all parts.

    >>> inches = Writing(NumberStyle.POINT, inch=True)
    >>> found = rewritten("roll 3/8 plate to 40 in inside diameter, 8 ft tall", inches)
    >>> found.words, found.marked
    ('roll ; to', ('0.375 in thk', 'ID 40 in', '96 in long'))
    """
    pieces = pieces_of(text, writing, masked)
    plain = plain_signs(text)
    if pieces is None or _UNSURE.search(_DELIVERED.sub(" ", plain)):
        return None
    turned = any(piece.unit == "deg" for piece in pieces)
    if turned and (_BEVELLED.search(plain) or _HEATED.search(plain)):
        return None
    if any(piece.unit == "sch" for piece in pieces) and _PIPE.search(plain) and not _ROLLED.search(plain):
        return None
    sizes = sizes_of(text, pieces, About(writing.inch, _CONICAL.search(plain) is not None, told))
    sizes = None if sizes is None else _with_share(sizes, pieces)
    if sizes is None:
        return None
    rest = list(text)
    for piece in pieces:
        if _is_size(plain, piece):
            rest[piece.start : piece.end] = ";" + " " * (piece.end - piece.start - 1)
    ends = [one for one in sizes if one.field == "D"]
    if len(ends) > 1 and not _CALLED_CONE.search(plain):
        rest.append(" ; cone")
    words = re.sub(r"\s*(?:(?:[;()\n]|(?<!\d),|,(?!\d))\s*)+", " ; ", "".join(rest)).strip(" ;-")
    round_ = any(one.field in ("D", "R") for one in sizes)
    marked = tuple(_marked(one, writing.style) for one in sizes if one.field != "G" or not round_)
    return Rewritten(re.sub(r"\s+", " ", words), marked, sizes)


def _with_share(sizes: tuple[Size, ...], pieces: tuple[Snippet, ...]) -> tuple[Size, ...] | None:
    """Return the sizes with the degrees of a share of the circle: 1/3 of a ring; nothing if two differ."""
    shares = [piece for piece in pieces if piece.kind is Kind.OTHER and piece.unit == "deg"]
    said = [one.value for one in sizes if one.field == "A"]
    if len({round(degrees, 1) for degrees in (*said, *(piece.value for piece in shares))}) > 1:
        return None
    if said or not shares:
        return sizes
    return (*sizes, Size("A", shares[0].value, "", "", replace(shares[0], kind=Kind.NUMBER)))


def _is_size(plain: str, piece: Snippet) -> bool:
    """Return whether a piece says only a size, or is a name that looks like one: T3-05."""
    if piece.kind is Kind.OTHER:
        like = mark_at(plain, piece.start) and _NAME.fullmatch(plain[piece.start : piece.end])
        return piece.unit == "deg" or like is not None
    return piece.kind in (Kind.NUMBER, Kind.MARK, Kind.TIMES) or piece.sign in ("=", ":")


def _marked(size: Size, style: NumberStyle) -> str:
    piece = size.piece
    if piece.unit in ("NPS", "DN"):
        return f"OD {piece.unit} {piece.value:g}"
    if piece.unit == "sch":
        return f"sch {piece.sign}"
    number = _number(piece, style)
    if size.field == "D":
        return f"{_SIDES[size.side]}D {number}" if size.side else f"dia {number}"
    if size.field == "R":
        return f"{_RADII[size.side]} {number}"
    side = f" {size.side}" if size.side else ""
    return _WORDS[size.field].format(number) + side


def _number(piece: Snippet, style: NumberStyle) -> str:
    text = f"{piece.value:.6f}".rstrip("0").rstrip(".")
    if style is NumberStyle.COMMA:
        text = text.replace(".", ",")
    return f"{text} {'' if piece.unit == 'deg' else piece.unit}".strip()
