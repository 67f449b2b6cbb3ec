"""The publish pack: every exporter's file and the photos, as one folder."""

from __future__ import annotations

import json
import os
import shutil
import tempfile
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path
from types import ModuleType

from app.core.discover import modules
from app.core.errors import NotFound, WorkshopError
from app.publish import exporters as package
from app.publish.sheet import Sheet
from app.publish.zips import zipped

FORMAT = "stockthread pack"
VERSION = 1
# Names every file with its hash, so that a pack made anew replaces nothing else.
CONTENTS = "private/pack.json"


def exporters() -> dict[str, ModuleType]:
    """Every exporter by the file it writes, public ones first."""
    found = {module.FILE: module for module in modules(package).values()}
    return dict(
        sorted(found.items(), key=lambda item: (item[0].startswith("private"), item[0]))
    )


def render(sheet: Sheet, name: str) -> bytes:
    """One file of the pack; NotFound where no exporter writes it."""
    if (exporter := exporters().get(name)) is None:
        raise NotFound(f"A publish pack has no file “{name}”.")
    made: bytes = exporter.render(sheet)
    return made


def files(sheet: Sheet, photos: Mapping[str, bytes]) -> dict[str, bytes]:
    """The whole pack, file by file. ``photos`` holds cleaned copies by file name."""
    made = {name: render(sheet, name) for name in exporters()}
    made |= {line.file: photos[line.file] for line in sheet.photos}
    made[CONTENTS] = _contents(sheet, made)
    return made


def zip_bytes(sheet: Sheet, photos: Mapping[str, bytes]) -> bytes:
    """The whole pack as one archive; equal packs are equal bytes."""
    return zipped(sorted(files(sheet, photos).items()))


def folder_name(sheet: Sheet) -> str:
    """``02-planter``, as in a series folder."""
    return f"{sheet.number:02d}-{sheet.slug}"


def write(made: Mapping[str, bytes], to: Path) -> None:
    """Put a pack into a folder: whole, or not at all.

    The folder must be new, empty, or hold an earlier pack as it was written.
    Raises WorkshopError otherwise; nothing in it is touched then.
    """
    to = to.resolve()
    _refuse_others(to)
    try:
        to.parent.mkdir(parents=True, exist_ok=True)
        fresh = Path(tempfile.mkdtemp(prefix=f".{to.name}-new-", dir=to.parent))
    except OSError as error:
        raise _cannot(to, error) from error
    try:
        _fill(fresh, made)
        _swap(fresh, to)
    except OSError as error:
        raise _cannot(to, error) from error
    finally:
        shutil.rmtree(fresh, ignore_errors=True)


def _contents(sheet: Sheet, made: Mapping[str, bytes]) -> bytes:
    rows = [
        f"{json.dumps(name, ensure_ascii=False)}: {json.dumps(_hash(made[name]))}"
        for name in sorted(made)
    ]
    facts = {"format": FORMAT, "version": VERSION, "revision": sheet.revision}
    facts |= {"series": sheet.series_slug, "number": sheet.number}
    head = json.dumps(facts, sort_keys=True)[:-1]
    body = ",\n".join(rows)
    return f'{head}, "files": {{\n{body}\n}}}}\n'.encode()


def _hash(content: bytes) -> str:
    return sha256(content).hexdigest()


def _refuse_others(to: Path) -> None:
    if not to.exists():
        return
    if not to.is_dir():
        raise _other(to, "It is a file")
    present = {
        path.relative_to(to).as_posix() for path in to.rglob("*") if not path.is_dir()
    }
    ours = _earlier(to)
    for name in sorted(present - {CONTENTS}):
        if name not in ours:
            raise _other(to, f"It holds “{name}”, which is no file of a publish pack")
        if _hash((to / name).read_bytes()) != ours[name]:
            raise _other(to, f"“{name}” in it was changed after it was written")


def _earlier(to: Path) -> dict[str, str]:
    """What an earlier pack says it wrote; nothing where there is none."""
    try:
        document = json.loads((to / CONTENTS).read_bytes())
        if document["format"] != FORMAT:
            return {}
        return dict(document["files"])
    except (OSError, ValueError, TypeError, KeyError):
        return {}


def _other(to: Path, why: str) -> WorkshopError:
    return WorkshopError(
        f"The pack cannot be written to {to.name}. {why}. Choose a new or an empty "
        "folder.",
        input="to",
    )


def _cannot(to: Path, error: OSError) -> WorkshopError:
    return WorkshopError(
        f"The pack could not be written to {to.name} ({error.strerror or error}). "
        "Nothing there was changed.",
        input="to",
    )


def _fill(fresh: Path, made: Mapping[str, bytes]) -> None:
    fresh.chmod(0o755)
    (fresh / "photos").mkdir()  # promised, even where there are none yet
    for name, content in made.items():
        target = fresh / name
        target.parent.mkdir(parents=True, exist_ok=True)
        with target.open("wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())


def _swap(fresh: Path, to: Path) -> None:
    """Put the new folder in the old one's place; on a failure put it back."""
    if not to.exists():
        fresh.replace(to)
        return
    old = Path(tempfile.mkdtemp(prefix=f".{to.name}-old-", dir=to.parent))
    to.replace(old / "pack")
    try:
        fresh.replace(to)
    except OSError:
        (old / "pack").replace(to)
        raise
    finally:
        shutil.rmtree(old, ignore_errors=True)
