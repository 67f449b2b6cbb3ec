"""Tables as CSV: RFC 4180, safe to open in a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence
from decimal import Decimal
from fractions import Fraction

Cell = str | int | Decimal
# A spreadsheet runs a text that starts so as a formula: OWASP ASVS 5.0, 1.2.10.
RUN_AS_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\0")


def csv_bytes(header: Sequence[str], rows: Iterable[Sequence[Cell]]) -> bytes:
    """UTF-8, CRLF, texts quoted, numbers bare; as many fields in every record."""
    held = io.StringIO(newline="")
    write = csv.writer(held, quoting=csv.QUOTE_NONNUMERIC, lineterminator="\r\n")
    write.writerow(header)
    for row in rows:
        if len(row) != len(header):
            raise ValueError(f"{len(row)} fields under {len(header)} headings")
        write.writerow([_safe(cell) for cell in row])
    return held.getvalue().encode()


def _safe(cell: Cell) -> Cell:
    if not isinstance(cell, str):
        return cell
    text = f"'{cell}" if cell.startswith(RUN_AS_FORMULA) else cell
    return text.replace("\0", "")


def decimal(nm: int, per: int, places: int) -> Decimal:
    """A length or volume as a plain decimal number of a unit, rounded once."""
    scaled = round(Fraction(nm * 10**places, per))
    return Decimal(scaled).scaleb(-places)
