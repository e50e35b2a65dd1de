"""The foreman at the desk screen: what they do, in sentences."""

from dataclasses import dataclass

from playwright.sync_api import Page, expect

from tests.support.server import secret_of


@dataclass
class Foreman:
    """A person at a desk."""

    page: Page

    def signs_in(self, name: str) -> None:
        """Sign in and go to the desk."""
        self.page.goto("/desk")
        self.page.get_by_label("Name", exact=True).fill(name)
        self.page.get_by_label("Secret").fill(secret_of(name))
        self.page.get_by_role("button", name="Sign in").click()
        expect(self.page.get_by_role("heading", name="Cards")).to_be_visible()

    def opens(self, vehicle: str) -> None:
        """Open a card of the list."""
        self.page.goto("/desk")
        self.page.get_by_role("link", name=vehicle).click()
        expect(self.page.get_by_role("heading", name="Findings, worst first")).to_be_visible()

    def titles_of_findings(self) -> list[str]:
        """The findings in the order they are shown."""
        section = self.page.get_by_role("region", name="Findings, worst first")
        return [text.strip() for text in section.get_by_role("heading", level=3).all_inner_texts()]

    def grades_of_findings(self) -> list[str]:
        """The grade words in the order they are shown."""
        section = self.page.get_by_role("region", name="Findings, worst first")
        return [text.strip() for text in section.locator("article > header .mark").all_inner_texts()]

    def looks_at_a_photo_full_size(self) -> dict[str, int]:
        """Open the first photo; gives its natural size."""
        self.page.get_by_role("button", name="Open photo").first.click()
        photo = self.page.get_by_role("dialog").get_by_role("img")
        expect(photo).to_be_visible()
        size: dict[str, int] = photo.evaluate(
            "(image) => image.decode().then(() => ({ width: image.naturalWidth, height: image.naturalHeight }))"
        )
        self.page.get_by_role("button", name="Close").click()
        return size

    def sends_back(self, remark: str) -> None:
        """Ask for more."""
        self.page.get_by_role("button", name="Send back").click()
        self.page.get_by_label("What is missing or unclear").fill(remark)
        self.page.get_by_role("button", name="Send back").click()
        expect(self.page.get_by_text(f"Sent back: {remark}")).to_be_visible()

    def signs_off(self, drive: str, restrictions: str = "") -> None:
        """Judge and sign."""
        self.page.get_by_role("button", name="Sign off").click()
        self.page.get_by_role("button", name=drive, exact=True).click()
        if restrictions:
            self.page.get_by_label("Restrictions, in plain words").fill(restrictions)
        self.page.get_by_role("button", name="Sign", exact=True).click()
        expect(self.page.get_by_role("link", name="Open the report (PDF)")).to_be_visible()

    def mails_the_report(self) -> None:
        """To the address on the card."""
        self.page.get_by_role("button", name="E-mail the report").click()
        expect(self.page.get_by_text("Sent to")).to_be_visible(timeout=60_000)
