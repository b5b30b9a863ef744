"""Drawings as numbers: blanks, rolls and codes come out at the sizes that they say."""

from __future__ import annotations

from math import atan2, cos, hypot, pi, radians, sin
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.core import Rectangle, Sector
from quoting.drawings import blank_sketch
from quoting.drawings.blank_sketch import NOT_TO_SCALE, TO_SCALE
from quoting.drawings.cut_path import Vertex
from quoting.drawings.rolls_sketch import RolledPlate, RollsAt, plate_line, rolls_sketch
from quoting.drawings.sector_sketch import sector_sizes
from quoting.drawings.sketch import Line, Sketch, Words, sketch_png
from quoting.drawings.sketch.letters import letters_for, lost
from quoting.drawings.sketch.sketch import corners
from quoting.drawings.sketch.svg import sketch_svg
from quoting.forming import slide_point
from quoting.forming.machine.pinch_roll import Direction, Nip, setting_for_radius
from quoting.forming.plate.bending import plate_law
from quoting.forming.plate.springback import loaded_curvature


def _area(points: list[tuple[float, float]]) -> float:
    pairs = zip(points, (*points[1:], points[0]), strict=True)
    return abs(sum(x * y2 - x2 * y for (x, y), (x2, y2) in pairs)) / 2


def _words(sketch: Sketch) -> list[str]:
    return [item.text for item in sketch.items if isinstance(item, Words)]


def _mm(mm: float) -> str:
    return f"{mm:.1f}"


@given(width=st.floats(50, 3000), length=st.floats(50, 12500))
def test_a_blank_is_drawn_square_with_its_own_sizes(width: float, length: float) -> None:
    drawn = blank_sketch(Rectangle(width, length), _mm)
    outline = next(item for item in drawn.items if isinstance(item, Line))
    xs, ys = zip(*((v.x, v.y) for v in outline.path), strict=True)
    dx, dy = max(xs) - min(xs), max(ys) - min(ys)
    scale = drawn.title.rpartition(", ")[2]
    assert scale in (TO_SCALE, NOT_TO_SCALE)
    assert (scale == TO_SCALE) == (dx / dy == pytest.approx(length / width, rel=1e-6))
    assert min(dx, dy) >= 9.0
    assert min(xs) >= 0
    assert max(xs) <= drawn.width
    told = " ".join(_words(drawn))
    assert f"{width:.1f}" in told
    assert f"{length:.1f}" in told
    assert f"{hypot(width, length):.1f}" in told


@pytest.mark.parametrize(("width", "length"), [(50.8, 50.8), (1524, 12192), (50.8, 12192), (2438, 100)])
def test_forty_feet_and_two_inches_both_read(width: float, length: float) -> None:
    drawn = blank_sketch(Rectangle(width, length), _mm)
    smallest = min(item.mm for item in drawn.items if isinstance(item, Words))
    assert smallest >= 8 * 25.4 / 72  # 8 points
    assert all(0 <= x <= 96 for item in drawn.items if isinstance(item, Line) for x, _ in corners(item))


@pytest.mark.parametrize("high", [42.0, 50.0])
def test_the_sizes_of_a_cone_never_run_into_their_names(high: float) -> None:
    def long(mm: float) -> str:
        return f'{mm / 25.4:.3f}" ({mm / 25.4:.0f}-11/16)'

    drawn = blank_sketch(Sector(1347.6, 676.8, 161.0), long, grain="across", size_mm=(98.0, high))
    rows: dict[float, list[Words]] = {}
    for item in drawn.items:
        if isinstance(item, Words) and item.x > 48:
            rows.setdefault(item.y, []).append(item)
    pairs = [row for row in rows.values() if len(row) == 2 and {i.anchor for i in row} == {"start", "end"}]
    assert len(pairs) >= 7
    letters = letters_for(())
    for name, value in pairs:
        ends = name.x + letters.width_mm(name.text, name.mm)
        assert ends < value.x - letters.width_mm(value.text, value.mm, bold=True)
        assert value.mm >= 8 * 25.4 / 72


