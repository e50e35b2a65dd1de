"""Promises of the PDF: real files, read back by other programs."""

import hashlib
import json
import subprocess
from functools import cache
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
import rfc8785
from PIL import ImageFile
from pypdf import PdfReader

from baycard.demo.pen import Pen
from baycard.journal.entry import entry_from_json
from baycard.journal.judge import judge
from baycard.report.frozen import FrozenCard
from baycard.report.html import LONGEST_TEXT, direction, render_html
from baycard.report.pdf import PhotoFetcher, card_json, render_pdf
from tests.support.frozen_cards import pickup_repaired, pickup_signed, seed_book, small_card

HOSTILE = (
    "<img src=file:///etc/passwd> <link rel=attachment href=file:///etc/hostname> "
    "<style>@import url(http://127.0.0.1:9/x)</style> &lt;b&gt; {{ 7*7 }} {% include 'x' %}"
)
FOREIGN = {
    "Cyrillic": "Гудит сзади, тормоза слабые",
    "Arabic": "صوت صفير عند الصعود",
    "Thai": "รถมีเสียงดัง",
    "Chinese": "后轮有噪音",
    "emoji": "🔧👍",
}


@cache
def pickup_pdf() -> bytes:
    return render_pdf(pickup_repaired(), seed_book())


def text_of(pdf: bytes) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(BytesIO(pdf)).pages)


def with_note(note: str) -> FrozenCard:
    def write(pen: Pen) -> None:
        pen.facts({"vehicle/plate": note[:40], "vehicle/modifications": note[:400]})
        pen.complaint(note)
        pen.finding(None, {"grade": "major", "title": note[:400], "plain": note, "note": note})
        pen.work([], note, improvised=note)

    return small_card(write, restrictions=note, words=note)


def test_the_pdf_opens_and_says_the_first_answer_on_page_one() -> None:
    reader = PdfReader(BytesIO(pickup_pdf()))
    first = reader.pages[0].extract_text()
    assert "Yes, but only like this:" in first
    assert "What must be done" in first
    assert "What this rests on" in first


def test_the_pdf_is_tagged_titled_and_says_its_language() -> None:
    with pikepdf.open(BytesIO(pickup_pdf())) as pdf:
        assert str(pdf.Root.Lang) == "en"
        assert bool(pdf.Root.MarkInfo.Marked)
        assert "/StructTreeRoot" in pdf.Root
        assert bool(pdf.Root.ViewerPreferences.DisplayDocTitle)
        with pdf.open_metadata() as metadata:
            assert metadata["dc:title"] == "Report on Halden Ridgeback 5.0 RDG 5088"
            assert metadata["pdfaid:part"] == "3"
            assert metadata["pdfaid:conformance"] == "A"


def test_every_photo_in_the_pdf_has_words_for_those_who_cannot_see_it() -> None:
    with pikepdf.open(BytesIO(pickup_pdf())) as pdf:
        figures = [item for item in pdf.objects if isinstance(item, pikepdf.Dictionary) and item.get("/S") == "/Figure"]
        spoken = [str(figure.Alt) for figure in figures if "/Alt" in figure and str(figure.Alt)]
    assert len(spoken) == len(figures)  # the marks beside grades and readings, too
    assert {"major", "in order"} <= set(spoken)
    assert "Photo: Front right, before" in spoken
    assert len([alt for alt in spoken if alt.startswith("Photo: ")]) == 3


def test_no_picture_in_the_pdf_asks_to_be_smoothed() -> None:
    with pikepdf.open(BytesIO(pickup_pdf())) as pdf:
        pictures = [one for one in pdf.objects if isinstance(one, pikepdf.Stream) and one.get("/Subtype") == "/Image"]
        assert len(pictures) == 3
        assert not any(bool(picture.get("/Interpolate", False)) for picture in pictures)


