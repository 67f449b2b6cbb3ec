"""What working out a form costs: ``python -m tests.benchmarks.sizes``.

Every build of every form's grid is worked out and written as the document of
``size``, then the slowest of each form is measured again beside a plain baseline
in the same run: sorting a list of numbers. Read the ratios; the milliseconds belong
to one machine. The drawings of the same build are measured apart, since most who
ask for a size never look at them.
"""

from __future__ import annotations

import random
import statistics
import time
from collections.abc import Callable

from app.core import registry
from app.core.shop import Shop
from app.publish.svg import svg
from app.services import sizing
from tests.core.forms.grids import Typed, forms, grid

ROUNDS = 15
SHOP = Shop()
NUMBERS = random.Random(7).sample(range(10**6), 20_000)


def took(work: Callable[..., object], *given: object) -> float:
    """Milliseconds."""
    began = time.perf_counter()
    work(*given)
    return (time.perf_counter() - began) * 1000


def size(form: str, typed: Typed) -> None:
    """One ``size`` call, nothing remembered from the last."""
    registry._work_out.cache_clear()
    sizing.size_document(form, typed, SHOP)


def draw(form: str, typed: Typed) -> None:
    """All its drawings, to text."""
    registry._work_out.cache_clear()
    for drawing in registry.work_out(form, typed, SHOP).drawings:
        svg(drawing)


def slowest(form: str) -> Typed:
    """The build of the grid that takes longest, the better of two tries."""
    return max(
        grid(form), key=lambda typed: min(took(size, form, typed) for _ in range(2))
    )


def medians(form: str, typed: Typed) -> tuple[float, float, float]:
    """Sorting, sizes and drawings, each met by the same slow moments."""
    works: tuple[tuple[Callable[..., object], tuple[object, ...]], ...] = (
        (sorted, (NUMBERS,)),
        (size, (form, typed)),
        (draw, (form, typed)),
    )
    rounds = [[took(work, *given) for work, given in works] for _ in range(ROUNDS)]
    base, sized, drawn = (statistics.median(one[i] for one in rounds) for i in range(3))
    return base, sized, drawn


def main() -> None:
    """Print the table."""
    print(f"the slowest build of each form's grid, median of {ROUNDS} rounds")
    print(f"{'form':<18}{'size ms':>9}{'drawn ms':>10}{'times sorting':>15}")
    for form in forms():
        typed = slowest(form)
        base, sized, drawn = medians(form, typed)
        print(f"{form:<18}{sized:>9.1f}{drawn:>10.1f}{sized / base:>15.1f}")
        print(f"    {typed}")


if __name__ == "__main__":
    main()
