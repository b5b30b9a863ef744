"""Takes one file at a time from the inbox to its folder, and says what became of it."""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Callable, Sequence
from contextlib import suppress
from enum import StrEnum
from pathlib import Path

from quoting.commands import RECORD_NAME, QuoteRequest, Say, quote_job
from quoting.core import InputError, RollwrightError, shown_name
from quoting.inbox.arrivals import Arrivals
from quoting.inbox.journal import Journal, Received
from quoting.inbox.note import NOTES, Note, note_of, note_of_refusal
from quoting.inbox.parcel import Parcel, copied
from quoting.inbox.request import WatchRequest
from quoting.intake import known_customer
from quoting.ledger_commands import quoted_lines
from quoting.record import RunRecord, read_record
from quoting.shop import load_shop
from quoting.tables import Limits

RECEIVED, ASIDE, AGAIN = "received", "could-not-read", "came-again"
_PATIENCE = 10
"""Times the usual wait before a file that cannot be read counts as whole: a slow copy may pause."""


class Outcome(StrEnum):
    """What became of a file."""

    QUOTED = "quoted"
    WAITS = "quoted, with lines that wait or cannot be done"
    ASIDE = "put aside, could not be quoted"
    AGAIN = "had been quoted before"
    HELD = "left in the inbox"


