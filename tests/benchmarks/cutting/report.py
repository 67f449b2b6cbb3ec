"""The report: sections of Markdown that can be made anew one by one."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

PATH = Path(__file__).resolve().parents[1] / "cutting.md"
TITLE = "# The planner of cutting on published and everyday jobs\n"
FOREWORD = """
Made with `python -m tests.benchmarks.cutting`, each section with the options it
names. Seconds are seconds of the processor, so that what else the machine does
counts little: two cores of a small server, shared with other work. Every plan was
sawn over again by the checker of the tests (`tests/core/cutting/checker.py`), and
no bound of the planner was above the best value known. *Best known* is the
published optimum, or else the best value anybody found. A side-by-side table
gives every way the same seconds.
"""


@dataclass(frozen=True)
class Section:
    """One heading with what stands under it."""

    title: str
    text: str

    def __str__(self) -> str:
        return f"## {self.title}\n\n{self.text.strip()}\n"


def table(head: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """A table whose first column is words and whose others are figures."""
    lines = ["| " + " | ".join(head) + " |"]
    lines.append("| --- |" + " ---: |" * (len(head) - 1))
    lines += ["| " + " | ".join(map(str, row)) + " |" for row in rows]
    return "\n".join(lines)


def missed(lines: Sequence[str], nothing: str) -> str:
    """Every instance that misses, or in words that none does."""
    return "\n".join(f"- {line}" for line in lines) if lines else nothing


def share(part: float, digits: int = 1) -> str:
    """A part of 1 in percent."""
    return f"{part:.{digits}%}".replace("%", " %")


def write(made: Sequence[Section], order: Sequence[str]) -> None:
    """Put the sections made into the report, in ``order``; others stay."""
    found = {one.title: str(one) for one in _read()} | {
        one.title: str(one) for one in made
    }
    text = [found[title] for title in order if title in found]
    PATH.write_text("\n".join([TITLE + FOREWORD, *text]), encoding="utf-8")


def _read() -> list[Section]:
    if not PATH.exists():
        return []
    parts = PATH.read_text(encoding="utf-8").split("\n## ")[1:]
    return [Section(*part.split("\n", 1)) for part in parts]
