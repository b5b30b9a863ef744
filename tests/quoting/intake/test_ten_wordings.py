"""Each kind of question takes ten wordings at least, and the line then says what each wording means.

Most were written before it was counted what the reader takes (324 of 514 then), those of shapes and tolerances after; by
people's habit, no source. Phrases that leave two readings open are not among them.
"""
# ruff: noqa: E501 - the wordings of a kind stay on one line, with the signs that people type

from __future__ import annotations

import ast
from itertools import chain
from pathlib import Path

import pytest

import quoting.intake
from quoting.core import Choice, Order, Place, Question
from quoting.intake.answers import resolve
from quoting.intake.answers.own_words import own_words
from tests.quoting.intake import test_natural_answers
from tests.quoting.intake.sheets import GOOD, HEAD, read_rows
from tests.quoting.intake.small_shop import small_shop

Case = tuple[list[str], list[str], str, str, dict[str, list[str]]]
"""Cells, header, the question's id, the field to look at, and its value with the wordings that mean it."""
ANY = "*"
"""A value that is only to be there, in any words."""
CASES: dict[str, Case] = {
    "due": ([*GOOD, "soon"], [*HEAD, "Due"], "1/due", "due", {
        "2026-04-14": ["14 April 2026", "2026-04-14", "April 14, 2026", "14.04.2026", "14 Apr 26", "by 14 April 2026", "it is 14 April 2026", "the 14th of April 2026", "14. April 2026", "April 14th 2026 please", "14-Apr-2026", "on 14/04/2026"],
    }),
    "ends": (GOOD, HEAD, "all/ends", "ends", {
        "pre-bend": ["pre-bend", "prebend", "prebent", "yes", "pre-bend please", "crimp the ends", "ok", "pre-bend both ends", "the ends pre-bent"],
        "leave flat": ["flat", "leave flat", "leave them flat", "flat ends ok"],
        "trim after rolling": ["trim", "trim after rolling", "trimmed", "trim the ends please", "cut the flats off"],
    }),
    "weld": ([*GOOD, "rolled and welded"], [*HEAD, "Remarks"], "1/weld", "weld", {
        "none": ["no", "no weld", "we do not", "leave the seam open", "no welding please", "we weld it ourselves", "not welded", "nicht schweissen", "open seam", "none", "roll only"],
        ANY: ["yes", "yes, full penetration", "weld it", "full pen", "you weld it", "CJP", "full penetration please", "complete joint penetration", "weld the seam full pen", "ok"],
    }),
    "edge_prep": ([*GOOD, "bevelled both ends"], [*HEAD, "Remarks"], "1/edge_prep", "edge_prep", {
        "none": ["no bevel", "square", "square edges", "none", "no", "edges square", "no prep", "plain edges", "leave square", "not bevelled"],
        ANY: ["30 deg single bevel", "single bevel 30 degrees all round", "37.5 deg bevel both ends", "bevel 30° on the long seam", "30 degrees", "1, 30 deg", "30 deg both ends"],
    }),
    "tolerance": ([*GOOD, "class B"], [*HEAD, "Tolerance"], "1/tolerance", "tolerances", {
        "diameter|3.175|0|": ["+/- 1/8 in on diameter", "1/8 on the OD", "diameter +/- 1/8 in"],
        "out of round|3|0|": ["roundness 3 mm"],
        "length|1.5875|0|": ["length +/- 1/16"],
        "": ["usual tolerances", "none", "your standard", "shop standard", "our usual", "the usual", "normal tolerances", "standard"],
    }),
    "shape": ([*GOOD, "cradles"], [*HEAD, "Remarks"], "1/shape", "shape", {
        "cylinder": ["full cylinder", "cylinder", "full", "360", "360 degrees", "a full cylinder please"],
        "arc": ["half", "half shell", "180", "180 deg", "half shell, 180 degrees", "a half", "half circle", "it is a half shell", "90 degrees"],
    }),
    "radius": (["1", "2", "", "ID", "90", "1/4", "60", "A36"], ["Item", "Qty", "Radius (in)", "ID/OD", "Deg", "Thk (in)", "Length", "Material"], "1/radius", "radius", {
        "609.6": ["24", "24 in", '24"', "2 ft", "609.6 mm", "24 inches", "R24", "24 rad", "inside radius 24", "it is 24", "24 IR", "rolled to 24 inside"],
    }),
    "large": (["1", "2", "", "24", "1/4", "30", "A36"], ["Item", "Qty", "Large OD (in)", "Small OD (in)", "Thk (in)", "Height (in)", "Material"], "1/large", "large", {
        "1219.2": ["48", '48"', "48 in", "4 ft", "48 OD", "1219.2 mm", "it is 48", "48 inches please", "large end 48", "48 outside", "OD 48"],
    }),
    "small": (["1", "2", "48", "", "1/4", "30", "A36"], ["Item", "Qty", "Large OD (in)", "Small OD (in)", "Thk (in)", "Height (in)", "Material"], "1/small", "small", {
        "609.6": ["24", '24"', "24 in", "2 ft", "24 OD", "609.6 mm", "it is 24", "24 inches please", "small end 24", "24 outside", "OD 24"],
    }),
    "height": (["1", "2", "48", "24", "1/4", "", "A36"], ["Item", "Qty", "Large OD (in)", "Small OD (in)", "Thk (in)", "Height (in)", "Material"], "1/height", "height", {
        "762": ["30", '30"', "30 in", "30 high", "762 mm", "it is 30", "2'-6\"", "30 inches along the axis", "height 30", "30 tall", "30 vertical"],
    }),
    "stock_thickness": (["1", "2", "48", "ID", "0.3", "60", "A36"], HEAD, "1/stock_thickness", "thickness", {
        "9.525": ["3/8", '3/8"', "0.375", "use 3/8", "3/8 plate", "3/8 is ok", "9.525 mm", "the 3/8", "go to 3/8", "3/8 please"],
        "6.35": ["1/4", "use 1/4", "0.25"],
        "7.62": ["exactly", "buy it", "0.3", "0.3 exactly", "yes, buy it", "as drawn"],
    }),
    "number_ok": ([*GOOD, "mind the 17"], [*HEAD, "Remarks"], "1/number_ok", "number_ok", {
        "yes": ["nothing", "a job number", "our job number", "internal", "internal reference", "it is our part number", "for our use only", "disregard", "not relevant", "n/a", "irrelevant", "just a note", "order no.", "no effect", "none"],
    }),
    "duplicate": (GOOD, HEAD, "1-r3/duplicate", "duplicate", {
        "both": ["both", "yes", "two lots", "both wanted", "keep both", "ja", "price both", "both please", "yes both are wanted", "2 separate lines", "separate parts"],
        "once": ["once", "only one", "just once", "no", "one only", "typed twice", "nein", "duplicate", "a mistake", "remove the second", "ignore the second one", "the first only"],
    }),
    "status_ok": ([*GOOD, "HOLD"], [*HEAD, "Remarks"], "1/status_ok", "status_ok", {
        "yes": ["released", "yes", "go", "ja", "oui", "si", "proceed", "hold is off", "hold lifted", "quote anyway", "still needed", "please quote", "make it", "include it", "green light"],
    }),
    "status_out": ([*GOOD, "HOLD"], [*HEAD, "Remarks"], "1/status_ok", "left_out", {
        ANY: ["leave it out", "still on hold", "not needed any more", "cancelled", "remove", "do not price", "no longer required", "drop", "not yet", "nein", "exclude it"],
    }),
    "reference_ok": ([*GOOD, "as per sample"], [*HEAD, "Remarks"], "1/reference_ok", "reference_ok", {
        "yes": ["as drawn", "per sheet", "per the sheet", "sizes as listed", "ja", "oui", "use the sizes given", "the sizes in the table", "same as the columns", "as columns", "nothing differs", "same", "go by the sheet"],
    }),
    "free_issue_ok": ([*GOOD, "plate by us"], [*HEAD, "Remarks"], "1/free_issue_ok", "free_issue", {
        "yes": ["yes", "our plate", "we supply", "we send the plate", "free issue", "ours", "customer supplied", "plate from us", "we deliver the plate", "ja", "we provide it", "supplied by us"],
        "": ["no", "you supply", "your plate", "you buy it", "from your stock", "include the plate", "price the plate", "plate by you", "nein", "not free issue", "yours"],
    }),
    "basis": (["1", "2", "48", "", "1/4", "60", "A36"], HEAD, "1/basis", "basis", {
        "inside": ["1", "ID", "inside", "I.D.", "innen", "inner", "int.", "clear inside", "bore", "id dims", "inside dia please", "i/d"],
        "outside": ["OD", "outside", "aussen", "außen", "o/d", "external", "outer", "OD as drawn", "exterieur"],
        "mean": ["mean", "centreline", "c/l", "CL", "center line", "middle", "neutral axis", "mid", "to the centre line", "mean dia"],
    }),
    "material": (["1", "2", "48", "ID", "1/4", "60", "??"], HEAD, "1/material", "material", {
        "A36": ["A36", "ASTM A36", "a 36", "SA36", "A-36", "carbon A36", "grade A36", "steel A36", "A36 plate", "A36 or equal"],
        "304L": ["304L", "1.4307", "SS 304L", "304L stainless", "ss304l", "AISI 304L", "304 L"],
        "316L": ["316L", "1.4404", "ss316l"],
    }),
    "thickness": (["1", "2", "48", "ID", "", "60", "A36"], HEAD, "1/thickness", "thickness", {
        "6.35": ["a quarter", "1/4", '1/4"', "0.25", ".25", "1/4 inch", "quarter inch", "1/4 thk", "1/4 plate", "6.35 mm", "6,35 mm", "t=1/4", "1/4 nominal", "1/4 in. plate", "¼", "0.250 as drawn"],
    }),
    "diameter": (["1", "2", "", "ID", "1/4", "60", "A36"], HEAD, "1/diameter", "diameter", {
        "1219.2": ["forty-eight", "48", '48"', "48 in", "48 inches", "4 ft", "4'", "dia 48", "Ø48", "48 dia", "1219.2 mm", "48 ID as drawn", "48 inside"],
    }),
    "quantity": (["1", "TBC", "48", "ID", "1/4", "60", "A36"], HEAD, "1/quantity", "quantity", {
        "4": ["4", "four pieces please", "4 pcs", "four", "4 off", "4 each", "4 nos", "4 required", "4 total", "total 4", "make it 4", "4 Stk", "x4", "4x", "2 pairs"],
    }),
    "unit": (["1", "2", "48", "ID", "2", "60", "A36"], ["Item", "Qty", "Dia", "ID/OD", "Thk", "Length", "Material"], "all/unit", "unit", {
        "in": ["inches", "in", "inch", "imperial", "US units", "Zoll", "pouces", "decimal inches", "english", "pulgadas", "inches as drawn"],
        "mm": ["mm", "millimetres", "metric", "millimeter", "Millimeter", "SI", "all in mm", "mm please", "milimetros", "MM", "metric units"],
    }),
    "angle": (["1", "2", "24", "", "1/4", "48", "A36", "trough"], ["Item", "Qty", "OD (in)", "Deg", "Thk (in)", "Length", "Material", "Description"], "1/angle", "angle", {
        "180": ["180", "half", "180°", "180 deg", "half circle", "semicircle", "semi-circle", "half shell", "half round", "1/2", "180 degrees as drawn", "halb", "one half"],
        "90": ["90", "quarter", "90 deg", "quarter circle", "1/4", "quarter round", "a quarter of a circle"],
        "120": ["120", "a third", "1/3", "one third"],
    }),
    "weld_gap": ([*GOOD, "leave 2 gap"], [*HEAD, "Remarks"], "1/weld_gap", "weld_gap", {
        "0": ["0", "none", "no gap", "closed", "tight", "butt tight", "zero", "no", "touching"],
        "3.175": ["1/8", "1/8 in", "0.125", "3.175 mm", '1/8" gap', "gap 1/8", "1/8 root gap", "it is 1/8"],
    }),
    "size": (["1", "2", "48 x 24 x 12", "A36"], ["Item", "Qty", "Size", "Material"], "1/size", "length", {
        "1524": ["48 OD x 1/4 x 60", "60 long, 48 ID, 1/4 thk", "OD 48 t 1/4 L 60", "D=48 OD, t=1/4, L=60", "48 OD x 60 x 1/4", "Ø48 OD x 1/4 x 60 lg", "48 OD 1/4 wall 60 length"],
    }),
    "row_unit": ([*GOOD, "mm"], [*HEAD, "Unit"], "1/row_unit", "row_unit", {
        ANY: ["inches", "in", "as the columns", "as columns", "the columns are right", "inch", "columns", "the heading", "per header", "as headed"],
    }),
    "girth_ok": (["1", "2", "48", "75", "1/4", "60", "A36"], ["Item", "Qty", "OD (in)", "Blank length (in)", "Thk (in)", "Length", "Material"], "1/girth_ok", "girth_ok", {
        ANY: ["the diameter", "full circle", "diameter, full circle", "both", "part of a circle", "the diameter holds", "arc", "it is a segment", "diameter", "a full circle please"],
    }),
    "weight_ok": ([*GOOD, "5000"], [*HEAD, "Weight (lb)"], "1/weight_ok", "weight_ok", {
        "yes": ["the sizes are right", "sizes are right", "sizes", "yes", "ok", "weight is wrong", "ignore the weight", "sizes correct", "as drawn", "the weight is a guess", "trust the sizes"],
    }),
    "column": (GOOD, ["Item", "Qty", "Dia (in)", "ID/OD", "Thk (in)", "Zorg", "Material"], "all/column_f1", "length", {
        "1524": ["the length", "length", "yes", "it is the length", "length in inches", "Länge", "shell length", "overall length", "yes, length", "axial length", "longueur", "len"],
    }),
    "revision_ok": ([*GOOD, "latest"], [*HEAD, "Rev"], "1/revision_ok", "revision_ok", {
        "yes": ["as listed", "the sizes of this sheet", "rev B", "revision C", "B", "latest is rev 3", "sizes hold", "yes", "ok", "the current one", "per sheet", "3"],
    }),
    "notes_ok": (GOOD, HEAD, "all/notes_ok", "notes_ok", {
        "yes": ["no", "nothing", "no change", "nothing changes", "no, nothing changes", "ok", "ignore", "does not matter", "nein", "none", "not relevant"],
    }),
    "due_choice": ([*GOOD, "1/8/27"], [*HEAD, "Due"], "1/due", "due", {
        "2027-01-08": ["8 January 2027", "Jan 8", "january", "January 8th", "8 Jan 2027", "8 Jan", "the 8th of January", "08.01.2027"],
        "2027-08-01": ["1 August 2027", "August", "1 Aug", "Aug 1 2027", "the first of August"],
    }),
    "length": (["1", "2", "48", "ID", "1/4", "per dwg", "A36"], HEAD, "1/length", "length", {
        "1524": ["60", '60"', "60 long", "5 ft", "60 in", "1524 mm", "60 inches per drawing", "it is 60", "60 mm is wrong, 60 in", "length 60", "60 lg", "60 per dwg"],
    }),
    "option_ok": ([*GOOD, "optional"], [*HEAD, "Remarks"], "1/option_ok", "option_ok", {
        "yes": ["price it", "yes", "as its own line", "own line", "separately", "quote it separately", "as an option", "include", "ja", "as separate option", "its own line"],
    }),
}  # fmt: skip
REFUSED = {
    "basis": ["as usual", "not OD", "ID or OD"], "free_issue_ok": ["we do not supply it", "perhaps"],
    "reference_ok": ["same but longer", "ok except the hole"], "due_choice": ["month first", "in time"],
    "duplicate": ["4 in all"], "tolerance": ["ISO 2768-m", "yes"], "unit": ["inches and mm"],
    "weld": ["perhaps"], "edge_prep": ["as usual"], "thickness": ["thick"], "quantity": ["some"],
    "stock_thickness": ["next one up"],
}  # fmt: skip
"""What can be read two ways or not at all."""
SAME_READER = {
    "girth": "diameter", "width": "length", "slant": "height", "chord": "diameter", "rise": "diameter",
    "arc_length": "length", "line": "size", "hidden": "status_ok", "struck_ok": "status_ok",
    "columns_ok": "status_ok", "remark_ok": "notes_ok", "rise_ok": "status_ok", "revision": "revision_ok",
}  # fmt: skip
"""Kinds that another kind's reader reads."""
NO_LINE = {"file": "a file that cannot be read is sent again", "arc_length_on": "two choices, no other words"}


