"""The page /plant/paper: the paper for the installer and for the file, and the same as a PDF."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import Response
from markupsafe import Markup

from woodreeve.papers.installer import InstallerPaper, paper_for, paper_part, paper_pdf
from woodreeve.records.asking import Asking
from woodreeve.web.asking import Asked, remembered
from woodreeve.web.render import page

__all__ = ["router"]

router = APIRouter()


def _on_page(asking: Asking) -> InstallerPaper:
    """The paper with its drawing in the page's own ink."""
    return paper_for(asking, ink="currentColor")


@router.get("/plant/paper")
def show(request: Request, asking: Asked) -> Response:
    """Show the paper as a page."""
    return page(
        request, "paper.html", asking, called=asking.holding.called, part=Markup(paper_part(_on_page(asking)))
    )


@router.get("/plant/paper.pdf")
def pdf(request: Request, asking: Asked) -> Response:
    """Give the paper as a PDF of A4 pages."""
    made = paper_pdf(remembered(request, asking, paper_for))
    name = f"installer-{asking.holding.name}.pdf"
    headers = {"Content-Disposition": f'inline; filename="{name}"'}
    return Response(made, media_type="application/pdf", headers=headers)
