"""800 titles, notes, headings and remarks beside two clear rows, written before the reader saw any of them.

What is mere business is not asked about, what changes a part is never passed over, and what gives a value is
taken. Both halves may be looked into; what it reads unseen is in `test_unseen_lists.py`. All of it is
invented.
"""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import replace
from pathlib import Path
from typing import Any

import openpyxl
import pytest

from quoting.core import InputError, Order, OrderLine
from quoting.intake.read_orders import read_orders
from tests.benchmarks.intake_reader import grading_shop
from tests.data.sheet_model import TODAY

_DATA = Path(__file__).parents[2] / "data" / "texts_alone"
_HEADS = {
    "en": "Item|Description|Inside diameter|Length|Thickness|Qty|Material|Remarks",
    "de": "Pos|Bezeichnung|Innendurchmesser|Länge|Dicke|Stückzahl|Werkstoff|Bemerkung",
    "fr": "Rep|Désignation|Diamètre intérieur|Longueur|Épaisseur|Quantité|Matière|Remarques",
    "es": "Pos|Descripción|Diámetro interior|Longitud|Espesor|Cantidad|Material|Observaciones",
    "it": "Pos|Descrizione|Diametro interno|Lunghezza|Spessore|Quantità|Materiale|Note",
    "nl": "Pos|Omschrijving|Binnendiameter|Lengte|Dikte|Aantal|Materiaal|Opmerking",
    "pt": "Item|Descrição|Diâmetro interno|Comprimento|Espessura|Quantidade|Material|Observações",
    "pl": "Poz|Opis|Średnica wewnętrzna|Długość|Grubość|Ilość|Materiał|Uwagi",
    "sv": "Pos|Benämning|Innerdiameter|Längd|Tjocklek|Antal|Material|Anmärkning",
    "cs": "Pozice|Popis|Vnitřní průměr|Délka|Tloušťka|Počet|Materiál|Poznámka",
    "tr": "Poz|Tanım|İç çap|Uzunluk|Kalınlık|Adet|Malzeme|Not",
    "da": "Pos|Betegnelse|Indvendig diameter|Længde|Tykkelse|Antal|Materiale|Bemærkning",
    "zh": "序号|名称|内径|长度|厚度|数量|材质|备注",
    "fi": "Osa|Nimitys|Sisähalkaisija|Pituus|Paksuus|Määrä|Materiaali|Huomautus",
    "no": "Pos|Betegnelse|Innvendig diameter|Lengde|Tykkelse|Antall|Materiale|Merknad",
    "ro": "Poz|Denumire|Diametru interior|Lungime|Grosime|Cantitate|Material|Observații",
    "hu": "Tétel|Megnevezés|Belső átmérő|Hossz|Vastagság|Darab|Anyag|Megjegyzés",
}
_SHELL = {
    "de": "Mantel", "fr": "Virole", "es": "Virola", "it": "Virola", "nl": "Mantel", "pt": "Virola",
    "pl": "Płaszcz", "sv": "Mantel",
}  # fmt: skip
_COLUMNS = {"Diameter": 2, "Inside diameter": 2, "Length": 3, "Thickness": 4, "Qty": 5, "Material": 6}
_VALUES = {"t": "thickness_mm", "n": "quantity", "mat": "material"}
_REACHED = {
    (
        "statements",
        0,
    ): "65 none fine, 5 none told, 1 none needless, 57 ask fine, 20 value fine, 2 value asked",
    (
        "statements",
        1,
    ): "24 none fine, 37 none told, 3 none needless, 63 ask fine, 11 value fine, 12 value asked",
    ("terms", 0): "140 none fine, 10 none told, 100 ask fine",
    ("terms", 1): "89 none fine, 54 none told, 7 none needless, 100 ask fine",
}
"""Fine is what a good estimator would do; told is asked with no line waiting, needless a line that waits for
nothing. None is silent: a text that changes a part, and nothing asked or read for it."""


