"""The desk takes in a file to which a phone saved what it could not send."""

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, BinaryIO

from flask import Response, request
from marshmallow import Schema, fields, validate

from baycard.sync.finish import Unfit
from baycard.sync.rescue_file import RescueFile, RescueFileError, read_rescue_file
from baycard.sync.take_in import Shop, TakenIn, take_in
from baycard.sync.upload import Complete, Uploaded
from baycard.web.answers import answer
from baycard.web.audit import note
from baycard.web.guard import needs, who
from baycard.web.parts import parts
from baycard.web.problems import PROBLEMS, ProblemError
from baycard.web.pushed import Result, result_json
from baycard.web.room import Room
from baycard.web.shapes import ServerSchema

rescue = Room("rescue", "/api/desk/rescue", "Work that a phone saved to a file")

FILE_BYTES_MAX = 2 * 1024**3
CHUNK_BYTES = 256 * 1024


class BlobResult(Schema):
    """What became of one photo or sound."""

    sha256 = fields.String(required=True)
    outcome = fields.String(required=True, validate=validate.OneOf(("kept", "already-kept", "refused")))
    code = fields.String()
    title = fields.String()
    do = fields.String()


class TakenInSchema(ServerSchema):
    """One result per entry in the order of the file, one per photo or sound."""

    results = fields.List(fields.Nested(Result), required=True)
    blobs = fields.List(fields.Nested(BlobResult), required=True)
    cards = fields.List(fields.String(), required=True)


@rescue.on("POST", "")
@rescue.described(requestBody={"content": {"application/zip": {"schema": {"type": "string", "format": "binary"}}}})
@rescue.gives(200, TakenInSchema)
@needs("take-in")
def take() -> Response:
    """Take in a phone's file. It is read and checked as a whole before anything of it is kept."""
    made = parts()
    with _received() as stream:
        try:
            file = read_rescue_file(stream)
            taken = take_in(Shop(made.server, made.store, made.uploads, who()), file)
        except RescueFileError as error:
            raise ProblemError(error.code) from error
        _note(file, taken)
    return answer(
        results=[result_json(entry) for entry in taken.entries],
        blobs=[_blob_json(sha256, put) for sha256, put in taken.blobs],
        cards=_cards(file),
    )


@contextmanager
def _received() -> Iterator[BinaryIO]:
    """The whole body in a file without a name, gone at the end; a body that was cut on the way is refused."""
    length = request.content_length or 0
    if length > FILE_BYTES_MAX:
        raise ProblemError("rescue-too-large")
    with tempfile.TemporaryFile(dir=parts().settings.folder) as file:
        while file.tell() < length:
            chunk = _read(min(CHUNK_BYTES, length - file.tell()))
            if not chunk:
                raise ProblemError("rescue-damaged")
            file.write(chunk)
        file.seek(0)
        yield file


def _read(size: int) -> bytes:
    stream: BinaryIO = request.environ["wsgi.input"]
    try:
        return stream.read(size)
    except OSError:  # whoever was sending it is gone
        return b""


def _cards(file: RescueFile) -> list[str]:
    named = {entry.get("card") for entry in file.entries if isinstance(entry, dict)}
    return sorted(card for card in named if isinstance(card, str))


def _note(file: RescueFile, taken: TakenIn) -> None:
    kept, again = taken.count(again=False), taken.count(again=True)
    note(
        "phone's file taken in",
        from_device=file.origin.device[:80],
        saved_at=file.origin.saved_at[:40],
        kept=kept,
        already_kept=again,
        refused=len(taken.entries) - kept - again,
        photos=sum(isinstance(put, Complete) and not put.again for _, put in taken.blobs),
    )


def _blob_json(sha256: str, put: Uploaded) -> dict[str, Any]:
    if isinstance(put, Complete):
        return {"sha256": sha256, "outcome": "already-kept" if put.again else "kept"}
    code = put.code if isinstance(put, Unfit) else "blob-busy"
    worded = put if isinstance(put, Unfit) and put.title else PROBLEMS[code]
    return {"sha256": sha256, "outcome": "refused", "code": code, "title": worded.title, "do": worded.do}
