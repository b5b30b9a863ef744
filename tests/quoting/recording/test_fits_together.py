"""An estimate whose parts name what the others do not have is one message, not a fault further on."""

from __future__ import annotations

import base64
import json
import zlib
from collections.abc import Callable
from typing import Any

import pytest

from quoting.core import InputError, Place
from quoting.recording import unpack
from quoting.recording.archive import pack
from quoting.recording.fits_together import misfit
from tests.quoting.books import factories


def _line(plain: Any) -> Any:
    return plain["orders"][0]["lines"][0]


def _cut(plain: Any) -> Any:
    return plain["nests"][0]["nest"]["cut_plates"][0]


def _passes(plain: Any) -> Any:
    return _line(plain)["routes"][0]["rollings"][0]["passes"]


def _drop(plain: Any) -> Any:
    return _cut(plain)["drops"][0]


_STROKE = {"number": 1, "stage": 1, "axis": "x", "at_mm": 1e12, "start_mm": 0.0, "end_mm": 1.0}


def _renamed(things: list[dict[str, Any]], named: str) -> None:
    for one in things:
        one[named] = f"another {one[named]}"


CHANGES: dict[str, tuple[Callable[[Any], object], str]] = {
    "materials": (
        lambda plain: _renamed(plain["shop"]["materials"], "key"),
        "plate that its shop does not know",
    ),
    "figures of a grade": (
        lambda plain: plain["shop"]["materials"][0].update(yield_low_mpa=0.0),
        "figures no metal has",
    ),
    "rolls": (lambda plain: _renamed(plain["shop"]["rolls"], "name"), "its shop does not have"),
    "rack": (lambda plain: plain["shop"].update(stock=[]), "a plate that nobody has"),
    "plate of a cut": (lambda plain: _cut(plain).update(plate="P-0"), "a plate that nobody has"),
    "blank of a cut": (lambda plain: _cut(plain)["placements"][0].update(piece="Z"), "nobody asked for"),
    "size of a plate": (
        lambda plain: plain["nests"][0]["problem"]["plates"][0].update(width_mm=1e9),
        "of another size",
    ),
    "size of a blank": (lambda plain: _cut(plain)["placements"][0].update(dy_mm=1e-3), "in another size"),
    "place of a blank": (lambda plain: _cut(plain)["placements"][0].update(x_mm=1e15), "outside its plate"),
    "below zero": (lambda plain: _cut(plain)["placements"][0].update(y_mm=-1e9), "outside its plate"),
    "size of a drop": (lambda plain: _drop(plain).update(dx_mm=1e9), "outside its plate"),
    "stroke": (lambda plain: _cut(plain).update(cuts=[_STROKE]), "stroke of the shear outside"),
    "routes": (lambda plain: _line(plain).update(routes=[]), "a price for a line that nothing makes"),
    "drivers": (lambda plain: _line(plain).update(drivers=None), "a price for a line that nothing makes"),
    "radius of a pass": (lambda plain: _passes(plain)["passes"][-1].update(loaded_radius_mm=0.0), "loaded"),
    "passes": (lambda plain: _passes(plain).update(passes=[]), "rolling passes"),
    "rollings": (lambda plain: _line(plain)["routes"][0].update(rollings=[]), "of no blank"),
}


def test_a_run_fits_together() -> None:
    assert misfit(factories.run()) is None


@pytest.mark.parametrize("change", CHANGES)
def test_a_part_that_another_lacks_is_told(change: str) -> None:
    alter, words = CHANGES[change]
    plain = json.loads(zlib.decompress(base64.b64decode(pack(factories.run()))))
    alter(plain["estimate"])
    text = base64.b64encode(zlib.compress(json.dumps(plain).encode())).decode()
    with pytest.raises(InputError, match=words):
        unpack(text, Place("result.json"))