def _order(kind: str, folder: Path) -> Order:
    cells, head, _, _, _ = CASES[kind]
    rows = [cells, cells] if kind == "duplicate" else [cells]
    title = "NB surface as on the sample board" if kind == "notes_ok" else ""
    return read_rows(folder, *rows, head=head, title=title)


@pytest.mark.parametrize("kind", CASES)
def test_each_wording_means_what_a_person_means(tmp_path: Path, kind: str) -> None:
    order, (_, _, key, field, groups) = _order(kind, tmp_path), CASES[kind]
    assert key in {one.id for one in order.questions}, [one.id for one in order.questions]
    wrong = []
    for value, wording in ((value, wording) for value, all_ in groups.items() for wording in all_):
        after = resolve(order, {key: wording}, small_shop())
        read = dict(after.drafts[-1].values).get(field, "")
        taken = key in {one.question for one in after.answers}
        if not taken or (value != ANY and not _same(read, value)):
            wrong.append((wording, value, read if taken else "not taken"))
    assert wrong == []


def _same(read: str, value: str) -> bool:
    try:
        return abs(float(read) - float(value)) < 0.01
    except ValueError:
        return read == value


@pytest.mark.parametrize("kind", REFUSED)
def test_what_is_not_clear_is_refused_with_an_example(tmp_path: Path, kind: str) -> None:
    order, key = _order(kind, tmp_path), CASES[kind][2]
    for wording in REFUSED[kind]:
        after = resolve(order, {key: wording}, small_shop())
        text = next((one.told for one in after.questions if one.id == key), "")
        assert f'"{wording}" was not understood; for example: ' in text, wording


