"""What pages do besides diary forms: figures that open, themes, kept pages, the description of the place."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.needs import needs
from tests.web.served import Site

if TYPE_CHECKING:
    from playwright.sync_api import Browser, BrowserContext, Page

pytestmark = needs("chromium")


def test_a_figure_opens_by_keyboard_down_to_its_source(looked_at: Site, page: Page) -> None:
    """Enter opens the workings beside it, Escape gives the focus back, and links lead down to a source."""
    page.goto(f"{looked_at.address}/winter")
    figure = page.locator("a.figure").first
    figure.focus()
    page.keyboard.press("Enter")
    panel = page.locator("#why .why-body")
    panel.wait_for()
    assert figure.get_attribute("aria-expanded") == "true"
    assert page.evaluate("document.activeElement.id") == "why"
    assert "Wood for span" in panel.inner_text()
    assert page.url == f"{looked_at.address}/winter"
    page.keyboard.press("Escape")
    panel.wait_for(state="detached")
    assert page.evaluate("document.activeElement.classList.contains('figure')")
    page.keyboard.press("Enter")
    panel.wait_for()
    further = panel.locator("a", has_text="down to the sources")
    further.focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/winter/why/rest.wood_stacked_m3#further")
    source = page.locator(".step > details", has=page.locator("summary", has_text="Saturation pressure"))
    source.locator("summary").focus()
    page.keyboard.press("Enter")
    assert "WMO-No. 8" in source.locator(".footnote").first.inner_text()


def test_a_figure_opens_without_script(browser: Browser, looked_at: Site) -> None:
    """It is a link to its own page."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(f"{looked_at.address}/stacks")
    page.locator("a.figure").first.click()
    page.wait_for_url("**/stacks/why/stacked_m3")
    assert page.locator(".why-body").inner_text().startswith("Stacked volume")
    context.close()


@pytest.mark.parametrize(("choice", "paper"), [("Light", "rgb(245, 242, 232)"), ("Dark", "rgb(26, 28, 23)")])
def test_the_owners_choice_of_theme_holds_for_page_and_pictures(
    looked_at: Site, page: Page, choice: str, paper: str
) -> None:
    """Whatever the device prefers, and after a reload; a phone gets the narrow picture."""
    page.emulate_media(color_scheme="dark" if choice == "Light" else "light")
    page.goto(f"{looked_at.address}/winter")
    page.locator(".theme-choice button", has_text=choice).click()
    page.reload()
    assert page.evaluate("getComputedStyle(document.documentElement).backgroundColor") == paper
    page.locator("figure.chart img").scroll_into_view_if_needed()
    page.wait_for_function("document.querySelector('figure.chart img').currentSrc")
    shown = page.evaluate("document.querySelector('figure.chart img').currentSrc")
    assert shown.endswith(f"?theme={choice.lower()}&width=narrow")
    assert page.locator(".theme-choice button[aria-pressed=true]").inner_text() == choice


def test_pages_seen_before_are_there_without_a_signal(
    looked_at: Site, phone: BrowserContext, page: Page
) -> None:
    """Kept by the service worker and marked as old; a page never seen says that it is not here."""
    page.goto(looked_at.address)
    page.evaluate("navigator.serviceWorker.ready")
    kept = "caches.open('woodreeve-pages').then(kept => kept.keys()).then(keys => keys.length)"
    for _ in range(100):
        if page.evaluate(kept) == 4:
            break
        page.wait_for_timeout(50)
    phone.set_offline(True)
    page.goto(f"{looked_at.address}/stacks")
    assert page.locator("h1").inner_text() == "Stacks"
    page.locator("[data-stored-page]:not([hidden])").wait_for()
    page.goto(f"{looked_at.address}/workings/net_heat")
    assert page.locator("h1").inner_text() == "No signal"
    phone.set_offline(False)


