"""The pages /diary: what happened, and forms to write it down."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import groupby
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import Response

from woodreeve.answers import diary
from woodreeve.diary.forms import lifted
from woodreeve.diary.kinds import KINDS, current_form
from woodreeve.errors import UnknownName
from woodreeve.web.asking import Asked, remembered
from woodreeve.web.entry_forms import (
    COMMON,
    entry_fields,
    first_and_rest,
    known_names,
    summary_of,
    usual_values,
)
from woodreeve.web.render import page

__all__ = ["router"]

router = APIRouter()

AT_A_TIME = 30


@router.get("/diary")
def show(request: Request, asking: Asked, skip: int = 0) -> Response:
    """Show the diary, newest first."""
    answer = remembered(request, asking, diary.answer)
    skip = min(max(skip, 0), answer.count)
    shown = answer.latest[skip : skip + AT_A_TIME]
    return page(
        request,
        "diary.html",
        asking,
        answer=answer,
        days=[(day, list(of_day)) for day, of_day in groupby(shown, lambda entry: entry.happened.date())],
        next_skip=skip + AT_A_TIME if skip + AT_A_TIME < answer.count else None,
        common=COMMON,
        kinds=tuple(kind for kind in KINDS if kind != "correction"),
    )


@router.get("/diary/entry/{entry_id}")
def put_right(request: Request, asking: Asked, entry_id: str) -> Response:
    """Show one entry, and a form to put it right."""
    history = diary.history(asking, entry_id)
    if not history or history[0].kind not in KINDS:
        raise UnknownName("entry", entry_id, ())
    entry, fixes = history[0], history[1:]
    last = next((fix for fix in reversed(fixes) if fix.payload.get("payload")), None)
    told: Mapping[str, Any] = last.payload if last else {"form": entry.form, "payload": entry.payload}
    return page(
        request,
        "diary_entry.html",
        asking,
        entry=entry,
        fields=entry_fields(entry.kind, asking.holding.prices.currency),
        payload=lifted(entry.kind, told["form"], told["payload"]),
        form=current_form(entry.kind),
        seen=fixes[-1].id if fixes else None,
        names=known_names(asking),
    )


@router.get("/diary/{kind}")
def write(request: Request, asking: Asked, kind: str) -> Response:
    """Show the form for one kind of entry."""
    first, rest = first_and_rest(kind, asking.holding.prices.currency)
    return page(
        request,
        "diary_kind.html",
        asking,
        kind=kind,
        form=current_form(kind),
        summary=summary_of(kind),
        first=first,
        rest=rest,
        begin=usual_values(kind, asking, request.query_params),
        names=known_names(asking),
    )