def test_photos_go_into_the_pdf_byte_for_byte() -> None:
    card = pickup_repaired()
    with pikepdf.open(BytesIO(pickup_pdf())) as pdf:
        raw = {
            hashlib.sha256(one.read_raw_bytes()).hexdigest()
            for one in pdf.objects
            if isinstance(one, pikepdf.Stream) and one.get("/Subtype") == "/Image"
        }
    blobs = {entry.body["blob"] for entry in card.entries if entry.kind == "photo"}
    assert raw == {hashlib.sha256(card.blobs(blob) or b"").hexdigest() for blob in blobs}


def test_a_program_can_read_the_card_out_of_the_pdf_and_verify_it() -> None:
    with pikepdf.open(BytesIO(pickup_pdf())) as pdf:
        (attached,) = pdf.attachments.values()
        data = json.loads(attached.get_file().read_bytes())
        assert {(str(one.UF), str(one.AFRelationship)) for one in list(pdf.Root.AF)} == {("card.json", "/Source")}
        assert list(pdf.attachments) == ["card.json"]
        assert attached.get_file().mime_type == "application/json"
    sealed = data["signed_off"]["body"]["sha256"]
    assert hashlib.sha256(rfc8785.dumps(data["frozen"])).hexdigest() == sealed
    entries = [entry_from_json(raw) for raw in data["frozen"]["entries"]]
    assert set(entries) == set(pickup_repaired().entries)
    assert all(judge(entry) is None for entry in entries)


def test_one_changed_reading_in_the_attached_data_breaks_the_seal() -> None:
    data = json.loads(card_json(pickup_repaired()))
    reading = next(entry for entry in data["frozen"]["entries"] if entry["body"].get("is") == "number")
    reading["body"]["value"] += 0.01
    assert hashlib.sha256(rfc8785.dumps(data["frozen"])).hexdigest() != data["signed_off"]["body"]["sha256"]


def test_the_first_revision_renders_the_same_after_the_second_was_signed() -> None:
    assert card_json(pickup_signed()) == card_json(pickup_signed())
    assert text_of(render_pdf(pickup_signed(), seed_book())) == text_of(render_pdf(pickup_signed(), seed_book()))


