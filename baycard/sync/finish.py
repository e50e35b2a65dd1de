"""What happens to a blob that has arrived in full: told by its first bytes, cleaned if a photo, else refused."""

import re
from dataclasses import dataclass

from baycard.sync.clean_photo import PhotoRefusal, clean_photo

EBML = b"\x1a\x45\xdf\xa3"
AUDIO_BRANDS = frozenset({b"M4A ", b"M4B ", b"isom", b"iso2", b"iso5", b"iso6", b"mp41", b"mp42", b"dash"})
PICTURE = re.compile(
    rb"\xff\xd8\xff|\x89PNG\r\n\x1a\n|RIFF....WEBP|GIF8|BM|II\*\x00|MM\x00\*|....ftyp(hei|hev|mif|msf|avi)", re.DOTALL
)


@dataclass(frozen=True, slots=True)
class Finished:
    """What is kept and served under the hash that was sent."""

    data: bytes
    mime: str
    width: int | None = None
    height: int | None = None


@dataclass(frozen=True, slots=True)
class Unfit:
    """Why a blob is not kept; title and what to do are empty when the code alone tells."""

    code: str
    title: str = ""
    do: str = ""


def finish(data: bytes) -> Finished | Unfit:
    """Check a whole blob and make it fit to keep. What the sender called it plays no part."""
    sound = audio_mime(data)
    if sound:
        return Finished(data, sound)
    if not PICTURE.match(data):
        return Unfit("not-a-photo-or-sound")
    photo = clean_photo(data)
    if isinstance(photo, PhotoRefusal):
        return Unfit(photo.code, photo.title, photo.do)
    return Finished(photo.data, photo.mime, photo.width, photo.height)


def audio_mime(data: bytes) -> str | None:
    """The type of a sound by its first bytes: WebM, Ogg, MP4 or WAV."""
    if data.startswith(EBML) and b"webm" in data[:64]:
        return "audio/webm"
    if data.startswith(b"OggS\x00"):
        return "audio/ogg"
    if data[4:8] == b"ftyp" and data[8:12] in AUDIO_BRANDS:
        return "audio/mp4"
    if data.startswith(b"RIFF") and data[8:12] == b"WAVE":
        return "audio/wav"
    return None
