"""Photos on the phone: from the shutter until kept, and what the page holds after many."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import BrowserContext, Page

from tests.bench.slow_phone import garbage_free_heap_mb, processes_mb, slow_page, wait_for
from tests.bench.tables import median, percentile, table
from tests.support.photos import SIZE_12_MP, jpeg, scene

SHAPES = 4
EVERY = 10


def measure(app: BrowserContext, profile: Path, card: str, count: int) -> None:
    """Take `count` photos of 12 megapixels on one card."""
    pictures = _pictures(profile.parent)
    page, line = slow_page(app)
    line.send("Performance.enable")
    page.goto(f"/bay/{card}")
    page.get_by_role("button", name="Photo", exact=True).first.wait_for()
    took: list[float] = []
    memory = [("before", garbage_free_heap_mb(line), processes_mb(profile))]
    for number in range(count):
        took.append(_take(page, pictures[number % SHAPES], number))
        if (number + 1) % EVERY == 0:
            memory.append((f"after {number + 1}", garbage_free_heap_mb(line), processes_mb(profile)))
    page.close()
    table(
        f"A photo of {SIZE_12_MP[0]} x {SIZE_12_MP[1]} from the camera until kept ({count} photos)",
        ("p50 ms", "p95 ms"),
        [(f"{median(took):.0f}", f"{percentile(took, 0.95):.0f}")],
    )
    rows = [(when, f"{heap:.1f}", f"{resident:.0f}") for when, heap, resident in memory]
    table("Memory of the page", ("photos", "script heap MB", "process memory MB"), rows)


def _pictures(folder: Path) -> list[bytes]:
    image = scene(*SIZE_12_MP)
    return [jpeg(image, quality=80 + number) for number in range(SHAPES)]


def _take(page: Page, picture: bytes, number: int) -> float:
    """Hand over the camera's file; gives the ms until it is on the disk. A trailing mark makes each file its own."""
    page.get_by_role("button", name="Photo", exact=True).first.click()
    chooser = page.locator("input[type=file]").first
    chooser.wait_for(state="attached")
    wait_for(page, "document.querySelector('video')?.videoWidth")
    page.evaluate(
        "document.querySelector('input[type=file]')"
        ".addEventListener('change', () => (bench.picked = performance.now()), true)"
    )
    page.evaluate("bench.kept.length = 0")
    file = {"name": f"{number}.jpg", "mimeType": "image/jpeg", "buffer": picture + str(number).encode()}
    chooser.set_input_files(file)  # type: ignore[arg-type]
    took = float(wait_for(page, "bench.kept.length && bench.picked && bench.kept[0] - bench.picked"))
    page.get_by_role("button", name="Photo", exact=True).first.wait_for()
    return took