@given(outer=st.floats(200, 3000), share=st.floats(0.05, 0.95), angle=st.floats(10, 350))
def test_a_sector_has_the_area_and_the_chords_of_its_cone(outer: float, share: float, angle: float) -> None:
    blank = Sector(outer, outer * share, angle)
    drawn = blank_sketch(blank, _mm)
    outline = next(item for item in drawn.items if isinstance(item, Line))
    points = corners(outline)
    reach = max(hypot(x - points[-1][0], y - points[-1][1]) for x, y in points)
    assert reach > 0
    right, left = outline.path[0], outline.path[1]
    chord = hypot(right.x - left.x, right.y - left.y)
    scale = chord / sector_sizes(blank).outer_chord_mm
    assert _area(points) == pytest.approx(blank.area_mm2 * scale**2, rel=2e-3)
    in_left, in_right = outline.path[2], outline.path[3]
    assert hypot(in_left.x - in_right.x, in_left.y - in_right.y) == pytest.approx(
        sector_sizes(blank).inner_chord_mm * scale
    )


@given(radius=st.floats(1, 1000), turn=st.floats(-300, 300).filter(lambda turn: abs(turn) > 5))
def test_an_arc_lies_on_its_circle(radius: float, turn: float) -> None:
    from math import tan  # noqa: PLC0415

    end = radians(turn)
    line = Line((Vertex(radius, 0, tan(end / 4)), Vertex(radius * cos(end), radius * sin(end))), closed=False)
    for x, y in corners(line):
        assert hypot(x, y) == pytest.approx(radius, rel=1e-6)


# An invented layout: 6 in rolls, the slide 140 mm behind the nip, leaning 30 degrees.
NIP = Nip(76.2, 76.2, 76.2, 140.0, radians(30))


@pytest.mark.parametrize("thickness", [3.0, 6.35, 9.5])
@pytest.mark.parametrize("radius", [180.0, 308.0, 900.0])
@pytest.mark.parametrize("direction", list(Direction))
@pytest.mark.parametrize("arm_t", [0.0, 2.05])
def test_the_plate_is_drawn_where_the_forming_room_has_it(
    thickness: float, radius: float, direction: Direction, arm_t: float
) -> None:
    """The picture knows radii and positions only; the forming room solved the whole plate."""
    law = plate_law(thickness, 1000, 200e3, 0.3, 250)
    found = setting_for_radius(NIP, law, radius, direction, arm_t * thickness)
    loaded = 1 / float(loaded_curvature(law, 1 / radius))
    rolls = RollsAt(76.2, 76.2, 76.2, slide_point(NIP, float(found.lift_mm)))
    line = plate_line(rolls, RolledPlate(thickness, loaded, radius, 2000.0, direction is Direction.REVERSE))
    assert line is not None
    assert line.miss_mm < 1e-3
    # In reverse the picture loads the plate elastic-perfectly plastic, the room with a smooth knee.
    slack = 1e-4 if direction is Direction.NORMAL else 0.02
    assert line.free_length_mm == pytest.approx(float(found.free_length_mm), rel=slack)
    tilt = arm_t * thickness / (76.2 + 76.2 + thickness)
    assert line.tilt_rad == pytest.approx(tilt, abs=1e-4 if direction is Direction.NORMAL else 6e-3)


def test_a_rolled_plate_leaves_with_its_free_radius() -> None:
    law = plate_law(6.35, 1000, 200e3, 0.3, 250)
    found = setting_for_radius(NIP, law, 308.0)
    rolls = RollsAt(76.2, 76.2, 76.2, slide_point(NIP, float(found.lift_mm)))
    loaded = 1 / float(loaded_curvature(law, 1 / 308.0))
    line = plate_line(rolls, RolledPlate(6.35, loaded, 308.0, 1900.0))
    assert line is not None
    (x0, y0), (x1, y1), (x2, y2) = line.behind[0], line.behind[10], line.behind[20]
    turn = atan2(y2 - y1, x2 - x1) - atan2(y1 - y0, x1 - x0)
    chord = hypot(x1 - x0, y1 - y0)
    assert chord / (2 * sin(turn / 2)) == pytest.approx(308.0, rel=1e-3)
    assert turn < pi


