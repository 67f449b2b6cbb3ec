"""The safety block: from the steps that were done and the things really used."""

from __future__ import annotations

from collections.abc import Iterable

from app.core import safety
from app.publish.sheet import CautionLine
from app.store.schema import StepRow


def done(steps: list[StepRow]) -> list[StepRow]:
    """The ticked steps; before the first tick every step counts."""
    return [step for step in steps if step.done_at is not None] or steps


def of_step(step: StepRow) -> tuple[str, ...]:
    """A step's own cautions; its tool's where it names none."""
    return tuple(step.cautions) or safety.for_tool(step.tool)


def cautions(
    steps: list[StepRow],
    tools: Iterable[str],
    materials: Iterable[str],
    more: Iterable[str] = (),
) -> tuple[CautionLine, ...]:
    """Each caution once, in the order of the build; the standing one last.

    ``tools`` and ``materials`` are those that no step names: a step brings the
    cautions of its own. ``more`` are keys that something else brings.
    """
    keys = [key for step in steps for key in of_step(step)]
    keys += [key for tool in tools for key in safety.for_tool(tool)]
    keys += [key for name in materials for key in safety.for_material(name)]
    keys += more
    own = [key for key in dict.fromkeys(keys) if key != safety.STANDING]
    return tuple(_line(key) for key in (*own, safety.STANDING))


def _line(key: str) -> CautionLine:
    try:
        (found,) = safety.cautions([key])
    except safety.NoSuchCaution:
        # Never left out: an imported step may know a caution that we do not.
        words = f"A step names the caution “{key}”, which is not in the safety table."
        return CautionLine(key, "In general", f"{words} Read the manual on it.")
    about = found.subject[:1].upper() + found.subject[1:]
    return CautionLine(key, about or "In general", found.text, found.source)
