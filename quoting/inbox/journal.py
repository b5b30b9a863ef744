"""What has been quoted, by content: one line a file, only ever added to, so that a kill loses none."""

from __future__ import annotations

import json
import os
from dataclasses import asdict, dataclass
from pathlib import Path

NAME = "received.jsonl"


@dataclass(frozen=True, slots=True)
class Received:
    """One file that was quoted: the digest of its content, its name, its folder and the day."""

    digest: str
    name: str
    folder: str
    day: str


class Journal:
    """The journal of one output folder, read once and then added to."""

    def __init__(self, directory: Path) -> None:
        self._path = directory / NAME
        self._known = {one.digest: one for one in self._read()}

    def known(self, digest: str) -> Received | None:
        """Return what was quoted with this content; None when nothing was."""
        return self._known.get(digest)

    def add(self, one: Received) -> None:
        """Write down that a file was quoted, and see that it reaches the disk."""
        with self._path.open("a+b") as stream:
            stream.seek(0, os.SEEK_END)
            if stream.tell():
                stream.seek(-1, os.SEEK_END)
                torn = stream.read(1) != b"\n"  # a kill in the middle of a line spoils that line alone
                stream.write(b"\n" if torn else b"")
            stream.write(json.dumps(asdict(one)).encode("ascii") + b"\n")
            stream.flush()
            os.fsync(stream.fileno())
        self._known[one.digest] = one

    def _read(self) -> list[Received]:
        try:
            lines = self._path.read_bytes().splitlines()
        except FileNotFoundError:
            return []
        found = []
        for line in lines:
            try:
                plain = json.loads(line)
                found.append(Received(*(str(plain[key]) for key in ("digest", "name", "folder", "day"))))
            except (ValueError, KeyError, TypeError):
                continue
        return found
