"""Compares what the cells of one row say together."""

from __future__ import annotations

from quoting.core import Basis, Choice
from quoting.intake import shapes
from quoting.intake.cells import assign_sizes, take_material
from quoting.intake.doubts import check_texts, read_gaps, read_operations
from quoting.intake.layout import TableContext
from quoting.intake.row_record import Doubt, Record, number_text
from quoting.intake.shop_view import thickness_of
from quoting.intake.size_column import SizeColumn
from quoting.intake.texts import ends_in, flags_in, may_be_segment, runs_in, shape_words


def finish_row(record: Record, frame: TableContext) -> None:
    """Compare what the cells of the row say together, and apply what the sheet says for all lines."""
    values = record.values
    _pipe_ends(record)
    _cone_ends(record)
    _two_bases(record, frame)
    texts = [values.get("description", ""), *record.remarks]
    for text in texts:
        ends = ends_in(text) if text else None
        if ends:
            values.setdefault("ends", str(ends))
        for flag in flags_in(text) if text else ():
            values.setdefault(flag, "yes")
    _described(record, frame)
    _shape_hint(record)
    check_texts(record, [(text, record.place) for text in texts if text], frame.materials)
    _blank_angle(record, frame, texts)
    _said_basis(record, frame)
    if frame.said.ends is not None and not values.get("ends"):
        values["ends"] = str(frame.said.ends)
        record.assumptions.append(f"ends: {frame.said.ends}, as the sheet says for all lines")
    if not values.get("material") and "material" not in record.doubts and frame.said.material:
        place = record.place
        take_material(record, frame.materials, frame.said.material, place)
        if values.get("material"):
            record.assumptions.append(f"material {values['material']}, as the sheet says for all lines")
    read_gaps(record, frame, texts)
    read_operations(record, texts, inch=frame.unit.unit == "in")


def _said_basis(record: Record, frame: TableContext) -> None:
    """Say on the line that its diameter's side came from a note or a pinned setting, not from the line."""
    if frame.basis is None or record.values.get("basis") != str(frame.basis):
        return
    if any(column.meaning.basis or column.meaning.field == "basis" for column in frame.table.columns):
        return
    why = "as pinned for this customer" if frame.said.pinned else "as the sheet says for all lines"
    record.assumptions.append(f"diameters without a mark are {frame.basis}, {why}")


def _pipe_ends(record: Record) -> None:
    """A circumference needs to say along which face; keep it as a question with its three diameters."""
    girth = shapes.length(record.values, "circumference")
    if girth is None or shapes.has(record.values, "diameter"):
        return
    place, text = record.where("circumference")
    diameter = number_text(girth / 3.141592653589793)
    choices = tuple(
        Choice(f"{side} circumference", (("diameter", diameter), ("basis", str(side)))) for side in Basis
    )
    asked = f'The circumference "{text}" is taped round the outside, the inside or the middle of the plate?'
    record.doubt(Doubt("diameter", place, text, asked, choices))


def _cone_ends(record: Record) -> None:
    values = record.values
    ends = [values.pop(name, "") for name in ("bottom", "top")]
    if not any(ends):
        return
    for name, text in zip(("bottom", "top"), ends, strict=True):
        if text and name in record.places:
            record.places.setdefault("large" if name == "bottom" else "small", record.places[name])
    if all(ends) and not any(text.endswith("u") for text in ends):
        ends.sort(key=float, reverse=True)
    for name, text in zip(("large", "small"), ends, strict=True):
        if text:
            values.setdefault(name, text)


def _two_bases(record: Record, frame: TableContext) -> None:
    """Compare an inside and an outside diameter given together: they must differ by two thicknesses."""
    values = record.values
    if not any(" " in key for key in values):
        return
    for name in ("diameter", "radius", "large", "small"):
        others = [key for key in values if key.startswith(name + " ")]
        for key in others:
            side = key.rpartition(" ")[2]
            first, second = shapes.length(values, name), shapes.length({key: values[key], **values}, key)
            _compare(record, frame, name, (values["basis"], first), (side, second))
            del values[key]


