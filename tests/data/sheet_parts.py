"""Short names to write a sheet down with: rows, wants, and the three shapes with their sizes in any unit."""

from __future__ import annotations

import math
from datetime import date

from tests.data.sheet_model import ID, MEAN, OD, CellValue, Expect, Line, Part, Row, Sheet, Tab, Want


def r(*cells: CellValue, bold: bool = False, hidden: bool = False, strike: bool = False) -> Row:
    """Return a row that is no part."""
    return Row(cells, bold=bold, hidden=hidden, strike=strike)


def p(
    want: Want | Line, *cells: CellValue, strike: bool = False, hidden: bool = False, bold: bool = False
) -> Row:
    """Return a row and its careful reading."""
    return Row(cells, line(want) if isinstance(want, Line) else want, strike=strike, hidden=hidden, bold=bold)


def sheet(
    name: str,
    kind: str,
    language: str,
    about: str,
    *rows: Row,
    tab: str = "Sheet1",
    merged: tuple[str, ...] = (),
    encoding: str = "utf-8",
    separator: str = ",",
    parts: tuple[Part, ...] = (),
    may_refuse: bool = False,
    hidden_columns: tuple[int, ...] = (),
) -> Sheet:
    """Return a file of one tab."""
    only = Tab(tab, rows, merged, parts, hidden_columns=hidden_columns)
    return Sheet(name, kind, language, about, (only,), encoding, separator, may_refuse)


def line(*lines: Line) -> Want:
    """Return the reading of a row that holds these lines, all of them."""
    return Want(Expect.LINE, (lines,))


def any_of(*lines: Line) -> Want:
    """Return the reading of a row for which each of these lines alone is right."""
    return Want(Expect.LINE, tuple((one,) for one in lines))


def ask(why: str, *doubts: str, or_left_out: bool = False) -> Want:
    """Return a row that must not be priced before an answer to one of the doubts."""
    return Want(Expect.ASK, (), doubts, why, or_left_out)


def ignore(why: str) -> Want:
    """Return a row that looks like a part and is none."""
    return Want(Expect.IGNORE, why=why)


def line_or_ask(why: str, *lines: Line, doubts: tuple[str, ...] = ()) -> Want:
    """Return a row that a careful estimator might price as any of these, or ask about."""
    return Want(Expect.LINE_OR_ASK, tuple((one,) for one in lines), doubts, why)


def cyl(
    d: float,
    basis: str,
    t: float,
    length: float,
    n: int = 1,
    mat: str = "",
    *,
    u: float = 1.0,
    ends: str = "",
    due: date | None = None,
    part: str = "",
    rev: str = "",
    free: bool | None = None,
    cert: bool | None = None,
    say: str = "",
) -> Line:
    """Return a closed cylinder; `u` is the mm in one unit of the sizes."""
    return Line(
        "cylinder",
        t * u,
        basis,
        length * u,
        d=d * u,
        n=n,
        mat=mat,
        ends=ends,
        due=due,
        part=part,
        rev=rev,
        free=free,
        cert=cert,
        say=tuple(say.split()),
    )


def arc(
    radius: float,
    basis: str,
    angle: float,
    t: float,
    length: float,
    n: int = 1,
    mat: str = "",
    *,
    u: float = 1.0,
    ends: str = "",
    due: date | None = None,
    part: str = "",
    rev: str = "",
    free: bool | None = None,
    cert: bool | None = None,
    say: str = "",
) -> Line:
    """Return a segment of a cylinder."""
    return Line(
        "arc",
        t * u,
        basis,
        length * u,
        radius=radius * u,
        angle=angle,
        n=n,
        mat=mat,
        ends=ends,
        due=due,
        part=part,
        rev=rev,
        free=free,
        cert=cert,
        say=tuple(say.split()),
    )


def cone(
    large: float,
    small: float,
    basis: str,
    height: float,
    t: float,
    n: int = 1,
    mat: str = "",
    *,
    u: float = 1.0,
    ends: str = "",
    due: date | None = None,
    part: str = "",
    rev: str = "",
    free: bool | None = None,
    cert: bool | None = None,
    say: str = "",
) -> Line:
    """Return a concentric cone frustum with its height along the axis."""
    return Line(
        "cone",
        t * u,
        basis,
        height * u,
        large=large * u,
        small=small * u,
        n=n,
        mat=mat,
        ends=ends,
        due=due,
        part=part,
        rev=rev,
        free=free,
        cert=cert,
        say=tuple(say.split()),
    )


def chord(
    width: float,
    rise: float,
    basis: str,
    t: float,
    length: float,
    n: int = 1,
    mat: str = "",
    *,
    u: float = 1.0,
    due: date | None = None,
    part: str = "",
    say: str = "",
) -> Line:
    """Return the segment with this chord and rise: R = c^2 / 8h + h / 2 (circle geometry)."""
    radius = width**2 / (8 * rise) + rise / 2
    angle = 2 * math.degrees(math.atan2(width / 2, radius - rise))
    return arc(radius, basis, angle, t, length, n, mat, u=u, due=due, part=part, say=say)


def flat(
    girth: float,
    radius: float,
    basis: str,
    t: float,
    length: float,
    n: int = 1,
    mat: str = "",
    *,
    u: float = 1.0,
    ends: str = "",
    due: date | None = None,
    part: str = "",
    say: str = "",
) -> Line:
    """Return the segment that a flat plate of this girth becomes: angle = girth / mean radius."""
    mean = radius + {ID: t / 2, OD: -t / 2, MEAN: 0.0}[basis]
    angle = math.degrees(girth / mean)
    return arc(radius, basis, angle, t, length, n, mat, u=u, ends=ends, due=due, part=part, say=say)
