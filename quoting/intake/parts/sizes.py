"""The sizes of one part: numbers with and without a mark that together make something of plate.

A part has one thickness, one length across the roll, and what it is rolled to: a diameter, a radius, chord
and rise, or a girth; a cone has two diameters. What bears no mark is told by the order of magnitude (plate is
thin beside what is rolled of it; common practice, no source), and a flat size that goes round by its length.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from math import pi

from quoting.core import MM_PER_INCH, RangeError, pipe_outside_mm
from quoting.intake.parts.marks import mark_at, plain_signs
from quoting.intake.parts.nouns import is_noun, names_flat, names_ring, names_round
from quoting.intake.parts.snippet import Kind, Snippet
from quoting.intake.parts.told import NOTHING, Told
from quoting.intake.parts.ways import DEAREST, SIDED, Marked, ways

_FEWEST, _MOST = 3, 9
"""So many numbers a text of a whole part has."""
_CLEARLY = 0.7
"""So much dearer is every other reading of a text than the one that is taken."""
_THIN = 8.0
"""Beside a rolled length the thickness is at least this many times smaller (common practice, no source)."""
_SURELY_THIN_MM = 25.0
_THICKEST_MM, _THINNEST_MM = 160.0, 0.4
_LEAST_ROUND_MM, _LEAST_END_MM, _LEAST_LENGTH_MM = 40.0, 20.0, 3.0
"""No part of a plate roll is outside these (common practice, no source)."""
_SOME_GAUGE_MM, _SOME_WALL_MM = 6.0, 10.0
"""Stand for a gauge and the wall of a schedule, which are looked up later: only their order counts here."""
_LEAST_BESIDE_MM = 60.0
"""A number without a mark beside a thickness that is told of all is no thickness itself from here on."""
_SAME_GIRTH = 0.012
_ONE_LOOSE, _TWO_LOOSE, _FLAT = 0.2, 0.3, 0.4
_OTHER_END, _ENDS_APART, _BY_GIRTH, _BY_CHORD = 0.3, 0.5, 0.1, 0.2
"""What readings cost that rest on more than marks."""
_FIELDS = "DRTLWHGUCSBKA"
_ONCE = "RTGUCSBKA"
_ACROSS = ("L", "W", "H")
_ALIKE = dict.fromkeys(_ACROSS, "L")
"""Length, width and height of a rolled part all lie across the roll, if only one is given."""
_OF_ANOTHER = frozenset((
    "for", "fits", "fit", "over", "suit", "suits", "onto", "around", "fur", "uber", "pour", "sur", "para",
    "sobre", "per", "su", "voor", "til", "till", "rundt", "na", "pro", "dla", "do", "icin", "pentru", "za",
    "untuk", "для", "leg", "on", "f",
))  # fmt: skip
"""Before a size that is another part's, which this one goes over or into: for 508 pipe."""
_OTHERS = frozenset((
    "pipe", "pipes", "tube", "tubes", "shell", "rohr", "rohre", "tuyau", "tubo", "tubos", "tubi", "tubulure",
    "tuberia", "tubazione", "buis", "buizen", "pijp", "rura", "rury", "rore", "ror", "rør", "potrubi",
    "trubku", "boru", "putki", "putken", "cso", "teava", "cijev", "pipa", "труба", "трубы",
))  # fmt: skip
"""Between such a word and the size: for pipe DN 300."""


@dataclass(frozen=True, slots=True)
class Size:
    """One size of a part: its field, its value in mm (degrees for an angle), side, end, and its number."""

    field: str
    value: float
    side: str
    end: str
    piece: Snippet


@dataclass(frozen=True, slots=True)
class About:
    """How a text is read: whether bare numbers are inches, whether it is of a cone, what its sheet says."""

    inch: bool
    conical: bool
    told: Told = NOTHING
    ends: tuple[tuple[int, int], ...] = ()
    """Where two numbers begin that a word such as to joins: 1200 to 600."""


