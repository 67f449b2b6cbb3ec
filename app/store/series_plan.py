"""The table of plans for whole series, beside those in ``schema``."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from sqlalchemy import JSON, ForeignKey
from sqlalchemy.orm import Mapped, mapped_column

from app.store.base import Base, Moment


class SeriesPlan(Base):
    """The plan of a whole series' wood, as JSON documents.

    ``answer`` is the plan for all parts together, ``apart`` the same job planned
    part by part, to hold it against.
    """

    __tablename__ = "series_plan"
    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    series_id: Mapped[int] = mapped_column(ForeignKey("series.id"), unique=True)
    made_at: Mapped[datetime] = mapped_column(Moment)
    job: Mapped[dict[str, Any]] = mapped_column(JSON)
    answer: Mapped[dict[str, Any]] = mapped_column(JSON)
    apart: Mapped[dict[str, Any]] = mapped_column(JSON)
