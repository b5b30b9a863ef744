"""No customer's answers reach another: names are files one to one, and files say whose they are."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.core import InputError
from quoting.intake import CustomerFiles
from quoting.intake.answers import Memory
from quoting.intake.customer_names import customer_stem, is_same_customer, plain_customer
from quoting.intake.layout import CustomerMap, customer_map
from tests.quoting.intake.sheets import GOOD, read_rows
from tests.quoting.intake.small_shop import TODAY

ALIKE = (
    "Ridge & Co",
    "Ridge Co",
    "ridge-co",
    "Ridgé Co",
    "名前",
    "別の名前",
    "Имя",
    "con",
    "x" * 61,
    "x" * 62,
)


def test_names_that_read_alike_have_files_of_their_own() -> None:
    assert len({customer_stem(name) for name in ALIKE}) == len(ALIKE)
    assert customer_stem("Ridge  CO ") == customer_stem("ridge co")


@given(st.text(min_size=1), st.text(min_size=1))
def test_one_file_is_one_customer(one: str, other: str) -> None:
    assert (customer_stem(one) == customer_stem(other)) is is_same_customer(one, other)
    assert customer_stem(one).replace("-", "").isalnum()


def test_a_name_of_several_lines_never_leaves_its_comment() -> None:
    text = CustomerMap("Ridge\n[columns]\nx = 'quantity'").to_text()
    assert customer_map(text, "m.toml").columns == ()
    assert plain_customer("Ridge\r\n\x00\u202e Tank") == "Ridge Tank"
    with pytest.raises(InputError, match="the customer's name is empty"):
        CustomerFiles(Path(), "\n\x00 ")


def kept(shop_dir: Path, name: str, stem: str) -> Path:
    path = shop_dir / "customers" / f"{stem}.json"
    path.parent.mkdir(exist_ok=True)
    path.write_text(Memory(name).to_text())
    return path


def test_a_file_of_an_earlier_version_is_taken_over_by_its_customer_only(tmp_path: Path) -> None:
    order = read_rows(tmp_path, [*GOOD])
    sheet = tmp_path / "order.csv"
    old = kept(tmp_path, "Ridge & Co", "ridge-co")
    other = CustomerFiles(tmp_path, "Ridge Co")
    other.keep([sheet], [order], TODAY)
    assert old.exists()
    assert f"{old} is of Ridge & Co, not of Ridge Co: it was not used" in other.notes
    owner = CustomerFiles(tmp_path, "Ridge & Co")
    owner.keep([sheet], [order], TODAY)
    assert not old.exists()
    assert json.loads(owner.memory_path.read_text())["customer"] == "Ridge & Co"
    assert any("one file a customer" in note for note in owner.notes)


def test_a_map_of_an_earlier_version_keeps_what_a_person_wrote(tmp_path: Path) -> None:
    order = read_rows(tmp_path, [*GOOD])
    (tmp_path / "customers").mkdir()
    (tmp_path / "customers" / "ridge.toml").write_text('name = "Ridge" # mine\nunit = "mm"\n')
    files = CustomerFiles(tmp_path, "Ridge")
    pinned = files.column_map()
    assert pinned is not None
    assert pinned.unit == "mm"
    files.keep([tmp_path / "order.csv"], [order], TODAY)
    assert files.map_path.read_text() == 'name = "Ridge" # mine\nunit = "mm"\n'
    assert not (tmp_path / "customers" / "ridge.toml").exists()


def test_a_file_that_says_it_is_anothers_is_refused(tmp_path: Path) -> None:
    kept(tmp_path, "Yard", customer_stem("Ridge"))
    with pytest.raises(InputError, match='is kept for another customer - read "Yard"; write the name Ridge'):
        CustomerFiles(tmp_path, "Ridge").memory()