def sizes_of(text: str, pieces: tuple[Snippet, ...], about: About) -> tuple[Size, ...] | None:
    """Return the sizes of the one part that a text describes, or nothing if that is not clear.

    What names two ends may be a cone too. A size that the sheet says of all parts may be missing.
    """
    plain = plain_signs(text)
    if about.told.side:
        pieces = tuple(map(_not_mean, pieces))
    if any(_is_of_another(plain, pieces, at) for at in range(1, len(pieces))):
        return None
    about = replace(about, ends=_joined_ends(plain, pieces))
    alone = replace(about, told=NOTHING)
    found = _one_part(plain, pieces, alone)
    if found is None:
        found = _sided_in_brackets(plain, pieces, alone)
    if found is None and not about.conical and not names_flat(plain):
        found = _in_order(plain, pieces, about)
        found = found if about.told.orders else _in_proportion(plain, found)
    if found is None and about.told.side and not about.conical and _is_round(plain, pieces):
        found = _in_proportion(plain, _one_part(plain, pieces, replace(alone, told=Told(side=True))))
    if found is None and about.told.fields and not any(_may_be_a_size(plain, one) for one in pieces):
        found = _one_part(plain, pieces, about)
    return found


def _not_mean(piece: Snippet) -> Snippet:
    """Return a mark of a mean diameter, or of any, as the latter where the sheet tells the side of all."""
    plain = any(one.field == "D" and not one.side for one in piece.means)
    if piece.kind is not Kind.MARK or not plain:
        return piece
    return replace(piece, means=tuple(one for one in piece.means if one.side != "mean"))


def _in_proportion(text: str, sizes: tuple[Size, ...] | None) -> tuple[Size, ...] | None:
    """Return sizes that were told by their order only where they make a usual part: thin beside its diameter,
    and no ring that is longer than wide (common practice, no source)."""
    by = {one.field: one.value for one in sizes or ()}
    across = max((by[name] for name in _ACROSS if name in by), default=0.0)
    round_, thick = by.get("D", 0.0), by.get("T", 0.0)
    usual = round_ >= _WIDE * thick and not (names_ring(text) and across > round_)
    return sizes if usual else None


_WIDE = 12.0


def _is_round(text: str, pieces: tuple[Snippet, ...]) -> bool:
    """Return whether a text calls its part something round, or nothing at all, and speaks of no plate.

    Under diameters on one side of the plate its bare numbers may then be a diameter, else flat sizes.
    """
    if _names_plate(pieces) or names_flat(text):
        return False
    words = (text[one.start : one.end] for one in pieces if one.kind is Kind.WORD and not one.sign)
    called = [word for word in words if is_noun(word)]
    return not called or any(map(names_round, called))


def _names_plate(pieces: tuple[Snippet, ...]) -> bool:
    """Return whether a text speaks of plate, whose sizes may be flat ones."""
    return any(piece.kind is Kind.MARK and any(one.weak for one in piece.means) for piece in pieces)


def _may_be_a_size(text: str, piece: Snippet) -> bool:
    """Return whether figures that were taken for no size may be one after all: sheet 8, pl12.

    Then what the sheet says of all parts may not hold for this one.
    """
    if piece.kind is not Kind.OTHER or not piece.start:
        return False
    return text[piece.start].isdecimal() or mark_at(text, piece.start) is not None


def _sided_in_brackets(plain: str, pieces: tuple[Snippet, ...], about: About) -> tuple[Size, ...] | None:
    apart, side = _bracketed_side(plain, pieces)
    found = _one_part(plain, apart, about) if side else None
    if found is None or any(one.side for one in found):
        return None
    return tuple(replace(one, side=side) if one.field in SIDED else one for one in found)


