"""The demonstration holding, asked."""

from __future__ import annotations

import json
from datetime import datetime
from typing import Any

from pydantic import TypeAdapter

from woodreeve.holding.demo import DEMO_MOMENT, demo_entries, demo_holding_text
from woodreeve.records.asking import Asking


def demo(moment: datetime = DEMO_MOMENT, text: str | None = None) -> Asking:
    """Ask about Aldermoor at a moment."""
    return Asking(text or demo_holding_text(), moment, entries=demo_entries())


def plain(answer: Any) -> Any:
    """An answer as plain values, whatever made it."""
    adapter: TypeAdapter[Any] = TypeAdapter(type(answer))
    return json.loads(adapter.dump_json(answer))
