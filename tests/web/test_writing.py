"""The diary written on a phone, with and without a signal: nothing is lost, nothing counts twice."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Any

import pytest

from tests.needs import needs
from tests.web.served import Site
from woodreeve.diary.entry import Entry
from woodreeve.diary.kinds import read_payload
from woodreeve.holding.demo import DEMO_NAME
from woodreeve.web.clocks import SteppedClock

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page

pytestmark = needs("chromium")


def written(site: Site, before: set[str]) -> list[Entry]:
    """The entries that came to the house since."""
    return [one for one in site.household.records.entries(DEMO_NAME) if one.id not in before]


def known(site: Site) -> set[str]:
    """The ids of all entries there are."""
    return {one.id for one in site.household.records.entries(DEMO_NAME)}


def told(page: Page, text: str) -> None:
    """Wait until the page says so."""
    page.locator("[data-diary-state]", has_text=text).first.wait_for()


@pytest.mark.parametrize(
    ("taps", "kind", "count"), [(["Fire lit"], "lit", 1.0), (["1½", "Refilled"], "refilled", 1.5)]
)
def test_a_fire_is_noted_in_two_taps_at_most(
    site: Site, page: Page, taps: list[str], kind: str, count: float
) -> None:
    """On the first page; the entry carries the demonstration's own moment and is understood."""
    before = known(site)
    page.goto(site.address)
    for tap in taps[:-1]:
        page.locator(".quick .tap", has_text=tap).tap()
    page.locator(".quick button", has_text=taps[-1]).tap()
    told(page, "Noted.")
    (entry,) = written(site, before)
    assert (entry.kind, entry.payload) == (kind, {"count": count, "container": "boiler fill"})
    assert entry.happened == site.household.clock()
    assert read_payload(entry)


def test_measuring_takes_stack_values_done(site: Site, page: Page) -> None:
    """A stack tapped, values one after another by the key of the number pad, and done."""
    before = known(site)
    page.goto(f"{site.address}/diary/measured")
    page.locator(".tap", has_text="gable").tap()
    boxes = page.locator(".boxes input")
    boxes.first.tap()
    for value in ("31", "28,5", "33", "30", "29", "35", "27.5"):
        page.keyboard.type(value)
        page.keyboard.press("Enter")
    assert boxes.count() == 8, "a box follows the last one filled"
    page.locator("button", has_text="Note it").tap()
    told(page, "Noted.")
    (entry,) = written(site, before)
    assert entry.payload["place"] == "gable"
    assert entry.payload["shown_percent"] == [31, 28.5, 33, 30, 29, 35, 27.5]
    assert entry.payload["meter"] == "pin meter"
    assert read_payload(entry)
    assert boxes.count() == 6, "a cleared form begins as it was"
    page.goto(f"{site.address}/stacks")
    assert "gable has not been measured" not in page.locator(".said").inner_text()


def test_a_stock_take_in_rows_by_keyboard_alone(site: Site, page: Page) -> None:
    """Tab, arrows, digits and Enter reach everything; rows nobody filled are not sent."""
    before = known(site)
    page.goto(f"{site.address}/diary/counted")
    page.locator("input[name=place]").first.focus()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("Tab")
    while not page.evaluate("document.activeElement.name?.startsWith('rows.0.length')"):
        page.keyboard.press("Tab")
    for value in ("4.5", "1.6", "33"):
        page.keyboard.type(value)
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    told(page, "Noted.")
    (entry,) = written(site, before)
    assert entry.payload == {
        "place": "lean-to",
        "rows": [{"length_m": 4.5, "height_m": 1.6, "log_cm": 33}],
    }


def test_what_does_not_do_is_told_beside_its_field_and_stays_typed(site: Site, page: Page) -> None:
    """No entry is made; the first wrong field has the focus and names the limit."""
    before = known(site)
    page.goto(f"{site.address}/diary/lit")
    page.locator("#f-store_top_c").fill("150")
    page.locator("button", has_text="Note it").click()
    fault = page.locator("[data-error-for=store_top_c]")
    fault.wait_for()
    assert fault.inner_text() == "150 is more than 110 °C."
    assert page.locator("#f-store_top_c").input_value() == "150"
    assert page.evaluate("document.activeElement.id") == "f-store_top_c"
    assert "store_top_c" in (page.locator("#f-store_top_c").get_attribute("aria-describedby") or "")
    page.goto(f"{site.address}/diary/measured")
    page.locator("button", has_text="Note it").click()
    assert page.locator("[data-error-for=place]").inner_text() == "Please fill this in."
    assert written(site, before) == []


def test_without_a_signal_an_entry_waits_and_is_sent_once(
    site: Site, phone: BrowserContext, page: Page
) -> None:
    """It survives a reload of the page, is shown as waiting, and goes out when the signal is back."""
    before = known(site)
    page.goto(f"{site.address}/diary/brought_in")
    page.evaluate("navigator.serviceWorker.ready")
    page.reload()
    phone.set_offline(True)
    page.locator("#f-count").fill("12")
    page.locator("button", has_text="Note it").click()
    told(page, "not yet sent (1 waiting)")
    assert page.locator("[data-unsent] li").inner_text().startswith("Brought in — Not yet sent")
    page.reload()
    page.locator("[data-unsent] li").wait_for()
    assert written(site, before) == []
    phone.set_offline(False)
    page.evaluate("window.dispatchEvent(new Event('online'))")
    told(page, "Noted.")
    page.locator("[data-unsent] li").wait_for(state="detached")
    page.reload()
    (entry,) = written(site, before)
    assert entry.payload == {"count": 12, "container": "barrow"}


