"""The empty DXF drawing that ours are written into: `python -m tests.data.make_empty_dxf FILE`."""

from __future__ import annotations

import io
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import ezdxf  # type: ignore[attr-defined,unused-ignore]
from ezdxf import options  # type: ignore[attr-defined,unused-ignore]

from quoting.drawings.dxf.drawing import LAYERS

_RELEASE, _MILLIMETRES, _METRIC = "R2000", 4, 1


@contextmanager
def _fixed_metadata() -> Iterator[None]:
    """Have the library write fixed dates and ids, which it does only by a switch for all of it."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def empty_document() -> Any:
    """Return the library's empty document with our layers and unit."""
    with _fixed_metadata():
        document = ezdxf.new(_RELEASE, setup=False, units=_MILLIMETRES)  # type: ignore[attr-defined,unused-ignore]
    document.header["$MEASUREMENT"] = _METRIC
    for name, colour in LAYERS.items():
        document.layers.add(name, color=colour)
    written(document)  # which gives ids to what it adds: ours come after them
    return document


def written(document: Any) -> bytes:
    """Return a document as the library writes it, with fixed dates and ids."""
    stream = io.StringIO()
    with _fixed_metadata():
        document.write(stream)
    encoded: bytes = document.encode(stream.getvalue())
    return encoded


if __name__ == "__main__":
    Path(sys.argv[1]).write_bytes(written(empty_document()))
