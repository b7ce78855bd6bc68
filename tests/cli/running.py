"""Runs the command in this process, and keeps what it said."""

from __future__ import annotations

import contextlib
import io
import json
from dataclasses import dataclass
from typing import Any

from woodreeve.cli.main import main


@dataclass(frozen=True)
class Ran:
    """What a command printed, and how it ended."""

    out: str
    err: str
    code: int

    def ok(self) -> Ran:
        """The same, after a look that it ended well."""
        assert self.code == 0, self.err
        return self

    def json(self) -> Any:
        """Its output as JSON."""
        return json.loads(self.ok().out)

    def refused(self) -> str:
        """The one sentence with which it refused."""
        assert self.code == 2, self
        assert "Traceback" not in self.err
        assert self.err.startswith("woodreeve: "), self.err
        return self.err.removeprefix("woodreeve: ").strip()


def run(*arguments: str) -> Ran:
    """Run ``woodreeve`` with these words."""
    out, err, code = io.StringIO(), io.StringIO(), 0
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            main(arguments)
        except SystemExit as ended:
            code = ended.code if isinstance(ended.code, int) else int(ended.code is not None)
    return Ran(out.getvalue(), err.getvalue(), code)