def test_a_formula_is_tried_on_its_page(looked_at: Site, page: Page) -> None:
    """By keyboard; the result and a fault appear in place."""
    page.goto(f"{looked_at.address}/workings/net_heat")
    page.locator("form.try input").first.fill("19.0")
    page.locator("form.try input").nth(1).fill("20 %")
    page.keyboard.press("Enter")
    page.locator("#result", has_text="14.71").wait_for()
    page.locator("form.try input").nth(1).fill("140 %")
    page.keyboard.press("Enter")
    page.locator("#result [role=alert]", has_text="moisture is 1.4").wait_for()


def test_a_section_of_the_place_is_saved_by_keyboard(site: Site, page: Page) -> None:
    """Changed, saved, said so, and kept as a new version."""
    page.goto(f"{site.address}/holding/yard.containers[1]")
    litres = page.get_by_label("Litres", exact=False)
    litres.fill("160")
    page.keyboard.press("Enter")
    page.locator("[role=status]", has_text="Saved.").wait_for()
    assert litres.input_value() == "160"
    assert site.household.ask().holding.yard.containers[1].litres == 160.0
    assert site.household.ask().version == 2


def test_a_fault_stands_beside_its_field_and_what_was_typed_stays(site: Site, page: Page) -> None:
    """Nothing is saved; the field is marked, and the rest is still as typed."""
    page.goto(f"{site.address}/holding/yard.containers[1]")
    page.get_by_label("Litres", exact=False).fill("0")
    page.get_by_label("Several of them").fill("barrow loads")
    page.locator("button", has_text="Save").click()
    page.locator("[role=alert]").wait_for()
    litres = page.get_by_label("Litres", exact=False)
    assert litres.input_value() == "0"
    assert litres.get_attribute("aria-invalid") == "true"
    assert "Litres is 0 L, but must be" in page.locator(".field .error").inner_text()
    assert page.get_by_label("Several of them").input_value() == "barrow loads"
    assert site.household.ask().version == 1


def test_a_member_of_a_list_is_added_and_taken_out_again(site: Site, page: Page) -> None:
    """With what it needs asked for; taken out by a button of its own."""
    page.goto(f"{site.address}/holding/yard")
    page.locator("a[href='/holding/yard.containers[4]']").click()
    page.locator("button", has_text="Save").click()
    page.locator("[role=alert]").wait_for()
    page.get_by_label("Name of the measure").fill("sledge")
    page.get_by_label("Litres", exact=False).fill("220")
    page.locator("button", has_text="Save").click()
    page.locator("[role=status]", has_text="Saved.").wait_for()
    assert [one.name for one in site.household.ask().holding.yard.containers][-1] == "sledge"
    page.locator("details", has_text="Take it out").locator("summary").click()
    page.locator("button", has_text="Take sledge out").click()
    page.locator("[role=status]", has_text="Taken out.").wait_for()
    assert "sledge" not in [one.name for one in site.household.ask().holding.yard.containers]


def test_where_two_saved_both_versions_are_shown(site: Site, phone: BrowserContext, page: Page) -> None:
    """The second one sees what was saved meanwhile beside what he typed, and may then save his own."""
    page.goto(f"{site.address}/holding/yard.containers[1]")
    other = phone.new_page()
    other.goto(page.url)
    other.get_by_label("Litres", exact=False).fill("170")
    other.locator("button", has_text="Save").click()
    other.locator("[role=status]", has_text="Saved.").wait_for()
    page.get_by_label("Litres", exact=False).fill("180")
    page.locator("button", has_text="Save").click()
    page.locator("[role=alert]", has_text="version 2").wait_for()
    assert page.get_by_label("Litres", exact=False).input_value() == "180"
    assert page.locator(".error", has_text="Saved meanwhile: 170").is_visible()
    page.locator("button", has_text="Save").click()
    page.locator("[role=status]", has_text="Saved.").wait_for()
    assert site.household.ask().holding.yard.containers[1].litres == 180.0
