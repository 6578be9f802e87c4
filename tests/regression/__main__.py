"""`python -m tests.regression`: stored answers against today's, and the one way to change one.

python -m tests.regression                            what differs; exit 1 if anything does
python -m tests.regression --accept ID --why REASON   store today's answer; the changelog must say it first
python -m tests.regression --store CASE.yaml          store the cases of a file that are not stored yet
"""

from __future__ import annotations

import argparse
import sys

from structure.core.cases.files import find_files, read_cases
from structure.core.version import CORE_VERSION
from tests.published.kernels import FOLDER as SHIPPED
from tests.regression.stored import (
    CHANGELOG,
    FIRST,
    Stored,
    accept,
    answer_today,
    differences,
    stored,
)


def main() -> int:
    """Exit 0: nothing differs, or it was stored; 1: something differs, or may not be stored."""
    parser = argparse.ArgumentParser(prog="python -m tests.regression", description=__doc__.splitlines()[0])
    parser.add_argument("--accept", metavar="ID")
    parser.add_argument("--why", metavar="REASON", help="the words of the changelog's line")
    parser.add_argument(
        "--store", metavar="ID", nargs="+", help="shipped cases by name, without a stored answer"
    )
    asked = parser.parse_args()
    if asked.store:
        return _store(asked.store)
    if asked.accept:
        if not asked.why:
            parser.error("--accept needs --why")
        trouble = accept(asked.accept, asked.why, CHANGELOG.read_text(encoding="utf-8"))
        print(trouble or f"{asked.accept} is stored as of {CORE_VERSION}")  # noqa: T201
        return 1 if trouble else 0
    found = [f"{held.id}: {line}" for held in stored() for line in differences(held, answer_today(held.case))]
    print("\n".join([*found, f"{len(found)} differences in {len(stored())} stored answers"]))  # noqa: T201
    return 1 if found else 0


def _store(names: list[str]) -> int:
    held = {each.id for each in stored()}
    shipped = {str(case["id"]): case for path in find_files([SHIPPED]) for case in read_cases(path)}
    for name in names:
        if name in held or name not in shipped:
            print(f"{name} {'is stored already' if name in held else 'is no shipped case'}")  # noqa: T201
            return 1
        asked = {
            key: shipped[name][key] for key in ("kind", "code", "edition", "given") if key in shipped[name]
        }
        Stored(name, CORE_VERSION, FIRST, asked, answer_today(asked)).write()
        print(f"{name} is stored")  # noqa: T201
    return 0


if __name__ == "__main__":
    sys.exit(main())
