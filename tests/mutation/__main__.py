"""`python -m tests.mutation`: put faults into the engine and see whether anything notices.

python -m tests.mutation                    every formula; prints faults that no printed number sees
python -m tests.mutation --changed [BASE]   formulas of modules that differ from BASE (the commit of RESULTS.md if
                                            left out), those changed last first, for --seconds at most; exit 1 for
                                            a fault nobody has reviewed
python -m tests.mutation --write            every formula, and RESULTS.md anew; --without codes.ca leaves some out;
                                            --functions DIR --at COMMIT takes in what `mutmut run` left in DIR
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from pathlib import Path

from tests.mutation import changes, formulas, functions, reviewed
from tests.published import kernels

STANDINGS = ("published", "common practice", "memory")


def main() -> int:
    """Exit 0: every fault is seen or reviewed; 1: there is a new one; 2: the base is unknown."""
    parser = argparse.ArgumentParser(prog="python -m tests.mutation", description=__doc__.splitlines()[0])
    parser.add_argument(
        "--changed", metavar="BASE", nargs="?", const="", help="only modules that differ from this commit"
    )
    parser.add_argument(
        "--seconds", type=float, default=150.0, help="time for --changed; the rest is left out"
    )
    parser.add_argument("--without", metavar="PART", help="leave out modules with this in their name")
    parser.add_argument("--write", action="store_true", help="write RESULTS.md")
    parser.add_argument("--functions", type=Path, metavar="DIR", help="the folder `mutants` of a mutmut run")
    parser.add_argument("--at", metavar="COMMIT", default="", help="commit of that run")
    asked = parser.parse_args()
    names = [name for name in kernels.formulas() if not asked.without or asked.without not in name]
    if asked.changed is not None:
        base = asked.changed or changes.base()
        if not base:
            print("No commit to compare with is here (a shallow clone, or none): nothing was tried.")  # noqa: T201
            return 0
        if not changes.known(base):
            print(f"there is no commit {base} here", file=sys.stderr)  # noqa: T201
            return 2
        names = _of_modules(names, changes.modules(base))
        print(f"Since {base}: {len(names)} formulas in modules that changed.", flush=True)  # noqa: T201
    return _run(names, asked)


def _of_modules(names: list[str], modules: list[str]) -> list[str]:
    """The formulas of these modules, in the order of the modules."""
    place = {module: n for n, module in enumerate(modules)}
    module = {name: kernels.formulas()[name].function.__module__ for name in names}
    return sorted((name for name in names if module[name] in place), key=lambda name: place[module[name]])


def _run(names: list[str], asked: argparse.Namespace) -> int:
    found, new = [], 0
    for each in formulas.outcomes(names, asked.seconds if asked.changed is not None else float("inf")):
        found.append(each)
        if each.survives and not reviewed.reason_for_formula(each.formula, each.text):
            new += 1
            print(f"unseen: {each.formula}: {each.text}", flush=True)  # noqa: T201
    told = len({each.formula for each in found})
    print(f"{len(found)} faults in {told} of {len(names)} formulas; {_share(found)}; {new} new")  # noqa: T201
    if asked.write:
        parts = [_formula_part(found, asked.without)]
        if asked.functions:
            parts.append(_function_part(asked.functions, asked.at))
        changes.RESULTS.write_text(_head() + "\n".join(parts))
    return 1 if new else 0


def _share(found: list[formulas.Outcome]) -> str:
    count = Counter(each.seen_by or "unseen" for each in found)
    return ", ".join(f"{word} {count[word]}" for word in (*STANDINGS, "unseen"))


def _head() -> str:
    written = f"At commit {changes.short_head()}. Written by `python -m tests.mutation --write`."
    return f"# Faults put into the engine\n\n{written}\n\n"


def _formula_part(found: list[formulas.Outcome], without: str | None) -> str:
    lines = [
        f"## Formulas{f', without {without}' if without else ''}",
        "",
        "Each fault is in the printed text and the function alike, so only a printed number can see it. Counted by",
        "the best standing among the sources that do. Unseen ones are in `survivors.toml`, each with its reason.",
        "",
        "| module | formulas | faults | published | common practice | memory | unseen |",
        "| --- | --: | --: | --: | --: | --: | --: |",
    ]
    modules: dict[str, list[formulas.Outcome]] = {}
    for each in found:
        modules.setdefault(each.formula.rsplit(".", 1)[0].removeprefix("structure.core."), []).append(each)
    for module, held in [*sorted(modules.items()), ("all", found)]:
        count = Counter(each.seen_by for each in held)
        numbers = [
            len({each.formula for each in held}),
            len(held),
            *(count[word] for word in (*STANDINGS, "")),
        ]
        lines.append(f"| {module} | {' | '.join(str(number) for number in numbers)} |")
    return "\n".join(lines) + "\n"


def _function_part(folder: Path, commit: str) -> str:
    lines = [
        f"## Functions, at commit {commit or 'of above'}",
        "",
        "By mutmut, which leaves decorated functions (formulas, properties) alone. A module that is not in the table",
        "was not run; of one with a second number only the first were.",
        "",
        "| module | faults | seen | unseen | of these reviewed | no test | slow |",
        "| --- | --: | --: | --: | --: | --: | --: |",
    ]
    looked = Counter(
        name.rsplit(".", 1)[0]
        for name, fate in functions.fates(folder)
        if fate == "unseen" and reviewed.reason_for_function(name)
    )
    for module, held in functions.by_module(folder).items():
        run = sum(held.values()) - held["not run"]
        numbers = [run, held["seen"], held["unseen"], looked[module], held["no test"], held["slow"]]
        rest = f" (of {sum(held.values())})" if held["not run"] else ""
        first, *others = (str(number) for number in numbers)
        lines.append(f"| {module.removeprefix('structure.core.')} | {' | '.join([first + rest, *others])} |")
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    sys.exit(main())
