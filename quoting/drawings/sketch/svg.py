"""A sketch as SVG: a user unit is the sketch's unit, the size on paper is in mm, text is text."""

from __future__ import annotations

from xml.etree.ElementTree import Element, SubElement, indent, tostring

from quoting.drawings.cut_path import Path, arc_radius, box_path
from quoting.drawings.plate_sheet import one_line
from quoting.drawings.sketch.sketch import PAPER, QUIET, Blocks, Disc, Line, Pen, Sketch, Words

FONT = "Arial, Helvetica, sans-serif"
_LETTER = 0.56
"""Width of an average letter over its size."""


def sketch_svg(sketch: Sketch, *, inline: bool = False, name: str = "s") -> str:
    """Return the drawing as SVG text; `inline` leaves out the file's head, for a page that holds it.

    `name` keeps apart the hatches of several drawings on one page.
    """
    root = _root(sketch, inline=inline)
    SubElement(root, "title").text = one_line(sketch.title)
    hatches = sorted({item.hatch for item in sketch.items if isinstance(item, Line) and item.hatch})
    if hatches:
        defs = SubElement(root, "defs")
        for index, step in enumerate(hatches):
            _hatch(defs, f"{name}h{index}", step * sketch.per_mm, sketch.per_mm)
    top = 2 * sketch.y + sketch.height
    group: Element | None = None
    for item in sketch.items:
        if isinstance(item, Line | Blocks):
            if group is None:
                group = SubElement(root, "g", {"transform": f"matrix(1 0 0 -1 0 {number(top)})"})
            if isinstance(item, Blocks):
                data = " ".join(path_data(box_path(*box)) for box in item.boxes)
                SubElement(group, "path", {"d": data, "fill": item.fill})
                continue
            hatch = f"url(#{name}h{hatches.index(item.hatch)})" if item.hatch else ""
            _line(group, item, hatch or item.fill or "none", sketch.per_mm)
            continue
        group = None
        if isinstance(item, Disc):
            _disc(root, item, top, sketch.per_mm)
        else:
            _words(root, item, top, sketch.per_mm)
    if inline:
        return tostring(root, encoding="unicode")
    indent(root, " ")
    return '<?xml version="1.0" encoding="UTF-8"?>\n' + tostring(root, encoding="unicode") + "\n"


def path_data(path: Path, *, closed: bool = True) -> str:
    """Return a path as SVG path data, arcs as arcs, in coordinates with y upwards.

    >>> path_data(box_path(0, 0, 20, 10))
    'M0 0 L20 0 L20 10 L0 10 Z'
    """
    parts = [f"M{number(path[0].x)} {number(path[0].y)}"]
    ends = (*path[1:], path[0]) if closed else path[1:]
    for start, end in zip(path, ends, strict=False):
        target = f"{number(end.x)} {number(end.y)}"
        if start.bulge:
            radius = number(arc_radius(start, end))
            large = 1 if abs(start.bulge) > 1 else 0
            parts.append(f"A{radius} {radius} 0 {large} {1 if start.bulge > 0 else 0} {target}")
        elif end is not path[0]:
            parts.append(f"L{target}")
    return " ".join([*parts, "Z"] if closed else parts)


def number(value: float) -> str:
    """Return a number to a thousandth, without trailing zeros."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _root(sketch: Sketch, *, inline: bool) -> Element:
    width, height = sketch.size_mm
    box = " ".join(map(number, (sketch.x, sketch.y, sketch.width, sketch.height)))
    look = {"viewBox": box, "font-family": FONT}
    if inline:
        return Element("svg", {"role": "img", "aria-label": sketch.title, **look})
    size = {"width": f"{number(width)}mm", "height": f"{number(height)}mm"}
    return Element("svg", {"xmlns": "http://www.w3.org/2000/svg", **size, **look})


def _hatch(defs: Element, name: str, step: float, per_mm: float) -> None:
    size = {"width": number(step), "height": number(step), "patternUnits": "userSpaceOnUse"}
    pattern = SubElement(defs, "pattern", {"id": name, **size, "patternTransform": "rotate(45)"})
    SubElement(pattern, "rect", {"width": number(step), "height": number(step), "fill": PAPER})
    line = {"x1": "0", "y1": "0", "x2": "0", "y2": number(step), "stroke": QUIET}
    SubElement(pattern, "line", {**line, "stroke-width": number(0.25 * per_mm)})


def _pen(pen: Pen | None, per_mm: float) -> dict[str, str]:
    if pen is None:
        return {}
    look = {"stroke": pen.ink, "stroke-width": number(pen.mm * per_mm)}
    if pen.dash:
        look["stroke-dasharray"] = " ".join(number(part * per_mm) for part in pen.dash)
    return look


def _line(group: Element, item: Line, fill: str, per_mm: float) -> None:
    data = path_data(item.path, closed=item.closed)
    SubElement(group, "path", {"d": data, "fill": fill, **_pen(item.pen, per_mm)})


def _disc(root: Element, item: Disc, top: float, per_mm: float) -> None:
    radius = item.radius * per_mm if item.mm else item.radius
    place = {"cx": number(item.x), "cy": number(top - item.y), "r": number(radius)}
    SubElement(root, "circle", {**place, "fill": item.fill or "none", **_pen(item.pen, per_mm)})


def _words(root: Element, item: Words, top: float, per_mm: float) -> None:
    size = item.mm * per_mm
    x, y = item.x, top - item.y
    turn = {"transform": f"rotate({number(-item.turn)} {number(x)} {number(y)})"} if item.turn else {}
    if item.behind:
        wide = (_LETTER * len(item.text) + 0.3) * size
        left = {"start": x, "middle": x - wide / 2, "end": x - wide}[item.anchor]
        box = {"x": number(left), "y": number(y - 0.85 * size), "width": number(wide)}
        SubElement(root, "rect", {**box, "height": number(1.1 * size), "fill": item.behind, **turn})
    look = {"font-size": number(size), "fill": item.ink, **turn}
    if item.anchor != "start":
        look["text-anchor"] = item.anchor
    if item.bold:
        look["font-weight"] = "bold"
    SubElement(root, "text", {"x": number(x), "y": number(y), **look}).text = one_line(item.text)
