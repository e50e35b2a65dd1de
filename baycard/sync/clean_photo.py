"""Make a photo from outside safe to keep: a real picture, upright, of a sane size, silent about where it was taken."""

import re
import struct
import warnings
from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO

from PIL import Image, ImageCms, ImageFile

LONGEST_EDGE_PX = 1600
PRINT_EDGE_PX = 800
PIXELS_MAX = 60_000_000
QUALITY = 82
PRINT_QUALITY = 76
PROFILE_BYTES_MAX = 8192
HIDDEN_SEGMENT = re.compile(
    rb"\xff[\xe0-\xef\xfe]"
)  # never occurs in picture data: an FF there is followed by 00 or D0-D7

ORIENTATION_TAG = 0x0112
UPRIGHT: dict[int, Image.Transpose] = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
# MPO is what phones call a JPEG that carries a second picture (depth, brightness map) behind the first.
DECODERS = {"jpeg": ("JPEG", "MPO"), "png": ("PNG",), "webp": ("WEBP",)}
HEIF_BRANDS = (b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1", b"avif", b"avis")

# Pillow only warns between its limit and twice that; here a warning counts as a refusal.
warnings.simplefilter("error", Image.DecompressionBombWarning)


@dataclass(frozen=True, slots=True)
class CleanPhoto:
    """A photo fit to keep; `changed` is False when `data` is, byte for byte, what came in."""

    data: bytes
    width: int
    height: int
    mime: str
    changed: bool


@dataclass(frozen=True, slots=True)
class PhotoRefusal:
    """Why a file is not kept as a photo, and what the person can do."""

    code: str
    title: str
    do: str


RETAKE = "Take the photo again, or share the picture as JPEG."
HEIC = PhotoRefusal(
    "photo-heic",
    "This is a HEIC or AVIF picture, which cannot be read here.",
    "On the phone choose the camera setting 'Most compatible' (JPEG) and take the photo again, "
    "or share the picture as JPEG.",
)
NOT_A_PHOTO = PhotoRefusal("not-a-photo", "This file is not a JPEG, PNG or WebP photo.", RETAKE)
DAMAGED = PhotoRefusal(
    "photo-damaged", "The photo is cut short or damaged.", "Send it again; if that fails, take it again."
)
MOVING = PhotoRefusal("photo-animated", "This is a moving picture, not a photo.", "Send one still picture.")
TOO_LARGE = PhotoRefusal(
    "photo-too-many-pixels",
    f"The photo has more than {PIXELS_MAX // 1_000_000} million pixels.",
    "Choose a lower resolution in the camera's settings and take the photo again.",
)


def clean_photo(data: bytes) -> CleanPhoto | PhotoRefusal:
    """A JPEG fit to keep, or why not.

    The picture is turned upright by its EXIF orientation, its longest edge is at most 1600 px, its colours are sRGB,
    and nothing but the picture is left in it. A small JPEG that is all this already comes back byte for byte.
    """
    # Some libraries make Pillow forgive cut-off files, for the whole process, when they are loaded; here it must not.
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    kind = _kind(data)
    if isinstance(kind, PhotoRefusal):
        return kind
    try:
        with Image.open(BytesIO(data), formats=DECODERS[kind]) as image:
            return _clean(data, kind, image)
    except (Image.DecompressionBombWarning, Image.DecompressionBombError):
        return TOO_LARGE
    except (OSError, SyntaxError, ValueError, EOFError, struct.error, MemoryError, KeyError, IndexError):
        return DAMAGED  # Pillow's decoders raise all of these over broken files


def print_size(data: bytes) -> bytes:
    """The photo as it goes on paper: longest edge at most 800 px. `data` is a photo that `clean_photo` has let through.

    Raises OSError when it is not a picture.
    """
    with Image.open(BytesIO(data), formats=("JPEG",)) as image:
        if max(image.size) <= PRINT_EDGE_PX:
            return data
        return _encode(_shrunk(image, PRINT_EDGE_PX), PRINT_QUALITY)


def _kind(data: bytes) -> str | PhotoRefusal:
    if data.startswith(b"\xff\xd8\xff"):
        return "jpeg"
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return "png"
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "webp"
    if data[4:8] == b"ftyp" and data[8:12] in HEIF_BRANDS:
        return HEIC
    return NOT_A_PHOTO


def _clean(data: bytes, kind: str, image: Image.Image) -> CleanPhoto | PhotoRefusal:
    width, height = image.size
    if width * height > PIXELS_MAX:
        return TOO_LARGE
    if image.format != "MPO" and getattr(image, "n_frames", 1) > 1:
        return MOVING
    if kind == "jpeg" and max(width, height) <= LONGEST_EDGE_PX and image.mode in ("RGB", "L") and is_bare_jpeg(data):
        _decode(image)
        return CleanPhoto(data, width, height, "image/jpeg", changed=False)
    turn = UPRIGHT.get(_orientation(image))
    upright = _in_srgb(_shrunk(image, LONGEST_EDGE_PX))
    if turn is not None:
        upright = upright.transpose(turn)
    return CleanPhoto(_encode(upright, QUALITY), upright.width, upright.height, "image/jpeg", changed=True)


def _decode(image: Image.Image) -> None:
    """Read a JPEG to its end, which shows whether all of it is there and sound; nobody looks at what comes out.

    The decoder reads every coefficient, but works out only an eighth of the grey picture: half the time.
    """
    image.draft("L", (max(1, image.width // 8), max(1, image.height // 8)))
    image.load()


def _orientation(image: Image.Image) -> int:
    try:
        return int(image.getexif().get(ORIENTATION_TAG, 1))
    except (SyntaxError, ValueError, TypeError, OSError, struct.error, KeyError, IndexError):
        return 1  # broken EXIF is no reason to lose the photo


def _shrunk(image: Image.Image, edge: int) -> Image.Image:
    scale = min(1.0, edge / max(image.size))
    size = (max(1, round(image.width * scale)), max(1, round(image.height * scale)))
    image.draft(None, size)  # lets the JPEG decoder leave out detail nobody will see: a quarter of the time and memory
    image.load()
    if image.mode == "I;16":
        return image.convert("I").point(lambda level: level / 256).convert("L").resize(size)
    if image.mode in ("P", "1", "PA"):
        return image.convert("RGBA").resize(size)
    return image.resize(size, Image.Resampling.LANCZOS) if image.size != size else image.copy()


def _in_srgb(image: Image.Image) -> Image.Image:
    """The picture in RGB on white paper, its colours brought from its own profile to sRGB."""
    if image.mode in ("RGBA", "LA", "La", "RGBa"):
        paper = Image.new("RGBA", image.size, "white")
        paper.alpha_composite(image.convert("RGBA"))
        paper.info = image.info
        image = paper.convert("RGB")
    profile = image.info.get("icc_profile")
    if profile and not _says_srgb(profile):
        try:
            source = ImageCms.ImageCmsProfile(BytesIO(profile))
            turned = ImageCms.profileToProfile(image, source, ImageCms.createProfile("sRGB"), outputMode="RGB")
        except (ImageCms.PyCMSError, OSError, ValueError):
            turned = None  # a broken profile: the plain colours are near enough
        if turned is not None:
            return turned
    return image if image.mode in ("RGB", "L") else image.convert("RGB")


def _encode(image: Image.Image, quality: int) -> bytes:
    image.info = {}  # Pillow would carry a comment over
    out = BytesIO()
    image.save(out, "JPEG", quality=quality, optimize=True)
    return out.getvalue()


def _says_srgb(profile: bytes) -> bool:
    return b"sRGB" in profile or "sRGB".encode("utf-16-be") in profile


def is_bare_jpeg(data: bytes) -> bool:
    """Whether a JPEG holds the picture and nothing else: no EXIF, XMP, comment, second picture or bytes behind its end.

    A short sRGB colour profile is allowed, as browsers write one when they save a canvas.
    """
    for marker, body in _segments(data):
        if marker == 0xDA:
            return body.endswith(b"\xff\xd9") and body.count(b"\xff\xd9") == 1 and not HIDDEN_SEGMENT.search(body)
        if not _is_bare_segment(marker, body):
            return False
    return False


def _is_bare_segment(marker: int, body: bytes) -> bool:
    if marker == 0xE0:
        return body.startswith(b"JFIF\0") and len(body) == 14
    if marker == 0xE2:
        return body.startswith(b"ICC_PROFILE\0") and len(body) <= PROFILE_BYTES_MAX and _says_srgb(body)
    if marker == 0xEE:
        return body.startswith(b"Adobe") and len(body) == 12
    return not (0xE0 <= marker <= 0xEF or marker == 0xFE)


def _segments(data: bytes) -> Iterator[tuple[int, bytes]]:
    """Marker and content of each segment up to the start of scan, whose content is the rest of the file."""
    at = 2
    while at + 4 <= len(data) and data[at] == 0xFF:
        marker, length = data[at + 1], int.from_bytes(data[at + 2 : at + 4], "big")
        if marker == 0xDA:
            yield marker, data[at + 4 :]
            return
        if length < 2:
            return
        yield marker, data[at + 4 : at + 2 + length]
        at += 2 + length