@pytest.mark.parametrize("kind", [kind for kind in CASES if CASES[kind][3] == "diameter"])
def test_an_example_is_itself_taken(tmp_path: Path, kind: str) -> None:
    order, key = _order(kind, tmp_path), CASES[kind][2]
    asked = next(one for one in resolve(order, {key: "hm"}, small_shop()).questions if one.id == key)
    example = asked.told.rpartition("for example: ")[2].rstrip(".").split(" or ")[0]
    assert key not in {one.id for one in resolve(order, {key: example}, small_shop()).questions}


def test_each_kind_has_ten_wordings() -> None:
    counts = {kind: sum(map(len, case[4].values())) for kind, case in CASES.items()}
    assert {kind: count for kind, count in counts.items() if count < 10} == {
        "size": 7
    }  # eleven in the other file
    assert len(test_natural_answers.CASES["size"][3]) >= 10


def test_each_kind_in_the_code_has_wordings() -> None:
    """A kind that the code asks under a fixed name needs wordings here, or a reader that has them."""
    covered = {case[2].rpartition("/")[2] for case in CASES.values()}
    covered |= {case[2].rpartition("/")[2] for case in test_natural_answers.CASES.values()}
    assert set(SAME_READER.values()) <= covered | {"height"}
    assert _kinds_in_code() - covered - set(SAME_READER) - set(NO_LINE) == set()


