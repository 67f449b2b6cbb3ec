"""Money: whole minor units with a currency."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Self

from app.core.errors import WorkshopError


@dataclass(frozen=True, slots=True)
class Money:
    """An amount in whole minor units (cents, pence) of one currency."""

    minor: int
    currency: str = "USD"

    @classmethod
    def read(cls, typed: str, currency: str = "USD", *, input: str = "") -> Self:
        """Read ``12``, ``12.5`` or ``12.50``; nothing typed costs nothing."""
        text = typed.strip()
        if not re.fullmatch(r"\d{0,9}(\.\d{1,2})?", text):
            raise WorkshopError(
                f"“{typed[:40]}” is not a price. Type it like 12 or 12.50.",
                input=input,
            )
        whole, _, rest = text.partition(".")
        return cls(int(whole or 0) * 100 + int(rest.ljust(2, "0") or 0), currency)

    @property
    def figure(self) -> str:
        """The amount as it would be typed."""
        return f"{self.minor // 100}.{self.minor % 100:02d}"

    def __str__(self) -> str:
        return f"{self.figure} {self.currency}"
