"""Who asks is read in the customer's own words and language, never from a greeting or a title of parts."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest
from openpyxl import Workbook

from quoting.core import Order
from quoting.intake.read_orders import read_orders
from tests.quoting.intake.small_shop import TODAY, small_shop

GERMAN = (
    ["Pos", "Benennung", "Innendurchmesser (mm)", "Länge (mm)", "Dicke (mm)", "Menge", "Werkstoff"],
    [1, "Mantelschuss", 1200, 1500, 10, 2, "304L"],
    [2, "Mantelschuss", 900, 1500, 10, 1, "304L"],
)
FRENCH = (
    ["Rep", "Désignation", "Ø intérieur (mm)", "Longueur (mm)", "Épaisseur (mm)", "Qté", "Nuance"],
    ["1", "virole", 1200, 1500, 10, 2, "304L"],
    ["2", "virole", 900, 1500, 10, 1, "304L"],
)
ENGLISH = (
    ["Item", "Description", "ID (in)", "Length (in)", "Thk (in)", "Qty", "Material"],
    ["1", "Shell", 48, 60, "1/4", 2, "A36"],
    ["2", "Shell", 36, 60, "1/4", 1, "A36"],
)


def asked(folder: Path, *rows: Sequence[object], name: str = "list.xlsx") -> Order:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    for row in rows:
        sheet.append(list(row))
    book.save(folder / name)
    return read_orders(folder / name, small_shop(), today=TODAY)


def test_labels_of_other_languages_say_who_asks(tmp_path: Path) -> None:
    order = asked(
        tmp_path,
        ["Kunde: Kesselbau Mantel GmbH"],
        ["Anfrage 4711"],
        ["Ansprechpartner:", "Frau Muster"],
        *GERMAN,
    )
    assert (order.customer, order.reference, order.contact) == (
        "Kesselbau Mantel GmbH",
        "4711",
        "Frau Muster",
    )
    assert not [one for one in order.questions if one.id.endswith("/notes_ok")]
    order = asked(tmp_path, ["Client", "Tôlerie Virole et Cône"], ["N° d'affaire", "26-118"], *FRENCH)
    assert (order.customer, order.reference) == ("Tôlerie Virole et Cône", "26-118")


def test_the_firm_and_the_person_below_a_mail(tmp_path: Path) -> None:
    below = (["Mit freundlichen Grüßen"], ["Hans Muster"], ["Muster Behälterbau GmbH"])
    order = asked(tmp_path, ["Guten Tag,"], *GERMAN, *below)
    assert (order.customer, order.contact) == ("Muster Behälterbau GmbH", "Hans Muster")
    order = asked(tmp_path, ["Hi there,"], *ENGLISH, ["Thanks, Bob"], name="tank_rings.xlsx")
    assert (order.customer, order.contact) == ("Tank Rings", "Bob")


@pytest.mark.parametrize(
    "title",
    ["G'day Kev", "Hej Lasse!", "Sizes in mm", "Jacket repair clamps & sleeves", "Cell is the same as before",
     "Prices ex works. We arrange it.", "Shells for the boiler", "mm"],
)  # fmt: skip
def test_a_title_that_names_no_firm_is_no_customer(tmp_path: Path, title: str) -> None:
    assert asked(tmp_path, [title], *ENGLISH, name="tank_rings.xlsx").customer == "Tank Rings"


@pytest.mark.parametrize(
    "title",
    ["Rohr und Mantel Stahlbau AG", "Example Boilerworks Ltd.", "Ejemplo Calderería S.L.", "Mustavka Oy"],
)
def test_a_title_with_a_firms_name_is_the_customer_as_it_was_written(tmp_path: Path, title: str) -> None:
    order = asked(tmp_path, [title], *GERMAN)
    assert order.customer == title
    assert not [one for one in order.questions if one.id.endswith("/notes_ok")]


def test_a_question_about_several_rows_quotes_them_as_they_were_written(tmp_path: Path) -> None:
    rows = [
        [f"n. {at} viroles diam. intérieur 1200 épaisseur 60 hauteur {at}500 en 304L"] for at in (1, 2, 3)
    ]
    order = asked(tmp_path, ["Bonjour, merci de chiffrer, cotes en mm :"], *rows)
    (question,) = (one for one in order.questions if "stock" in one.id)
    assert question.for_shop
    assert "Lines 2, 3, 4" in question.text
    assert "viroles diam. intérieur" in question.read


def test_parts_of_cells_are_quoted_as_they_were_written(tmp_path: Path) -> None:
    head = [*FRENCH[0], "Remarques"]
    notes = ["Soudage et sablage par nos équipes. Délai souhaité fin février. Cotes en mm."]
    order = asked(tmp_path, head, [*FRENCH[1], "soudure par nos soins, trou d'homme zzyx"], notes)
    said = " ".join((*(one.text for one in order.questions), *order.lines[0].assumptions))
    assert "soudure par nos soins" in said
    for english in ("weld", "by us", "our", "delivery"):
        assert f'"{english}' not in said
        assert f" {english} par" not in said


def test_data_sheets_parted_by_blank_rows_are_parts_by_their_names(tmp_path: Path) -> None:
    rows: list[list[object]] = [["SCHEDE PEZZI - impianto di prova", ""]]
    for number, (name, d, much) in enumerate(
        (("Corpo", 1800, 1), ("Tubo di uscita", 800, 2), ("Semigusci", 420, 6)), 1
    ):
        rows += [[], ["Scheda", f"{number} - {name}"], ["Diametro interno (mm)", d], ["Spessore (mm)", 5]]
        rows += [["Lunghezza (mm)", 900], ["Pezzi", much], ["Acciaio", "304L"]]
        if number == 1:
            rows.append(["Note", "verniciatura nostra"])
    order = asked(tmp_path, *rows)
    assert [(line.quantity, line.description) for line in order.lines] == [
        (1, "Corpo"),
        (2, "Tubo di uscita"),
        (6, "Semigusci"),
    ]
    assert [type(line.shape).__name__ for line in order.lines] == ["Cylinder", "Cylinder", "Arc"]


def test_a_share_of_a_circle_and_a_spanish_schedule(tmp_path: Path) -> None:
    head = ["Pos", "Bezeichnung", "Ø innen (mm)", "Breite (mm)", "Dicke (mm)", "Anteil", "Stück", "Werkstoff"]
    rows = [
        ["1", "Mantelsegment", 2900, 1500, 20, "1/3", 3, "304L"],
        ["2", "Mantel", 2900, 1500, 20, "1/2", 2, "304L"],
    ]
    order = asked(tmp_path, head, *rows)
    assert order.lines == ()
    assert {one.line for one in order.questions if one.blocking} == {"1", "2"}
    spanish = ["Pos", "Descripción", "Cant", "Material"]
    order = asked(tmp_path, ["mm"], spanish, ["1", 'Tubo rolado 16" ced. 40 x 2000 largo', 1, "304L"])
    assert [line.thickness_mm for line in order.lines] == [pytest.approx(12.7)]