def _in_order(text: str, pieces: tuple[Snippet, ...], about: About) -> tuple[Size, ...] | None:
    """Return the sizes of numbers without a mark in the order that the sheet lists, where they make a part.

    Under diameters on one side of the plate an order without any list is diameter x length x thickness,
    where the last number is the plate's by its size.
    """
    told = about.told
    numbers = _listed(pieces)
    orders = [order for order in told.orders if len(order) == len(numbers)]
    usual = told.side and not told.orders and _is_round(text, pieces)
    if usual and len(numbers) == len(_USUAL) and _thin_last(numbers, about):
        orders = [_USUAL]
    found: dict[object, tuple[Size, ...]] = {}
    for order in orders:
        sizes = [
            Size(field, _mm(piece, inch=about.inch), side, "", piece)
            for (field, side), piece in zip(order, numbers, strict=True)
        ]
        for _, made in _made(sizes, about):
            found[tuple(_said(one) for one in made)] = made
    return next(iter(found.values())) if len(found) == 1 else None


_USUAL = (("D", ""), ("L", ""), ("T", ""))


def _thin_last(numbers: list[Snippet], about: About) -> bool:
    values = [_mm(piece, inch=about.inch) for piece in numbers]
    return values[-1] <= _SURELY_THIN_MM and values[-1] * _THIN <= min(values[:-1])


def _listed(pieces: tuple[Snippet, ...]) -> list[Snippet]:
    """Return the numbers of a text that are all joined by one sign, with no mark at any of them."""
    at = [index for index, piece in enumerate(pieces) if piece.kind is Kind.NUMBER]
    marked = any(piece.kind is Kind.MARK and not all(one.weak for one in piece.means) for piece in pieces)
    if len(at) < _FEWEST or marked:
        return []
    between = {
        tuple((one.kind, one.sign) for one in pieces[first + 1 : last]) for first, last in pairwise(at)
    }
    signs = next(iter(between))
    joined = len(between) == len(signs) == 1 and signs[0][0] in (Kind.TIMES, Kind.BREAK)
    return [pieces[index] for index in at] if joined else []


def _bracketed_side(text: str, pieces: tuple[Snippet, ...]) -> tuple[tuple[Snippet, ...], str]:
    """Return the pieces without the only side that stands alone in a clause, and it: (inside), `, inside,`.

    It is that of all sizes. In brackets it may have words beside it: (both inside).
    """
    found = []
    for at in range(1, len(pieces)):
        if not _only_side(pieces[at]):
            continue
        start = at
        while start and pieces[start - 1].kind is Kind.WORD:
            start -= 1
        if not all(text[one.start : one.end].strip(".") in _ALL_SIZES for one in pieces[start:at]):
            continue
        before, after = pieces[start - 1 : start], pieces[at + 1 : at + 2]
        bracketed = bool(before) and before[0].sign == "(" and bool(after) and after[0].sign == ")"
        behind = pieces[start - 2 : start - 1] if start > 1 else ()
        sized = bool(behind) and behind[0].kind in (Kind.NUMBER, Kind.MARK)
        clause = sized and before[0].sign in _CLAUSE and (not after or after[0].sign in _CLAUSE)
        if bracketed or clause:
            found.append(at)
    if len(found) != 1:
        return pieces, ""
    (at,) = found
    return (*pieces[:at], replace(pieces[at], kind=Kind.WORD), *pieces[at + 1 :]), pieces[at].means[0].side


_ALL_SIZES = frozenset((
    "dims", "dim", "dimensions", "sizes", "all", "both", "measured", "maße", "masse",
    "alle", "beide", "gemessen", "cotes", "mesures", "toutes", "cotas", "medidas", "todas", "misure", "quote",
    "tutte", "maten", "gemeten", "wymiary", "rozmery", "matt", "mal", "mitat", "olculer", "meretek",
    "od", "to",
))  # fmt: skip
"""Before a side, where it is that of all sizes: misure all'intradosso."""
_CLAUSE = frozenset((",", ";", "\n", "-"))


def _only_side(piece: Snippet) -> bool:
    return piece.kind is Kind.MARK and all(one.side and not one.field for one in piece.means)


def _one_part(text: str, pieces: tuple[Snippet, ...], about: About) -> tuple[Size, ...] | None:
    found = _clearest(text, pieces, about)
    ends = sum(any(one.end for one in piece.means) for piece in pieces)
    if found is None and not about.conical and ends > 1:
        return _clearest(text, pieces, replace(about, conical=True))
    return found


