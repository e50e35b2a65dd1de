"""The core of the journey in another browser engine: what was kept without a network is there, and arrives."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.journeys.second_engine import Engine, engine, missing
from tests.support.photos import small_clean_jpeg
from tests.support.server import RealServer, secret_of

LACKING = missing()
pytestmark = pytest.mark.skipif(
    bool(LACKING), reason=f"needs {' and '.join(LACKING)}: `make second-engine` installs them and runs this"
)
READY = "navigator.serviceWorker.ready.then((it) => it.active !== null)"
ON_PHONE = """new Promise((resolve, reject) => {
  const opening = indexedDB.open("baycard");
  opening.onerror = () => reject(opening.error);
  opening.onsuccess = () => {
    const tx = opening.result.transaction(["made", "outbox"]);
    const made = tx.objectStore("made").getAllKeys();
    const open = tx.objectStore("outbox").count();
    tx.oncomplete = () => { opening.result.close(); resolve({ ids: made.result, open: open.result }); };
  };
})"""
WAITING = "return Number(/(\\d+) to send/.exec(document.querySelector('.kept').textContent)?.[1] ?? 0)"


@pytest.fixture
def window(tmp_path: Path) -> Iterator[Engine]:
    """A window of the other engine."""
    folder = tmp_path / "engine"
    folder.mkdir()
    with engine(folder) as opened:
        yield opened


def button(name: str) -> str:
    """A button by its words."""
    return f"//button[normalize-space(.)='{name}' and not(@disabled)]"


def field(label: str) -> str:
    """What is typed into, by its label."""
    return f"//*[@id=//label[normalize-space(.)='{label}']/@for]"


def signs_in(window: Engine, server: RealServer) -> None:
    window.opens(server.url)
    window.types(field("Name"), "Ines Varga")
    window.types(field("Secret"), secret_of("Ines Varga"))
    window.taps(button("Sign in"))
    window.sees("//h1[.='Cards']")
    assert window.promises(READY) is True
    window.reloads()
    window.sees("//h1[.='Cards']")
    assert window.says("return navigator.serviceWorker.controller !== null")


def types_on_pad(window: Engine, number: str) -> None:
    for sign in number:
        window.taps(f"//*[contains(@class,'pad')]//button[normalize-space(.)='{sign}']")


def takes_a_photo(window: Engine, path: Path) -> None:
    """This machine has no camera: the screen says so and offers a file instead."""
    path.write_bytes(small_clean_jpeg())
    window.taps(button("Photo"))
    window.sees("//dialog//*[@role='alert'][contains(., 'No camera was found.')]")
    window.types("//dialog//input[@type='file']", str(path))
    window.waits("return document.querySelector('img.thumb')?.naturalWidth > 0")


def answers_a_choice(window: Engine) -> None:
    """The first option of the check on the screen, once; then the next check comes."""
    here = window.says("return document.querySelector('[data-step]').dataset.step")
    window.taps("//*[contains(@class,'check-answer')]//button[contains(@class,'choice')][1][@aria-disabled='false']")
    window.waits(f"return document.querySelector('[data-step]')?.dataset.step !== '{here}'")


def test_what_was_kept_without_a_server_survives_a_reload_and_arrives(
    window: Engine, server: RealServer, tmp_path: Path
) -> None:
    signs_in(window, server)
    server.kill()
    window.taps(button("New card"))
    window.types(field("Plate"), "TS 7")
    window.types(field("Complaint 1"), "It hums from the back.")
    window.says("document.activeElement.blur()")
    window.sees(field("Complaint 2"))
    window.taps("//*[@role='checkbox'][contains(., 'Wheel bearing play')]")
    window.taps(button("To the card"))
    takes_a_photo(window, tmp_path / "yard.jpg")
    window.taps("//button[contains(., 'Walk')]")
    window.taps(button("I have read this"))
    window.taps("//*[@role='radio'][1]")
    types_on_pad(window, "205")
    window.taps("//*[contains(@class,'pad')]//button[contains(@class,'keep')]")
    window.sees("//*[contains(@data-step, 'bearing-play/') and not(contains(@data-step, 'dial-radius'))]")
    card = window.says("return location.pathname").split("/")[2]
    window.opens(f"{server.url}/bay/{card}/walk/1/bearing-play/bearing-play/rock-12-6/front-left")
    window.sees("//*[@data-step='bearing-play/rock-12-6/front-left/1']")
    for _ in range(2):
        answers_a_choice(window)
    before = window.promises(ON_PHONE)
    assert before["open"] == len(before["ids"]) >= 8
    assert window.says(WAITING) == before["open"] + 1, "the entries and the photo"

    window.reloads()
    window.sees("//*[@data-step]")
    assert window.promises(ON_PHONE) == before
    window.opens(f"{server.url}/bay/{card}")
    window.sees("//*[contains(., 'TS 7')]")
    window.sees("//*[contains(., 'It hums from the back.')]")
    window.waits("return document.querySelector('img.thumb')?.naturalWidth > 0")

    server.start()
    window.waits("return document.querySelector('.kept').textContent.includes('all sent')")
    tom = server.phone("Tom Abara")
    assert sorted(tom.pulled_ids()) == sorted(before["ids"])
    (photo,) = [entry["body"] for entry in tom.pull()["entries"] if entry["kind"] == "photo"]
    assert len(tom.get(f"/api/blobs/{photo['blob']}").data) == photo["bytes"]
