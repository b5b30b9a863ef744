"""A sketch as PNG, small and the same bytes every time: for workbooks, which hold no drawings."""

from __future__ import annotations

from functools import cache
from io import BytesIO
from itertools import pairwise
from typing import Any

from quoting.drawings.plate_sheet import one_line
from quoting.drawings.sketch.fonts import font_file
from quoting.drawings.sketch.sketch import PAPER, QUIET, Blocks, Disc, Line, Pen, Sketch, Words, corners

_FINER, _COLOURS = 2, 32
_MM_PER_INCH = 25.4
_ANCHORS = {"start": "ls", "middle": "ms", "end": "rs"}


def sketch_png(sketch: Sketch, *, dots_per_inch: int) -> bytes:
    """Return the picture; lines are drawn finer and made smooth, letters stand on top of them."""
    from PIL import Image  # noqa: PLC0415 - heavy

    picture = _Picture(sketch, dots_per_inch)
    for item in sketch.items:
        if not isinstance(item, Words):
            picture.shape(item)
    image = picture.smooth()
    for item in sketch.items:
        if isinstance(item, Words):
            picture.words(image, item)
    few = image.quantize(_COLOURS, method=Image.Quantize.FASTOCTREE)
    target = BytesIO()
    few.save(target, format="png", dpi=(dots_per_inch, dots_per_inch))
    return target.getvalue()


class _Picture:
    """Draws in dots; shapes on a finer picture than letters."""

    def __init__(self, sketch: Sketch, dots_per_inch: int) -> None:
        from PIL import Image, ImageDraw  # noqa: PLC0415 - heavy

        self._sketch = sketch
        self._mm = dots_per_inch / _MM_PER_INCH
        width, height = sketch.size_mm
        self._size = int(width * self._mm + 1e-6), int(height * self._mm + 1e-6)
        self._fine = Image.new("RGB", (self._size[0] * _FINER, self._size[1] * _FINER), PAPER)
        self._draw = ImageDraw.Draw(self._fine)

    def _at(self, x: float, y: float, dots: float) -> tuple[float, float]:
        unit = dots / self._sketch.per_mm
        return (x - self._sketch.x) * unit, (self._sketch.y + self._sketch.height - y) * unit

    def shape(self, item: Line | Disc | Blocks) -> None:
        """Draw lines, circles and blocks on the finer picture."""
        dots = self._mm * _FINER
        if isinstance(item, Blocks):
            for x, y, dx, dy in item.boxes:
                self._draw.rectangle((*self._at(x, y + dy, dots), *self._at(x + dx, y, dots)), fill=item.fill)
        elif isinstance(item, Disc):
            x, y = self._at(item.x, item.y, dots)
            radius = item.radius * (dots if item.mm else dots / self._sketch.per_mm)
            pen = item.pen
            self._draw.ellipse(
                (x - radius, y - radius, x + radius, y + radius),
                fill=item.fill or None,
                outline=pen.ink if pen else None,
                width=max(1, round(pen.mm * dots)) if pen else 0,
            )
        else:
            self._line(item, dots)

    def _line(self, item: Line, dots: float) -> None:
        points = [self._at(x, y, dots) for x, y in corners(item)]
        if item.fill:
            self._draw.polygon(points, fill=item.fill)
        if item.hatch:
            self._hatch(points, item.hatch * dots, max(1, round(0.2 * dots)))
        if item.pen:
            self._stroke([*points, points[0]] if item.closed else points, item.pen, dots)

    def _stroke(self, points: list[tuple[float, float]], pen: Pen, dots: float) -> None:
        width = max(1, round(pen.mm * dots))
        if not pen.dash:
            self._draw.line(points, fill=pen.ink, width=width, joint="curve")
            return
        for start, end in pairwise(points):
            self._dashed(start, end, pen, dots, width)

    def _dashed(
        self, start: tuple[float, float], end: tuple[float, float], pen: Pen, dots: float, width: int
    ) -> None:
        dx, dy = end[0] - start[0], end[1] - start[1]
        length = (dx * dx + dy * dy) ** 0.5
        at, index = 0.0, 0
        while at < length:
            part = min(pen.dash[index % len(pen.dash)] * dots, length - at)
            if index % 2 == 0:
                ends = [(start[0] + dx * s / length, start[1] + dy * s / length) for s in (at, at + part)]
                self._draw.line(ends, fill=pen.ink, width=width)
            at, index = at + max(part, 0.1), index + 1

    def _hatch(self, points: list[tuple[float, float]], step: float, width: int) -> None:
        from PIL import Image, ImageChops, ImageDraw  # noqa: PLC0415 - heavy

        left, right = min(x for x, _ in points), max(x for x, _ in points)
        top, low = min(y for _, y in points), max(y for _, y in points)
        wide, high = self._fine.size  # what lies outside the picture is not hatched: it may be of any size
        box = (max(0, int(left)), max(0, int(top)), min(wide, int(right) + 1), min(high, int(low) + 1))
        if box[0] >= box[2] or box[1] >= box[3]:
            return
        mask = Image.new("L", (box[2] - box[0], box[3] - box[1]), 0)
        ImageDraw.Draw(mask).polygon([(x - box[0], y - box[1]) for x, y in points], fill=255)
        lines = Image.new("L", mask.size, 0)
        pen = ImageDraw.Draw(lines)
        wide, high = mask.size
        at = -float(high)
        while at < wide:
            pen.line((at, high, at + high, 0), fill=255, width=width)
            at += 1.41 * step
        self._fine.paste(QUIET, box, ImageChops.darker(mask, lines))

    def smooth(self) -> Any:
        """Return the picture at its own size."""
        return self._fine.reduce(_FINER)

    def words(self, image: Any, item: Words) -> None:
        """Write one row of text; turned ones stand upright, read from the right."""
        from PIL import Image, ImageDraw  # noqa: PLC0415 - heavy

        text = one_line(item.text)
        if not text:
            return
        font = _font(item.bold, max(4, round(item.mm * self._mm)))
        x, y = self._at(item.x, item.y, self._mm)
        anchor = _ANCHORS[item.anchor]
        draw = ImageDraw.Draw(image)
        if not item.turn:
            if item.behind:
                left, top, right, low = draw.textbbox((x, y), text, font=font, anchor=anchor)
                draw.rectangle((left - 1, top - 1, right + 1, low + 1), fill=item.behind)
            draw.text((x, y), text, fill=item.ink, font=font, anchor=anchor)
            return
        left, top, right, low = font.getbbox(text, anchor=anchor)
        mask = Image.new("L", (int(right - left) + 2, int(low - top) + 2), 0)
        ImageDraw.Draw(mask).text((1 - left, 1 - top), text, fill=255, font=font, anchor=anchor)
        upright = mask.transpose(Image.Transpose.ROTATE_90)
        place = (round(x + top), round(y - right))
        if item.behind:
            image.paste(item.behind, (*place, place[0] + upright.width, place[1] + upright.height))
        image.paste(item.ink, place, upright)


@cache
def _font(bold: bool, dots: int) -> Any:
    from PIL import ImageFont  # noqa: PLC0415 - heavy

    return ImageFont.truetype(str(font_file(bold=bold)), dots)
