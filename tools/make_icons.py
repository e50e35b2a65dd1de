"""Draws the mark of Baycard (a bay door with a card in it) as SVG and PNG into frontend/public/icons."""

from __future__ import annotations

import sys
from pathlib import Path

from PIL import Image, ImageDraw

ICONS = Path(__file__).parent.parent / "frontend" / "public" / "icons"
INK = "#14222e"
PAPER = "#ffffff"
HUE = "#f0b429"
UNITS = 64
OVERSAMPLING = 8

Box = tuple[float, float, float, float]

# x0, y0, x1, y1, corner radius, colour; in a square of 64 units, drawn in this order.
SHAPES: list[tuple[Box, float, str]] = [
    ((12, 14, 52, 54), 6, PAPER),
    ((18, 20, 46, 54), 2, INK),
    ((22, 28, 42, 50), 3, PAPER),
    ((26, 33, 38, 36), 1.5, INK),
    ((26, 39, 34, 42), 1.5, INK),
    ((26, 45, 30, 48), 1.5, HUE),
]


def svg() -> str:
    """The mark as an SVG document."""
    shapes = [((0.0, 0.0, 64.0, 64.0), 14.0, INK), *SHAPES]
    rects = "".join(
        f'<rect x="{box[0]:g}" y="{box[1]:g}" width="{box[2] - box[0]:g}" height="{box[3] - box[1]:g}" '
        f'rx="{radius:g}" fill="{colour}"/>'
        for box, radius, colour in shapes
    )
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {UNITS} {UNITS}">{rects}</svg>\n'


def png(size: int, *, maskable: bool) -> Image.Image:
    """The mark in `size` pixels; a maskable one fills the square and keeps the drawing inside the safe circle."""
    scale = size * OVERSAMPLING / UNITS
    picture = Image.new("RGBA", (size * OVERSAMPLING, size * OVERSAMPLING), INK if maskable else "#00000000")
    draw = ImageDraw.Draw(picture)
    if not maskable:
        draw.rounded_rectangle((0, 0, *picture.size), radius=14 * scale, fill=INK)
    for box, radius, colour in SHAPES:
        shrink = 0.72 if maskable else 1.0
        placed = [(UNITS / 2 + (corner - UNITS / 2) * shrink) * scale for corner in box]
        draw.rounded_rectangle(placed, radius=radius * shrink * scale, fill=colour)
    return picture.resize((size, size), Image.Resampling.LANCZOS)


def main() -> int:
    """Write every icon the manifest and the page name."""
    ICONS.mkdir(parents=True, exist_ok=True)
    (ICONS / "mark.svg").write_text(svg(), encoding="utf-8")
    for size in (180, 192, 512):
        png(size, maskable=False).save(ICONS / f"mark-{size}.png", optimize=True)
    png(512, maskable=True).save(ICONS / "mark-maskable-512.png", optimize=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
