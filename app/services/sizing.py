"""Sizes without a workspace: the JSON documents of the ``size`` command."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from app.core import registry
from app.core.angle import Angle
from app.core.errors import WorkshopError
from app.core.inputs import Ask, Input, listed
from app.core.length import Length, Unit
from app.core.part import Dimensions, GlueUp, Part, Strip
from app.core.setup import SetUp
from app.core.shop import Shop
from app.core.size import Size
from app.core.step import Step
from app.core.table import Table

LARGEST_FILE = 2_000_000  # bytes; a list of parts is a few thousand


def forms_document(unit: Unit = Unit.INCH) -> dict[str, Any]:
    """Every form with its inputs, defaults typed in ``unit``, for ``size --list``."""
    return {
        "forms": [
            {
                "form": key,
                "title": module.TITLE,
                "summary": module.SUMMARY,
                "inputs": [_input(item) for item in listed(module.Inputs, unit)],
            }
            for key, module in registry.forms().items()
        ]
    }


def _input(item: Input) -> dict[str, Any]:
    return {
        "key": item.key,
        "label": item.label,
        "kind": item.kind.value,
        "default": item.default or None,
        "required": item.required,
        "choices": list(item.choices),
        "help": item.help,
    }


def size_document(form: str, inputs: dict[str, str], shop: Shop) -> dict[str, Any]:
    """A form worked out, for ``size FORM KEY=VALUE``.

    An input that asks for a file takes its path here, or its text. Raises
    WorkshopError naming the input.
    """
    asked = {item.key: item for item in listed(registry.form(form).Inputs)}
    texts = {key: _opened(asked.get(key), text) for key, text in inputs.items()}
    design = registry.work_out(form, texts, shop)
    return {
        "form": design.form,
        "title": design.title,
        "inputs": design.inputs,
        "sizes": [size_record(size, shop) for size in design.sizes],
        "parts": [_part(part) for part in design.parts],
        "glue_ups": [_glue_up(glue_up) for glue_up in design.glue_ups],
        "set_ups": [_set_up(set_up) for set_up in design.set_ups],
        "steps": [_step(step) for step in design.steps],
        "tables": [_table(table) for table in design.tables],
        "warnings": list(design.warnings),
    }


def _opened(item: Input | None, text: str) -> str:
    """The text of the file that is named, where an input asks for one."""
    if item is None or item.kind is not Ask.FILE or "\n" in text or "," in text:
        return text
    path = Path(text).expanduser()
    try:
        if path.stat().st_size > LARGEST_FILE:
            message = f"{path.name} is too large for a list of parts."
            raise WorkshopError(message, input=item.key)
        return path.read_text(encoding="utf-8-sig")
    except UnicodeDecodeError as fault:
        message = f"{path.name} is not text in UTF-8. Save it as CSV in UTF-8."
        raise WorkshopError(message, input=item.key) from fault
    except (OSError, ValueError) as fault:
        message = f"There is no file “{text[:80]}” that can be read."
        raise WorkshopError(message, input=item.key) from fault


def size_record(size: Size, shop: Shop) -> dict[str, Any]:
    """One size as every document has it."""
    found: dict[str, Any] = {
        "key": size.key,
        "label": size.label,
        "kind": size.kind.value,
    }
    if isinstance(size.value, Length):
        found |= {"nm": size.value.nm, "unit": "nm"}
    elif isinstance(size.value, Angle):
        found |= {"degrees": float(size.value.degrees), "unit": "degrees"}
    else:
        whole = isinstance(size.value, int)
        found |= {"value": size.value if whole else float(size.value)}
        found["unit"] = size.unit
    found["text"] = size.text(shop.display)
    return found | {"working": size.working, "source": size.source}


def _dimensions(size: Dimensions) -> dict[str, int]:
    return {
        "length_nm": size.length.nm,
        "width_nm": size.width.nm,
        "thickness_nm": size.thickness.nm,
    }


def _part(part: Part) -> dict[str, Any]:
    return {
        "key": part.key,
        "name": part.name,
        "quantity": part.quantity,
        "species": part.species,
        "grain": part.grain.value,
        "from": part.glue_up or None,
        "finished": _dimensions(part.finished),
        "blank": _dimensions(part.blank),
        "outline_nm": [[x.nm, y.nm] for x, y in part.outline],
        "volume_nm3": part.volume,
        "spare": part.spare,
        "more": dict(part.more),
    }


def _glue_up(glue_up: GlueUp) -> dict[str, Any]:
    return {
        "key": glue_up.key,
        "name": glue_up.name,
        "quantity": glue_up.quantity,
        "strips": [_strip(strip) for strip in glue_up.strips],
        "panel": _dimensions(glue_up.panel),
    }


def _strip(strip: Strip) -> dict[str, Any]:
    return {
        "species": strip.species,
        "quantity": strip.quantity,
        "blank": _dimensions(strip.blank),
        "finished_width_nm": strip.finished_width.nm,
    }


def _set_up(set_up: SetUp) -> dict[str, Any]:
    return {
        "key": set_up.key,
        "machine": set_up.machine,
        "tilt_degrees": _degrees(set_up.tilt),
        "gauge_degrees": _degrees(set_up.gauge),
        "fence_nm": None if set_up.fence is None else set_up.fence.nm,
        "stop_nm": None if set_up.stop is None else set_up.stop.nm,
        "face_down": set_up.face_down,
        "cuts": set_up.cuts,
        "check": set_up.check,
        "cautions": list(set_up.cautions),
    }


def _degrees(angle: Angle | None) -> float | None:
    return None if angle is None else float(angle.degrees)


def _step(step: Step) -> dict[str, Any]:
    return {
        "key": step.key,
        "name": step.name,
        "detail": step.detail,
        "tool": step.tool,
        "set_up": step.set_up or None,
        "bench_minutes": step.bench_minutes,
        "waits": [{"until": w.until.value, "minutes": w.minutes} for w in step.waits],
        "cautions": list(step.cautions),
        "supplies": [
            {"name": one.name, "quantity": one.quantity} for one in step.supplies
        ],
    }


def _table(table: Table) -> dict[str, Any]:
    return {
        "key": table.key,
        "title": table.title,
        "headings": list(table.headings),
        "rows": [list(row) for row in table.rows],
        "working": table.working,
        "source": table.source,
    }
