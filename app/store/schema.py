"""The tables. Lengths are whole nanometres, volumes text, money minor units.

Rows that a person edits carry ``version``; saving compares it (see
``app.store.edits``). Movements and what hangs on them are never edited.
"""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from sqlalchemy import (
    JSON,
    BigInteger,
    CheckConstraint,
    Date,
    ForeignKey,
    String,
    Text,
    UniqueConstraint,
)
from sqlalchemy.orm import Mapped, mapped_column, relationship

from app.store.base import Base, Moment, WholeNumber


class Settings(Base):
    """The workspace's one row: unit, display, shop, zone, standing texts."""

    __tablename__ = "settings"
    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    unit: Mapped[str] = mapped_column(String(2), default="in")
    denominator: Mapped[int] = mapped_column(default=32)
    decimal: Mapped[bool] = mapped_column(default=False)
    both_systems: Mapped[bool] = mapped_column(default=False)
    currency: Mapped[str] = mapped_column(String(3), default="USD")
    zone: Mapped[str] = mapped_column(String(64), default="UTC")
    # Lengths and angles of core.shop.Shop, nanometres and millidegrees.
    shop: Mapped[dict[str, int]] = mapped_column(JSON, default=dict)
    disclosure: Mapped[str] = mapped_column(Text, default="")


class Series(Base):
    """A set of builds published in order."""

    __tablename__ = "series"
    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    slug: Mapped[str] = mapped_column(String(80), unique=True)
    title: Mapped[str] = mapped_column(String(200))
    summary: Mapped[str] = mapped_column(Text, default="")
    disclosure: Mapped[str] = mapped_column(Text, default="")
    episodes: Mapped[list[Episode]] = relationship(
        back_populates="series", order_by="Episode.number"
    )


class Episode(Base):
    """One build and its video."""

    __tablename__ = "episode"
    __table_args__ = (
        UniqueConstraint("series_id", "number"),
        CheckConstraint("number >= 1", name="number_from_one"),
    )
    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    series_id: Mapped[int] = mapped_column(ForeignKey("series.id"))
    number: Mapped[int]
    slug: Mapped[str] = mapped_column(String(80))
    title: Mapped[str] = mapped_column(String(200))
    opening: Mapped[str] = mapped_column(Text, default="")
    introduces: Mapped[str] = mapped_column(Text, default="")
    due_on: Mapped[date | None] = mapped_column(Date)
    video_url: Mapped[str] = mapped_column(String(500), default="")
    length_ms: Mapped[int | None] = mapped_column(BigInteger)
    series: Mapped[Series] = relationship(back_populates="episodes")


class DesignRow(Base):
    """An episode's form and inputs as typed, and what the shop was like then.

    ``shop`` is what the form took from the settings: worked out anew, same parts.
    """

    __tablename__ = "design"
    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    episode_id: Mapped[int] = mapped_column(ForeignKey("episode.id"), unique=True)
    form: Mapped[str] = mapped_column(String(80))
    inputs: Mapped[dict[str, str]] = mapped_column(JSON)
    shop: Mapped[dict[str, int | str]] = mapped_column(JSON, default=dict)
    parts: Mapped[list[PartRow]] = relationship(
        order_by="PartRow.position", cascade="all, delete-orphan"
    )
    glue_ups: Mapped[list[GlueUpRow]] = relationship(
        order_by="GlueUpRow.position", cascade="all, delete-orphan"
    )
    set_ups: Mapped[list[SetUpRow]] = relationship(
        order_by="SetUpRow.position", cascade="all, delete-orphan"
    )


class PartRow(Base):
    """A part of a design, as worked out when the design was saved."""

    __tablename__ = "part"
    __table_args__ = (UniqueConstraint("design_id", "key"),)
    id: Mapped[int] = mapped_column(primary_key=True)
    design_id: Mapped[int] = mapped_column(ForeignKey("design.id"))
    position: Mapped[int]
    key: Mapped[str] = mapped_column(String(80))
    name: Mapped[str] = mapped_column(String(200))
    quantity: Mapped[int]
    species: Mapped[str] = mapped_column(String(200))
    grain: Mapped[str] = mapped_column(String(8))
    glue_up: Mapped[str] = mapped_column(String(80), default="")
    length_nm: Mapped[int] = mapped_column(BigInteger)
    width_nm: Mapped[int] = mapped_column(BigInteger)
    thickness_nm: Mapped[int] = mapped_column(BigInteger)
    blank_length_nm: Mapped[int] = mapped_column(BigInteger)
    blank_width_nm: Mapped[int] = mapped_column(BigInteger)
    blank_thickness_nm: Mapped[int] = mapped_column(BigInteger)
    volume: Mapped[int] = mapped_column(WholeNumber)
    outline: Mapped[list[list[int]]] = mapped_column(JSON, default=list)


