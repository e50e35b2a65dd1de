"""Pictures drawn for the demo: nobody's vehicle, and each says so in its corner."""

import math
from collections.abc import Callable
from io import BytesIO
from random import Random

from PIL import Image, ImageChops, ImageDraw, ImageFilter, ImageFont

SIZE = (1600, 1200)
STEEL, DARK, RUST, OIL, RUBBER = (176, 181, 183), (44, 47, 49), (140, 98, 70), (40, 28, 14), (34, 35, 36)
Colour = tuple[int, int, int]
Drawer = Callable[[Image.Image], None]


def picture(name: str) -> bytes:
    """The drawn photo of that name as a JPEG of 1600 x 1200 pixels; the same bytes every time."""
    image = _ground((150, 155, 156), (88, 92, 93))
    PICTURES[name](image)
    return _finished(image)


def _finished(image: Image.Image) -> bytes:
    image = ImageChops.add(image.filter(ImageFilter.GaussianBlur(1.2)), _grain(), offset=-128)
    image = ImageChops.multiply(image, _vignette())
    draw = ImageDraw.Draw(image)
    draw.rectangle((0, SIZE[1] - 54, 470, SIZE[1]), fill=(10, 10, 10))
    draw.text((18, SIZE[1] - 46), "drawn for the demo", fill=(235, 235, 235), font=_face(34))
    out = BytesIO()
    image.save(out, "JPEG", quality=82, optimize=True)
    return out.getvalue()


