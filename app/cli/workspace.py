"""The commands that serve a workspace, or work on one beside a server."""

# ruff: noqa: PLC0415  commands import what they need
from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

from app.cli.answer import DONE, FAILED, Arguments, give, progress
from app.cli.given import data_folder, opened
from app.core.errors import WorkshopError


def run_demo(arguments: Arguments) -> int:
    from app.main import resource
    from app.services.demo import build
    from app.store.workspace import default_folder

    usual = default_folder()
    here = usual.with_name(f"{usual.name}-demo")
    folder = Path(arguments.data) if arguments.data else here
    build(folder, resource("demo_series"), progress)
    return _serve_folder(folder, arguments)


def run_serve(arguments: Arguments) -> int:
    return _serve_folder(data_folder(arguments), arguments)


def _serve_folder(folder: Path, arguments: Arguments) -> int:
    from app import serving

    serving.serve(folder, arguments.port, browser=not arguments.no_browser)
    return DONE


def run_import(arguments: Arguments) -> int:
    from dataclasses import asdict

    from app.services.files import import_series

    slug = arguments.slug or ""
    with opened(arguments, new=True) as workspace:
        made = import_series(workspace, Path(arguments.path), progress, slug)
    words = f"Brought in “{made.title}”: {made.episodes} parts, as {made.slug}."
    return give(arguments, asdict(made), words)


def run_export(arguments: Arguments) -> int:
    from app.services.files import export_series

    to = Path(arguments.to)
    with opened(arguments) as workspace:
        export_series(workspace, arguments.series, to, originals=arguments.originals)
    return give(arguments, {"path": str(to)}, f"Wrote {to}.")


def run_publish(arguments: Arguments) -> int:
    from app.services.publishing import write_pack

    if not arguments.episode.isdecimal() or len(arguments.episode) > 6:
        raise WorkshopError(
            f"“{arguments.episode[:40]}” is not an episode's number. Type it like 2.",
            input="episode",
        )
    number, to = int(arguments.episode), Path(arguments.to)
    with opened(arguments) as workspace:
        sheet = write_pack(
            workspace, arguments.series, number, to, draft=arguments.draft
        )
    document = {
        "series": arguments.series,
        "episode": number,
        "revision": sheet.revision or None,
        "to": str(to),
    }
    return give(arguments, document, f"Wrote the pack of part {number} to {to}.")


def run_backup(arguments: Arguments) -> int:
    from app.services.care import backup

    with opened(arguments) as workspace:
        made = backup(workspace, Path(arguments.to), datetime.now(UTC), progress)
    document = {"path": str(made.path), "files": made.files, "bytes": made.size}
    return give(
        arguments, document, f"Wrote and verified {made.path}: {made.files} files."
    )


def run_restore(arguments: Arguments) -> int:
    from app.services.care import restore

    folder = Path(arguments.data)
    count = restore(Path(arguments.file), folder, progress)
    document = {"data": str(folder), "files": count}
    return give(arguments, document, f"Restored {count} files into {folder}.")


def run_check(arguments: Arguments) -> int:
    from dataclasses import asdict

    from app.services.care import check

    with opened(arguments) as workspace:
        found = check(workspace, deep=arguments.deep)
    sound = not found.findings
    lines = [str(finding) for finding in found.findings]
    lines += [f"{name}: no row names this file." for name in found.unnamed]
    lines.append(
        f"{found.files} files are there, the database is whole, all wood balances."
        if sound
        else f"{len(found.findings)} things are wrong."
    )
    give(arguments, {"sound": sound, **asdict(found)}, "\n".join(lines))
    return DONE if sound else FAILED