class GlueUpRow(Base):
    """A panel of a design. ``strips``: dicts of species, quantity, *_nm."""

    __tablename__ = "glue_up"
    __table_args__ = (UniqueConstraint("design_id", "key"),)
    id: Mapped[int] = mapped_column(primary_key=True)
    design_id: Mapped[int] = mapped_column(ForeignKey("design.id"))
    position: Mapped[int]
    key: Mapped[str] = mapped_column(String(80))
    name: Mapped[str] = mapped_column(String(200))
    quantity: Mapped[int]
    strips: Mapped[list[dict[str, Any]]] = mapped_column(JSON)
    length_nm: Mapped[int] = mapped_column(BigInteger)
    width_nm: Mapped[int] = mapped_column(BigInteger)
    thickness_nm: Mapped[int] = mapped_column(BigInteger)


class SetUpRow(Base):
    """A machine setting of a design. Angles are millionths of a degree."""

    __tablename__ = "set_up"
    __table_args__ = (UniqueConstraint("design_id", "key"),)
    id: Mapped[int] = mapped_column(primary_key=True)
    design_id: Mapped[int] = mapped_column(ForeignKey("design.id"))
    position: Mapped[int]
    key: Mapped[str] = mapped_column(String(80))
    machine: Mapped[str] = mapped_column(String(80))
    cuts: Mapped[str] = mapped_column(Text)
    tilt_microdegrees: Mapped[int | None] = mapped_column(BigInteger)
    gauge_microdegrees: Mapped[int | None] = mapped_column(BigInteger)
    fence_nm: Mapped[int | None] = mapped_column(BigInteger)
    stop_nm: Mapped[int | None] = mapped_column(BigInteger)
    face_down: Mapped[str] = mapped_column(String(200), default="")
    check: Mapped[str] = mapped_column(Text, default="")
    cautions: Mapped[list[str]] = mapped_column(JSON, default=list)


class StepRow(Base):
    """One operation of an episode's build, and when it was done.

    Steps belong to the episode: a changed design brings its ticked steps along
    by ``key``. ``from_form`` False: the maker added it.
    """

    __tablename__ = "step"
    __table_args__ = (UniqueConstraint("episode_id", "key"),)
    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    episode_id: Mapped[int] = mapped_column(ForeignKey("episode.id"))
    position: Mapped[int]
    key: Mapped[str] = mapped_column(String(80))
    name: Mapped[str] = mapped_column(String(200))
    detail: Mapped[str] = mapped_column(Text, default="")
    tool: Mapped[str] = mapped_column(String(80))
    set_up: Mapped[str] = mapped_column(String(80), default="")
    bench_minutes: Mapped[int] = mapped_column(default=0)
    waits: Mapped[list[dict[str, Any]]] = mapped_column(JSON, default=list)
    cautions: Mapped[list[str]] = mapped_column(JSON, default=list)
    supplies: Mapped[list[dict[str, str]]] = mapped_column(JSON, default=list)
    from_form: Mapped[bool] = mapped_column(default=True)
    done_at: Mapped[datetime | None] = mapped_column(Moment)


class StockRow(Base):
    """What a pile of equal pieces is; how many there are, the movements say.

    Never edited but for ``place``, which is where it stands, not what it is.
    """

    __tablename__ = "stock"
    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    label: Mapped[str] = mapped_column(String(20), unique=True)
    kind: Mapped[str] = mapped_column(String(20))
    species: Mapped[str] = mapped_column(String(200))
    length_nm: Mapped[int] = mapped_column(BigInteger)
    width_nm: Mapped[int] = mapped_column(BigInteger)
    thickness_nm: Mapped[int] = mapped_column(BigInteger)
    strips: Mapped[list[dict[str, Any]]] = mapped_column(JSON, default=list)
    name: Mapped[str] = mapped_column(String(200), default="")
    part_key: Mapped[str] = mapped_column(String(80), default="")
    place: Mapped[str] = mapped_column(String(200), default="")
    # The episode it came out of; None where it was bought or counted in.
    episode_id: Mapped[int | None] = mapped_column(ForeignKey("episode.id"))
    made_by: Mapped[int] = mapped_column(ForeignKey("movement.id"))


