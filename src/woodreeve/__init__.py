"""Wood, store and house: planning and accounts for those who heat with their own logs."""

__all__ = ["__version__"]


def __getattr__(name: str) -> str:
    """Read the version from the installed package, only when someone asks for it."""
    if name == "__version__":
        from importlib.metadata import version

        return version("woodreeve")
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
