"""The JSON resources /api/diary and /api/entries: read the diary, and add to it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from fastapi import APIRouter, Request
from pydantic import BaseModel, Field

from woodreeve.answers import diary
from woodreeve.diary.entry import Entry, entry_to_json
from woodreeve.diary.findings import Finding
from woodreeve.records.asking import Asking
from woodreeve.records.store import EntryState
from woodreeve.web.asking import Asked, HouseholdOf, remembered
from woodreeve.web.faults import FAULTS
from woodreeve.wording.entries import finding_words
from woodreeve.wording.sentences import sentence

__all__ = ["DiaryPage", "Outcome", "Outcomes", "page_of", "router"]

router = APIRouter(tags=["diary"], responses=FAULTS)

MOST_AT_ONCE = 500
"""Entries in one batch."""


class DiaryPage(BaseModel):
    """The diary, newest entry first."""

    sentence: str
    count: int
    entries: list[dict[str, Any]]
    findings: list[FoundInDiary]


class FoundInDiary(BaseModel):
    """Something to look at."""

    kind: str
    entry: str | None
    sentence: str

    @classmethod
    def of(cls, finding: Finding) -> FoundInDiary:
        """Put a finding into words."""
        return cls(kind=finding.kind, entry=finding.entry, sentence=finding_words(finding))


class Batch(BaseModel):
    """Entries as a telephone sends them."""

    entries: list[dict[str, Any]] = Field(max_length=MOST_AT_ONCE)


class Outcome(BaseModel):
    """What became of one entry."""

    id: str
    state: EntryState
    sentence: str


class Outcomes(BaseModel):
    """What became of each entry, in their order."""

    results: list[Outcome]


@router.get("/diary")
def show(request: Request, asking: Asked, skip: int = 0, most: int = 100) -> DiaryPage:
    """Read the diary."""
    answer = remembered(request, asking, diary.answer)
    shown = answer.latest[max(skip, 0) : max(skip, 0) + min(max(most, 0), MOST_AT_ONCE)]
    return page_of(asking, answer, shown)


def page_of(asking: Asking, answer: diary.DiaryAnswer, shown: Sequence[Entry]) -> DiaryPage:
    """Some entries of a diary with what is to be looked at, as this resource sends it."""
    return DiaryPage(
        sentence=sentence(answer.sentence, asking.measures),
        count=answer.count,
        entries=[entry_to_json(entry) for entry in shown],
        findings=[FoundInDiary.of(finding) for finding in answer.findings],
    )


@router.post("/entries")
def add(household: HouseholdOf, batch: Batch) -> Outcomes:
    """Add entries; sending them again changes nothing."""
    results = household.add_entries(batch.entries)
    return Outcomes(results=[Outcome(id=r.id, state=r.state, sentence=r.sentence) for r in results])
