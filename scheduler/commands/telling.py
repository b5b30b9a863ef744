"""What a command tells while it works: notes as lines, what is being done as one live line on a terminal.

Where nobody looks on, in a file or a pipe, each stage is a plain line and its steps are nothing. The line is
drawn only when something is told, by this process alone: no thread is there when workers are forked.
"""

from __future__ import annotations

import sys
from typing import Any

import click

from quoting.core import Doing

_FORM = "{desc} {percentage:3.0f}% |{bar}| {remaining} left"
_FORM_UNKNOWN = "{desc} ({elapsed})"


class Telling:
    """Tells notes and progress on standard error."""

    def __init__(self) -> None:
        self._line: Any = None
        self._stage = ""
        self.doing = ""
        self.stopped = False
        self._quiet = False

    def begin(self, *, quiet: bool) -> None:
        """Begin a command; a quiet one tells notes only."""
        self.clear()
        self.doing, self._quiet = "", quiet

    def __call__(self, text: str) -> None:
        """Tell a note, or what is being done when it is such a text; an empty one: nothing any more.

        Raises KeyboardInterrupt before something more is done when the user has `stopped` the command.
        """
        if self.stopped and text:
            self.stopped = False
            raise KeyboardInterrupt
        if not isinstance(text, Doing):
            self.clear()
            click.echo(text, err=True)
            return
        self.doing = text
        if not text:
            self.clear()
        elif self._quiet:
            return
        elif sys.stderr is not None and sys.stderr.isatty():
            self._draw(text)
        elif not text.step:
            click.echo(text, err=True)

    def clear(self) -> None:
        """Take the live line away, so that something else can be written in its place."""
        if self._line is not None:
            self._line.close()
            self._line = None

    def _draw(self, text: Doing) -> None:
        from tqdm import tqdm  # noqa: PLC0415 - only where somebody looks on

        tqdm.monitor_interval = 0  # its thread would be there when workers are forked
        if self._line is None or text.stage != self._stage:
            self.clear()
            form = _FORM if text.share is not None else _FORM_UNKNOWN
            self._line = tqdm(
                desc=text.what, total=1.0, leave=False, bar_format=form, smoothing=0, file=sys.stderr
            )
        self._stage = text.stage
        self._line.desc = text.what
        self._line.n = text.share or 0.0
        self._line.refresh()


say = Telling()
"""What every command tells by."""

QUIET = click.option(
    "--quiet",
    is_flag=True,
    expose_value=False,
    callback=lambda _context, _option, value: say.begin(quiet=value),
    help="Say nothing of what is being done; notes and the summary stay.",
)
