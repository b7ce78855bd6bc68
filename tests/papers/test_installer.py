"""The paper for the installer: every page whole, in black and white, small and quick, whatever is told."""

from __future__ import annotations

import io
import re
import time
from datetime import date
from functools import lru_cache
from pathlib import Path

import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from tests.answers.demo import demo
from woodreeve.cli.main import main
from woodreeve.errors import UnknownName
from woodreeve.holding.demo import DEMO_MOMENT
from woodreeve.papers.installer import InstallerPaper, Sources, paper_for, paper_part, paper_pdf, planned
from woodreeve.plant.checks.rules import rule
from woodreeve.plant.installing import days, installing_gathered_on, sheets
from woodreeve.records.asking import Asking

A4_PT = (595.3, 841.9)
LEFT_PT, RIGHT_PT, TOP_PT, BOTTOM_PT = (one / 25.4 * 72.0 for one in (18.0, 16.0, 17.0, 18.0))
HEADING_PT = 9.0
"""Letters of a heading are higher than this. [pt]"""
HARD_NAME = 'The Old "Long" Farmhouse <at the End> of the Upper Moor \\ North'
HEADINGS = (
    "The place and its loads",
    "The circuit",
    "Sizes and checks",
    "The days of the installation",
    "Commissioning sheet",
    "Upkeep",
    "Never",
    "Sources",
)


def asked(which: str) -> Asking:
    """The demonstration, or a place of which nothing is told but a name that is hard to set."""
    if which == "blank":
        return Asking(f"name = 'nowhere'\ntitle = '{HARD_NAME}'\n", DEMO_MOMENT)
    return demo()


@lru_cache(maxsize=4)
def printed(which: str) -> tuple[InstallerPaper, bytes, float]:
    """A paper, its PDF, and the processor's seconds for both; set once for all tests."""
    begun = time.process_time()
    paper = paper_for(asked(which))
    made = paper_pdf(paper)
    return paper, made, time.process_time() - begun


def words(page: pypdfium2.PdfPage) -> str:
    """All text of a page, its line ends as blanks."""
    return " ".join(page.get_textpage().get_text_range().split())


PLACES = ("demo", "blank")


@pytest.mark.parametrize("which", PLACES)
def test_nothing_is_set_outside_the_margins_and_every_page_has_its_number(which: str) -> None:
    """Looked at as pixels: the last lines end inside, and no page is empty."""
    _, pdf, _ = printed(which)
    document = pypdfium2.PdfDocument(pdf)
    assert 6 <= len(document) <= 14
    for number, page in enumerate(document, start=1):
        assert page.get_size() == pytest.approx(A4_PT, abs=0.5)
        ink = np.asarray(page.render(scale=2).to_pil().convert("L")) < 160
        height, width = ink.shape
        columns = np.flatnonzero(ink.any(axis=0))
        assert columns[0] >= 2 * LEFT_PT - 3, number
        assert columns[-1] <= width - 2 * RIGHT_PT + 3, number
        rows = np.flatnonzero(ink[: round(height - 2 * BOTTOM_PT)].any(axis=1))
        assert rows[0] > 2 * 15, number
        assert rows[-1] <= height - 2 * BOTTOM_PT, number
        assert f"{number} / {len(document)}" in words(page)
        assert ink[round(2 * TOP_PT) : round(height - 2 * BOTTOM_PT)].mean() > 0.005, number


@pytest.mark.parametrize("which", PLACES)
def test_no_heading_stands_alone_at_the_foot_of_a_page(which: str) -> None:
    """Under each heading follow at least two lines on the same page, the foot's own line left out."""
    found: dict[str, int] = {}
    for page in pypdfium2.PdfDocument(printed(which)[1]):
        text = page.get_textpage()
        lines = [
            (text.get_rect(n), text.get_text_bounded(*text.get_rect(n))) for n in range(text.count_rects())
        ]
        for (_, foot, _, head), words_of in lines:
            heading = words_of.strip()
            if heading in HEADINGS and head - foot > HEADING_PT:
                below = {round(top) for (_, _, _, top), _ in lines if BOTTOM_PT < top < foot}
                found[heading] = len(below)
    assert set(found) == set(HEADINGS)
    assert min(found.values()) >= 2, found


@pytest.mark.parametrize("which", PLACES)
def test_it_is_black_on_white(which: str) -> None:
    """A printer without colour loses nothing: every pixel is grey."""
    for page in pypdfium2.PdfDocument(printed(which)[1]):
        picture = np.asarray(page.render(scale=1).to_pil().convert("RGB"))
        assert np.all(picture.max(axis=2) == picture.min(axis=2))


def test_every_font_is_in_the_file() -> None:
    """It prints alike on a computer that has none of them."""
    document = pypdfium2.PdfDocument(printed("demo")[1])
    embedded = set()
    for page in document:
        for one in page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_TEXT]):
            font = pdfium.FPDFTextObj_GetFont(one.raw)
            embedded.add(pdfium.FPDFFont_GetIsEmbedded(font))
    assert embedded == {1}


def test_it_is_small_and_quickly_made() -> None:
    """Under 2 MB, and under 5 s of work for the processor."""
    _, made, seconds = printed("demo")
    assert seconds < 5.0
    assert len(made) < 2_000_000