def _is_of_another(text: str, pieces: tuple[Snippet, ...], at: int) -> bool:
    if pieces[at].kind is not Kind.NUMBER:
        return False
    words = [text[one.start : one.end].strip(".") for one in pieces[max(at - 3, 0) : at]]
    if words[-1] in _OF_ANOTHER:
        return True
    if pieces[at - 1].kind is Kind.MARK:
        words.pop()  # for pipe OD 508
    return len(words) > 1 and words[-1] in _OTHERS and words[-2] in _OF_ANOTHER


def _clearest(text: str, pieces: tuple[Snippet, ...], about: About) -> tuple[Size, ...] | None:
    """Return the reading that costs least, where every other one costs clearly more."""
    numbers = [at for at, piece in enumerate(pieces) if piece.kind is Kind.NUMBER]
    if not max(1, _FEWEST - len(about.told.fields)) <= len(numbers) <= _MOST:
        return None
    best: dict[object, tuple[float, tuple[Size, ...]]] = {}
    for cost, givens in ways(text, pieces, numbers):
        for more, sizes in _parts(givens, about):
            key = tuple(sorted(_said(one) for one in sizes))
            if key not in best or best[key][0] > cost + more:
                best[key] = (cost + more, sizes)
    ranked = sorted(best.values(), key=lambda one: one[0])
    if not ranked or ranked[0][0] > DEAREST:
        return None
    clear = len(ranked) == 1 or ranked[1][0] >= ranked[0][0] + _CLEARLY
    return ranked[0][1] if clear else None


def _said(size: Size) -> tuple[str, float, str, str]:
    return _ALIKE.get(size.field, size.field), round(size.value, 3), size.side, size.end


def _parts(givens: list[Marked], about: About) -> Iterator[tuple[float, tuple[Size, ...]]]:
    """Yield the parts of plate that numbers with these marks make, with what is unusual about each."""
    sizes = [Size(one.field, _mm(one.piece, inch=about.inch), one.side, one.end, one.piece) for one in givens]
    conical = about.conical
    if not conical and (walled := _with_wall(sizes)):
        sizes = walled
    if not conical:  # what lies along the slant of a cone lies along the axis of a cylinder
        sizes = [replace(one, field="L") if one.field == "K" else one for one in sizes]
    count = _counts(sizes)
    loose = [at for at, one in enumerate(sizes) if not one.field]
    most = _FEWEST + bool(conical and about.ends)
    if any(count[name] > 1 for name in _ONCE) or count["D"] > _PAIR or len(loose) > most:
        return
    paired = [(0.0, sizes)]
    if conical and loose and count["D"] == 1:
        paired = _with_other_end(sizes, loose)
    elif conical and not count["D"] and about.ends:
        paired = _with_both_ends(sizes, loose, about.ends)
    if conical:
        paired = [(cost, _in_one_unit(ended, about)) for cost, ended in paired]
    for first, ended in paired:
        for second, named in _placed(ended, about):
            for third, made in _made(named, about):
                yield first + second + third, made


def _with_wall(sizes: list[Size]) -> list[Size]:
    """Return the sizes of a ring whose outside and inside diameter tell its wall; nothing for any other."""
    across = {one.side: one for one in sizes if one.field == "D"}
    if set(across) != {"inside", "outside"} or any(one.field == "T" for one in sizes):
        return []
    outer, inner = across["outside"], across["inside"]
    if outer.piece.unit != inner.piece.unit or (outer.value - inner.value) / 2 <= _THINNEST_MM:
        return []
    wall = replace(outer.piece, value=(outer.piece.value - inner.piece.value) / 2)
    thick = Size("T", (outer.value - inner.value) / 2, "", "", wall)
    second = max(outer, inner, key=lambda one: one.piece.start)
    return [*(one for one in sizes if one is not second), thick]


def _counts(sizes: list[Size]) -> dict[str, int]:
    return {name: sum(one.field == name for one in sizes) for name in _FIELDS}