def test_rolls_that_cannot_hold_the_plate_are_drawn_without_it() -> None:
    far = RollsAt(76.2, 76.2, 76.2, (140.0, -900.0))
    drawn = rolls_sketch(far, RolledPlate(6.35, 250.0, 308.0, 1900.0), "Pass 1")
    assert "Pass 1" in _words(drawn)


def test_letters_that_no_font_holds_are_told() -> None:
    assert lost(["Größe Ωmega Ж", "plain", "板金 ロール 강판"]) == ""
    assert lost(["नम"]) == "नम"


def test_a_text_stands_in_the_fonts_that_hold_it() -> None:
    letters = letters_for(["Ünal 板金"])
    assert [part for _, part in letters.runs("Ünal 板金")] == ["Ünal ", "板金"]
    assert letters.width_mm("板金", 10) == pytest.approx(20)
    assert letters_for(["Ünal"]).runs("Ünal") == [("Helvetica", "Ünal")]


def test_hostile_words_stay_words_in_the_svg() -> None:
    drawn = Sketch(0, 0, 10, 10, 1.0, (Words(1, 1, '<script>alert("x")</script>'),), "a & b")
    text = sketch_svg(drawn, inline=True)
    assert "<script" not in text
    assert "&lt;script&gt;" in text


def test_a_code_is_read_back_from_its_picture(tmp_path: Path) -> None:
    zxing = pytest.importorskip("zxingcpp")
    from PIL import Image, ImageDraw  # noqa: PLC0415

    from quoting.drawings.code_sketch import code_sketch, code_text  # noqa: PLC0415
    from quoting.drawings.sketch import Blocks  # noqa: PLC0415

    text = code_text("PIECE", "Ünal 7/2", "A-1-b", "P-104 #1")
    drawn = code_sketch(text)
    blocks = next(item for item in drawn.items if isinstance(item, Blocks))
    dots = 6
    image = Image.new("L", (round(drawn.width * dots),) * 2, 255)
    pen = ImageDraw.Draw(image)
    for x, y, dx, dy in blocks.boxes:
        top = drawn.height - y - dy
        pen.rectangle((x * dots, top * dots, (x + dx) * dots - 1, (top + dy) * dots - 1), fill=0)
    assert [found.text for found in zxing.read_barcodes(image)] == [text]


@pytest.mark.parametrize("text", ["JOB/A-1/ROLL", "PIECE/J-12/A-1-B 2 OF 14/P-104"])
def test_a_code_is_the_one_that_another_encoder_makes(text: str) -> None:
    import segno  # noqa: PLC0415

    from quoting.drawings.code_sketch import code_sketch  # noqa: PLC0415
    from quoting.drawings.sketch import Blocks  # noqa: PLC0415

    modules = segno.make_qr(text, error="q", boost_error=False).matrix
    want = {(x, y) for y, row in enumerate(modules) for x, dark in enumerate(row) if dark}
    drawn = code_sketch(text)
    blocks = next(item for item in drawn.items if isinstance(item, Blocks))
    dark = {
        (round(x) + step - 4, round(drawn.height - y) - 1 - 4)
        for x, y, run, _ in blocks.boxes
        for step in range(round(run))
    }
    assert dark == want


@pytest.mark.parametrize("far", [1e9, 1e15])
def test_what_lies_outside_a_picture_is_not_hatched(far: float) -> None:
    """A hatch is made on a picture of its own, as large as its shape: gigabytes for one of kilometres."""
    inside = Line(tuple(Vertex(x, y, 0) for x, y in ((10, 10), (30, 10), (30, 20))), hatch=2.0)
    outside = Line(
        tuple(Vertex(x, y, 0) for x, y in ((far, 10), (2 * far, 10), (2 * far, 20))), pen=None, hatch=2.0
    )
    without = sketch_png(Sketch(0, 0, 40, 30, 1.0, (inside,), ""), dots_per_inch=110)
    assert sketch_png(Sketch(0, 0, 40, 30, 1.0, (inside, outside), ""), dots_per_inch=110) == without
