"""A PostgreSQL server of the tests' own: in a new folder, on a socket there, no port, gone afterwards."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

NEEDED = "ROLLWRIGHT_NEEDS_POSTGRESQL"
"""Set by .ci/run where the server was installed: a missing one is then a failure."""


def programs() -> Path | None:
    """Where initdb and pg_ctl are, None when this machine has no server."""
    found = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"))
    if found:
        return found[-1].parent
    on_path = shutil.which("initdb")
    return Path(on_path).parent if on_path else None


@contextmanager
def server() -> Iterator[str]:
    """Yield the socket's folder of a running server; root hands it to the user `postgres`."""
    where = programs()
    assert where is not None
    folder = tempfile.mkdtemp(prefix="pg-", dir="/tmp")  # short: a socket's path has some 107 signs
    if os.geteuid() == 0:
        shutil.chown(folder, "postgres", "postgres")
    options = f"-k {folder} -c listen_addresses='' -c fsync=off -c synchronous_commit=off"
    try:
        _run(folder, f"{where}/initdb -D {folder}/data -A trust -U rw --no-sync -E UTF8 --locale=C")
        _run(folder, f'{where}/pg_ctl -D {folder}/data -w -l {folder}/log -o "{options}" start')
        yield folder
    finally:
        _run(folder, f"{where}/pg_ctl -D {folder}/data -m immediate -w stop", check=False)
        shutil.rmtree(folder, ignore_errors=True)


def _run(folder: str, command: str, *, check: bool = True) -> None:
    shell = ["su", "postgres", "-s", "/bin/sh", "-c"] if os.geteuid() == 0 else ["sh", "-c"]
    done = subprocess.run([*shell, f"cd {folder} && {command}"], capture_output=True, text=True, check=False)
    assert done.returncode == 0 or not check, done.stdout + done.stderr
