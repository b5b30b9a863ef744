"""What we write by our own templates is what an independent DXF library writes of the same entities."""

from __future__ import annotations

import io
from importlib.metadata import version
from typing import Any

import ezdxf  # type: ignore[attr-defined,unused-ignore]
from ezdxf.enums import TextEntityAlignment
from ezdxf.lldxf.encoding import decode_dxf_unicode
from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.drawings.dxf.drawing import LAYERS, DxfDrawing
from tests.data.make_empty_dxf import empty_document, written

numbers = st.floats(-1e6, 1e6) | st.integers(-5000, 5000) | st.sampled_from([0.0, -0.0, 1e-12])
points = st.tuples(numbers, numbers)
layers = st.sampled_from(sorted(LAYERS))
words = st.text(st.characters(exclude_categories=("C", "Z"), exclude_characters="^%"), min_size=1)
corners = st.lists(st.tuples(numbers, numbers, st.just(0.0) | st.floats(-3, 3)), min_size=2, max_size=8)
entities = st.lists(
    st.tuples(st.just("polyline"), corners, layers)
    | st.tuples(st.just("line"), points, points, layers)
    | st.tuples(st.just("text"), points, words, st.floats(0.1, 500), st.sampled_from([0, 90]), layers),
    max_size=20,
)


def _ours(drawn: list[Any]) -> bytes:
    drawing = DxfDrawing()
    for kind, *what, layer in drawn:
        if kind == "text":
            drawing.text(*what, layer=layer)
        else:
            getattr(drawing, kind)(*what, layer)
    return drawing.encoded()


def _the_library_s(drawn: list[Any]) -> bytes:
    document = empty_document()
    space = document.modelspace()
    for kind, *what, layer in drawn:
        on = {"layer": layer}
        if kind == "polyline":
            space.add_lwpolyline(what[0], format="xyb", close=True, dxfattribs=on)
        elif kind == "line":
            space.add_line(*what, dxfattribs=on)
        else:
            at, text, height, turn = what
            found = space.add_text(text, height=height, rotation=turn, dxfattribs=on)
            found.set_placement(at, align=TextEntityAlignment.MIDDLE_CENTER)
    return written(document)


def _read(data: bytes) -> Any:
    document = ezdxf.read(io.StringIO(data.decode("cp1252")))  # type: ignore[attr-defined,unused-ignore]
    audit = document.audit()
    assert not audit.errors
    assert not audit.fixes
    return document


def _values(document: Any) -> list[object]:
    """Every entity with all that the library has read of it."""
    return [
        (one.dxftype(), one.dxfattribs(), one.get_points() if one.dxftype() == "LWPOLYLINE" else ())
        for one in document.modelspace()
    ]


@settings(max_examples=12, deadline=None)
@given(drawn=entities)
def test_the_library_reads_the_same_from_ours_as_from_its_own(drawn: list[Any]) -> None:
    by_us, by_library = _ours(drawn), _the_library_s(drawn)
    if version("ezdxf").startswith("1.4."):  # a later one may put the same another way
        assert by_us == by_library
    ours, its = _read(by_us), _read(by_library)
    assert _values(ours) == _values(its)
    assert len(ours.modelspace()) == len(drawn)
    free = int(ours.header["$HANDSEED"], 16)
    assert all(int(one.dxf.handle, 16) < free for one in ours.modelspace())


def test_what_the_code_page_lacks_is_written_by_number_and_read_back() -> None:
    drawing = DxfDrawing()
    drawing.text((0, 0), "Ünal 板", 5, layer="TEXT")
    assert b"\xdcnal \\U+677f" in drawing.encoded()
    (text,) = _read(drawing.encoded()).modelspace()
    assert decode_dxf_unicode(text.dxf.text) == "Ünal 板"
