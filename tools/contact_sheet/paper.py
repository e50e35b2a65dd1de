"""Lays pictures out on sheets, a caption under each."""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

WIDTH, GAP, CAPTION, ROWS_HIGH = 1900, 12, 22, 1700
TALLEST = 1200
PAPER, INK = "#d9dcd6", "#0f1719"


@dataclass(frozen=True)
class Picture:
    """A screenshot and what it shows."""

    caption: str
    png: bytes

    def drawn(self) -> Image.Image:
        """The picture, cut where a screen goes on for ever."""
        image = Image.open(BytesIO(self.png)).convert("RGB")
        return image.crop((0, 0, image.width, min(image.height, TALLEST)))


def lay_out(name: str, pictures: list[Picture], folder: Path) -> list[Path]:
    """Write `<name>-1.png` and on; gives the files."""
    sheets: list[Path] = []
    waiting = [(picture.caption, picture.drawn()) for picture in pictures]
    while waiting:
        placed, size = _fit(waiting)
        sheet = Image.new("RGB", size, PAPER)
        pen = ImageDraw.Draw(sheet)
        for (caption, image), (left, top) in zip(waiting, placed, strict=False):
            sheet.paste(image, (left, top))
            pen.text((left, top + image.height + 3), caption, fill=INK, font=ImageFont.load_default(15))
        sheets.append(folder / f"{name.replace(', ', '-').replace(' ', '-')}-{len(sheets) + 1}.png")
        sheet.save(sheets[-1])
        waiting = waiting[len(placed) :]
    return sheets


def _fit(pictures: list[tuple[str, Image.Image]]) -> tuple[list[tuple[int, int]], tuple[int, int]]:
    """Where the first pictures stand on one sheet, row by row, and how large the sheet is."""
    placed: list[tuple[int, int]] = []
    left = top = GAP
    row = widest = 0
    for _, image in pictures:
        if left > GAP and left + image.width + GAP > WIDTH:
            left, top, row = GAP, top + row + CAPTION + GAP, 0
        if placed and top + image.height > ROWS_HIGH:
            break
        placed.append((left, top))
        left += image.width + GAP
        row, widest = max(row, image.height), max(widest, left)
    return placed, (widest, top + row + CAPTION + GAP)
