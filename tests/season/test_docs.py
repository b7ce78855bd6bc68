"""What the docs must say plainly about the simulation."""

import re
from pathlib import Path

PAGE = Path(__file__).resolve().parents[2] / "docs" / "explanation" / "season.md"


def test_the_docs_say_what_the_simulation_was_not_compared_with() -> None:
    """Neither tank nor burn was measured; fineness and speed stand as measured, by include."""
    text = re.sub(r"\s+", " ", PAGE.read_text(encoding="utf-8"))
    assert "The store model has not been compared with a measured tank" in text
    assert "nor the boiler model with a measured burn" in text
    for table in ("convergence", "bench_kernel"):
        assert f"{{include}} ../_tables/{table}.md" in text
