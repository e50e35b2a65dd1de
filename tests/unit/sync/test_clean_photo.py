"""Promises of photo cleaning, held against real picture files."""

import random
from io import BytesIO

import piexif
import pytest
from PIL import Image, ImageCms, ImageFile

from baycard.sync.clean_photo import (
    PIXELS_MAX,
    CleanPhoto,
    PhotoRefusal,
    clean_photo,
    is_bare_jpeg,
    print_size,
)
from tests.support import photos


def cleaned(data: bytes) -> CleanPhoto:
    outcome = clean_photo(data)
    assert isinstance(outcome, CleanPhoto), outcome
    return outcome


def refused(data: bytes) -> PhotoRefusal:
    outcome = clean_photo(data)
    assert isinstance(outcome, PhotoRefusal)
    assert outcome.title.endswith(".")
    assert outcome.do.endswith(".")
    return outcome


def opened(photo: CleanPhoto) -> Image.Image:
    image = Image.open(BytesIO(photo.data))
    image.load()
    return image


def corner(image: Image.Image, name: str) -> tuple[int, ...]:
    x = image.width // 10 if "left" in name else image.width * 9 // 10
    y = image.height // 10 if "top" in name else image.height * 9 // 10
    pixel = image.convert("RGB").getpixel((x, y))
    assert isinstance(pixel, tuple)
    return pixel


def near(a: tuple[int, ...], b: tuple[int, ...], slack: int = 14) -> bool:
    return all(abs(x - y) <= slack for x, y in zip(a, b, strict=True))


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_12_megapixel_photo_of_any_orientation_comes_out_upright(orientation: int) -> None:
    photo = cleaned(photos.phone_jpeg(orientation))
    image = opened(photo)
    assert (image.width, image.height) == (photo.width, photo.height) == (1600, 1200)
    for name, colour in photos.CORNERS.items():
        assert near(corner(image, name), colour), name


def test_nothing_but_the_picture_is_left_in_a_photo_that_knew_its_place() -> None:
    before = photos.phone_jpeg(6)
    assert piexif.load(before)["GPS"]
    photo = cleaned(before)
    assert photo.changed
    assert is_bare_jpeg(photo.data)
    assert b"Exif" not in photo.data
    assert b"Gullwing" not in photo.data
    assert not opened(photo).getexif()


def test_a_small_clean_jpeg_comes_back_byte_for_byte() -> None:
    data = photos.small_clean_jpeg()
    photo = cleaned(data)
    assert photo.data == data
    assert not photo.changed


def test_cleaning_twice_changes_nothing_the_second_time() -> None:
    once = cleaned(photos.phone_jpeg(3))
    assert cleaned(once.data).data == once.data


def test_a_canvas_photo_with_a_plain_srgb_profile_counts_as_clean() -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    data = photos.jpeg(photos.scene(800, 600), icc_profile=profile)
    assert not cleaned(data).changed


@pytest.mark.parametrize(
    "extra",
    [
        {"exif": photos.place_and_orientation(1)},
        {"comment": b"taken at the back door"},
        {"xmp": b"<x:xmpmeta xmlns:x='adobe:ns:meta/'/>"},
    ],
)
def test_a_small_jpeg_with_anything_beside_the_picture_is_made_anew(extra: dict[str, object]) -> None:
    photo = cleaned(photos.jpeg(photos.scene(800, 600), **extra))
    assert photo.changed
    assert is_bare_jpeg(photo.data)


def test_bytes_hidden_behind_the_end_of_a_jpeg_are_dropped() -> None:
    photo = cleaned(photos.small_clean_jpeg() + b"PK\x03\x04 a second file")
    assert photo.changed
    assert b"PK\x03\x04" not in photo.data


def test_a_comment_hidden_between_the_scans_of_a_progressive_jpeg_is_dropped() -> None:
    data = photos.jpeg(photos.scene(800, 600), progressive=True)
    second_scan = data.index(b"\xff\xda", data.index(b"\xff\xda") + 2)
    hidden = data[:second_scan] + b"\xff\xfe\x00\x08secret" + data[second_scan:]
    photo = cleaned(hidden)
    assert b"secret" not in photo.data


def test_progressive_and_forty_megapixel_photos_are_taken() -> None:
    assert cleaned(photos.phone_jpeg(1, progressive=True)).width == 1600
    big = cleaned(photos.forty_megapixels())
    assert (big.width, big.height) == (1600, 1200)


def test_a_photo_cut_short_is_refused_plainly() -> None:
    assert refused(photos.cut_short(photos.phone_jpeg(1))).code == "photo-damaged"
    assert refused(photos.cut_short(photos.small_clean_jpeg(), 0.95)).code == "photo-damaged"
    assert refused(photos.cut_short(photos.png_named_jpg(), 0.5)).code == "photo-damaged"
    assert refused(photos.small_clean_jpeg()[:30]).code == "photo-damaged"


