"""How the form looks: its cell formats, its columns, and the rules and notes in its cells."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from quoting.shop.book import UNIT_WORDS
from quoting.shop.forms.cells import NUMBERS
from quoting.shop.forms.schema import BookSetting

EXAMPLE, OURS, WORKED_OUT = "example, not yet yours", "yours", "worked out, check it"
_INK, _QUIET = "#1F3A4A", "#5A5A5A"
_FRACTION = "# ??/??"
_MOST_NOTE, _MOST_TITLE = 250, 32


class FormLook:
    """The formats of one workbook, made once each."""

    def __init__(self, book: Any) -> None:
        self._book = book
        self._made: dict[str, Any] = {}
        base = {"font_name": "Arial", "font_size": 10, "valign": "top"}
        box = {**base, "border": 1, "border_color": "#A89B6A", "bg_color": "#FBF4DE", "align": "left"}
        self._kinds: dict[str, dict[str, Any]] = {
            "title": {**base, "font_size": 16, "bold": True, "font_color": _INK},
            "section": {**base, "font_size": 12, "bold": True, "font_color": _INK, "bottom": 1},
            "head": {**base, "bold": True, "text_wrap": True, "bottom": 1, "bg_color": "#E8ECEE"},
            "text": {**base, "text_wrap": True},
            "line": base,
            "bold": {**base, "bold": True},
            "quiet": {**base, "font_size": 8, "font_color": _QUIET},
            "mark": {**base, "font_size": 9, "text_wrap": True},
            "link": {**base, "font_color": _INK, "underline": 1},
            "input": {**box, "text_wrap": True},
            "fraction": {**box, "num_format": _FRACTION},
            "percent": {**box, "num_format": "0.0##%"},
            "money": {**box, "num_format": "#,##0.00##"},
            "date": {**box, "num_format": "yyyy-mm-dd"},
            "typed": {**box, "num_format": "@", "text_wrap": True},
        }

    def __getitem__(self, name: str) -> Any:
        if name not in self._made:
            self._made[name] = self._book.add_format(self._kinds[name])
        return self._made[name]

    def of_value(self, setting: BookSetting, value: Any, unit: str) -> Any:
        """Return the format of a cell to fill in: fractions for inches, per cent for shares."""
        kind = setting.rule.kind
        if kind == "share":
            return self["percent"]
        if kind in ("money", "money_per"):
            return self["money"]
        if kind == "day":
            return self["date"]
        if kind == "quantity" and unit == "in" and _is_fraction(value):
            return self["fraction"]
        return self["input"] if kind in NUMBERS and kind != "counts" else self["typed"]


def allowed(setting: BookSetting) -> str:
    """Return the range of a setting in words."""
    rule = setting.rule
    words = {"flag": "yes or no", "choice": " / ".join(rule.words), "counts": "rising whole numbers"}
    if rule.kind in words or rule.kind not in NUMBERS:
        return words.get(rule.kind, "")
    if rule.positive:
        return "more than 0"
    if rule.least is None:
        return "any number"
    percent = rule.kind == "share"
    least, most = (
        _figure(limit, percent=percent) if limit is not None else "" for limit in (rule.least, rule.most)
    )
    return f"{least} to {most}" if most and (rule.most or 0) < 1e6 else f"{least} or more"


def rule_of_cell(setting: BookSetting) -> dict[str, Any]:
    """Return the check and the note of a cell: a list to choose from, or a range that is asked about."""
    rule = setting.rule
    note = {
        "input_title": setting.words[:_MOST_TITLE],
        "input_message": (setting.plain_sentence or setting.words)[:_MOST_NOTE],
        "error_type": "warning",
        "error_title": setting.words[:_MOST_TITLE],
        "error_message": f"Usual here: {allowed(setting)}. Keep it all the same?"[:_MOST_NOTE],
    }
    if rule.kind in ("flag", "choice"):
        return {**note, "validate": "list", "source": list(rule.words) or ["yes", "no"], "error_type": "stop"}
    if rule.kind in NUMBERS - {"counts"} and (rule.positive or rule.least is not None):
        if rule.most is not None:
            limits = {"criteria": "between", "minimum": rule.least, "maximum": rule.most}
        else:
            limits = {"criteria": ">" if rule.positive else ">=", "value": 0 if rule.positive else rule.least}
        return {**note, "validate": "integer" if rule.kind == "whole" else "decimal", **limits}
    return {**note, "validate": "any"}


def unit_words(setting: BookSetting, unit: str, currency: str) -> str:
    """Return what stands in the unit's column."""
    if unit:
        return UNIT_WORDS[unit]
    if setting.rule.kind == "money":
        return currency
    return "%" if setting.rule.kind == "share" else ""


def _figure(limit: float, *, percent: bool) -> str:
    return f"{limit * 100:g} %" if percent else f"{limit:g}"


def _is_fraction(value: Any) -> bool:
    return isinstance(value, (int, Decimal)) and value * 64 == int(value * 64) and value < 1000
