"""kill -9 on commands that write into the ledger, on both engines: states that are neither before nor after.

    python -m tests.benchmarks.ledger_kills --json [--kills 200] [--seed 1]

The suite does the same a few times; here it is done often. PostgreSQL is started for it on a socket of its
own, where its programs are installed.
"""

from __future__ import annotations

import argparse
import json
import tempfile
import time
from pathlib import Path
from typing import Any

import psycopg

from quoting.ledger.store import Store
from tests.quoting.ledger.kills import killed_again_and_again
from tests.quoting.ledger.servers import programs, server


def main() -> None:
    """Kill on each engine and print what came of it."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--kills", type=int, default=200, help="on each engine")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--json", action="store_true", help="always so; for the likeness of the commands")
    given = parser.parse_args()
    found: dict[str, Any] = {}
    with tempfile.TemporaryDirectory() as folder:
        found["sqlite"] = _told(Store(Path(folder) / "ledger.db"), given.kills, given.seed)
    if programs() is None:
        found["postgresql"] = "no server on this machine"
    else:
        with server() as socket:
            with psycopg.connect(f"host={socket} user=rw dbname=postgres", autocommit=True) as connection:
                connection.execute(b"CREATE DATABASE shop")
            store = Store(None, f"postgresql+psycopg://rw@/shop?host={socket}")
            found["postgresql"] = _told(store, given.kills, given.seed)
    print(json.dumps(found, indent=1))


def _told(store: Store, kills: int, seed: int) -> dict[str, Any]:
    begun = time.process_time()
    done = killed_again_and_again(store, kills, seed)
    return {
        "kills": done.killed,
        "found committed": done.after,
        "found as before": done.killed - done.after - len(done.between),
        "neither": list(done.between),
        "file whole": done.sound,
        "seconds of this process": round(time.process_time() - begun, 1),
    }


if __name__ == "__main__":
    main()