@pytest.mark.parametrize("options", [{}, {"progressive": True}, {"subsampling": 0}, {"optimize": True}])
def test_a_small_jpeg_is_taken_exactly_when_all_of_it_can_be_decoded(options: dict[str, object]) -> None:
    whole = photos.jpeg(photos.scene(400, 300), **options)
    dice = random.Random(4711)
    for _ in range(25):
        data = bytearray(whole)
        if dice.random() < 0.5:
            del data[dice.randrange(100, len(data) - 2) : -2]  # its end is there, what comes before is cut
        else:
            data[dice.randrange(len(data) - 2)] ^= 1 << dice.randrange(8)
        assert isinstance(clean_photo(bytes(data)), CleanPhoto) == _can_be_decoded(bytes(data))


def _can_be_decoded(data: bytes) -> bool:
    try:
        with Image.open(BytesIO(data), formats=("JPEG",)) as image:
            image.load()
    except (OSError, SyntaxError, ValueError):
        return False
    return True


def test_a_library_that_makes_pillow_forgiving_changes_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", True)
    assert refused(photos.cut_short(photos.phone_jpeg(1))).code == "photo-damaged"


def test_a_png_that_is_only_named_jpg_becomes_a_jpeg_on_white() -> None:
    photo = cleaned(photos.png_named_jpg())
    image = opened(photo)
    assert photo.mime == "image/jpeg"
    assert image.format == "JPEG"
    assert near(corner(image, "top left"), photos.RED)


def test_a_heic_is_refused_with_what_to_set_on_the_phone() -> None:
    outcome = refused(photos.heic_head())
    assert outcome.code == "photo-heic"
    assert "Most compatible" in outcome.do


@pytest.mark.parametrize(
    "data",
    [b"", b"hello", b"GIF89a\x01\x00\x01\x00", b"<svg xmlns='http://www.w3.org/2000/svg'/>", b"%PDF-1.7", b"\xff\xd8"],
)
def test_what_is_no_photo_is_refused(data: bytes) -> None:
    assert refused(data).code == "not-a-photo"


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_a_moving_picture_is_refused(kind: str) -> None:
    frames = [Image.new("RGB", (40, 30), colour) for colour in ("red", "blue")]
    out = BytesIO()
    frames[0].save(out, kind, save_all=True, append_images=frames[1:])
    assert refused(out.getvalue()).code == "photo-animated"


def test_a_photo_with_a_second_picture_inside_keeps_the_first() -> None:
    first, second = photos.scene(800, 600), Image.new("RGB", (800, 600), "black")
    out = BytesIO()
    first.save(out, "MPO", save_all=True, append_images=[second])
    photo = cleaned(out.getvalue())
    assert near(corner(opened(photo), "top left"), photos.RED)
    assert is_bare_jpeg(photo.data)


@pytest.mark.parametrize("size", [(10_000, 7_000), (20_000, 15_000)])
def test_too_many_pixels_are_refused_before_they_are_unpacked(size: tuple[int, int]) -> None:
    out = BytesIO()
    Image.new("1", size).save(out, "PNG")
    assert size[0] * size[1] > PIXELS_MAX
    assert refused(out.getvalue()).code == "photo-too-many-pixels"


def test_printing_colours_are_brought_to_screen_colours() -> None:
    photo = cleaned(photos.jpeg(photos.scene(400, 300).convert("CMYK")))
    image = opened(photo)
    assert image.mode == "RGB"
    assert near(corner(image, "top left"), photos.RED, slack=40)


def test_a_foreign_colour_profile_is_worked_into_the_picture() -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("LAB")).tobytes()
    xyz = cleaned(photos.jpeg(photos.scene(400, 300), icc_profile=profile))
    assert xyz.changed
    assert "icc_profile" not in opened(xyz).info


@pytest.mark.parametrize("mode", ["L", "LA", "P", "1", "I;16", "RGBA"])
def test_every_kind_of_png_becomes_a_plain_jpeg(mode: str) -> None:
    out = BytesIO()
    image = Image.new("I;16", (60, 40), 40_000) if mode == "I;16" else photos.scene(64, 48).convert(mode)
    image.save(out, "PNG")
    result = opened(cleaned(out.getvalue()))
    assert result.mode in ("RGB", "L")
    if mode == "I;16":
        assert result.getpixel((10, 10)) == pytest.approx(40_000 / 256, abs=2)


def test_a_thread_of_pixels_keeps_at_least_one_pixel_of_width() -> None:
    photo = cleaned(photos.jpeg(Image.new("RGB", (1, 20_000))))
    assert (photo.width, photo.height) == (1, 1600)


@pytest.mark.filterwarnings("ignore:Corrupt EXIF data")
def test_broken_orientation_is_no_reason_to_lose_the_photo() -> None:
    broken = photos.jpeg(photos.scene(400, 300), exif=b"Exif\0\0II*\0\xff\xff\xff\xff")
    assert cleaned(broken).width == 400


def test_the_print_size_is_800_pixels_and_a_small_photo_stays_as_it_is() -> None:
    small = print_size(photos.small_clean_jpeg())
    with Image.open(BytesIO(small)) as image:
        assert image.size == (800, 600)
    assert len(small) < len(photos.small_clean_jpeg()) / 2
    tiny = photos.jpeg(photos.scene(400, 300))
    assert print_size(tiny) is tiny