def _grain() -> Image.Image:
    half = (SIZE[0] // 2, SIZE[1] // 2)
    noise = Image.frombytes("L", half, Random(1).randbytes(half[0] * half[1]))
    return noise.resize(SIZE).point(lambda level: 128 + (level - 128) // 12).convert("RGB")


def _vignette() -> Image.Image:
    mask = Image.radial_gradient("L").resize(SIZE).point(lambda level: 255 - level // 4)
    return Image.merge("RGB", (mask, mask, mask))


def _ground(top: Colour, bottom: Colour) -> Image.Image:
    shade = Image.linear_gradient("L").resize(SIZE)
    return Image.composite(Image.new("RGB", SIZE, bottom), Image.new("RGB", SIZE, top), shade)


def _face(size: int) -> ImageFont.FreeTypeFont | ImageFont.ImageFont:
    return ImageFont.load_default(size)


def _disc(image: Image.Image, centre: tuple[int, int], radius: int, colour: Colour) -> None:
    """A round lit from the upper left."""
    ball = Image.new("RGB", (2 * radius, 2 * radius), colour)
    light = Image.linear_gradient("L").rotate(45).resize(ball.size).point(lambda level: 150 + (255 - level) * 2 // 5)
    ball = ImageChops.multiply(ball, Image.merge("RGB", (light, light, light)))
    mask = Image.new("L", ball.size, 0)
    ImageDraw.Draw(mask).ellipse((0, 0, 2 * radius - 1, 2 * radius - 1), fill=255)
    image.paste(ball, (centre[0] - radius, centre[1] - radius), mask)


def _around(centre: tuple[int, int], radius: float, turn: float) -> tuple[int, int]:
    return round(centre[0] + radius * math.cos(turn)), round(centre[1] + radius * math.sin(turn))


def _dial(image: Image.Image, centre: tuple[int, int], hundredths: float) -> None:
    """A dial indicator of one millimetre a turn, its hand at so many hundredths."""
    draw = ImageDraw.Draw(image)
    draw.rectangle((centre[0] - 24, centre[1] + 200, centre[0] + 24, centre[1] + 430), fill=(168, 170, 172))
    _disc(image, centre, 246, (150, 150, 148))
    draw.ellipse((centre[0] - 215, centre[1] - 215, centre[0] + 215, centre[1] + 215), fill=(236, 236, 228))
    for mark in range(100):
        turn = mark / 100 * math.tau - math.pi / 2
        inner = 170 if mark % 10 == 0 else 186 if mark % 5 == 0 else 195
        width = 5 if mark % 10 == 0 else 2
        draw.line((_around(centre, inner, turn), _around(centre, 208, turn)), fill=DARK, width=width)
        if mark % 10 == 0:
            draw.text(_around(centre, 140, turn), str(mark), fill=DARK, font=_face(36), anchor="mm")
    turn = hundredths / 100 * math.tau - math.pi / 2
    draw.line((_around(centre, -40, turn), _around(centre, 188, turn)), fill=(20, 20, 24), width=9)
    _disc(image, centre, 22, STEEL)
    draw.text((centre[0], centre[1] + 72), "0.01 mm", fill=DARK, font=_face(28), anchor="mm")


def _wheel_hub(image: Image.Image, hundredths: float) -> None:
    hub = (620, 640)
    _disc(image, hub, 520, RUST)
    _disc(image, hub, 480, STEEL)
    _disc(image, hub, 250, (128, 112, 98))
    for bolt in range(5):
        _disc(image, _around(hub, 180, bolt / 5 * math.tau + 0.3), 30, DARK)
    _disc(image, hub, 92, (140, 142, 140))
    _dial(image, (1230, 420), hundredths)


def _sump(image: Image.Image, wet: bool) -> None:
    draw = ImageDraw.Draw(image)
    draw.polygon([(240, 330), (1380, 300), (1290, 860), (360, 900)], fill=(140, 144, 146))
    draw.polygon([(240, 330), (1380, 300), (1375, 360), (250, 392)], fill=(178, 181, 182))
    for rib in range(6):
        draw.line([(400 + rib * 160, 400), (430 + rib * 140, 860)], fill=(116, 120, 122), width=14)
    for bolt in range(8):
        _disc(image, (300 + bolt * 146, 352 - bolt * 4), 24, DARK)
    _disc(image, (830, 800), 62, (86, 88, 90))
    if wet:
        _oil(image)


def _oil(image: Image.Image) -> None:
    film = Image.new("L", SIZE, 0)
    draw, chance = ImageDraw.Draw(film), Random(7)
    for _ in range(46):
        x, top = chance.randint(620, 1150), chance.randint(390, 520)
        low = top + chance.randint(140, 460)
        draw.rounded_rectangle((x, top, x + chance.randint(16, 60), low), 20, fill=chance.randint(150, 225))
    draw.ellipse((800, 880, 850, 985), fill=235)
    film = film.filter(ImageFilter.GaussianBlur(9))
    image.paste(Image.new("RGB", SIZE, OIL), (0, 0), film)
    shine = Image.new("L", SIZE, 0)
    ImageDraw.Draw(shine).line([(760, 480), (742, 700)], fill=150, width=10)
    image.paste(Image.new("RGB", SIZE, (190, 175, 140)), (0, 0), shine.filter(ImageFilter.GaussianBlur(7)))


def _tread(image: Image.Image) -> None:
    draw, chance = ImageDraw.Draw(image), Random(3)
    draw.rectangle((200, 0, 1400, SIZE[1]), fill=(40, 41, 42))
    for row in range(-1, 9):
        for rib, left in enumerate((620, 880, 1140)):
            top = row * 150 + (rib % 2) * 60
            draw.polygon(
                [(left, top + 20), (left + 205, top), (left + 205, top + 120), (left, top + 136)], fill=(78, 79, 80)
            )
    draw.rectangle((200, 0, 570, SIZE[1]), fill=(60, 61, 62))
    for _ in range(260):
        x, y = chance.randint(210, 560), chance.randint(0, 1190)
        draw.line((x, y, x + chance.randint(20, 70), y + chance.randint(-6, 6)), fill=(48, 49, 50), width=3)
    draw.rectangle((1060, 300, 1085, 980), fill=(190, 192, 190))
    for mark in range(14):
        draw.line((1060, 320 + mark * 46, 1074, 320 + mark * 46), fill=DARK, width=3)


def _hose(image: Image.Image, cracked: bool) -> None:
    draw = ImageDraw.Draw(image)
    for edge, colour in ((150, RUBBER), (120, (50, 51, 52)), (60, (70, 71, 72))):
        draw.line([(120, 980), (520, 640), (1040, 560), (1500, 240)], fill=colour, width=2 * edge, joint="curve")
    for begin, end in (((270, 640), (470, 870)), ((1080, 350), (1250, 610))):
        draw.line((begin, end), fill=(188, 191, 193), width=62)
        draw.line((begin, end), fill=(150, 153, 155), width=18)
        _disc(image, begin, 46, STEEL)
    if cracked:
        chance, at = Random(11), [690, 520]
        crack = [tuple(at)]
        for _ in range(12):
            at = [at[0] + chance.randint(-14, 26), at[1] + chance.randint(12, 22)]
            crack.append(tuple(at))
        draw.line(crack, fill=(4, 4, 4), width=15, joint="curve")
        draw.line([(x + 9, y) for x, y in crack], fill=(104, 104, 102), width=4)


def _brake(image: Image.Image) -> None:
    hub = (700, 640)
    _disc(image, hub, 560, (128, 112, 98))
    _disc(image, hub, 530, (132, 134, 136))
    draw = ImageDraw.Draw(image)
    for ring in range(260, 525, 7):
        shade = 108 + (ring * 37) % 40
        draw.ellipse(
            (hub[0] - ring, hub[1] - ring, hub[0] + ring, hub[1] + ring), outline=(shade, shade, shade), width=2
        )
    _disc(image, hub, 230, RUST)
    draw.rounded_rectangle((980, 330, 1420, 930), 70, fill=(70, 72, 74))
    draw.rounded_rectangle((1030, 390, 1370, 560), 40, fill=(92, 94, 96))
    draw.rectangle((950, 420, 985, 850), fill=(58, 50, 42))


def _yard(image: Image.Image) -> None:
    draw = ImageDraw.Draw(image)
    draw.rectangle((0, 0, *SIZE), fill=(158, 160, 158))
    for line in range(0, 1600, 400):
        draw.line([(line, 0), (line - 160, 1200)], fill=(134, 136, 134), width=10)
    spots, chance = Image.new("L", SIZE, 0), Random(5)
    pen = ImageDraw.Draw(spots)
    for _ in range(34):
        x, y, size = chance.gauss(800, 190), chance.gauss(620, 120), chance.randint(8, 66)
        pen.ellipse((x - size, y - size * 0.7, x + size, y + size * 0.7), fill=chance.randint(120, 215))
    image.paste(Image.new("RGB", SIZE, OIL), (0, 0), spots.filter(ImageFilter.GaussianBlur(5)))


PICTURES: dict[str, Drawer] = {
    "hub-play": lambda image: _wheel_hub(image, 32),
    "hub-after": lambda image: _wheel_hub(image, 3),
    "sump-wet": lambda image: _sump(image, wet=True),
    "sump-dry": lambda image: _sump(image, wet=False),
    "tread": _tread,
    "hose-cracked": lambda image: _hose(image, cracked=True),
    "hose-new": lambda image: _hose(image, cracked=False),
    "brake": _brake,
    "yard": _yard,
}