def _mm(piece: Snippet, *, inch: bool) -> float:
    if piece.unit == "sch":
        return _SOME_WALL_MM
    if piece.unit == "ga":
        return _SOME_GAUGE_MM
    if piece.unit in ("NPS", "DN"):
        try:
            return pipe_outside_mm(piece.value, dn=piece.unit == "DN")
        except RangeError:
            return 0.0
    return piece.value * MM_PER_INCH if piece.unit == "in" or (not piece.unit and inch) else piece.value


def _in_one_unit(sizes: list[Size], about: About) -> list[Size]:
    """Return a cone with the unit of one end for the other, which has none: Ø 1000 / 400 mm, 36 to 24"."""
    ends = [at for at, one in enumerate(sizes) if one.field == "D"]
    units = {sizes[at].piece.unit for at in ends}
    if len(ends) != _PAIR or "" not in units or not units <= {"", "mm", "in"}:
        return sizes
    unit = "".join(units)
    new = list(sizes)
    for at in ends:
        piece = replace(sizes[at].piece, unit=unit)
        new[at] = replace(sizes[at], piece=piece, value=_mm(piece, inch=about.inch))
    return new


def _with_other_end(sizes: list[Size], loose: list[int]) -> list[tuple[float, list[Size]]]:
    """Return a cone with a number right beside its only diameter as the other one: Ø 900/450."""
    at = next(index for index, one in enumerate(sizes) if one.field == "D")
    found = []
    for other in sorted({at + 1, at - 1} & set(loose), reverse=True):
        ended = list(sizes)
        ended[other] = replace(sizes[other], field="D", side=sizes[at].side)
        found.append((_OTHER_END, ended))
    return found


def _with_both_ends(
    sizes: list[Size], loose: list[int], ends: tuple[tuple[int, int], ...]
) -> list[tuple[float, list[Size]]]:
    """Return a cone with two numbers without a mark as its ends where to joins them: 1200 to 600."""
    found = []
    for one, two in pairwise(loose):
        if (sizes[one].piece.start, sizes[two].piece.start) in ends:
            ended = list(sizes)
            for at in (one, two):
                ended[at] = replace(sizes[at], field="D")
            found.append((_OTHER_END, ended))
    return found or [(0.0, sizes)]


_TO = frozenset((
    "to", "auf", "naar", "na", "su", "til", "till", "a", "ad", "ate", "hasta", "do", "pe", "la", "bis",
    "vers", "para", "down", "tapering", "reducing", "→", "-", ">", "=", "/",
))  # fmt: skip
"""What joins the two ends of a cone, alone or together: down to, ->."""


def _joined_ends(text: str, pieces: tuple[Snippet, ...]) -> tuple[tuple[int, int], ...]:
    numbers = [at for at, piece in enumerate(pieces) if piece.kind is Kind.NUMBER and piece.unit != "deg"]
    found = []
    for first, last in pairwise(numbers):
        between = {text[one.start : one.end].strip(".") for one in pieces[first + 1 : last]}
        if between and between <= _TO and between != {"="}:
            found.append((pieces[first].start, pieces[last].start))
    return tuple(found)


def _placed(sizes: list[Size], about: About) -> Iterator[tuple[float, list[Size]]]:
    """Yield the sizes with a field for each number that bears no mark."""
    loose = [at for at, one in enumerate(sizes) if not one.field]
    values = [sizes[at].value for at in loose]
    count = _counts(sizes)
    across = count["L"] + count["W"] + count["H"] + count["K"]
    told = about.told.fields
    if about.told.side and told <= {"T"} and not any(count[name] for name in SIDED):
        thick = count["T"] > 0 or "T" in told
        yield from _with_diameter(sizes, loose, thick=thick, across=across > 0)
        return
    missing = [] if count["T"] or "T" in told else ["T"]
    angled = about.conical and count["A"] > 0
    missing += [] if across or angled or "L" in told else ["H" if about.conical else "L"]
    if told and (len(loose) > len(missing) or any(value < _LEAST_BESIDE_MM for value in values)):
        return  # a number too many, or one that may be the plate's own thickness
    for cost, fields in _fields_of(values, missing, across=across > 0):
        if "G" in fields and not count["D"]:
            continue  # a flat length is only known to go round by the diameter that it makes
        named = list(sizes)
        for at, field in zip(loose, fields, strict=True):
            named[at] = replace(sizes[at], field=field)
        yield cost, named


