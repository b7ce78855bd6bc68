"""Import every module of the installed package; say which one does not import, and why."""

import importlib
import pkgutil
import sys
from importlib.resources import files

import woodreeve

NOT_FOR_IMPORT = ".migrations."
"""Scripts that the migration tool runs inside its own surroundings."""


def main() -> int:
    """Return 0 where all is well."""
    if "site-packages" not in woodreeve.__path__[0]:
        print(f"this is not the installed package but {woodreeve.__path__[0]}")
        return 1
    if not files("woodreeve").joinpath("py.typed").is_file():
        print("py.typed is not in the wheel, so type checkers would not see the annotations")
        return 1
    names = [
        module.name
        for module in pkgutil.walk_packages(woodreeve.__path__, "woodreeve.")
        if NOT_FOR_IMPORT not in module.name
    ]
    bad = 0
    for name in names:
        try:
            importlib.import_module(name)
        except Exception as fault:
            print(f"{name}: {type(fault).__name__}: {fault}")
            bad += 1
    print(f"  {len(names) - bad} of {len(names)} modules import")
    return 1 if bad or not names else 0


if __name__ == "__main__":
    sys.exit(main())
