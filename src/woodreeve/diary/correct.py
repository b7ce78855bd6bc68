"""Corrections: what an entry says after all that was said about it since.

A correction names the first entry and carries its whole new content, or strikes it out. What stands
depends on which entries there are, never on the order in which they arrived.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from woodreeve.diary.entry import Entry, content_digest
from woodreeve.diary.findings import Finding
from woodreeve.diary.kinds import UnreadablePayload, read_payload
from woodreeve.diary.payloads_plant import Correction

__all__ = ["Standing", "corrected"]


@dataclass(frozen=True, slots=True)
class Standing:
    """An entry as it stands.

    Parameters
    ----------
    entry : Entry
        With the content that counts; its id is that of the first entry.
    corrected_by : str or None
        The id of the correction whose content this is.
    """

    entry: Entry
    corrected_by: str | None = None


@dataclass(frozen=True, slots=True)
class _Read:
    entry: Entry
    says: Correction


def corrected(entries: Iterable[Entry]) -> tuple[list[Standing], list[Finding]]:
    """Apply every correction to what it corrects.

    A correction of a correction counts for the first entry. One that has seen another replaces it;
    where two have not seen each other the later stands, by when it was entered and then by id, and a
    finding asks. One whose target is not there is kept as a finding.

    Parameters
    ----------
    entries : iterable of Entry
        All of them, corrections among them, in any order; the same one twice counts once.

    Returns
    -------
    standing : list of Standing
        The entries that were not struck out, corrections no longer among them, in no set order.
    findings : list of Finding
        What the owner should look at.
    """
    by_id, findings = _without_doubles(entries)
    corrections: dict[str, _Read] = {}
    plain: dict[str, Entry] = {}
    for entry in by_id.values():
        if entry.kind != "correction":
            plain[entry.id] = entry
            continue
        try:
            says = read_payload(entry)
        except UnreadablePayload as error:
            findings.append(Finding("not_understood", entry.id, sentence=str(error)))
            continue
        assert isinstance(says, Correction)
        corrections[entry.id] = _Read(entry, says)
    of_target: dict[str, list[_Read]] = {}
    for correction in corrections.values():
        target = _first_entry(correction, corrections)
        if target in plain:
            of_target.setdefault(target, []).append(correction)
        else:
            findings.append(Finding("unknown_target", correction.entry.id, others=(correction.says.target,)))
    standing = []
    for entry in plain.values():
        about = of_target.get(entry.id)
        if about is None:
            standing.append(Standing(entry))
            continue
        heads = _heads(about)
        last = max(heads, key=_age)
        if len(heads) > 1:
            others = tuple(head.entry.id for head in sorted(heads, key=_age))
            findings.append(Finding("two_corrections", entry.id, others=others))
        if not last.says.void:
            standing.append(Standing(_put_right(entry, last.says), last.entry.id))
    return standing, findings


def _age(correction: _Read) -> tuple[object, str]:
    return correction.entry.entered, correction.entry.id


def _first_entry(correction: _Read, corrections: dict[str, _Read]) -> str:
    """Follow a correction of a correction to what was corrected first."""
    target, passed = correction.says.target, set()
    while target in corrections and target not in passed:
        passed.add(target)
        target = corrections[target].says.target
    return target


def _heads(about: Sequence[_Read]) -> Sequence[_Read]:
    """The corrections that no other one has seen; all of them, should they go round in a circle."""
    seen = {name for one in about for name in (one.says.seen, *one.says.also_seen) if name != one.entry.id}
    return [one for one in about if one.entry.id not in seen] or about


def _put_right(entry: Entry, says: Correction) -> Entry:
    return replace(
        entry, form=says.form, payload=says.payload or {}, happened=says.happened or entry.happened
    )


def _without_doubles(entries: Iterable[Entry]) -> tuple[dict[str, Entry], list[Finding]]:
    """One entry for each id; where two differ, the one with the lower digest, which is as good as any."""
    by_id: dict[str, Entry] = {}
    differing: set[str] = set()
    for entry in entries:
        known = by_id.setdefault(entry.id, entry)
        if known is entry:
            continue
        digests = content_digest(known), content_digest(entry)
        if digests[0] != digests[1]:
            differing.add(entry.id)
            if digests[1] < digests[0]:
                by_id[entry.id] = entry
    return by_id, [Finding("same_id_other_content", known) for known in sorted(differing)]
