"""Headers are told by meaning."""

from __future__ import annotations

import pytest

from quoting.core import Basis
from quoting.intake.layout import Meaning
from quoting.intake.layout.columns import meaning_of


@pytest.mark.parametrize(
    ("header", "meaning"),
    [
        ("Thk. (in)", Meaning("thickness", None, "in")),
        ("Plate Thickness [mm]", Meaning("thickness", None, "mm")),
        ("Length in mm", Meaning("length", None, "mm")),
        ("O.D. mm", Meaning("diameter", Basis.OUTSIDE, "mm")),
        ("Inside Dia.", Meaning("diameter", Basis.INSIDE)),
        ("ID", Meaning("diameter", Basis.INSIDE)),
        ("Mean diameter", Meaning("diameter", Basis.MEAN)),
        ("Dia. (Ø)", Meaning("diameter")),
        ("IR", Meaning("radius", Basis.INSIDE)),
        ("Large End ID", Meaning("large", Basis.INSIDE)),
        ("Qty. Req'd", Meaning("quantity")),
        ("Mat'l", Meaning("material")),
        ("Material Thickness", Meaning("thickness")),
        ("Arc (deg)", Meaning("angle", None, "deg")),
        ("Thk (ga)", Meaning("thickness", None, "ga")),
        ("Certs (Y/N)", Meaning("certificate")),
        ("ID/OD", Meaning("basis")),
        ("Unit Weight", Meaning("weight")),
        ("Width across roll", Meaning("width")),
        ("Developed length", Meaning("girth")),
    ],
)
def test_trade_words_and_abbreviations(header: str, meaning: Meaning) -> None:
    assert meaning_of(header) == meaning


@pytest.mark.parametrize(
    "header", ["OD x ID", "48 OD", "Blah", "", "A sentence that is much too long to be a header of anything"]
)
def test_what_is_not_known_is_not_guessed(header: str) -> None:
    assert meaning_of(header).field == ""
