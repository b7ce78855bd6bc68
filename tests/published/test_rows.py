"""Every published row against the function it speaks of."""

from collections import Counter

import pytest

from tests.published import table
from tests.published.sheets import STATUSES, Row, bound_rows, misprints, rows, unbound


@pytest.mark.parametrize("row", [pytest.param(row, id=row.id) for row in bound_rows()])
def test_agrees_with_the_printed_row(row: Row) -> None:
    """Agrees with its source within the sheet's tolerance."""
    assert row.answer() == (
        row.expected if row.unit == "text" else pytest.approx(row.expected, rel=1e-12, abs=row.tolerance)
    ), row.source


@pytest.mark.parametrize("row", [pytest.param(row, id=row.id) for row in misprints()])
def test_deviates_from_a_row_believed_misprinted(row: Row) -> None:
    """A misprint stays as printed, and we do not reproduce it."""
    assert row.answer() != pytest.approx(row.expected, rel=1e-12, abs=row.tolerance), row.source


def test_every_row_is_bound_or_says_why_not() -> None:
    """No row is passed over in silence."""
    silent = {row.id for row in rows() if not row.function} ^ set(unbound())
    assert not silent, f"without a function and without a reason, or the other way round: {sorted(silent)}"
    assert all(len(reason) > 20 for reason in unbound().values())


def test_rows_are_named_once_and_have_a_source_and_a_status() -> None:
    """The sheets keep their own rules."""
    assert [name for name, times in Counter(row.id for row in rows()).items() if times > 1] == []
    assert [row.id for row in rows() if not row.source or row.status not in STATUSES] == []
    assert [row.id for row in rows() if row.marker not in ("", "misprint")] == []


def test_the_page_of_checks_is_not_stale() -> None:
    """The page in the docs is what the sheets give now."""
    written = table.PAGE.read_text(encoding="utf-8") if table.PAGE.exists() else ""
    assert written == table.page(), "run: python -m tests.published.table"


def test_the_page_counts_the_four_statuses_apart_and_lists_what_is_unbound() -> None:
    """Only printed rows count as outside checks, and the page says how many there are."""
    page = table.page()
    for status in STATUSES:
        of_status = [row for row in bound_rows() if row.status == status]
        assert f"| {table.WORDS[status]} | {len(of_status)} |" in page
    assert all(name in page and table.cell(reason) in page for name, reason in unbound().items())
