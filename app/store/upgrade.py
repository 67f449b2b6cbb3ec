"""Bringing a database up to this version's tables, and refusing any other."""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, Engine, inspect

from app.core.errors import WorkshopError


def to_newest(engine: Engine, place: Path) -> None:
    """Make or upgrade the database in one transaction: wholly, or not at all.

    Raises WorkshopError where a newer version or another program wrote it.
    """
    config = Config()
    config.set_main_option("script_location", "app.store:migrations")
    scripts = ScriptDirectory.from_config(config)
    with engine.connect() as connection:
        if _is_newest(connection, scripts, place):
            return
    with engine.execution_options(writing=True).connect() as connection:
        _upgrade(connection, config, scripts, place)
        # Its foreign keys are off; a fresh connection has them on.
        connection.detach()


def _upgrade(
    connection: Connection, config: Config, scripts: ScriptDirectory, place: Path
) -> None:
    # A table altered in batch mode is dropped and made anew, which its foreign
    # keys would forbid; the setting is ignored inside a transaction.
    driver = connection.connection.cursor()
    driver.execute("PRAGMA foreign_keys = OFF")
    driver.close()
    with connection.begin():
        # Another program may have done it while this one waited for the lock.
        if _is_newest(connection, scripts, place):
            return
        config.attributes["connection"] = connection
        command.upgrade(config, "head")
        broken = connection.exec_driver_sql("PRAGMA foreign_key_check").first()
        if broken:
            raise WorkshopError(
                f"{place} could not be brought up to this version: a row of "
                f"“{broken[0]}” names one that is not there. It is unchanged; restore "
                "a backup, or go on with the version that made it."
            )


def _is_newest(connection: Connection, scripts: ScriptDirectory, place: Path) -> bool:
    current = MigrationContext.configure(connection).get_current_revision()
    if current is None:
        if inspect(connection).get_table_names():
            raise WorkshopError(
                f"{place} was made by another program. It is left as it is; serve "
                "another folder with --data."
            )
        return False
    known = {script.revision for script in scripts.walk_revisions()}
    if current not in known:
        raise WorkshopError(
            f"{place} was written by a newer Stockthread than this one. It is left as "
            "it is; install the newer version to open it."
        )
    return current == scripts.get_current_head()
