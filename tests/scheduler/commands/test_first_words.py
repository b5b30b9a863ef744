"""What somebody meets who has never used a terminal: help, the interview, completion, books that open."""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

import click
import pytest
from click.shell_completion import BashComplete
from click.testing import CliRunner

from quoting.shop import Family, load_shop
from scheduler.commands import main
from scheduler.commands.cli import SECTIONS
from scheduler.commands.ending import own_version
from scheduler.commands.options import open_books


def commands(group: click.Group, name: str = "rollwright") -> Iterator[tuple[str, click.Command]]:
    for own, command in group.commands.items():
        if isinstance(command, click.Group):
            yield from commands(command, f"{name} {own}")
        else:
            yield f"{name} {own}", command


def test_every_command_says_in_a_sentence_what_it_does_and_shows_an_example() -> None:
    dumb = {
        name
        for name, command in commands(main)
        if not (command.help or "").partition("\n")[0].endswith((".", ":"))
        or f"`{name} " not in (command.help or "")
    }
    assert dumb == set()


def test_every_command_says_what_comes_out_where() -> None:
    """The folder of the example's --out is named again; without one it is said to be printed or kept."""
    silent = []
    for name, command in commands(main):
        words = " ".join((command.help or "").split())
        where = re.search(r"--out (\w+)", words)
        said = ("printed", "kept", "writes", "wrote")
        if not (f"{where[1]}/" in words if where else any(word in words for word in said)):
            silent.append(name)
        assert all(getattr(one, "help", "") for one in command.params if isinstance(one, click.Option)), name
    assert silent == []


def test_the_version_is_told_and_nothing_else() -> None:
    told = CliRunner().invoke(main, ["--version"], prog_name="rollwright")
    assert (told.exit_code, told.output) == (0, f"rollwright, version {own_version()}\n")


def test_every_command_stands_below_a_head_in_a_line_that_is_not_cut_off() -> None:
    listed = [name for commands in SECTIONS.values() for name in commands]
    assert sorted(listed) == sorted(main.commands)
    shown = CliRunner().invoke(main, ["--help"]).output
    assert shown.count("...") == 1  # in [ARGS]... only
    for title, words in ((title, words) for title, own in SECTIONS.items() for words in own.values()):
        assert f"{title}:" in shown
        assert words in shown


def test_the_interview_makes_a_shop_with_two_rolls(tmp_path: Path) -> None:
    said = ["Example Rolling", "perhaps", "inch", "EUR", "much", "51.50", "33", "2", "7 to 4", "06:30-15:00"]
    said += ["10 t", "10000 lb", "25", "Big roll; 11; 10-1/2; 9-1/2"]
    said += ["Big roll; 11; 10-1/2; 9-1/2; 10'-1; 1/2; 36", "Small; 6; 6; 5-1/2; 50; 3/16; 12", ""]
    typed = "\n".join(said)
    done = CliRunner().invoke(main, ["init", str(tmp_path / "own"), "--ask"], input=typed + "\n")
    assert done.exit_code == 0, done.output
    for told in ("write inch or metric", "such as 42", "write a weight", "4 of 7 figures", "it as 07:00"):
        assert told in done.output
    shop = load_shop(tmp_path / "own")
    assert [roll.name for roll in shop.rolls] == ["Big roll", "Small"]
    assert all(roll.rated[0].pre_bend for roll in shop.rolls)
    assert shop.rolls[0].working_length_mm == pytest.approx(121 * 25.4)
    assert (shop.rates.currency, str(shop.rates.operator_hour)) == ("EUR", "51.5")
    assert shop.pricing.margin == Decimal("0.25")
    assert {material.family for material in shop.materials} >= {Family.CARBON, Family.STAINLESS}


def test_a_shell_completes_commands() -> None:
    shell = BashComplete(main, {}, "rollwright", "_ROLLWRIGHT_COMPLETE")
    assert [item.value for item in shell.get_completions(["shop"], "w")] == ["weigh"]
    assert "watch" in [item.value for item in shell.get_completions([], "wa")]


def test_books_open_after_a_run_and_where_nothing_opens_them_it_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in ("costing-1.xlsx", "quote-a.pdf", "questions-1.xlsx", "result.json"):
        (tmp_path / name).touch()
    opened: list[str] = []

    def launch(path: str) -> int:
        opened.append(Path(path).name)
        return len(opened) - 2 if len(opened) > 2 else 0

    monkeypatch.setattr(click, "launch", launch)
    open_books(tmp_path)
    assert opened == ["questions-1.xlsx", "quote-a.pdf", "costing-1.xlsx"]
    assert "no program here opened costing-1.xlsx" in capsys.readouterr().err
