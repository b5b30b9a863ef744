"""What is written on PDF pages without the library's help is to the byte what the library writes."""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from reportlab.pdfgen.canvas import Canvas as RawCanvas

from quoting.drawings import Pen, Words, letters_for
from quoting.drawings.sketch.pdf_items import Canvas


class LibraryCanvas(Canvas):
    """Leaves every row, pen and colour to the library."""

    def _row(self, x: float, y: float, text: str, font: str, size: float) -> None:
        self.raw.setFont(font, size)
        self.raw.drawString(x, y, text)

    def _take_up(self, what: tuple[object, ...], library: Callable[[], None]) -> None:
        library()


texts = st.text(st.characters(max_codepoint=0x17F, categories=["L", "N", "P", "S", "Zs"]), max_size=12)
inks = st.sampled_from(["#000000", "#1F3A4A", "#FFFFFF"])
words = st.builds(
    Words,
    x=st.just(0.0),
    y=st.just(0.0),
    text=texts | st.sampled_from(["a(b)c\\", 'plate 3/8"']),
    mm=st.sampled_from([2.85, 4.2]) | st.floats(1, 30),
    anchor=st.sampled_from(["start", "middle", "end"]),
    bold=st.booleans(),
    turn=st.sampled_from([0.0, 90.0]),
    ink=inks,
    behind=st.just("") | inks,
)
pens = st.builds(Pen, st.sampled_from([0.0, 0.15, 0.35]), inks, st.sampled_from([(), (2, 2)]))
drawn = st.lists(
    st.tuples(words, pens, st.floats(-500, 900), st.floats(0, 900), st.just("") | inks), max_size=8
)


def _page(kind: type[Canvas], items: list[Any]) -> str:
    letters = letters_for(item.text for item, *_ in items)
    canvas = kind(RawCanvas(BytesIO(), invariant=1), letters)
    for item, pen, x, y, fill in items:
        canvas.words(x, y, item)
        canvas.box(x, y, 10.0, 5.0, pen, fill)
    code: str = canvas.raw.getCurrentPageContent()
    return code


@settings(max_examples=60, deadline=None)
@given(items=drawn)
def test_rows_pens_and_colours_are_written_as_the_library_writes_them(items: list[Any]) -> None:
    assert _page(Canvas, items) == _page(LibraryCanvas, items)
