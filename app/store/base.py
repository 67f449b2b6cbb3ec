"""What every table shares: names for constraints, types that hold exactly."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

from sqlalchemy import DateTime, Dialect, MetaData, String
from sqlalchemy.orm import DeclarativeBase
from sqlalchemy.types import TypeDecorator

NAMES = {
    "ix": "ix_%(column_0_label)s",
    "uq": "uq_%(table_name)s_%(column_0_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}


class Base(DeclarativeBase):
    """The parent of every table."""

    metadata = MetaData(naming_convention=NAMES)


class WholeNumber(TypeDecorator[int]):
    """An integer of any size, kept as text: volumes outgrow 64 bits."""

    impl = String(80)
    cache_ok = True

    def process_bind_param(self, value: int | None, dialect: Dialect) -> str | None:
        """To text."""
        return None if value is None else str(value)

    def process_result_value(self, value: Any, dialect: Dialect) -> int | None:
        """From text."""
        return None if value is None else int(value)


class Moment(TypeDecorator[datetime]):
    """A moment in UTC; SQLite keeps no zone, so it is put back on reading."""

    impl = DateTime()
    cache_ok = True

    def process_bind_param(
        self, value: datetime | None, dialect: Dialect
    ) -> datetime | None:
        """To UTC without a zone. A moment without a zone is refused."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("a moment needs its zone")
        return value.astimezone(UTC).replace(tzinfo=None)

    def process_result_value(
        self, value: datetime | None, dialect: Dialect
    ) -> datetime | None:
        """Back in UTC."""
        return None if value is None else value.replace(tzinfo=UTC)