def _compare(
    record: Record,
    frame: TableContext,
    name: str,
    one: tuple[str, float | None],
    two: tuple[str, float | None],
) -> None:
    values = record.values
    sizes = dict((one, two))
    inside, outside = sizes.get("inside"), sizes.get("outside")
    thickness = thickness_of(values, frame.materials)
    fold = 1.0 if name == "radius" else 2.0
    place, text = record.where(name)
    if (
        inside
        and outside
        and thickness
        and abs(outside - inside - fold * thickness) <= 0.02 * thickness + 0.1
    ):
        record.assumptions.append("inside and outside size agree with the thickness")
        return
    choices = tuple(
        Choice(f"{side} {frame.desk.size(size)}", ((name, number_text(size)), ("basis", side)))
        for side, size in (one, two)
        if size
    )
    asked = f"The {one[0]} and the {two[0]} {name} do not agree with the thickness; which one holds?"
    record.doubt(Doubt(name, place, text, asked, choices))


def _described(record: Record, frame: TableContext) -> None:
    """Read the sizes and the grade from the description where no column gives any."""
    text = record.values.get("description", "")
    fields = ("diameter", "radius", "thickness", "gauge", "large", "girth", "size")
    if not text or any(name in record.values or name in record.doubts for name in fields):
        return
    sizes_only = " ".join(
        word for word in text.split() if not frame.materials.named_in(word)
    )  # 304L is no length
    runs = [run for run in runs_in(sizes_only) if any(size.mark for size in run)]
    if not runs:
        return
    sizes = tuple(size for run in runs for size in run)
    slot = SizeColumn("size", "", None, frame.unit.unit, frame.style)
    assign_sizes(record, slot, sizes, record.place, text, frame.desk)
    record.assumptions.append("sizes read from the description")
    if not record.values.get("material_text"):
        keys = frame.materials.named_in(text)
        if len(keys) == 1:
            take_material(record, frame.materials, keys[0], record.place)


def _blank_angle(record: Record, frame: TableContext, texts: list[str]) -> None:
    """Ask about a part of a circle that its words suggest and its sizes do not show.

    A diameter and a length alone are a full cylinder (common practice, no source); beside rows with degrees
    of arc the line says that it was read so.
    """
    values = record.values
    if values.get("angle") or values.get("shape") or {"angle", "shape"} & set(record.doubts):
        return
    if shapes.kind_of(values) != "cylinder":
        return
    said = next((text for text in texts if may_be_segment(text, beside_arcs=frame.has_angles)), "")
    if said:
        choices = (
            Choice("full cylinder", (("shape", "cylinder"),)),
            Choice("half shell, 180 degrees", (("shape", "arc"), ("angle", "180"))),
            Choice("quarter, 90 degrees", (("shape", "arc"), ("angle", "90"))),
        )
        asked = f'It says "{said}" and gives no degrees of arc: a full cylinder, or how many degrees?'
        record.doubt(Doubt("angle", record.place, said, asked, choices))
    elif frame.has_angles:
        record.assumptions.append("no degrees of arc given: a full circle")


def _shape_hint(record: Record) -> None:
    """Take the shape from the description where no column gives it, or where it says more."""
    values = record.values
    text = values.get("description", "")
    hint = shape_words(text) if text else {}
    if not hint or "shape" in record.doubts:
        return
    if not values.get("shape"):
        kind = shapes.kind_of(values)
        if not kind or kind == hint["shape"] or hint["shape"] == "cylinder":
            if kind in ("", hint["shape"]):
                for name, value in hint.items():
                    values.setdefault(name, value)
            return
        if kind == "cylinder" and hint["shape"] in ("arc", "cone", "flat", "unsupported"):
            for name, value in hint.items():
                values.setdefault(name, value)
            values["shape"] = hint["shape"]
