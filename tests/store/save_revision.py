"""Save a small workspace of the newest revision, for later ones to open.

``python -m tests.store.save_revision`` writes ``saved/<revision>.sql``. Run it
once with every new migration and commit the file; never change an older one.
"""

from __future__ import annotations

import sqlite3
import tempfile
from datetime import UTC, date, datetime
from pathlib import Path

from app.core.length import inches
from app.core.movement import Made, Movement, MovementKind, Piece, PieceKind
from app.core.part import Dimensions
from app.store import movements, schema
from app.store.workspace import DATABASE, Workspace, open_workspace

NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)
BOARD = Piece(
    PieceKind.BOARD, "walnut", Dimensions(inches("96"), inches("6"), inches("1"))
)


def fill(workspace: Workspace) -> None:
    """One series, one episode, a note with a dash, two boards."""
    bought = Movement(
        MovementKind.BOUGHT,
        made=(Made(BOARD, 2, 4200, place="wall"),),
        from_outside=2 * BOARD.volume,
        paid=4200,
    )
    with workspace.write() as work:
        series = schema.Series(slug="porch-pieces", title="Porch pieces")
        series.episodes.append(schema.Episode(number=1, slug="tray", title="Tray"))
        work.add(series)
        work.flush()
        episode_id = series.episodes[0].id
        work.add(
            schema.Note(episode_id=episode_id, noted_at=NOON, text="Tight — no gap.")
        )
        movements.record(
            work, bought, on=date(2026, 3, 1), now=NOON, zone="UTC", currency="USD"
        )


def main() -> None:
    """Write the dump beside the others."""
    with tempfile.TemporaryDirectory() as folder:
        workspace = open_workspace(Path(folder))
        fill(workspace)
        workspace.close()
        saved = sqlite3.connect(Path(folder) / DATABASE)
        revision = saved.execute("SELECT version_num FROM alembic_version").fetchone()
        place = Path(__file__).parent / "saved" / f"{revision[0]}.sql"
        place.write_text("\n".join(saved.iterdump()) + "\n", "utf-8")
        saved.close()
    print(place.name)


if __name__ == "__main__":
    main()
