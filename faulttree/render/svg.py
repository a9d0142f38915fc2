"""Drawings as SVG: shapes and words in black, grey and white, so that a printer loses nothing.

Words are data: they are escaped by the XML writer, and characters that XML or a terminal could
trip over are shown as question marks. Nothing is referred to outside the drawing.
"""

import re
import textwrap
import xml.etree.ElementTree as ET
from collections.abc import Sequence

from faulttree.render.plain_text import safe_line

WIDTH = 700
"""Width of a drawing, in its own units."""
SIZE = 14
"""Size of usual words."""
_LETTER = 0.6
"""Width of a letter over the size of the words: a little more than sans-serif fonts need."""
_LEADING = 1.35
_NOT_IN_XML = re.compile("[\ufdd0-\ufdef\ufffe\uffff]")
"""Source: XML 1.0 (fifth edition), 2.2: U+FFFE and U+FFFF are no characters; others discouraged."""

Point = tuple[float, float]


def data(text: str) -> str:
    """The text on one line, of letters that XML has."""
    return _NOT_IN_XML.sub("?", safe_line(text))


def length(text: str, size: float = SIZE) -> float:
    """About how wide a text is drawn; rather too wide than too narrow."""
    return len(text) * size * _LETTER


class Drawing:
    """Shapes one over the other, `WIDTH` wide and as high as it turns out."""

    def __init__(self) -> None:
        self._shapes: list[ET.Element] = []

    def line(self, start: Point, end: Point, thick: float = 1, **style: str) -> None:
        """A straight line."""
        (x1, y1), (x2, y2) = start, end
        self._add("line", style, x1=x1, y1=y1, x2=x2, y2=y2, stroke_width=thick, stroke="black")

    def path(
        self, points: Sequence[Point], thick: float = 1, closed: bool = False, **style: str
    ) -> None:
        """A line through points, closed where it shall be."""
        where = " ".join(f"{_number(x)},{_number(y)}" for x, y in points)
        tag = "polygon" if closed else "polyline"
        self._add(
            tag,
            style,
            points=where,
            fill="none",
            stroke_width=thick,
            stroke="black",
            stroke_linejoin="round",
        )

    def box(self, corner: Point, width: float, height: float, **style: str) -> None:
        """A rectangle from its upper left corner."""
        x, y = corner
        self._add("rect", style, x=x, y=y, width=width, height=height, fill="white", stroke="black")

    def circle(self, middle: Point, radius: float, **style: str) -> None:
        """A circle."""
        self._add("circle", style, cx=middle[0], cy=middle[1], r=radius, stroke="black")

    def words(self, at: Point, text: str, size: float = SIZE, **style: str) -> None:
        """A text on one line; `at` is where its baseline begins."""
        shown = data(text)
        if shown:
            self._add("text", style, shown, x=at[0], y=at[1], font_size=size)

    def wrapped(self, at: Point, text: str, size: float = SIZE, **style: str) -> float:
        """A text on as many lines as it needs; returns where the baseline after it lies."""
        x, y = at
        columns = max(1, int((WIDTH - 2 * x) / (size * _LETTER)))
        for line in textwrap.wrap(data(text), columns):
            self.words((x, y), line, size, **style)
            y += size * _LEADING
        return y

    def as_svg(self, title: str, description: str, height: float) -> str:
        """The whole document. Title and description are what a screen reader says."""
        size = f"0 0 {WIDTH} {_number(height)}"
        root = ET.Element(
            "svg",
            {"xmlns": "http://www.w3.org/2000/svg", "viewBox": size, "width": str(WIDTH)}
            | {"height": _number(height), "role": "img", "font-family": "sans-serif"},
        )
        ET.SubElement(root, "title").text = data(title)
        ET.SubElement(root, "desc").text = data(description)
        ET.SubElement(root, "rect", {"width": "100%", "height": "100%", "fill": "white"})
        root.extend(self._shapes)
        ET.indent(root)
        return ET.tostring(root, encoding="unicode") + "\n"

    def _add(self, tag: str, style: dict[str, str], text: str = "", **usual: float | str) -> None:
        given = {**usual, **style}
        shape = ET.Element(
            tag, {k.rstrip("_").replace("_", "-"): _number(v) for k, v in given.items()}
        )
        shape.text = text or None
        self._shapes.append(shape)


def _number(value: float | str) -> str:
    """A number with two decimals at most, so that drawings are alike on every machine."""
    if isinstance(value, str):
        return value
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
