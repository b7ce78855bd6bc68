"""The date and the code behind measured figures, so that a table can say when it is older than its code."""

from __future__ import annotations

import hashlib
import json
import platform
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

__all__ = ["ROOT", "code_hash", "write"]

ROOT = Path(__file__).resolve().parent.parent


def code_hash(patterns: Sequence[str], root: Path = ROOT) -> str:
    """A digest of all files that figures depend on.

    Parameters
    ----------
    patterns : sequence of str
        Files and globs, from the top of the sources.
    root : Path
        The top of the sources.

    Returns
    -------
    str
        Sixteen hexadecimal digits.

    Raises
    ------
    FileNotFoundError
        If a pattern matches nothing, so that a file moved away is noticed.
    """
    digest = hashlib.sha256()
    for pattern in sorted(patterns):
        found = sorted(root.glob(pattern))
        if not found:
            raise FileNotFoundError(f"no file matches {pattern}")
        for path in found:
            digest.update(path.relative_to(root).as_posix().encode() + b"\0")
            digest.update(path.read_bytes())
    return digest.hexdigest()[:16]


def write(name: str, figures: Mapping[str, Any], code: Sequence[str]) -> Path:
    """Write figures to ``measured/``, with the day and the code they were measured with.

    Parameters
    ----------
    name : str
        Of the file, without its ending.
    figures : mapping
        What was measured, and in words how.
    code : sequence of str
        Patterns of the files that the figures depend on.

    Returns
    -------
    Path
        The file.
    """
    stamp = {
        "date": datetime.now(tz=UTC).date().isoformat(),
        "python": platform.python_version(),
        "code": {"files": sorted(code), "hash": code_hash(code)},
    }
    target = ROOT / "measured" / f"{name}.json"
    target.parent.mkdir(exist_ok=True)
    target.write_text(json.dumps({**figures, **stamp}, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    return target