def _with_diameter(
    sizes: list[Size], loose: list[int], *, thick: bool, across: bool
) -> Iterator[tuple[float, list[Size]]]:
    """Yield the sizes with the first number that bears no mark as the diameter, whose side the sheet tells.

    Diameter x length x thickness and diameter x thickness x length are how parts are listed (common practice,
    no source): of two numbers the thin one is the plate's, and a diameter stands before a length.
    """
    missing = [name for name, has in (("T", thick), ("L", across)) if not has]
    if len(loose) != len(missing) + 1:
        return
    rest = loose[1:]
    if "T" in missing:
        thin = min(loose, key=lambda at: sizes[at].value)
        others = [sizes[at].value for at in loose if at != thin]
        if thin == loose[0] and len(loose) > _PAIR:
            return
        if sizes[thin].value > _SURELY_THIN_MM and sizes[thin].value * _THIN > min(others):
            return
        rest = [at for at in loose if at != thin]
        named = {thin: "T", rest[0]: "D"} | dict.fromkeys(rest[1:], "L")
    else:
        named = {loose[0]: "D"} | dict.fromkeys(rest, "L")
    yield _TWO_LOOSE, [replace(one, field=named.get(at, one.field)) for at, one in enumerate(sizes)]


_PAIR = 2


def _fields_of(values: list[float], missing: list[str], *, across: bool) -> Iterator[tuple[float, list[str]]]:
    """Yield the fields of numbers without a mark where these are missing; G is a flat size going round."""
    if not values or (len(values) == len(missing) == 1):
        yield _ONE_LOOSE * len(values), missing[: len(values)]
    elif len(values) == len(missing):
        small, large = sorted(values)
        if small < large and (small * _THIN <= large or small <= _SURELY_THIN_MM):
            yield _TWO_LOOSE, missing if values[0] == small else missing[::-1]
    elif len(values) == 1 and across and not missing:
        yield _FLAT, ["G"]
    elif len(values) in (2, 3):
        thin = values.index(min(values)) if "T" in missing else -1
        rest = [at for at in range(len(values)) if at != thin]
        for flat in _FLATS.get((len(rest), across), ()):
            fields = ["T"] * len(values)
            for at, field in zip(rest, flat, strict=True):
                fields[at] = field
            yield _FLAT, fields


_FLATS = {(2, False): (("L", "G"), ("G", "L")), (1, True): (("G",),)}
"""What flat sizes beside a thickness are, by their number and whether a length across is given besides."""


def _made(sizes: list[Size], about: About) -> Iterator[tuple[float, tuple[Size, ...]]]:
    """Yield the sizes where they make one part."""
    by = {name: [one for one in sizes if one.field == name] for name in _FIELDS}
    across = [*by["L"], *by["W"], *by["H"]]
    told = about.told.fields
    if not by["T"] and "T" not in told:
        return
    thick = by["T"][0].value if by["T"] else _THINNEST_MM
    if len(by["T"]) > 1 or not _THINNEST_MM <= thick <= _THICKEST_MM:
        return
    if about.conical:
        if "L" not in told:
            yield from _cone(sizes, by, [*across, *by["K"]])
        return
    rounds = [*by["D"], *by["R"]]
    if len(rounds) > 1 or any(one.value < max(_LEAST_ROUND_MM, 3 * thick) for one in rounds):
        return
    if told & {"D", "L"}:
        alone = bool(rounds) != ("D" in told) and (len(across) == 1) != ("L" in told)
        if alone and not any(by[name] for name in "GUCSBK") and not any(one.value < thick for one in across):
            yield 0.0, tuple(sizes)
    elif not rounds:
        yield from _without_round(sizes, by, across)
    elif len(across) == 2 and by["D"] and not by["G"]:
        yield from _flat_rolled(sizes, by["D"][0], across, thick)
    elif len(across) == 1 and across[0].value >= max(_LEAST_LENGTH_MM, thick) and not by["U"]:
        round_ = not by["G"] or (by["D"] and _goes_round(by["G"][0], by["D"][0], thick))
        if round_:
            yield 0.0, tuple(sizes)
        elif by["R"] and not by["A"] and not by["B"] and by["G"][0].value < 2 * pi * by["R"][0].value:
            yield _BY_GIRTH, tuple(_around(one) for one in sizes)


