"""Lines of a TOML file, so that a message can point at one."""

from __future__ import annotations

import tomllib

from hypothesis import given
from hypothesis import strategies as st

from quoting.shop.book.toml_lines import line_numbers

NAMES = st.text(alphabet="abcdefg_", min_size=1, max_size=6)
TABLES = st.lists(st.tuples(NAMES, st.lists(NAMES, unique=True, max_size=4)), max_size=5)


def test_inner_tables_count_within_their_outer_one() -> None:
    text = (
        '# a book\n[[roll]]\nname = "A"\n[[roll.rated]]\nt = 1\n[[roll.rated]]\nt = 2\n'
        '[[roll]]\n[roll.slide]\nx = 3\n"q r" = 4\n'
    )
    lines = line_numbers(text)
    assert lines["roll[1].rated[2]", "t"] == 7
    assert lines["roll[2].slide", "x"] == 10
    assert lines["roll[2].slide", "q r"] == 11
    assert lines["roll[2]", ""] == 8


@given(TABLES)
def test_every_key_is_found_on_the_line_it_stands_on(tables: list[tuple[str, list[str]]]) -> None:
    text, wanted, counts = "", {}, dict[str, int]()
    for name, keys in tables:
        counts[name] = counts.get(name, 0) + 1
        text += f"[[{name}]]\n"
        for key in keys:
            text += f"{key} = 1\n"
            wanted[f"{name}[{counts[name]}]", key] = text.count("\n")
    tomllib.loads(text)
    lines = line_numbers(text)
    assert {place: lines[place] for place in wanted} == wanted
