"""A name for the folder of compiled kernels, so that stale machine code can never be run.

The compiler's own cache looks only at the file in which a kernel stands, not at the files it calls.
The folder's name therefore holds a hash of every source that goes into a kernel, the compiler's
version, and what kind of processor the code is made for. Making the folder, and telling the compiler of
it before anything of the season is imported, is for the faces to do.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from importlib.metadata import version
from importlib.resources import files

__all__ = ["SOURCES", "host_processor", "kernel_cache_folder", "kernel_cache_name", "sources_digest"]

SOURCES = (
    "woodreeve.season",
    "woodreeve.plant.boiler",
    "woodreeve.plant.layers",
    "woodreeve.plant.radiators",
    "woodreeve.wood",
    "woodreeve.firing",
)
"""Packages and modules whose text goes into kernels: the kernels, and the formulas they compile."""


def sources_digest(sources: Iterable[str] = SOURCES) -> str:
    """A hash of the text of all modules in these packages."""
    digest = hashlib.sha256()
    for source in sources:
        package, _, name = source.rpartition(".")
        place = files(package).joinpath(name)
        if place.is_dir():
            texts = sorted(
                (item for item in place.iterdir() if item.name.endswith(".py")), key=lambda item: item.name
            )
        else:
            texts = [files(package).joinpath(f"{name}.py")]
        for text in texts:
            digest.update(text.name.encode())
            digest.update(b"\0")
            digest.update(text.read_bytes())
            digest.update(b"\0")
    return digest.hexdigest()


def kernel_cache_name(processor: str, sources: Iterable[str] = SOURCES) -> str:
    """The name of the folder for compiled kernels.

    Parameters
    ----------
    processor : str
        What kind of processor this is; the caller finds it out.
    sources : iterable of str
        Packages and modules that go into kernels.

    Returns
    -------
    str
        A name to be joined to the user's cache folder.

    Examples
    --------
    >>> kernel_cache_name("any")[:8]
    'kernels-'
    """
    libraries = (version("numba"), version("numpy"), version("llvmlite"))
    stamp = "\n".join((sources_digest(sources), *libraries, processor))
    return "kernels-" + hashlib.sha256(stamp.encode()).hexdigest()[:20]


def kernel_cache_folder(base: str, processor: str | None = None) -> str:
    """The folder for compiled kernels under a base folder, to be made and named in ``NUMBA_CACHE_DIR``.

    Parameters
    ----------
    base : str
        The user's cache folder for woodreeve.
    processor : str, optional
        What kind of processor this is; found out when not given.

    Returns
    -------
    str
        Path of the folder.
    """
    return f"{base.rstrip('/')}/{kernel_cache_name(processor or host_processor())}"


def host_processor() -> str:
    """What kind of processor compiled code is made for here, with its abilities."""
    from llvmlite import binding  # type: ignore[import-untyped]  # it ships no annotations

    able = sorted(name for name, has in binding.get_host_cpu_features().items() if has)
    return " ".join((binding.get_process_triple(), binding.get_host_cpu_name(), *able))