def test_the_contents_name_the_page_of_each_part() -> None:
    """The number beside each entry is the page on which its heading stands."""
    document = pypdfium2.PdfDocument(printed("demo")[1])
    first = document[0].get_textpage().get_text_range()
    for heading in HEADINGS[1:]:
        told = re.search(re.escape(heading) + r"\s*\.*\s*(\d+)", first)
        assert told, heading
        assert heading in words(document[int(told[1]) - 1])


def test_page_and_paper_hold_the_same() -> None:
    """Every check, step, blank, task and caution stands on both; the page has no style of its own."""
    paper, pdf, _ = printed("demo")
    page = paper_part(paper)
    whole = " ".join(words(one) for one in pypdfium2.PdfDocument(pdf))
    flat = re.sub(r"[\s\u2060￾-]+", "", whole)
    told = [one.topic.what for one in paper.plant.checks]
    told += [step.what for day in paper.days for step in day.steps]
    told += [line.what for sheet, _ in paper.sheets for line in sheet.lines]
    told += [line.task.what for line in paper.upkeep.tasks]
    told += [line.text.replace("{call}", "the fire service") for _, lines in paper.never for line in lines]
    for one in told:
        assert one.replace("'", "&#39;").replace('"', "&#34;") in page
        assert re.sub(r"[\s-]+", "", one) in flat, one
    assert "<style" not in page
    assert 'style="' not in page
    assert page.count("<svg") == 1


def test_figures_open_on_the_page_and_not_on_paper() -> None:
    """Each leads to its own workings."""
    paper = printed("demo")[0]
    page = paper_part(paper)
    assert 'href="/plant/why/loads.full_load_kwh"' in page
    for at, one in enumerate(paper.plant.checks):
        assert (f'href="/plant/why/checks.{at}.wanted"' in page) == (one.wanted is not None)


def test_every_note_has_its_source_and_says_how_it_is_known() -> None:
    """Numbers run on without a gap, as on the list; nothing from memory is passed off as read."""
    page = paper_part(printed("demo")[0])
    notes = {int(one) for one in re.findall(r"\[(\d+)\]</sup>", page)}
    listed = re.findall(r"<li>(.*?)</li>", page[page.index('class="sources"') :])
    assert notes == set(range(1, len(listed) + 1))
    assert any("from memory" in one for one in listed)
    assert any("common practice" in one for one in listed)


def test_a_place_of_which_nothing_is_told_still_gets_its_paper() -> None:
    """It says what is not known, and the sheet is there to be filled in."""
    _, pdf, _ = printed("blank")
    whole = " ".join(words(one) for one in pypdfium2.PdfDocument(pdf))
    assert "not told" in whole
    assert "not known" in whole
    assert "Pressed with cold water at" in whole


def test_a_name_with_quotes_and_brackets_stands_whole_at_the_foot() -> None:
    """It can break neither style nor page."""
    _, pdf, _ = printed("blank")
    assert HARD_NAME in words(pypdfium2.PdfDocument(pdf)[1])


def test_rules_of_another_nation_stand_on_its_paper() -> None:
    """With the nation's name, and since when they hold."""
    text = demo().document.replace('nation = "wales"', 'nation = "germany"')
    page = paper_part(paper_for(demo(text=text)))
    assert "Germany" in page
    assert "since 22 March 2010" in page


def test_what_was_planned_stands_beside_the_blank() -> None:
    """With its unit; nothing where nothing is told, and a wrong field is noticed."""
    holding = demo().holding
    assert planned(holding, "plant.water.vessel_charge_bar") == "1 bar"
    assert planned(holding, "plant.circuits[0].design_flow_c") == "55 °C"
    assert planned(holding, "plant.circuits[7].design_flow_c") == ""
    assert planned(holding, "plant.room.co_alarm_until") == "30 June 2028"
    assert planned(holding, "") == ""
    with pytest.raises(UnknownName):
        planned(holding, "plant.boiler.colour")


def test_every_blank_names_a_field_that_there_is() -> None:
    """And every step who does it, and where it stands."""
    holding = demo().holding
    for sheet in sheets():
        assert sheet.lines
        for line in sheet.lines:
            planned(holding, line.field)
    assert [day.title for day in days()][-1] == "Day 6: first fire"
    for day in days():
        for step in day.steps:
            assert step.source
    holds = [step.hold for day in days() for step in day.steps if step.hold]
    assert any("way out for heat" in hold for hold in holds)
    assert installing_gathered_on() >= date(2026, 1, 1)


def test_a_source_keeps_its_first_number() -> None:
    """The same source is not listed twice."""
    notes = Sources()
    assert [notes.number(one) for one in ("a", "b", "a")] == [1, 2, 1]
    assert notes.of_rule(rule("store_de_must")) == 3
    assert "Germany" in notes.listed[2]


def test_the_command_writes_the_demos_paper(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """In one go, without records; a file that is there stays."""
    file = tmp_path / "paper.pdf"
    main(["paper", "--demo", "--to", str(file)])
    assert "Written to" in capsys.readouterr().out
    assert "Aldermoor" in words(pypdfium2.PdfDocument(io.BytesIO(file.read_bytes()))[0])
    with pytest.raises(SystemExit) as ended:
        main(["paper", "--demo", "--to", str(file)])
    assert ended.value.code == 2