class MovementRow(Base):
    """One immutable record of stock changing."""

    __tablename__ = "movement"
    id: Mapped[int] = mapped_column(primary_key=True)
    kind: Mapped[str] = mapped_column(String(20))
    on: Mapped[date] = mapped_column(Date)
    recorded_at: Mapped[datetime] = mapped_column(Moment)
    zone: Mapped[str] = mapped_column(String(64), default="UTC")
    episode_id: Mapped[int | None] = mapped_column(ForeignKey("episode.id"))
    plan_id: Mapped[int | None] = mapped_column(ForeignKey("plan.id"))
    reverses_id: Mapped[int | None] = mapped_column(
        ForeignKey("movement.id"), unique=True
    )
    from_outside: Mapped[int] = mapped_column(WholeNumber, default=0)
    to_outside: Mapped[int] = mapped_column(WholeNumber, default=0)
    kerf: Mapped[int] = mapped_column(WholeNumber, default=0)
    chips: Mapped[int] = mapped_column(WholeNumber, default=0)
    scrap: Mapped[int] = mapped_column(WholeNumber, default=0)
    paid: Mapped[int] = mapped_column(BigInteger, default=0)
    written_off: Mapped[int] = mapped_column(BigInteger, default=0)
    currency: Mapped[str] = mapped_column(String(3), default="USD")
    supplier: Mapped[str] = mapped_column(String(200), default="")
    note: Mapped[str] = mapped_column(Text, default="")
    lines: Mapped[list[MovementLine]] = relationship(order_by="MovementLine.position")


class MovementLine(Base):
    """One line: ``side`` is taken, made or part; quantity and cost in total."""

    __tablename__ = "movement_line"
    __table_args__ = (CheckConstraint("quantity >= 1", name="moves_something"),)
    id: Mapped[int] = mapped_column(primary_key=True)
    movement_id: Mapped[int] = mapped_column(ForeignKey("movement.id"), index=True)
    position: Mapped[int]
    side: Mapped[str] = mapped_column(String(8))
    stock_id: Mapped[int | None] = mapped_column(ForeignKey("stock.id"), index=True)
    part_key: Mapped[str] = mapped_column(String(80), default="")
    part_name: Mapped[str] = mapped_column(String(200), default="")
    quantity: Mapped[int]
    volume: Mapped[int] = mapped_column(WholeNumber)
    cost: Mapped[int] = mapped_column(BigInteger, default=0)


class PlanRow(Base):
    """A cutting plan: the job it answers and the answer, as JSON documents."""

    __tablename__ = "plan"
    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    episode_id: Mapped[int] = mapped_column(ForeignKey("episode.id"), index=True)
    made_at: Mapped[datetime] = mapped_column(Moment)
    job: Mapped[dict[str, Any]] = mapped_column(JSON)
    answer: Mapped[dict[str, Any]] = mapped_column(JSON)
    cut_on: Mapped[date | None] = mapped_column(Date)


class Note(Base):
    """A dated entry of the build log, Markdown."""

    __tablename__ = "note"
    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    episode_id: Mapped[int] = mapped_column(ForeignKey("episode.id"), index=True)
    step_id: Mapped[int | None] = mapped_column(ForeignKey("step.id"))
    noted_at: Mapped[datetime] = mapped_column(Moment)
    zone: Mapped[str] = mapped_column(String(64), default="UTC")
    text: Mapped[str] = mapped_column(Text)
    video_ms: Mapped[int | None] = mapped_column(BigInteger)


