"""What durability costs: ``python -m tests.benchmarks.journal``.

The same small writes, each a transaction, under three journals in one run and
in turn, so that a slow moment of the machine meets all of them. Read the ratios:
the milliseconds belong to one disk. The program uses the first.
"""

from __future__ import annotations

import sqlite3
import statistics
import sys
import tempfile
import time
from pathlib import Path

JOURNALS = (
    ("rollback, FULL", "DELETE", "FULL"),
    ("write-ahead, NORMAL", "WAL", "NORMAL"),
    ("none, OFF", "OFF", "OFF"),
)
ROUNDS = 10
WRITES = 20


def opened(place: Path, journal: str, synchronous: str) -> sqlite3.Connection:
    """A database with one table of notes."""
    database = sqlite3.connect(place, isolation_level=None)
    database.execute(f"PRAGMA journal_mode = {journal}")
    database.execute(f"PRAGMA synchronous = {synchronous}")
    database.execute("CREATE TABLE note (id INTEGER PRIMARY KEY, text TEXT)")
    return database


def write_some(database: sqlite3.Connection) -> float:
    """Milliseconds for one write, the mean of a few."""
    began = time.perf_counter()
    for _ in range(WRITES):
        database.execute("BEGIN IMMEDIATE")
        database.execute("INSERT INTO note (text) VALUES (?)", ("measured " * 50,))
        database.execute("COMMIT")
    return (time.perf_counter() - began) * 1000 / WRITES


def measured(folder: Path) -> dict[str, float]:
    """The median of the rounds, by journal."""
    databases = {
        name: opened(folder / f"{journal}.sqlite3", journal, synchronous)
        for name, journal, synchronous in JOURNALS
    }
    times: dict[str, list[float]] = {name: [] for name in databases}
    for _ in range(ROUNDS):
        for name, database in databases.items():
            times[name].append(write_some(database))
    for database in databases.values():
        database.close()
    return {name: statistics.median(taken) for name, taken in times.items()}


def main(folder: str | None = None) -> None:
    """Print the table. A folder names the disk to measure."""
    with tempfile.TemporaryDirectory(dir=folder) as place:
        medians = measured(Path(place))
    least = medians[JOURNALS[-1][0]]
    print(f"SQLite {sqlite3.sqlite_version}; {ROUNDS} rounds of {WRITES} writes")
    print(f"{'journal':<22}{'ms a write':>12}{'times none':>12}")
    for name, median in medians.items():
        print(f"{name:<22}{median:>12.3f}{median / least:>12.1f}")


if __name__ == "__main__":
    main(*sys.argv[1:2])
