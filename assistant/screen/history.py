"""History: the talk so far, drawn by lines.

Owns scrolling, re-wrapping and selection over blocks of rows. One widget draws every turn: a
mounted widget a turn makes each key in the question line lag once there are thousands of them.
What the rows of a turn are belongs to drawing.py.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence

from textual.content import Content
from textual.geometry import Size
from textual.reactive import reactive
from textual.scroll_view import ScrollView
from textual.selection import Selection
from textual.strip import Strip

Block = Callable[[int], Sequence[Content]]
"""Width in columns -> rows, none wider than the width."""

_CACHED_BLOCKS = 200
# A resize re-wraps every turn that is kept here, 0.14-0.3 ms each.
MOST_BLOCKS = 2_000


class History(ScrollView, can_focus=True):
    """The turns of the talk; stays at the end until the person scrolls up."""

    follow: reactive[bool] = reactive(True)

    DEFAULT_CSS = """
    History {
        overflow-y: scroll;
        overflow-x: hidden;
        scrollbar-size-vertical: 1;
    }
    """

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self.blocks: list[Block] = []
        self._tops: list[int] = []
        self._height = 0
        self._for_width = 0
        self._rows: dict[int, list[Content]] = {}

    def append(self, block: Block) -> None:
        """Add a turn at the end; the view moves only if it was at the end."""
        if len(self.blocks) >= MOST_BLOCKS:
            self._drop_oldest(MOST_BLOCKS // 4)
        self.blocks.append(block)
        if self._for_width:
            self._measure(len(self.blocks) - 1)
            self._stay()

    def _drop_oldest(self, count: int) -> None:
        del self.blocks[:count]
        self._tops.clear()
        self._rows.clear()
        self._height = 0
        if self._for_width:
            self._measure(0)

    def _measure(self, first: int) -> None:
        for index in range(first, len(self.blocks)):
            self._tops.append(self._height)
            self._height += len(self.blocks[index](self._for_width))

    def _stay(self) -> None:
        self.virtual_size = Size(self._for_width, self._height)
        if self.follow:
            self.scroll_end(animate=False)
        self.refresh()

    def watch_scroll_y(self, old_value: float, new_value: float) -> None:
        super().watch_scroll_y(old_value, new_value)
        # The end is tested first: a wider window lowers the offset too.
        if new_value >= self.max_scroll_y:
            self.follow = True
        elif new_value < old_value:
            self.follow = False

    def on_resize(self) -> None:
        width = self.scrollable_content_region.width
        if width == self._for_width:
            if self.follow:
                self.scroll_end(animate=False)
            return
        top = bisect_right(self._tops, self.scroll_offset.y) - 1
        self._for_width = width
        self._height = 0
        self._tops.clear()
        self._rows.clear()
        self._measure(0)
        follow = self.follow
        self._stay()
        if not follow and self._tops:
            self.scroll_to(y=self._tops[max(top, 0)], animate=False)

    def line_at(self, y: int) -> Content | None:
        """The row at `y` of the whole history; None beyond it."""
        if not 0 <= y < self._height:
            return None
        index = bisect_right(self._tops, y) - 1
        rows = self._rows.get(index)
        if rows is None:
            if len(self._rows) > _CACHED_BLOCKS:
                self._rows.clear()
            rows = self._rows[index] = list(self.blocks[index](self._for_width))
        return rows[y - self._tops[index]]

    def render_line(self, y: int) -> Strip:
        y += self.scroll_offset.y
        line, base, width = self.line_at(y), self.rich_style, self.size.width
        if line is None:
            return Strip.blank(width, base)
        selection = self.text_selection
        if selection is not None and (span := selection.get_span(y)) is not None:
            start, end = span
            style = self.screen.get_visual_style("screen--selection")
            line = line.stylize(style, start, len(line) if end == -1 else end)
        strip = Strip(line.render_segments(self.visual_style), line.cell_length)
        # The offsets are what makes selecting with the mouse work.
        return strip.adjust_cell_length(width, base).apply_offsets(0, y)

    def get_selection(self, selection: Selection) -> tuple[str, str] | None:
        first = selection.start.y if selection.start else 0
        last = min(selection.end.y if selection.end else self._height, self._height - 1)
        if first > last:
            return None
        rows = [self.line_at(y) for y in range(first, last + 1)]
        text = "\n".join([""] * first + [row.plain if row is not None else "" for row in rows])
        return selection.extract(text), "\n"

    def selection_updated(self, selection: Selection | None) -> None:
        self.refresh()
