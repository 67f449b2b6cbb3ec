"""Texts on a drawing, none of which stands on another."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from app.core.drawing import LETTER, Label, Point

# From the middle of a letter down to the line it stands on, for its height.
DROP = 36  # hundredths
Ground = tuple[int, int, int, int]


@dataclass
class Lettering:
    """Texts ``line`` nanometres high, in the order in which they were put."""

    line: int
    labels: list[Label] = field(default_factory=list)
    taken: list[Ground] = field(default_factory=list)

    def put(
        self,
        places: Iterable[Point],
        text: str,
        *,
        italic: bool = False,
        anchor: str = "middle",
    ) -> bool:
        """Write ``text`` about the first clear place; False where none is clear.

        A place is the text's middle, or its left end where it is anchored there.
        """
        for at in places:
            ground = self._ground(at, text, anchor)
            if self._is_clear(ground):
                foot = Point(at.x, at.y + self.line * DROP // 100)
                self.labels.append(Label(foot, text, italic=italic, anchor=anchor))
                self.taken.append(ground)
                return True
        return False

    def clear(self, at: Point, text: str) -> bool:
        """Whether a text about a place would stand on none that is there."""
        return self._is_clear(self._ground(at, text, "middle"))

    def keep_off(self, box: Ground) -> None:
        """Let no text stand on the outline of a box: x, y, length, width."""
        x, y, length, width = box
        right, bottom = x + length, y + width
        self.taken += [(x, y, x, bottom), (right, y, right, bottom)]
        self.taken += [(x, y, right, y), (x, bottom, right, bottom)]

    def wide(self, text: str) -> int:
        """How wide a text stands, nanometres, near enough."""
        return int(len(text) * self.line * LETTER)

    def fits(self, lines: list[str], length: int, width: int) -> bool:
        """Whether lines of text have room in a box, with some air about them."""
        widest = max(self.wide(one + " ") for one in lines)
        return widest <= length and (len(lines) * 6 - 2) * self.line // 4 <= width

    def _ground(self, at: Point, text: str, anchor: str) -> Ground:
        """Where a text stands: left, top, right, bottom."""
        wide, half = self.wide(text + " "), self.line // 2
        left = at.x if anchor == "start" else at.x - wide // 2
        return (left, at.y - half, left + wide, at.y + half)

    def _is_clear(self, ground: Ground) -> bool:
        left, top, right, bottom = ground
        return all(
            right <= one[0] or one[2] <= left or bottom <= one[1] or one[3] <= top
            for one in self.taken
        )
