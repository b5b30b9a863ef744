"""Sizes that a title, a note or a heading gives for the rows that leave them out.

"Half shells in 1.4301, 3 mm thick", "2600 inside diameter throughout", "all 1000 wide unless noted".
"""

from __future__ import annotations

import re

from quoting.core import Mark, Unit
from quoting.intake.texts import PartText

_FIELDS = {
    Mark.THICKNESS: "thickness", Mark.DIAMETER: "diameter", Mark.RADIUS: "radius", Mark.LENGTH: "length",
    Mark.WIDTH: "width", Mark.HEIGHT: "height",
}  # fmt: skip
ACROSS = ("length", "width", "height")
EVERY = re.compile(r"\b(all|every|each|unless|u\.?n\.?o|throughout|except|typ\w*|otherwise)\b", re.I)
_COMMAS = (",", ";", "(", ")", "–", "—", " - ", "|")
_NOT_THE_PLATE = re.compile(
    r"\b(allowance|corrosion|insulat\w*|lining|lined|clad\w*|overlay|refractor\w*|rubber|paint\w*|coat\w*|galv\w*"
    r"|tol\w*|gap|root|land|bevel\w*|weld\w*|seam\w*|flange\w*|nozzle\w*|bolt\w*|hole\w*|pitch|overall|total|heads?"
    r"|stiff\w*|bars?|angle|wall of|capacity|volume|max\w*|min\w*|over|under|up to|less|more|above|below"
    r"|order\w*"
    r"|truck\w*|pallet\w*|crate\w*|crane|roll capacity|our|your)\b|[+±]",
    re.I,
)


def sizes_for_all(clause: str, part: PartText) -> dict[str, str]:
    """Return the sizes that a text outside the rows gives for all of them, as written, by their fields.

    A size must say what it is. A length, width or height must be said of all rows besides: beside a tank's
    name it is the tank's.
    """
    if part.count is not None or part.counts:
        return {}
    if any(said.does in ("out", "ask") and said.name not in ("reference", "quantity") for said in part.said):
        return {}
    found: dict[str, list[str]] = {}
    for one in part.sizes:
        size = one.measure
        field = _FIELDS.get(size.mark, "") if size.mark else "diameter" if size.basis else ""
        if not field or not one.clear or size.unit is Unit.DEGREE or size.is_range:
            continue
        if field in ACROSS and not EVERY.search(clause):
            continue
        if _NOT_THE_PLATE.search(_piece(part.plain, size.start, size.end)):
            continue
        found.setdefault(field, []).append(part.plain[size.start : size.end].strip(" ,;:-–"))
    if "thickness" not in found and len({key for key, _ in part.grades}) == 1 and EVERY.search(clause):
        found["thickness"] = _beside_grade(part)
    return {field: texts[0] for field, texts in found.items() if len(texts) == 1}


def _beside_grade(part: PartText) -> list[str]:
    """Return the one size without a mark of a text that names a grade: S235JR 4 mm unless noted."""
    bare = [one.measure for one in part.sizes if one.clear and not one.measure.mark and not one.measure.basis]
    units = (Unit.MM, Unit.INCH, None)
    plates = [size for size in bare if size.unit in units and (size.unit or size.fraction)]
    if len(bare) != 1 or not plates or _NOT_THE_PLATE.search(_piece(part.plain, bare[0].start, bare[0].end)):
        return []
    return [part.plain[size.start : size.end].strip(" ,;:-–") for size in plates]


def _piece(text: str, start: int, end: int) -> str:
    """Return what stands between the commas round a size."""
    before = max(text.rfind(sign, 0, start) for sign in _COMMAS) + 1
    ends = [at for sign in _COMMAS if (at := text.find(sign, end)) >= 0]
    return text[before : min(ends, default=len(text))]
