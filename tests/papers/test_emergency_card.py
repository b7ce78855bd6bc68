"""The emergency card: one A5 page that holds for every nation and plant, each line with its source."""

from __future__ import annotations

import builtins
from dataclasses import replace
from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import Any, get_args

import numpy as np
import pypdfium2
import pytest

from woodreeve.cli.main import main
from woodreeve.errors import Refused
from woodreeve.holding.demo import demo_holding_text
from woodreeve.holding.document import Holding, Nation
from woodreeve.holding.toml import load
from woodreeve.papers.emergency_card import Card, card_of, card_part, card_pdf
from woodreeve.papers.printing import one_page_pdf, save
from woodreeve.plant.cautions import cautions_gathered_on, emergency_of, situations
from woodreeve.plant.fields import HeatEscape

TODAY = date(2026, 1, 13)
A5_PT = (419.5, 595.3)
MARGIN_PT = 7.0 / 25.4 * 72.0


def aldermoor(nation: Nation | None = "wales", **plant: Any) -> Holding:
    """The demo holding, in another nation or with another plant."""
    holding = load(demo_holding_text())
    place = replace(holding.place, nation=nation)
    return replace(holding, place=place, plant=replace(holding.plant, **plant))


def fullest() -> Card:
    """A card with as much on it as there can be."""
    holding = aldermoor(
        "austria", heat_escapes=(HeatEscape(kind="thermal_discharge", supply="electric_pump"),)
    )
    called = "The Old Forester's Farmhouse at the End of the Long Valley"
    return card_of(replace(holding, title=called), TODAY)


@lru_cache(maxsize=8)
def printed(which: str) -> tuple[Card, bytes]:
    """A card and its PDF, set once for all tests."""
    card = {
        "demo": lambda: card_of(aldermoor(), TODAY),
        "no nation": lambda: card_of(aldermoor(None), TODAY),
        "fullest": fullest,
    }[which]()
    return card, card_pdf(card)


def words(pdf: bytes) -> str:
    """All text of a PDF's first page, its line ends as blanks."""
    page = pypdfium2.PdfDocument(pdf)[0]
    return " ".join(page.get_textpage().get_text_range().split())


@pytest.mark.parametrize("which", ["demo", "no nation", "fullest"])
def test_it_is_one_a5_page_with_nothing_cut_off(which: str) -> None:
    """The last word is on it, and nothing is inked outside the margins."""
    card, pdf = printed(which)
    document = pypdfium2.PdfDocument(pdf)
    assert len(document) == 1
    assert document[0].get_size() == pytest.approx(A5_PT, abs=0.3)
    text = words(pdf)
    assert "Advice only." in text
    for source in card.sources:
        assert source.split(",")[0] in text
    ink = np.asarray(document[0].render(scale=2).to_pil().convert("L")) < 128
    rows, columns = np.flatnonzero(ink.any(axis=1)), np.flatnonzero(ink.any(axis=0))
    edge = 2 * MARGIN_PT - 2
    assert rows[0] > edge
    assert columns[0] > edge
    assert rows[-1] < ink.shape[0] - edge
    assert columns[-1] < ink.shape[1] - edge
    assert ink.mean() > 0.05


def test_it_is_black_on_white() -> None:
    """A printer without colour loses nothing: every pixel is grey."""
    page = pypdfium2.PdfDocument(printed("demo")[1])[0]
    picture = np.asarray(page.render(scale=1).to_pil().convert("RGB"))
    assert np.all(picture.max(axis=2) == picture.min(axis=2))


def test_every_line_of_advice_is_on_it_with_its_source() -> None:
    """And what is judgement says so."""
    card = card_of(aldermoor(), TODAY)
    page = card_part(card)
    for part in situations():
        assert part.do
        assert part.never
        for line in (*part.do, *part.never):
            assert line.source
            assert line.text.replace("{call}", "999").split("“")[0].replace("'", "&#39;") in page
    marked = sum(line.read != "read" for part in card.parts for line in (*part.do, *part.never))
    assert page.count("*</sup>") == marked > 0
    assert "{call}" not in page
    assert 'style="' not in page


@pytest.mark.parametrize("nation", [*get_args(Nation), None])
def test_each_nation_has_its_number_or_is_asked_for_it(nation: Nation | None) -> None:
    """No number is invented."""
    card = card_of(aldermoor(nation), TODAY)
    if nation in ("other", None):
        assert card.call == ""
        assert "ask your fire service for its number" in card_part(card)
        assert "call the fire service" in card_part(card)
    else:
        found = emergency_of(nation)
        assert found is not None
        assert f"Emergency: {found.call}" in card_part(card)
        assert card.call_source.startswith(found.source)


def test_what_is_on_record_about_heat_without_power_stands_on_it() -> None:
    """And a discharge on an electric pump is warned of where it matters."""
    assert "tested on 18 September 2025" in card_of(aldermoor(), TODAY).escape
    bare = card_of(aldermoor(heat_escapes=()), TODAY)
    assert bare.escape.startswith("Nobody has told how")
    assert [part.warning for part in bare.parts] == [""] * 6
    assert "electric pump" in fullest().parts[0].warning
    assert "52.4000° north, 3.5000° west" in card_part(bare)


def test_the_card_says_when_its_advice_was_gathered() -> None:
    """Numbers and advice change."""
    assert f"Gathered {cautions_gathered_on().day} " in card_part(card_of(aldermoor(), TODAY))


def test_a_paper_that_does_not_fit_is_refused() -> None:
    """Better none than one whose last line is missing."""
    card = card_of(aldermoor(), TODAY)
    too_much = replace(card, parts=card.parts * 3)
    with pytest.raises(Refused, match="more on it than one page holds"):
        card_pdf(too_much)


def test_missing_libraries_are_told_in_one_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    """With the packages to install."""
    real = builtins.__import__

    def without(name: str, *others: Any, **more: Any) -> Any:
        if name == "weasyprint":
            raise OSError("cannot load library 'libpango-1.0-0'")
        return real(name, *others, **more)

    monkeypatch.setattr(builtins, "__import__", without)
    with pytest.raises(Refused, match="apt install libpango"):
        one_page_pdf("card.html", (8.0,), card=card_of(aldermoor(), TODAY), paper=True)


def test_a_file_that_is_there_is_not_written_over_unasked(tmp_path: Path) -> None:
    """Nor a folder that is not there made."""
    file = tmp_path / "card.pdf"
    save(b"one", file)
    with pytest.raises(Refused, match="exists already"):
        save(b"two", file)
    assert file.read_bytes() == b"one"
    save(b"two", file, replace=True)
    assert file.read_bytes() == b"two"
    with pytest.raises(Refused, match="cannot be written"):
        save(b"three", tmp_path / "no" / "card.pdf")


def test_the_command_writes_the_demos_card(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """In one go, without records."""
    file = tmp_path / "card.pdf"
    main(["card", "--demo", "--to", str(file)])
    assert "Written to" in capsys.readouterr().out
    assert "Aldermoor" in words(file.read_bytes())
    with pytest.raises(SystemExit) as ended:
        main(["card", "--demo", "--to", str(file)])
    assert ended.value.code == 2
    assert "exists already" in capsys.readouterr().err
