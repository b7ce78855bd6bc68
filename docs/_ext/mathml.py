"""Equations as MathML: browsers show them by themselves, so the pages need no script and no network."""

from typing import Any

from docutils import nodes
from docutils.utils.math.latex2mathml import tex2mathml
from sphinx.application import Sphinx


def _visit_inline(self: Any, node: nodes.math) -> None:
    self.body.append(tex2mathml(node.astext(), as_block=False))
    raise nodes.SkipNode


def _visit_block(self: Any, node: nodes.math_block) -> None:
    self.body.append(self.starttag(node, "div", CLASS="math"))
    for part in node.astext().split("\n\n"):
        self.body.append(tex2mathml(part, as_block=True))
    self.body.append("</div>\n")
    raise nodes.SkipNode


def setup(app: Sphinx) -> dict[str, Any]:
    """Offer `mathml` as a way to write equations."""
    app.add_html_math_renderer("mathml", (_visit_inline, None), (_visit_block, None))
    return {"parallel_read_safe": True, "parallel_write_safe": True}