class Photo(Base):
    """A picture of the log; its file lies under its content hash.

    ``taken_at`` is the camera's clock as written; without ``taken_offset``
    (minutes) the instant is unknown.
    """

    __tablename__ = "photo"
    __table_args__ = (UniqueConstraint("episode_id", "sha256"),)
    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    episode_id: Mapped[int] = mapped_column(ForeignKey("episode.id"), index=True)
    step_id: Mapped[int | None] = mapped_column(ForeignKey("step.id"))
    position: Mapped[int] = mapped_column(default=0)
    sha256: Mapped[str] = mapped_column(String(64))
    web_sha256: Mapped[str] = mapped_column(String(64))
    thumb_sha256: Mapped[str] = mapped_column(String(64))
    name: Mapped[str] = mapped_column(String(200))
    format: Mapped[str] = mapped_column(String(8))
    width: Mapped[int]
    height: Mapped[int]
    taken_at: Mapped[str] = mapped_column(String(32), default="")
    taken_offset: Mapped[int | None]
    added_at: Mapped[datetime] = mapped_column(Moment)
    caption: Mapped[str] = mapped_column(Text, default="")
    alt: Mapped[str] = mapped_column(Text, default="")
    cover: Mapped[bool] = mapped_column(default=False)


class CaptionsRow(Base):
    """The final cut's caption file, kept in the format it came in."""

    __tablename__ = "captions"
    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    episode_id: Mapped[int] = mapped_column(ForeignKey("episode.id"), unique=True)
    sha256: Mapped[str] = mapped_column(String(64))
    name: Mapped[str] = mapped_column(String(200))
    cues: Mapped[int]
    added_at: Mapped[datetime] = mapped_column(Moment)


class Chapter(Base):
    """A named point in the final cut."""

    __tablename__ = "chapter"
    __table_args__ = (UniqueConstraint("episode_id", "start_ms"),)
    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    episode_id: Mapped[int] = mapped_column(ForeignKey("episode.id"))
    start_ms: Mapped[int] = mapped_column(BigInteger)
    title: Mapped[str] = mapped_column(String(200))


class Promise(Base):
    """Something an episode told its viewers would come, and where it is kept."""

    __tablename__ = "promise"
    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    episode_id: Mapped[int] = mapped_column(ForeignKey("episode.id"), index=True)
    text: Mapped[str] = mapped_column(Text)
    video_ms: Mapped[int | None] = mapped_column(BigInteger)
    due_on: Mapped[date | None] = mapped_column(Date)
    kept_in: Mapped[int | None] = mapped_column(ForeignKey("episode.id"))
    kept_how: Mapped[str] = mapped_column(Text, default="")


class UsedItem(Base):
    """A supply or tool of an episode beyond what its steps name.

    ``kind`` is supply or tool. ``given`` True: a material connection to tell.
    """

    __tablename__ = "used_item"
    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    episode_id: Mapped[int] = mapped_column(ForeignKey("episode.id"), index=True)
    kind: Mapped[str] = mapped_column(String(8))
    name: Mapped[str] = mapped_column(String(200))
    quantity: Mapped[str] = mapped_column(String(80), default="")
    url: Mapped[str] = mapped_column(String(500), default="")
    given: Mapped[bool] = mapped_column(default=False)
    cost: Mapped[int] = mapped_column(BigInteger, default=0)


class EditedBlock(Base):
    """A block of the description in the maker's own words.

    ``facts`` is the digest of the computed text it replaced: when the computed
    text changes, the edit is marked, never overwritten.
    """

    __tablename__ = "edited_block"
    __table_args__ = (UniqueConstraint("episode_id", "key"),)
    id: Mapped[int] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    episode_id: Mapped[int] = mapped_column(ForeignKey("episode.id"))
    key: Mapped[str] = mapped_column(String(40))
    text: Mapped[str] = mapped_column(Text)
    facts: Mapped[str] = mapped_column(String(64))


class Publication(Base):
    """A frozen revision of an episode's publish pack: the sheet as JSON."""

    __tablename__ = "publication"
    __table_args__ = (UniqueConstraint("episode_id", "revision"),)
    id: Mapped[int] = mapped_column(primary_key=True)
    episode_id: Mapped[int] = mapped_column(ForeignKey("episode.id"))
    revision: Mapped[int]
    frozen_at: Mapped[datetime] = mapped_column(Moment)
    zone: Mapped[str] = mapped_column(String(64), default="UTC")
    sheet: Mapped[dict[str, Any]] = mapped_column(JSON)
