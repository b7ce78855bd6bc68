"""The page /card: what to do when something goes wrong in the boiler room, and the same as a PDF."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import Response
from markupsafe import Markup

from woodreeve.papers.emergency_card import card_for, card_part, card_pdf
from woodreeve.web.asking import Asked, remembered
from woodreeve.web.render import page

__all__ = ["router"]

router = APIRouter()


@router.get("/card")
def show(request: Request, asking: Asked) -> Response:
    """Show the card."""
    card = remembered(request, asking, card_for)
    return page(request, "card.html", asking, part=Markup(card_part(card)))


@router.get("/card.pdf")
def pdf(request: Request, asking: Asked) -> Response:
    """Give the card as a PDF of one A5 page."""
    card = remembered(request, asking, card_for)
    name = f"emergency-card-{asking.holding.name}.pdf"
    headers = {"Content-Disposition": f'inline; filename="{name}"'}
    return Response(card_pdf(card), media_type="application/pdf", headers=headers)