def test_an_answer_lost_on_the_way_back_makes_no_second_entry(site: Site, page: Page) -> None:
    """The house has it, the phone does not know: sent again, it is known."""
    before = known(site)
    lost: list[int] = []

    def lose_first(route: Any) -> None:
        if lost:
            route.continue_()
            return
        lost.append(route.fetch().status)
        route.abort()

    page.route("**/api/entries", lose_first)
    page.goto(site.address)
    page.locator(".quick button", has_text="Fire lit").click()
    told(page, "not yet sent")
    assert len(written(site, before)) == 1
    page.evaluate("window.dispatchEvent(new Event('online'))")
    told(page, "Noted.")
    assert lost == [200]
    assert len(written(site, before)) == 1


def test_an_entry_is_put_right_and_another_struck_out(site: Site, page: Page) -> None:
    """The form comes filled; the entry itself stays, the correction stands beside it."""
    before = known(site)
    page.goto(site.address)
    page.locator(".quick button", has_text="Fire lit").click()
    told(page, "Noted.")
    (fire,) = written(site, before)
    page.goto(f"{site.address}/diary/entry/{fire.id}")
    assert page.locator("#f-payload-count").input_value() == "1"
    page.locator("#f-payload-count").fill("2")
    page.locator("button", has_text="Write the correction").click()
    told(page, "Noted.")
    page.goto(f"{site.address}/diary/entry/{fire.id}")
    assert page.locator("#f-payload-count").input_value() == "2"
    page.locator("button", has_text="strike it out").click()
    told(page, "Noted.")
    fixes = [one for one in written(site, before) if one.id != fire.id]
    fix, strike = sorted(fixes, key=lambda one: "void" in one.payload)
    assert fix.payload["payload"] == {"count": 2, "container": "boiler fill"}
    assert strike.payload == {"target": fire.id, "seen": fix.id, "void": True}
    page.goto(f"{site.address}/diary")
    assert "struck out since" in page.locator("ul.entries").first.inner_text()


def test_rows_and_mixtures_come_back_as_they_were_typed(site: Site, page: Page) -> None:
    """A correction of a stack in rows shows its rows and shares, and sends them whole."""
    before = known(site)
    page.goto(f"{site.address}/diary/stacked")
    page.locator(".tap", has_text="stream").first.click()
    for name, value in (("length_m", "3"), ("height_m", "1.5"), ("log_cm", "50")):
        page.locator(f"[name='rows.0.{name}']").fill(value)
    page.locator("summary", has_text="More, if you know it").click()
    page.locator("#f-mix").fill("ash 60, silver birch 40")
    page.locator("button", has_text="Note it").click()
    told(page, "Noted.")
    (entry,) = written(site, before)
    assert entry.payload["mix"] == {"ash": 0.6, "silver birch": 0.4}
    page.goto(f"{site.address}/diary/entry/{entry.id}")
    assert page.locator("#f-payload-mix").input_value() == "ash 60, silver birch 40"
    page.locator("[name='payload.rows.0.height_m']").fill("1.4")
    page.locator("button", has_text="Write the correction").click()
    told(page, "Noted.")
    (fix,) = (one for one in written(site, before) if one.kind == "correction")
    assert fix.payload["payload"]["rows"] == [{"length_m": 3, "height_m": 1.4, "log_cm": 50}]
    assert fix.payload["payload"]["mix"] == {"ash": 0.6, "silver birch": 0.4}


def test_as_usual_is_asked_after_quiet_days_and_answered_with_one_tap(site: Site, page: Page) -> None:
    """Three cold days without a word: the first page asks, and asks no more once it is told."""
    before = known(site)
    clock = site.household.clock
    assert isinstance(clock, SteppedClock)
    for _ in range(4):
        clock.step()
    page.goto(site.address)
    ask = page.locator(".ask")
    assert "Did you fire as usual?" in ask.inner_text()
    ask.locator("button", has_text="As usual").tap()
    told(page, "Noted.")
    (entry,) = written(site, before)
    assert entry.payload == {"since": "2026-01-13", "answer": "as_usual"}
    page.reload()
    assert page.locator(".ask").count() == 0


def test_the_demonstration_steps_to_its_next_evening(site: Site, page: Page) -> None:
    """By its button, on the page it stands on; nothing else moves its clock."""
    start = site.household.clock()
    page.goto(f"{site.address}/winter")
    page.locator(".demo-strip button").click()
    page.wait_for_url(f"{site.address}/winter")
    assert "14 January 2026, 17:00" in page.locator(".demo-strip").inner_text()
    assert site.household.clock() == start + timedelta(days=1)
