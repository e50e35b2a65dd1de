"""Real picture files as phones make them: turned, with a place inside, progressive, huge, cut short, misnamed."""

import math
import wave
from array import array
from functools import cache
from io import BytesIO

import piexif
from PIL import Image, ImageDraw, ImageFilter

SIZE_12_MP = (4032, 3024)
RED, GREEN, BLUE, YELLOW = (200, 40, 40), (40, 160, 70), (40, 70, 200), (230, 210, 60)
# Corners of the upright picture: top left, top right, bottom left, bottom right.
CORNERS = {"top left": RED, "top right": GREEN, "bottom left": BLUE, "bottom right": YELLOW}

# How a camera held that way stores an upright scene: the turn that the EXIF orientation tells the viewer to undo.
AS_STORED: dict[int, Image.Transpose | None] = {
    1: None,
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}


@cache
def scene(width: int, height: int) -> Image.Image:
    """An upright picture that looks different from every side: a colour in each corner, grey texture between."""
    image = Image.effect_noise((width // 8, height // 8), 60).resize((width, height)).convert("RGB")
    draw = ImageDraw.Draw(image)
    block = (width // 4, height // 4)
    for (left, top), colour in zip(_corners(width, height, *block), CORNERS.values(), strict=True):
        draw.rectangle((left, top, left + block[0], top + block[1]), fill=colour)
    return image


def _corners(width: int, height: int, block_width: int, block_height: int) -> list[tuple[int, int]]:
    right, low = width - block_width, height - block_height
    return [(0, 0), (right, 0), (0, low), (right, low)]


def jpeg(image: Image.Image, **options: object) -> bytes:
    """The picture as a JPEG, by default without any metadata."""
    out = BytesIO()
    image.save(out, "JPEG", **{"quality": 85, **options})
    return out.getvalue()


def place_and_orientation(orientation: int) -> bytes:
    """EXIF as a phone writes it: maker, orientation, and where the photo was taken."""
    exif: bytes = piexif.dump(
        {
            "0th": {piexif.ImageIFD.Make: b"Gullwing", piexif.ImageIFD.Orientation: orientation},
            "Exif": {piexif.ExifIFD.DateTimeOriginal: b"2026:11:20 09:14:03"},
            "GPS": {
                piexif.GPSIFD.GPSLatitudeRef: b"N",
                piexif.GPSIFD.GPSLatitude: ((54, 1), (17, 1), (3012, 100)),
                piexif.GPSIFD.GPSLongitudeRef: b"W",
                piexif.GPSIFD.GPSLongitude: ((4, 1), (2, 1), (1188, 100)),
            },
        }
    )
    return exif


@cache
def phone_jpeg(orientation: int = 1, size: tuple[int, int] = SIZE_12_MP, *, progressive: bool = False) -> bytes:
    """What a phone's camera hands over: 12 MP, EXIF orientation, GPS. Looked at upright it is always `scene`."""
    turn = AS_STORED[orientation]
    upright = scene(*size)
    stored = upright if turn is None else upright.transpose(turn)
    return jpeg(stored, exif=place_and_orientation(orientation), progressive=progressive)


@cache
def forty_megapixels() -> bytes:
    """A photo as the largest phone cameras make them."""
    return jpeg(scene(7296, 5472), exif=place_and_orientation(1))


@cache
def parts_jpeg(blur_px: float = 0) -> bytes:
    """Roundish parts before a grey wall at 12 MP, out of focus by so many pixels of the 4032 (standard deviation)."""
    width, height = SIZE_12_MP
    image = Image.new("RGB", SIZE_12_MP, (110, 110, 110))
    draw = ImageDraw.Draw(image)
    for number in range(80):
        across, down, size = (number * 997) % width, (number * 641) % height, 60 + (number * 53) % 300
        light = 30 + (number * 37) % 200
        draw.ellipse((across - size, down - size, across + size, down + size), fill=(light, light, light))
    return jpeg(image.filter(ImageFilter.GaussianBlur(blur_px)) if blur_px else image, exif=place_and_orientation(1))


@cache
def small_clean_jpeg() -> bytes:
    """What the phone's own shrinking leaves: 1600 px, nothing but the picture."""
    return jpeg(scene(1600, 1200))


def cut_short(data: bytes, share: float = 0.6) -> bytes:
    """The first part of a file, as a broken transfer leaves it."""
    return data[: int(len(data) * share)]


@cache
def png_named_jpg() -> bytes:
    """A picture that somebody only renamed: PNG inside, with a see-through corner."""
    image = scene(800, 600).convert("RGBA")
    image.putpixel((400, 300), (0, 0, 0, 0))
    out = BytesIO()
    image.save(out, "PNG")
    return out.getvalue()


def heic_head() -> bytes:
    """The first boxes of a HEIC file: enough for anything that looks before it decodes."""
    ftyp = b"ftyp" + b"heic" + b"\0\0\0\0" + b"mif1" + b"heic"
    return (len(ftyp) + 4).to_bytes(4, "big") + ftyp + (8).to_bytes(4, "big") + b"mdat"


def short_tone() -> bytes:
    """A second of 440 Hz as a WAV file: 16 bit, one channel, 8 kHz."""
    rate = 8_000
    samples = array("h", (int(9_000 * math.sin(2 * math.pi * 440 * n / rate)) for n in range(rate)))
    made = BytesIO()
    with wave.open(made, "wb") as file:
        file.setparams((1, 2, rate, rate, "NONE", ""))
        file.writeframes(samples.tobytes())
    return made.getvalue()