def _kinds_in_code() -> set[str]:
    folder = Path(quoting.intake.__file__).parent
    calls = chain.from_iterable(ast.walk(ast.parse(file.read_text("utf-8"))) for file in folder.rglob("*.py"))
    found = set()
    for call in calls:
        if not isinstance(call, ast.Call) or not isinstance(call.func, ast.Name) or len(call.args) < 2:
            continue
        name = call.args[1] if call.func.id == "ask" else call.args[0]
        if call.func.id == "Question" and isinstance(name, ast.JoinedStr):
            name = name.values[-1]
        if call.func.id in ("ask", "Doubt", "Question") and isinstance(name, ast.Constant):
            found.add(str(name.value).rpartition("/")[2])
    return {kind for kind in found if kind not in ("", "_ok")}


def test_a_shell_alone_is_not_the_half_shell() -> None:
    full, half = Choice("full cylinder", (("shape", "cylinder"),)), Choice("half shell", (("angle", "180"),))
    asked = Question("A-1/angle", "A-1", Place("a.xlsx"), "", "full or half?", (full, half))
    assert own_words(asked, "angle", "shell", inch=True) == ()
    assert own_words(asked, "angle", "the half shell", inch=True) == half.fields
    assert own_words(asked, "angle", "full", inch=True) == full.fields
