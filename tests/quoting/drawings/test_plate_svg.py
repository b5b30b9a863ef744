"""Drawings of plates: true to size, safe against any customer's text, the same bytes every time."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from quoting.drawings import plate_svg
from quoting.drawings.plate_sheet import one_line
from quoting.drawings.plate_svg import scale_of
from quoting.nesting import Placement
from tests.quoting.drawings.cut_samples import HOSTILE, sheet

SVG = "{http://www.w3.org/2000/svg}"
KINDS = ("shear", "cone")


def _root(kind: str, label: str = "Sample 1") -> ElementTree.Element:
    return ElementTree.fromstring(plate_svg(sheet(kind, label)))


def _texts(root: ElementTree.Element) -> list[str]:
    return [element.text or "" for element in root.iter(f"{SVG}text")]


@pytest.mark.parametrize("kind", KINDS)
def test_a_user_unit_is_a_millimetre_of_plate_and_the_scale_is_round(kind: str) -> None:
    root, plate = _root(kind), sheet(kind).plate
    n = scale_of(plate.length_mm, plate.width_mm)
    _, _, width, height = map(float, root.attrib["viewBox"].split())
    assert float(root.attrib["width"].removesuffix("mm")) * n == pytest.approx(width, rel=1e-5)
    assert float(root.attrib["height"].removesuffix("mm")) * n == pytest.approx(height, rel=1e-5)
    edge = next(iter(root.iter(f"{SVG}path"))).attrib["d"]
    numbers = [float(number) for number in re.findall(r"-?[\d.]+", edge)]
    assert (max(numbers[0::2]), max(numbers[1::2])) == (plate.length_mm, plate.width_mm)


@pytest.mark.parametrize("kind", KINDS)
def test_every_piece_and_drop_is_drawn_where_the_nest_has_it(kind: str) -> None:
    drawn = sheet(kind)
    paths = [element.attrib["d"] for element in _root(kind).iter(f"{SVG}path")]
    assert len(paths) >= 1 + len(drawn.cut.placements) + len(drawn.cut.drops)
    corners = [tuple(map(float, re.findall(r"-?[\d.]+", path)[:2])) for path in paths if "A" not in path]
    square = [p for p in drawn.cut.placements if p.piece == "B"] or drawn.cut.placements
    for box in (*square, *drawn.cut.drops):
        turned = isinstance(box, Placement) and box.turned
        corner = (box.x_mm + box.dx_mm, box.y_mm) if turned else (box.x_mm, box.y_mm)
        assert any(found == pytest.approx(corner, abs=1e-3) for found in corners), box


def test_cones_are_drawn_with_true_arcs() -> None:
    arcs = [d for e in _root("cone").iter(f"{SVG}path") if "A1500 1500" in (d := e.attrib["d"])]
    assert len(arcs) == sum(placed.piece == "A" for placed in sheet("cone").cut.placements)
    for path in arcs:  # counterclockwise outside, back inside, in coordinates with y upwards
        assert path.count("A1500 1500 0 0 1 ") == 2
        assert path.count("A900 900 0 0 0 ") == 2


def test_shear_strokes_are_numbered_in_their_order() -> None:
    numbers = [text for text in _texts(_root("shear")) if text.isdecimal()]
    assert numbers == [str(cut.number) for cut in sheet("shear").cut.cuts]
    assert numbers == [str(number) for number in range(1, len(numbers) + 1)]


@pytest.mark.parametrize("label", HOSTILE)
@pytest.mark.parametrize("kind", KINDS)
def test_no_text_breaks_out_of_the_drawing(kind: str, label: str) -> None:
    plain, hostile = _root(kind), _root(kind, label)
    assert {element.tag for element in hostile.iter()} == {element.tag for element in plain.iter()}
    shown = " ".join(_texts(hostile))
    assert "\n" not in shown
    assert one_line(label) in shown


@pytest.mark.parametrize("kind", KINDS)
def test_the_same_plate_gives_the_same_drawing(kind: str) -> None:
    assert plate_svg(sheet(kind)) == plate_svg(sheet(kind))


def test_a_plate_larger_than_the_page_at_every_usual_scale_still_fits() -> None:
    n = scale_of(100_000, 3_000)
    assert 100_000 / n <= 255
