"""The pen: text, lines and marks on A4 pages, in points from the top left corner."""

from collections.abc import Iterable
from io import BytesIO
from typing import Any

import fontpkg_lato

from benchassist.records.ink import (
    INK,
    LINE,
    PAGE_HEIGHT,
    PAGE_WIDTH,
    REGULAR,
    STRONG,
    WHITE,
    Face,
    state_colour,
)
from benchassist.verdicts.finding import State

Point = tuple[float, float]

_UNITS = frozenset({"D", "Δ", "mm", "%", "°C"})
_HELD = frozenset({"×", "□", "±"})


class Pen:
    """Writes one document; positions are points from the top left, text on its baseline."""

    def __init__(self, title: str, author: str, subject: str, language: str = "en-GB") -> None:
        # reportlab takes 80 ms to import: only who prints pays.
        from reportlab.pdfbase import pdfmetrics  # noqa: PLC0415
        from reportlab.pdfbase.ttfonts import TTFont  # noqa: PLC0415
        from reportlab.pdfgen.canvas import Canvas  # noqa: PLC0415

        for name, file in ((REGULAR, "Lato-Regular.ttf"), (STRONG, "Lato-SemiBold.ttf")):
            if name not in pdfmetrics.getRegisteredFontNames():
                path = fontpkg_lato.ROOT / "files" / file
                pdfmetrics.registerFont(TTFont(name, str(path)))
        self._width_of: Any = pdfmetrics.stringWidth
        self._buffer = BytesIO()
        # Without initialFontName an unembedded Helvetica would be listed in the document.
        self._canvas: Any = Canvas(
            self._buffer,
            pagesize=(PAGE_WIDTH, PAGE_HEIGHT),
            invariant=1,
            pageCompression=1,
            initialFontName=REGULAR,
            lang=language,
        )
        self._canvas.setTitle(title)
        self._canvas.setAuthor(author)
        self._canvas.setSubject(subject)
        self._canvas.setCreator("Benchassist")
        self._wrapped: dict[tuple[str, Face, float], tuple[str, ...]] = {}

    def end_page(self) -> None:
        """Finish this page; what follows is drawn on the next one."""
        self._canvas.showPage()

    def finish(self) -> bytes:
        """The document. The pen cannot write any more afterwards."""
        self._canvas.save()
        return self._buffer.getvalue()

    def width(self, text: str, face: Face) -> float:
        """How wide the text is, points."""
        return float(self._width_of(text, face.font, face.size))

    def wrap(self, text: str, face: Face, room: float) -> tuple[str, ...]:
        """The text in lines no wider than the room; a word wider than a line is cut.

        Kept for the next time: a page is laid out more than once until all fits on it.
        """
        asked = (text, face, room)
        if asked not in self._wrapped:
            self._wrapped[asked] = self._wrap(text, face, room)
        return self._wrapped[asked]

    def _wrap(self, text: str, face: Face, room: float) -> tuple[str, ...]:
        lines: list[str] = []
        line = ""
        for word in _unbroken(text):
            longer = f"{line} {word}" if line else word
            if self.width(longer, face) <= room:
                line = longer
                continue
            if line:
                lines.append(line)
            *full, line = self._pieces(word, face, room)
            lines += full
        return (*lines, line) if line else tuple(lines)

    def _pieces(self, word: str, face: Face, room: float) -> list[str]:
        pieces = [""]
        for letter in word:
            if pieces[-1] and self.width(pieces[-1] + letter, face) > room:
                pieces.append("")
            pieces[-1] += letter
        return pieces

    def text(self, x: float, y: float, text: str, face: Face) -> None:
        """Text that starts at x."""
        self._canvas.setFillColor(face.colour)
        self._canvas.setFont(face.font, face.size)
        self._canvas.drawString(x, PAGE_HEIGHT - y, text)

    def text_right(self, x: float, y: float, text: str, face: Face) -> None:
        """Text that ends at x."""
        self.text(x - self.width(text, face), y, text, face)

    def text_middle(self, x: float, y: float, text: str, face: Face) -> None:
        """Text whose middle is at x."""
        self.text(x - self.width(text, face) / 2, y, text, face)

    def rule(self, x: float, y: float, length: float, colour: str = LINE) -> None:
        """A horizontal hairline."""
        self.stroke(((x, y), (x + length, y)), colour, 0.5)

    def stroke(
        self, points: Iterable[Point], colour: str, thickness: float, *, dashed: bool = False
    ) -> None:
        """An open line through the points."""
        self._canvas.setStrokeColor(colour)
        self._canvas.setLineWidth(thickness)
        self._canvas.setLineCap(1)
        self._canvas.setLineJoin(1)
        self._canvas.setDash([1.5, 2] if dashed else [])
        self._canvas.drawPath(self._path(points), stroke=1, fill=0)

    def shape(
        self,
        points: Iterable[Point],
        *,
        fill: str | None = None,
        line: str = INK,
        thickness: float = 0.0,
    ) -> None:
        """A closed shape, filled, outlined or both."""
        path = self._path(points)
        path.close()
        self._canvas.setDash([])
        if fill:
            self._canvas.setFillColor(fill)
        self._canvas.setStrokeColor(line)
        self._canvas.setLineWidth(thickness)
        self._canvas.setLineJoin(1)
        self._canvas.drawPath(path, stroke=int(thickness > 0), fill=int(fill is not None))

    def _path(self, points: Iterable[Point]) -> Any:
        path = self._canvas.beginPath()
        for number, (x, y) in enumerate(points):
            move = path.lineTo if number else path.moveTo
            move(x, PAGE_HEIGHT - y)
        return path

    def block(self, x: float, y: float, width: float, height: float, colour: str) -> None:
        """A filled rectangle with its top left corner at (x, y)."""
        self._canvas.setFillColor(colour)
        self._canvas.rect(x, PAGE_HEIGHT - y - height, width, height, stroke=0, fill=1)

    def mark(self, x: float, y: float, radius: float, state: State) -> None:
        """The mark of a state with its middle at (x, y), told apart by its shape alone.

        As on the screen: within is a disc with a tick, read again a ring whose lower half is
        filled, outside a square with a cross, to do a dashed ring, not applicable a dash.
        """
        colour = state_colour(state)
        inner = radius * 0.88
        match state:
            case State.WITHIN:
                self._arc((x, y), radius, colour)
                self._white(((-0.46, 0.06), (-0.12, 0.38), (0.46, -0.32)), x, y, radius)
            case State.CLOSE:
                self._arc((x, y), inner, colour, thickness=radius * 0.24)
                self._arc((x, y), inner, colour, span=(180, 180))
            case State.OUTSIDE:
                self._square((x, y), radius * 0.94, colour)
                self._white(((-0.4, -0.4), (0.4, 0.4)), x, y, radius)
                self._white(((-0.4, 0.4), (0.4, -0.4)), x, y, radius)
            case State.MISSING:
                for start in range(8, 360, 45):
                    span = (start, 29)
                    self._arc((x, y), radius * 0.9, colour, span=span, thickness=radius * 0.2)
            case State.NONE:
                reach = radius * 0.6
                self.stroke(((x - reach, y), (x + reach, y)), colour, radius * 0.22)

    def _arc(
        self,
        middle: Point,
        radius: float,
        colour: str,
        *,
        span: tuple[int, int] = (0, 360),
        thickness: float = 0.0,
    ) -> None:
        """A part of a circle, filled where its line has no thickness.

        The span says from how many degrees on (0 right, 90 up) and over how many.
        """
        x, y = middle[0], PAGE_HEIGHT - middle[1]
        path = self._canvas.beginPath()
        path.arc(x - radius, y - radius, x + radius, y + radius, *span)
        self._canvas.setFillColor(colour)
        self._canvas.setStrokeColor(colour)
        self._canvas.setLineWidth(thickness)
        self._canvas.setLineCap(0)
        self._canvas.setDash([])
        self._canvas.drawPath(path, stroke=int(thickness > 0), fill=int(not thickness))

    def _square(self, middle: Point, reach: float, colour: str) -> None:
        """A filled square with round corners, as far as `reach` from its middle."""
        x, y = middle[0] - reach, PAGE_HEIGHT - middle[1] - reach
        self._canvas.setFillColor(colour)
        side, corner = 2 * reach, reach / 3
        self._canvas.roundRect(x, y, side, side, corner, stroke=0, fill=1)

    def _white(self, points: tuple[Point, ...], x: float, y: float, radius: float) -> None:
        """A white line on a mark, its points in parts of the radius."""
        scaled = tuple((x + a * radius, y + b * radius) for a, b in points)
        self.stroke(scaled, WHITE, radius * 0.26)


def _unbroken(text: str) -> list[str]:
    """The words of a text, a number and its unit or its times sign taken as one word."""
    words: list[str] = []
    for word in text.split():
        is_unit = word.rstrip(".,;:)") in _UNITS or word in _HELD
        if words and (is_unit or words[-1].rpartition(" ")[2] in _HELD):
            words[-1] += f" {word}"
        else:
            words.append(word)
    return words
