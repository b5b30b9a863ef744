"""Small shop folders for the tests: the starter book with some text exchanged, and a rack in CSV."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from quoting.shop import Shop, load_shop
from quoting.shop.book import starter_text

RACK_HEAD = "Plate id,Material,Thickness,Width,Length,Edge,Quantity,Price,Per,Heat number,Remnant\n"


def book_with(changes: Mapping[str, str]) -> str:
    """Return the starter book with each text exchanged for another; a text that is not there is an error."""
    text = starter_text()
    for old, new in changes.items():
        assert text.count(old) >= 1, old
        text = text.replace(old, new, 1)
    return text


def shop_with(
    folder: Path, changes: Mapping[str, str] | None = None, *, rack: str = "", buyable: str = ""
) -> Shop:
    """Write and load a shop folder: the changed starter book, and the rows of a rack under `RACK_HEAD`."""
    (folder / "shop.toml").write_text(book_with(changes or {}), "utf-8")
    if rack:
        (folder / "rack.csv").write_text(RACK_HEAD + rack, "utf-8")
    if buyable:
        (folder / "buyable.csv").write_text(
            "Plate id,Material,Thickness,Width,Length,Edge,Price,Per,Lead days\n" + buyable, "utf-8"
        )
    return load_shop(folder)
