"""What a command is given: a data folder, a shop, files."""

# ruff: noqa: PLC0415  commands import what they need
from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from app.cli.answer import Arguments
from app.core.errors import WorkshopError

if TYPE_CHECKING:
    from app.core.shop import Shop
    from app.store.workspace import Workspace


def data_folder(arguments: Arguments) -> Path:
    from app.store.workspace import default_folder

    return Path(arguments.data) if arguments.data else default_folder()


@contextmanager
def opened(arguments: Arguments, *, new: bool = False) -> Iterator[Workspace]:
    """The workspace of ``--data``; only ``new`` may make one."""
    from app.store.workspace import DATABASE, open_workspace

    folder = data_folder(arguments)
    if not new and not (folder / DATABASE).is_file():
        raise WorkshopError(
            f"There is no workspace in “{folder}”. Name its folder with --data.",
            input="data",
        )
    workspace = open_workspace(folder)
    try:
        yield workspace
    finally:
        workspace.close()


def shop(arguments: Arguments) -> Shop:
    """The workspace's shop where ``--data`` names one, else the usual one."""
    from dataclasses import replace

    from app.core.length import Unit
    from app.core.shop import Shop
    from app.services import settings

    shop = Shop()
    if arguments.data:
        with opened(arguments) as workspace:
            shop = settings.load(workspace).shop
    if arguments.unit:
        unit = Unit(arguments.unit)
        shop = replace(shop, unit=unit, display=replace(shop.display, unit=unit))
    return shop


def read(path: str, name: str) -> bytes:
    try:
        return sys.stdin.buffer.read() if path == "-" else Path(path).read_bytes()
    except OSError as error:
        why = error.strerror or str(error)
        raise WorkshopError(f"“{path}” cannot be read: {why}.", input=name) from error


def read_text(path: str, name: str) -> str:
    try:
        return read(path, name).decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise WorkshopError(f"“{path}” is not UTF-8 text.", input=name) from error
