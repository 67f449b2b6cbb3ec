"""An episode's design: its form and inputs, and what they last came to."""

from __future__ import annotations

from sqlalchemy import select
from sqlalchemy.orm import Session

from app.core.angle import Angle
from app.core.design import Design
from app.core.part import Dimensions, GlueUp, Part, Strip
from app.core.setup import SetUp
from app.store.schema import DesignRow, GlueUpRow, PartRow, SetUpRow


def of_episode(work: Session, episode_id: int) -> DesignRow | None:
    """The episode's design, if it has one."""
    query = select(DesignRow).where(DesignRow.episode_id == episode_id)
    return work.scalar(query)


def fill(work: Session, row: DesignRow, design: Design) -> None:
    """Put what the design came to in place of what it came to before."""
    row.parts, row.glue_ups, row.set_ups = [], [], []
    # The old ones must be gone before new ones of the same key come.
    work.flush()
    row.parts = [_part(i, part) for i, part in enumerate(design.parts)]
    row.glue_ups = [_glue_up(i, one) for i, one in enumerate(design.glue_ups)]
    row.set_ups = [_set_up(i, one) for i, one in enumerate(design.set_ups)]


def _part(position: int, part: Part) -> PartRow:
    return PartRow(
        position=position,
        key=part.key,
        name=part.name,
        quantity=part.quantity,
        species=part.species,
        grain=part.grain.value,
        glue_up=part.glue_up,
        length_nm=part.finished.length.nm,
        width_nm=part.finished.width.nm,
        thickness_nm=part.finished.thickness.nm,
        blank_length_nm=part.blank.length.nm,
        blank_width_nm=part.blank.width.nm,
        blank_thickness_nm=part.blank.thickness.nm,
        volume=part.volume,
        outline=[[x.nm, y.nm] for x, y in part.outline],
    )


def _glue_up(position: int, glue_up: GlueUp) -> GlueUpRow:
    return GlueUpRow(
        position=position,
        key=glue_up.key,
        name=glue_up.name,
        quantity=glue_up.quantity,
        strips=[_strip(strip) for strip in glue_up.strips],
        **_nm(glue_up.panel),
    )


def _strip(strip: Strip) -> dict[str, object]:
    return {
        "species": strip.species,
        "quantity": strip.quantity,
        "finished_width_nm": strip.finished_width.nm,
        **_nm(strip.blank),
    }


def _nm(size: Dimensions) -> dict[str, int]:
    return {
        "length_nm": size.length.nm,
        "width_nm": size.width.nm,
        "thickness_nm": size.thickness.nm,
    }


def _set_up(position: int, set_up: SetUp) -> SetUpRow:
    return SetUpRow(
        position=position,
        key=set_up.key,
        machine=set_up.machine,
        cuts=set_up.cuts,
        tilt_microdegrees=_micro(set_up.tilt),
        gauge_microdegrees=_micro(set_up.gauge),
        fence_nm=None if set_up.fence is None else set_up.fence.nm,
        stop_nm=None if set_up.stop is None else set_up.stop.nm,
        face_down=set_up.face_down,
        check=set_up.check,
        cautions=list(set_up.cautions),
    )


def _micro(angle: Angle | None) -> int | None:
    return None if angle is None else round(angle.degrees * 1_000_000)