def _around(size: Size) -> Size:
    """Return the flat length of a segment as that of its arc, on the centreline if it says no side."""
    return replace(size, field="B", side=size.side or "mean") if size.field == "G" else size


def _without_round(
    sizes: list[Size], by: dict[str, list[Size]], across: list[Size]
) -> Iterator[tuple[float, tuple[Size, ...]]]:
    """Yield a part that is given by its circumference, by its girth, or by chord and rise."""
    chord = bool(by["C"] and by["S"])
    closed = by["U"] or [one for one in by["G"] if one.side in ("inside", "outside")]
    if len(across) != 1 or by["B"] or (by["U"] and by["G"]):
        return
    if closed and not by["A"] and not chord:
        around = closed[0]
        number = replace(around.piece, value=around.piece.value / pi)
        diameter = replace(around, field="D", value=around.value / pi, piece=number)
        yield _BY_GIRTH, tuple(diameter if one is around else one for one in sizes)
    elif chord != bool(by["G"]) and not by["U"]:
        sides = {one.side for name in "GCS" for one in by[name]} - {""}
        if len(sides) < 2 and not (chord and by["S"][0].value * 2 > by["C"][0].value):
            side = "".join(sides)
            yield (
                _BY_CHORD,
                tuple(replace(one, side=side) if one.field in ("C", "S") else one for one in sizes),
            )


def _goes_round(girth: Size, diameter: Size, thick: float) -> bool:
    """Return whether a flat length is that of a diameter on some side of the plate."""
    plates = {"inside": [1], "outside": [-1], "mean": [0]}.get(diameter.side, [1, -1, 0])
    if girth.side:
        plates = [-2, -1, 0, 1, 2]
    around = [pi * (diameter.value + count * thick) for count in plates]
    return any(abs(girth.value - one) <= _SAME_GIRTH * one for one in around)


def _flat_rolled(
    sizes: list[Size], diameter: Size, across: list[Size], thick: float
) -> Iterator[tuple[float, tuple[Size, ...]]]:
    """Yield a plate of two flat sizes of which one goes round the diameter."""
    rounds = [one for one in across if _goes_round(one, diameter, thick)]
    if len(rounds) == 1:
        yield _TWO_LOOSE, tuple(replace(one, field="G") if one is rounds[0] else one for one in sizes)


def _cone(
    sizes: list[Size], by: dict[str, list[Size]], heights: list[Size]
) -> Iterator[tuple[float, tuple[Size, ...]]]:
    """Yield a cone of two diameters on one side of the plate and one height."""
    if len(by["D"]) != 2 or len(heights) + len(by["A"]) != 1 or any(by[name] for name in "RGUC"):
        return
    one, two = by["D"]
    sides = {one.side, two.side} - {""}
    wrong_ends = {one.end, two.end} == {"large", "small"} and (one.value > two.value) != (one.end == "large")
    if (
        len(sides) > 1
        or abs(one.value - two.value) < 1.0
        or wrong_ends
        or min(one.value, two.value) < _LEAST_END_MM
    ):
        return
    side = "".join(sides)
    cost = _OTHER_END if "" in (one.side, two.side) and side else 0.0
    cost += _ENDS_APART if abs(sizes.index(one) - sizes.index(two)) > 1 else 0.0
    yield cost, tuple(replace(size, side=side) if size.field == "D" else size for size in sizes)
