"""The board cut through its front edge, at a larger scale."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from app.core.drawing import Drawing, Line, Pen, Shape
from app.core.forms._board import Board
from app.core.forms._page import Page
from app.core.length import Length
from app.core.shop import Shop

TOP = 11.0


def section(board: Board, shop: Shop) -> Drawing:
    """The front edge at a larger scale: thickness, groove and grain."""
    groove = board.groove
    shown = board.width.nm
    if groove:
        shown = min(shown, (groove.inset.nm + groove.width.nm) * 2)
    shown = min(shown, board.thickness.nm * 5)
    page = Page(shop, max(shown / 58, board.thickness.nm / 40))
    wide, high = page.mm(shown), page.mm(board.thickness.nm)
    left = 26.0
    floor = TOP + high
    right = left + wide
    measures = [
        page.measure((right, floor), (right, TOP), page.show(board.thickness), -9)
    ]
    texts = ["grain runs up" if board.end else "grain runs away from you"]
    if groove:
        near = left + page.mm(groove.inset.nm)
        far = near + page.mm(groove.width.nm)
        measures.append(
            page.measure((near, TOP), (far, TOP), page.show(groove.width), 5)
        )
        measures.append(
            page.measure((left, floor), (near, floor), page.show(groove.inset), -7)
        )
        texts.append(
            f"groove {page.show(groove.depth)} deep, {page.show(_under(board))} under "
            "it"
        )
    below = floor + (20 if groove else 9)
    return Drawing(
        key="section",
        title="Cut through the edge",
        description=f"The board cut across near its front edge: "
        f"{page.show(board.thickness)} thick; {'; '.join(texts)}.",
        shapes=tuple(_section(page, board, shown, left, floor)),
        lines=(_break(page, right, floor, high),),
        measures=tuple(measures),
        labels=tuple(
            page.label(60, below + 5.5 * i, text, quiet=True)
            for i, text in enumerate(texts)
        ),
        width=page.width,
        height=page.offset(below + 5.5 * len(texts) - 3),
    )


def _under(board: Board) -> Length:
    assert board.groove is not None
    return board.thickness - board.groove.depth * board.groove.faces


def _break(page: Page, x: float, floor: float, high: float) -> Line:
    """Where the drawing stops and the board goes on."""
    return page.line((x, floor + 2), (x, floor - high - 2), Pen.HIDDEN)


def _section(
    page: Page, board: Board, shown: int, left: float, floor: float
) -> Iterable[Shape]:
    """The strips as the cut shows them, the groove out of them."""
    names = board.pattern.column(board.slices // 2)
    for name, (start, end) in zip(names, pairwise(board.across), strict=True):
        if start < shown:
            levels = list(_levels(board, start, min(end, shown)))
            under = [(at, low) for at, low, _ in levels]
            over = [(at, high) for at, _, high in reversed(levels)]
            points = [
                (left + page.mm(at), floor - page.mm(up)) for at, up in (*under, *over)
            ]
            yield page.shape(points, name, name)


def _levels(board: Board, start: int, end: int) -> Iterable[tuple[int, int, int]]:
    """Along the cut, where the wood begins and ends, up from its lower face, nm."""
    high, groove = board.thickness.nm, board.groove
    near = groove.inset.nm if groove else end
    far = near + (groove.width.nm if groove else 0)
    places = sorted({start, end, *(at for at in (near, far) if start < at < end)})
    for before, after in pairwise(places):
        deep = groove.depth.nm if groove and near <= before < far else 0
        low = deep if groove and groove.faces == 2 else 0
        yield before, low, high - deep
        yield after, low, high - deep
