"""The records as the faces see them: add entries, read the diary, save and find a holding's description."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from datetime import datetime
from pathlib import Path
from threading import Lock
from types import TracebackType
from typing import Any

from sqlalchemy import Delete, Engine, Table, delete, func, insert, select

from woodreeve.diary.entry import Entry, moment_from_json, order_of
from woodreeve.errors import Refused, UnknownName, Unreadable
from woodreeve.records.arrivals import EntryResult, EntryState, read_sent, take_in
from woodreeve.records.connect import (
    Address,
    address_of,
    connected,
    engine_for,
    overwrite_log,
    wait_for_turn,
    writing,
)
from woodreeve.records.rows import entry_of
from woodreeve.records.tables import conflicts, contacts, entries, holdings
from woodreeve.records.upgrade import bring_up_to_date
from woodreeve.records.versions import (
    HoldingVersion,
    StaleHolding,
    names_of,
    newest,
    row_of_version,
    true_at,
    versions_of,
)

__all__ = ["EntryResult", "EntryState", "HoldingVersion", "Records", "StaleHolding"]


class Records:
    """The records at one address, open.

    Use :meth:`open`, and close after use, or in a ``with`` statement. One object may be used by
    several threads.
    """

    def __init__(self, engine: Engine, address: Address) -> None:
        self._engine = engine
        self.address = address
        self._lock = Lock()
        self._diaries: dict[str, tuple[int, tuple[Entry, ...]]] = {}

    @classmethod
    def open(cls, where: str | Path | None = None) -> Records:
        """Open records, making or upgrading them as needed.

        Parameters
        ----------
        where : str or Path, optional
            A file, or a URL of a PostgreSQL database; the file in the user's data folder if left out.

        Returns
        -------
        Records
            Ready for use.

        Raises
        ------
        Refused
            If they cannot be opened, or were written by a newer program; in one sentence.
        """
        address = address_of(where)
        if address.path is not None:
            try:
                address.path.parent.mkdir(parents=True, exist_ok=True)
            except OSError as error:
                sentence = f"The folder {address.path.parent} cannot be made: {error.strerror}."
                raise Refused(sentence) from error
        engine = engine_for(address)
        try:
            bring_up_to_date(engine, address)
        except BaseException:
            engine.dispose()
            raise
        return cls(engine, address)

    def close(self) -> None:
        """Close all connections."""
        self._engine.dispose()

    def __enter__(self) -> Records:
        """Stay open for the length of a ``with`` block."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, traceback: TracebackType | None
    ) -> None:
        """Close."""
        self.close()

    def add_entries(
        self, holding: str, given: Iterable[Entry | Mapping[str, Any]], *, arrived: datetime
    ) -> list[EntryResult]:
        """Add entries to a diary, all in one transaction; sending them again changes nothing.

        Parameters
        ----------
        holding : str
            The holding they belong to.
        given : iterable of Entry or mapping
            Entries, or JSON objects as a telephone sends them.
        arrived : datetime
            Now, with its offset.

        Returns
        -------
        list of EntryResult
            What became of each, in their order.

        Raises
        ------
        Refused
            If the records cannot be written; then none was kept.
        Unreadable
            If ``arrived`` has no offset.
        """
        arrived = moment_from_json(arrived, "arrived")
        read = [read_sent(holding, one) for one in given]
        good = [entry for entry in read if isinstance(entry, Entry)]
        if not good:
            return [one for one in read if isinstance(one, EntryResult)]
        with writing(self._engine, self.address) as connection:
            wait_for_turn(connection)
            results = iter(take_in(connection, good, arrived))
        return [next(results) if isinstance(one, Entry) else one for one in read]

    def entries(self, holding: str) -> tuple[Entry, ...]:
        """Read a diary, in the order in which things happened.

        Rows never change, so only what came since the last call is read from the database.

        Parameters
        ----------
        holding : str
            The holding.

        Returns
        -------
        tuple of Entry
            All entries, corrections and those not understood included.
        """
        with self._lock:
            last, known = self._diaries.get(holding, (0, ()))
            with connected(self._engine, self.address) as connection:
                rows = connection.execute(
                    select(entries)
                    .where(entries.c.holding == holding, entries.c.seq > last)
                    .order_by(entries.c.seq)
                ).all()
            if rows:
                last = rows[-1].seq
                known = tuple(sorted((*known, *map(entry_of, rows)), key=order_of))
                self._diaries[holding] = last, known
            return known

    def conflicts(self, holding: str) -> tuple[Entry, ...]:
        """Entries that came with the id of another one and say something else, in the order of arrival."""
        return self._all_of(conflicts, holding)

    def last_entry(self, holding: str) -> str:
        """A mark that changes with every entry added to a diary, for the keys of caches; empty for none."""
        with connected(self._engine, self.address) as connection:
            newest = select(func.max(entries.c.seq)).where(entries.c.holding == holding).scalar_subquery()
            row = connection.execute(
                select(entries.c.seq, entries.c.digest).where(entries.c.seq == newest)
            ).first()
        return "" if row is None else f"{row.seq}-{row.digest[:12]}"

    def save_holding(
        self,
        name: str,
        document: str,
        *,
        based_on: int | None,
        valid_from: datetime,
        entered: datetime,
        by: str,
    ) -> HoldingVersion:
        """Save a holding's description as a new version.

        A slip that is put right keeps its ``valid_from``; a change of the house or plant gets a new one.
        Saving once more what is there already makes no new version.

        Parameters
        ----------
        name : str
            The holding.
        document : str
            Its description in TOML; checked by the caller.
        based_on : int or None
            The version that was changed; ``None`` for a new holding.
        valid_from : datetime
            Since when it is true.
        entered : datetime
            Now.
        by : str
            Who saves it.

        Returns
        -------
        HoldingVersion
            As it is kept.

        Raises
        ------
        StaleHolding
            If another version was saved meanwhile; carries both.
        Unreadable
            If a moment has no offset, or the name is not in order.
        Refused
            If the records cannot be written.
        """
        if not name.strip() or len(name) > 64 or not name.isprintable():
            raise Unreadable(f"name is {name!r:.70}, but must be a text of 1 to 64 characters.")
        valid_from = moment_from_json(valid_from, "valid_from")
        entered = moment_from_json(entered, "entered")
        with writing(self._engine, self.address) as connection:
            wait_for_turn(connection)
            stored = newest(connection, name)
            if stored is not None and (stored.document, stored.valid_from) == (document, valid_from):
                return stored
            if based_on != (None if stored is None else stored.version):
                if stored is None:
                    raise UnknownName("holding", name, names_of(connection))
                raise StaleHolding(stored, document, based_on)
            saved = HoldingVersion(
                name=name,
                version=1 if stored is None else stored.version + 1,
                based_on=based_on,
                valid_from=valid_from,
                entered=entered,
                by=by,
                document=document,
            )
            connection.execute(insert(holdings).values(row_of_version(saved)))
        return saved

    def holding_at(self, name: str, moment: datetime) -> HoldingVersion:
        """Find the description that was true at a moment.

        Parameters
        ----------
        name : str
            The holding.
        moment : datetime
            The moment asked about.

        Returns
        -------
        HoldingVersion
            Of those valid since before the moment, the one valid last, as it was last put right; before
            the first of them, the earliest there is.

        Raises
        ------
        UnknownName
            If there is no such holding.
        """
        moment = moment_from_json(moment, "moment")
        return true_at(self.holding_versions(name), moment)

    def holding_newest(self, name: str) -> HoldingVersion:
        """Find the version saved last: the one to change.

        Raises
        ------
        UnknownName
            If there is no such holding.
        """
        return self.holding_versions(name)[-1]

    def holding_versions(self, name: str) -> tuple[HoldingVersion, ...]:
        """All versions of a holding, in the order of saving.

        Raises
        ------
        UnknownName
            If there is no such holding.
        """
        with connected(self._engine, self.address) as connection:
            found = versions_of(connection, name)
            if not found:
                raise UnknownName("holding", name, names_of(connection))
        return found

    def holdings(self) -> tuple[str, ...]:
        """The names of all holdings."""
        with connected(self._engine, self.address) as connection:
            return names_of(connection)

    def save_contact(self, holding: str, customer: str, details: Mapping[str, Any]) -> None:
        """Keep how a customer is reached; what was kept before is overwritten."""
        with writing(self._engine, self.address) as connection:
            connection.execute(_of_customer(holding, customer))
            row = {"holding": holding, "customer": customer, "details": json.dumps(details, sort_keys=True)}
            connection.execute(insert(contacts).values(row))

    def contacts(self, holding: str) -> dict[str, dict[str, Any]]:
        """How each customer is reached."""
        with connected(self._engine, self.address) as connection:
            query = select(contacts).where(contacts.c.holding == holding).order_by(contacts.c.customer)
            return {row.customer: json.loads(row.details) for row in connection.execute(query)}

    def erase_contact(self, holding: str, customer: str) -> bool:
        """Erase how a customer is reached; tells whether there was anything.

        In a file the old text is overwritten too. Backups made before still hold it.
        """
        with writing(self._engine, self.address) as connection:
            erased = connection.execute(_of_customer(holding, customer)).rowcount > 0
        if erased:
            overwrite_log(self._engine, self.address)
        return erased

    def _all_of(self, table: Table, holding: str) -> tuple[Entry, ...]:
        with connected(self._engine, self.address) as connection:
            query = select(table).where(table.c.holding == holding).order_by(table.c.seq)
            return tuple(entry_of(row) for row in connection.execute(query))


def _of_customer(holding: str, customer: str) -> Delete:
    return delete(contacts).where(contacts.c.holding == holding, contacts.c.customer == customer)