class Desk:
    """Quotes what is ready. Nothing that one file does ends it, save Ctrl-C."""

    def __init__(
        self,
        request: WatchRequest,
        arrivals: Arrivals,
        journal: Journal,
        say: Say,
        fault: Callable[[Exception], str],
    ) -> None:
        self.outcomes: Counter[Outcome] = Counter()
        self._request, self._arrivals, self._journal = request, arrivals, journal
        self._say, self._fault = say, fault
        self._told: set[str] = set()

    def words(self) -> str:
        """Return how many files came to what."""
        return ", ".join(f"{count} {what}" for what, count in self.outcomes.items()) or "nothing came"

    def tell_once(self, text: str) -> None:
        """Say something that would otherwise be said at every look."""
        if text not in self._told:
            self._told.add(text)
            self._say(text)

    def take(self, path: Path) -> None:
        """Quote one file, or put it aside with a note, or leave it for the next look.

        With `once` there is no next look: raises RollwrightError for what is not the file's own fault.
        """
        try:
            load_shop(self._request.shop_dir)
            if path.stat().st_size > Limits().file_bytes:
                self._too_large(path)
                return
            with copied(path, self._request.out_dir) as parcel:
                if parcel is not None:
                    self._settle(parcel)
        except RollwrightError as error:  # the shop's book, the disk, the ledger
            if self._request.once:
                raise
            self.tell_once(f"{shown_name(path)} waits in the inbox: {error}")
        except OSError as error:  # held by the program that is still writing it, or gone again
            self.tell_once(f"{shown_name(path)} waits in the inbox: {error.strerror or error}")

    def _settle(self, parcel: Parcel) -> None:
        out, day = self._request.out_dir, self._request.day.isoformat()
        known = self._journal.known(parcel.digest)
        if known is not None:
            kept = parcel.kept_in(parcel.folder(out / AGAIN, day))
            said = f"{kept.name}: the same was quoted on {known.day}, in {known.folder}"
            self._ended(parcel, Outcome.AGAIN, said)
            return
        folder = parcel.folder(out, day)
        try:
            note, code = self._quoted(parcel.copy, folder)
        except RollwrightError as error:
            _remove_empty(folder)
            if not isinstance(error, InputError) or not _is_of(error, parcel.copy):
                raise
            self._unreadable(parcel, error)
            return
        except Exception as error:  # our fault: this file is put aside, the others are quoted
            _remove_empty(folder)
            self._aside(parcel, self._fault(error))
            return
        note.write(folder)
        parcel.kept_in(folder / RECEIVED)
        self._journal.add(Received(parcel.digest, parcel.source.name, folder.name, day))
        said = f"{shown_name(parcel.source)}: {note.lead} See {folder / 'note.html'}"
        self._ended(parcel, Outcome.WAITS if code else Outcome.QUOTED, said)

    def _quoted(self, file: Path, folder: Path) -> tuple[Note, int]:
        """Quote the file into its folder; return the note on it and the exit code of the job.

        Where the shop's folder holds a map of the sheet's customer, columns, language and memory are used.
        """
        shop_dir, day = self._request.shop_dir, self._request.day
        customer = known_customer(file, shop_dir, load_shop(shop_dir), today=day)
        request = QuoteRequest(
            orders=(file,),
            shop_dir=shop_dir,
            out_dir=folder,
            today=day,
            customer=customer,
            force=True,
            ledger=self._request.ledger,
            quiet=True,
        )
        code = quote_job(request, say=lambda _: None)
        record = read_record(folder / RECORD_NAME)
        files = sorted(path.name for path in folder.iterdir() if path.is_file() and path.name[0] != ".")
        steps = self._steps(record, folder, file.name, files)
        return note_of(record, shown_name(file), tuple(files), pinned=customer, next_steps=steps), code

    def _steps(self, record: RunRecord, folder: Path, name: str, files: Sequence[str]) -> tuple[str, ...]:
        """Return what can be done now: send the reply, price with the answers, make jobs of what was won."""
        shop_dir = self._request.shop_dir
        steps = [f"{one}: read it in your mail program and send it" for one in files if one[:6] == "reply-"]
        if asked := [one for one in files if one.startswith("questions-")]:
            again = " ".join(
                (
                    f"rollwright quote {_word(folder / RECEIVED / name)} --shop {_word(shop_dir)}",
                    f"--out {_word(folder.with_name(f'{folder.name}-answered'))}",
                    f"--answers {_word(folder / asked[0])}",
                )
            )
            steps.append(f"when {asked[0]} has its answers filled in: {again}")
        if self._request.ledger:
            known = quoted_lines(shop_dir)
            for number in dict.fromkeys(known[line.id][0] for line in record.lines if line.id in known):
                out = _word(folder.with_name(f"{folder.name}-won"))
                steps.append(f"when it is won: rollwright won {number} --shop {_word(shop_dir)} --out {out}")
        return tuple(steps)

    def _unreadable(self, parcel: Parcel, error: InputError) -> None:
        """Put a file aside that cannot be read, once it has been left alone for long enough."""
        alone = self._arrivals.left_alone(parcel.source, time.monotonic())
        if alone < _PATIENCE * self._request.wait:
            name = shown_name(parcel.source)
            self.tell_once(f"{name} cannot be read yet; it may still be on its way, so it is tried again")
        else:
            self._aside(parcel, str(error))

    def _aside(self, parcel: Parcel, why: str) -> None:
        folder = parcel.folder(self._request.out_dir / ASIDE, self._request.day.isoformat())
        ours = parcel.source.name.casefold() in NOTES  # it must not be written over
        name = shown_name(parcel.kept_in(folder / RECEIVED if ours else folder))
        note_of_refusal(name, why).write(folder)
        self._ended(parcel, Outcome.ASIDE, f"{name} is put aside in {folder}: {why}")

    def _too_large(self, path: Path) -> None:
        """Leave a file alone that is larger than any order sheet: to copy it would only fill the disk."""
        most = f"{Limits().file_bytes / 1e6:.0f} MB"
        self._say(f"{shown_name(path)} stays in the inbox: it has over {most}, no order sheet is so large")
        self.outcomes[Outcome.HELD] += 1
        self._arrivals.done(path)

    def _ended(self, parcel: Parcel, outcome: Outcome, words: str) -> None:
        self.outcomes[outcome] += 1
        left = parcel.leave_inbox()  # before it is told: who reads that it is done may stop the watch
        self._arrivals.done(parcel.source)
        self._say(words)
        if not left:
            self._say(f"{shown_name(parcel.source)} cannot be taken out of the inbox: close it and delete it")


def _word(path: Path) -> str:
    return f'"{path}"' if " " in str(path) else str(path)


def _remove_empty(folder: Path) -> None:
    with suppress(OSError):
        folder.rmdir()


def _is_of(error: InputError, file: Path) -> bool:
    """Return whether an error speaks of this file, and not of the shop's book or the ledger."""
    return error.place is not None and error.place.file in (file.name, shown_name(file))