@pytest.mark.parametrize("script", FOREIGN)
def test_every_script_is_drawn_with_letters_and_not_with_boxes(
    script: str, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    words = FOREIGN[script]
    path = tmp_path / "report.pdf"
    path.write_bytes(render_pdf(small_card(lambda pen: pen.complaint(words)), seed_book()))
    assert caplog.messages == []  # the renderer tells of every box it draws
    fonts = subprocess.run(["pdffonts", str(path)], capture_output=True, text=True, check=True).stdout
    assert all(" yes yes " in line or "Type 3" in line for line in fonts.splitlines()[2:]), fonts
    text = subprocess.run(["pdftotext", str(path), "-"], capture_output=True, text=True, check=True).stdout
    assert set(words) - {" ", ","} - set(text) <= {"ำ"}, text  # poppler splits this one Thai vowel in two


def test_a_letter_that_no_font_has_would_be_noticed(caplog: pytest.LogCaptureFixture) -> None:
    render_pdf(small_card(lambda pen: pen.complaint("\U0010fffd")), seed_book())
    assert any(".notdef" in message for message in caplog.messages)


def test_the_whole_report_is_drawn_without_a_complaint_of_the_renderer(caplog: pytest.LogCaptureFixture) -> None:
    render_pdf(pickup_signed(), seed_book())
    assert caplog.messages == []


def test_a_hostile_note_stays_text_and_fetches_nothing() -> None:
    card = with_note(HOSTILE)
    pdf = render_pdf(card, seed_book())
    text = " ".join(text_of(pdf).split())
    assert "<img src=file:///etc/passwd>" in text
    assert "{{ 7*7 }}" in text
    assert "root:" not in text
    with pikepdf.open(BytesIO(pdf)) as opened:
        assert list(opened.attachments) == ["card.json"]
        assert not any(isinstance(one, pikepdf.Stream) and one.get("/Subtype") == "/Image" for one in opened.objects)


def test_a_hostile_note_is_escaped_in_the_page_too() -> None:
    page = render_html(with_note(HOSTILE), seed_book())
    assert "<img src=file" not in page
    assert "<link rel" not in page
    assert page.count("<style>") == 1


def test_a_note_of_a_hundred_thousand_letters_is_cut_on_paper_and_whole_in_the_data() -> None:
    note = "&<word> " * 12_500
    card = with_note(note)
    pages = PdfReader(BytesIO(render_pdf(card, seed_book()))).pages
    assert len(pages) < 20
    assert note in {entry.body.get("words") for entry in card.entries}
    page = render_html(card, seed_book())
    assert "the attached data hold the whole text" in page
    assert "&amp;amp;" not in page
    assert len(note) > LONGEST_TEXT


@pytest.mark.parametrize(
    "url", ["file:///etc/passwd", "http://127.0.0.1:9/x", "https://127.0.0.1/", "data:text/plain,x",
            "photo:" + "0" * 64, "ftp://127.0.0.1/x", "PHOTO:known", "photo:known2"]
)  # fmt: skip
def test_the_fetcher_serves_nothing_but_photos_the_page_names(url: str) -> None:
    fetcher = PhotoFetcher(lambda sha256: b"jpeg", {"known"})
    with pytest.raises(ValueError, match="nothing but its own photos"):
        fetcher.fetch(url)
    assert fetcher.fetch("photo:known").read() == b"jpeg"


def test_making_reports_leaves_pillow_strict_about_cut_off_photos() -> None:
    render_pdf(pickup_signed(), seed_book())
    assert not ImageFile.LOAD_TRUNCATED_IMAGES


def test_a_photo_that_has_not_arrived_is_said_so() -> None:
    def write(pen: Pen) -> None:
        pen.photo("brake", None, "Front left")

    card = small_card(write)
    without = FrozenCard(
        card.card, card.workshop, card.entries, card.signed_off, card.checklists, card.names, lambda sha256: None
    )
    assert "had not arrived" in render_html(without, seed_book())
    assert "had not arrived" in " ".join(text_of(render_pdf(without, seed_book())).split())


def test_a_text_runs_the_way_its_first_letter_runs() -> None:
    assert direction("12 صوت abc") == "rtl"
    assert direction("12 abc صوت") == "ltr"
    assert direction("שלום") == "rtl"
    assert direction("123") == "ltr"


def test_a_checklist_that_nobody_began_has_no_empty_heading_among_the_readings() -> None:
    def untouched(pen: Pen) -> None:
        pen.choose(seed_book(), "bearing-play", "fluid-leaks")

    def begun(pen: Pen) -> None:
        untouched(pen)
        pen.not_checked("fluid-leaks/customer-tells/vehicle", "no-time")

    page = render_html(small_card(untouched, drive="not-judged"), seed_book())
    assert "Every reading" not in page
    assert "Nothing was checked" in page
    page = render_html(small_card(begun), seed_book())
    assert "<h3>Fluid leaks</h3>" in page and "<h3>Wheel bearing play</h3>" not in page


def test_the_name_of_an_unanswered_checklist_never_stands_alone_at_the_foot_of_a_page() -> None:
    def write(lines: int) -> FrozenCard:
        def card(pen: Pen) -> None:
            pen.facts({"vehicle/plate": "TS 4711"})
            for number in range(lines):
                pen.complaint(f"Complaint {number}")
            pen.choose(seed_book(), "bearing-play")

        return small_card(card, drive="not-judged")

    for lines in range(4, 9):
        pages = [page.extract_text() for page in PdfReader(BytesIO(render_pdf(write(lines), seed_book()))).pages]
        (named,) = [text for text in pages if "29 questions" in text]
        assert "Wheel bearing play" in named.partition("29 questions")[0], lines