def _sheet(one: dict[str, Any], text: str) -> list[list[object]]:
    """Return two clear rows with a text where it stands, and the cells blank that it gives."""
    heads: list[object] = list(_HEADS.get(one["lang"], _HEADS["en"]).split("|"))
    heads[2:5] = [f"{head} (mm)" for head in heads[2:5]]
    shell = _SHELL.get(one["lang"], "Shell")
    rows: list[list[object]] = [
        ["1", shell, 1200, 1500, 10, 2, "S355J2", ""],
        ["2", shell, 900, 2000, 8, 1, "S235JR", ""],
    ]
    scope = one.get("scope", [1, 2])
    for name in one.get("empty", ()):
        for number in scope:
            rows[number - 1][_COLUMNS[name]] = ""
    if one["where"] == "remark":
        rows[1 if scope == [2] else 0][7] = text
    alone: dict[str, list[list[object]]] = {one["where"]: [[text]]} if text else {}
    return [
        *alone.get("title", []), heads, rows[0], *alone.get("heading", []), rows[1], *alone.get("note", []),
    ]  # fmt: skip


def _read(folder: Path, rows: list[list[object]]) -> Order | None:
    book = openpyxl.Workbook()
    assert book.active is not None
    for row in rows:
        book.active.append(row)
    book.save(folder / "order.xlsx")
    try:
        return read_orders(folder / "order.xlsx", grading_shop(), today=TODAY)
    except InputError:
        return None


def _value(line: OrderLine, name: str) -> object:
    if name in _VALUES:
        return getattr(line, _VALUES[name])
    return getattr(line.shape, {"d": "diameter_mm", "length": "length_mm"}.get(name, name), None)


def _priced(order: Order) -> list[OrderLine]:
    """Return what the lines are priced as, and what is said on them."""
    return [
        replace(line, place=replace(line.place, row=0), description="", remarks=(), readings=())
        for line in order.lines
    ]


def _shape(order: Order) -> list[object]:
    return [_value(line, name) for line in order.lines for name in ("t", "n", "mat", "d", "length", "basis")]


def _grade(one: dict[str, Any], order: Order | None, plain: Order) -> str:
    effect = one["effect"]
    if order is None:
        return "refused"
    before = {question.text for question in plain.questions}
    asked = any(question.text not in before for question in order.questions)
    waits = any(question.blocking for question in order.questions)
    if effect == "none":
        if waits or _shape(order) != _shape(plain):
            return "none needless"
        return "none told" if asked else "none fine"
    if effect == "ask":
        return "ask fine" if asked or _priced(order) != _priced(plain) else "ask silent"
    if waits or len(order.lines) < 2:
        return "value asked"
    taken = all(_taken(order.lines[at - 1], effect) for at in one.get("scope", [1, 2]))
    return "value fine" if taken else "value asked" if asked else "value silent"


def _taken(line: OrderLine, effect: dict[str, Any]) -> bool:
    for name, wanted in effect.items():
        value = _value(line, name)
        if name == "mat":
            if not value:
                return False
        elif name == "basis":
            if str(value) != wanted:
                return False
        elif value is None or abs(float(str(value)) - float(wanted)) > 0.06:
            return False
    return True


@pytest.mark.parametrize(("name", "half"), _REACHED)
def test_statements_are_passed_asked_or_taken(tmp_path: Path, name: str, half: int) -> None:
    statements = json.loads((_DATA / f"{name}.json").read_text(encoding="utf-8"))[half::2]
    plain: dict[str, Order] = {}
    found: Counter[str] = Counter()
    for one in statements:
        language = one["lang"]
        if language not in plain:
            clear = _read(tmp_path, _sheet({"lang": language, "where": "note"}, ""))
            assert clear is not None
            plain[language] = clear
        found[_grade(one, _read(tmp_path, _sheet(one, one["text"])), plain[language])] += 1
    assert {f"{count} {grade}" for grade, count in found.items()} == {*_REACHED[name, half].split(", ")}
