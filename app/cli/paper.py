"""The commands that need no workspace and no server."""

# ruff: noqa: PLC0415  commands import what they need
from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from app.cli.answer import Arguments, give, progress, tell
from app.cli.given import read, read_text, shop
from app.core.errors import WorkshopError


def run_size(arguments: Arguments) -> int:
    from app.services import sizing

    if arguments.list:
        document = sizing.forms_document(shop(arguments).unit)
        names = "\n".join(
            f"{form['form']}: {form['title']}" for form in _forms(document)
        )
        return give(arguments, document, names)
    if not arguments.form:
        raise WorkshopError("Name a form; `size --list` names them all.", input="form")
    typed = _typed(arguments.inputs)
    document = sizing.size_document(arguments.form, typed, shop(arguments))
    for warning in document["warnings"]:
        tell(warning)
    lines = [f"{size['label']}: {size['text']}" for size in document["sizes"]]
    lines += [f"{part['quantity']} × {part['name']}" for part in document["parts"]]
    return give(arguments, document, "\n".join(lines))


def _forms(document: dict[str, Any]) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = document["forms"]
    return found


def _typed(pairs: list[str]) -> dict[str, str]:
    """KEY=VALUE pairs as a form takes them."""
    typed: dict[str, str] = {}
    for pair in pairs:
        key, equals, value = pair.partition("=")
        if not equals:
            raise WorkshopError(
                f"“{pair[:40]}” is not KEY=VALUE. Type it like sides=6.",
                input=pair[:40],
            )
        if key in typed:
            raise WorkshopError(f"“{key}” is given twice. Give it once.", input=key)
        typed[key] = value
    return typed


def run_wood(arguments: Arguments) -> int:
    from app.services import wood_facts

    names = ("width", "thickness", "length", "cut", "from_rh", "to_rh", "temperature")
    asked = wood_facts.Asked(*(getattr(arguments, name) for name in names))
    name = " ".join(arguments.species)
    where = shop(arguments)
    document = wood_facts.wood_document(name, asked, where)
    return give(arguments, document, wood_facts.in_words(document, where))


def run_cut(arguments: Arguments) -> int:
    from app.services import cut_jobs

    job = cut_jobs.read(read_text(arguments.job, "job"))
    if arguments.unit and isinstance(job, dict):
        job.setdefault("unit", arguments.unit)
    answer = cut_jobs.cut(job, seconds=arguments.seconds, progress=progress)
    for warning in answer.document["warnings"]:
        tell(warning)
    if arguments.svg:
        _write_drawings(Path(arguments.svg), answer.drawings())
    lines = [*_cut_lines(answer.document), answer.proof]
    return give(arguments, answer.document, "\n".join(lines))


def _write_drawings(folder: Path, drawings: dict[str, str]) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, text in drawings.items():
            (folder / f"{name}.svg").write_text(text, encoding="utf-8")
    except OSError as error:
        why = error.strerror or str(error)
        message = f"“{folder}” cannot be written: {why}."
        raise WorkshopError(message, input="svg") from error


def _cut_lines(document: dict[str, Any]) -> Iterator[str]:
    for layout in document["layouts"]:
        pieces = ", ".join(str(piece["part"]) for piece in layout["pieces"])
        when = "" if layout["period"] is None else f" ({layout['period']})"
        yield f"{layout['copies']} × {layout['stock']}{when}: {pieces}"
    for out in document["unplaced"]:
        yield f"{out['quantity']} × {out['part']} has no place: {out['why']}"
    totals = document["totals"]
    stock, cuts = totals["stock_pieces"], totals["cuts"]
    yield (
        f"{stock} {'piece' if stock == 1 else 'pieces'} of stock, "
        f"{cuts} {'cut' if cuts == 1 else 'cuts'}."
    )


def run_captions(arguments: Arguments) -> int:
    from app.services.captions import captions_document

    name = Path(arguments.file).name
    data = read(arguments.file, "file")
    document = captions_document(data, arguments.cues, name=name)
    for skipped in _remarks(document, "skipped"):
        tell(f"Line {skipped['line']} was skipped: {skipped['why']}")
    lines = [f"{document['cues']} cues."]
    lines += [cue["text"] for cue in _remarks(document, "cue_list")]
    return give(arguments, document, "\n".join(lines))


def _remarks(document: dict[str, Any], name: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = document.get(name, [])
    return found
