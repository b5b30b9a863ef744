"""The spreadsheet program that works books out again, with one profile for all calls of a test run."""

from __future__ import annotations

import atexit
import shutil
import subprocess
import tempfile
from collections.abc import Sequence
from functools import cache
from pathlib import Path

import pytest


def recalculated(books: Sequence[Path], into: Path) -> list[Path]:
    """Return the books as LibreOffice writes them after working out all formulas; many in one start."""
    return saved_as("xlsx:Calc MS Excel 2007 XML", books, into)


def saved_as(kind: str, books: Sequence[Path], into: Path) -> list[Path]:
    """Return the books as LibreOffice writes them in another format: a suffix, and a filter if need be."""
    soffice = shutil.which("soffice")
    if soffice is None:
        pytest.skip("LibreOffice (soffice) is not installed: recalculation cannot be checked here")
    command = [soffice, "--headless", f"-env:UserInstallation={_profile().as_uri()}"]
    command += ["--convert-to", kind, "--outdir", str(into), *map(str, books)]
    subprocess.run(command, check=True, capture_output=True, timeout=300)
    return [into / path.with_suffix(f".{kind.partition(':')[0]}").name for path in books]


@cache
def _profile() -> Path:
    """Return a profile of this process: making one is most of what a start costs."""
    folder = Path(tempfile.mkdtemp(prefix="office-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return folder
