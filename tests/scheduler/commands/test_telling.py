"""What a command tells while it works: notes as lines, progress as one line that is drawn anew."""

from __future__ import annotations

import io
import sys

import pytest
from click.testing import CliRunner

from quoting.core import Doing
from scheduler.commands import keep_a_stop, main
from scheduler.commands.telling import Telling, say

STEPS = (
    Doing("reading 2 order sheets"),
    "columns were read by their headers",
    Doing("nesting A36 (1 of 2)", stage="nesting", share=0.0),
    Doing("nesting 304 (2 of 2)", stage="nesting", share=0.5),
    Doing("writing the books", stage="writing", share=0.0),
    Doing("writing the books", stage="writing", share=0.5, step=True),
    Doing(""),
)


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def told(stream: io.StringIO, monkeypatch: pytest.MonkeyPatch, *, quiet: bool = False) -> str:
    monkeypatch.setattr(sys, "stderr", stream)
    telling = Telling()
    telling.begin(quiet=quiet)
    for text in STEPS:
        telling(text)
    telling("a note at the end")
    return stream.getvalue()


def test_in_a_file_each_stage_is_a_line_and_its_steps_are_none(monkeypatch: pytest.MonkeyPatch) -> None:
    assert told(io.StringIO(), monkeypatch).splitlines() == [
        "reading 2 order sheets",
        "columns were read by their headers",
        "nesting A36 (1 of 2)",
        "nesting 304 (2 of 2)",
        "writing the books",
        "a note at the end",
    ]


def test_on_a_terminal_one_line_is_drawn_anew_and_notes_stand_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    shown = told(Terminal(), monkeypatch)
    drawn = shown.split("\r")
    assert any("nesting 304 (2 of 2)  50% |" in one and "left" in one for one in drawn)
    assert any("writing the books  50% |" in one for one in drawn)
    lines = [line.split("\r")[-1].strip() for line in shown.split("\n")]
    assert lines == ["columns were read by their headers", "a note at the end", ""]


def test_quiet_tells_notes_only(monkeypatch: pytest.MonkeyPatch) -> None:
    for stream in (io.StringIO(), Terminal()):
        lines = told(stream, monkeypatch, quiet=True).splitlines()
        assert lines == ["columns were read by their headers", "a note at the end"]


def test_a_stopped_command_says_what_it_was_at(monkeypatch: pytest.MonkeyPatch) -> None:
    from scheduler.commands.ending import STOPPED, guarded  # noqa: PLC0415 - sets what signals do

    def work() -> int:
        say(Doing("sequencing 46 lines"))
        raise KeyboardInterrupt

    stream = io.StringIO()
    monkeypatch.setattr(sys, "stderr", stream)
    say.begin(quiet=False)
    assert guarded(work) == STOPPED
    assert "stopped while sequencing 46 lines; files of an earlier run stay" in stream.getvalue()
    say.begin(quiet=False)


def test_every_long_command_can_be_quiet() -> None:
    for name in ("run", "quote", "schedule", "won", "plan", "renew", "rush"):
        assert "--quiet" in CliRunner().invoke(main, [name, "--help"]).output, name


def test_a_stop_that_met_code_which_drops_errors_ends_the_command_at_the_next_stage(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The interpreter drops what is raised while it takes an object apart, a stop of the user too."""
    monkeypatch.setattr(sys, "unraisablehook", keep_a_stop)

    class Stopped:
        def __del__(self) -> None:
            raise KeyboardInterrupt

    class Broken:
        def __del__(self) -> None:
            raise ValueError

    Broken()
    say(Doing("reading"))
    Stopped()
    say(Doing(""))  # nothing more is done
    with pytest.raises(KeyboardInterrupt):
        say(Doing("pricing"))
    say(Doing("pricing"))  # a later command in this process is not stopped
