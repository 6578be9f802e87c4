"""Case files: YAML or JSON of bounded size, one case or a list of them."""

from __future__ import annotations

import json
import os
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import yaml

MAX_BYTES = 2_000_000
MAX_NODES = 200_000
MAX_DEPTH = 24
MAX_FILES = 2_000
_MERGE = "tag:yaml.org,2002:merge"
SUFFIXES = (".yaml", ".yml", ".json")


class FileError(Exception):
    """A case file that cannot be read; the message is one clear line that names the file."""

    def __init__(self, path: Path, why: str) -> None:
        super().__init__(f"{path}: {' '.join(why.split())[:300]}")


class _Loader(yaml.SafeLoader):
    """The safe loader, without keys given twice and without merges that grow beyond bounds.

    Merging is our own: release 6.0.4 compares merged keys by identity, so that through two merges an
    inherited value can win over the one that stands in its place.
    """

    def __init__(self, stream: str) -> None:
        super().__init__(stream)
        self._flat: set[int] = set()
        self._merged = 0

    def flatten_mapping(self, node: yaml.MappingNode) -> None:
        # A node met again through an alias has been merged already.
        if id(node) in self._flat:
            return
        self._flat.add(id(node))
        own: dict[str, tuple[yaml.Node, yaml.Node]] = {}
        sources: list[yaml.Node] = []
        for key, value in node.value:
            if key.tag == _MERGE:
                sources.extend(value.value if isinstance(value, yaml.SequenceNode) else [value])
                continue
            name = key.value if isinstance(key, yaml.ScalarNode) else repr(id(key))
            if name in own:
                raise _complaint(f"the key {name!r} stands twice", key)
            own[name] = (key, value)
        inherited: dict[str, tuple[yaml.Node, yaml.Node]] = {}
        for source in sources:
            if not isinstance(source, yaml.MappingNode):
                raise _complaint("only a record can be merged", source)
            self.flatten_mapping(source)
            self._merged += len(source.value)
            if self._merged > MAX_NODES:
                raise _complaint("merged keys grow too many", node)
            for key, value in source.value:
                # Among several sources the first one counts, and what stands here before all of them.
                inherited.setdefault(str(key.value), (key, value))
        node.value = [*(pair for name, pair in inherited.items() if name not in own), *own.values()]


def _complaint(why: str, node: yaml.Node) -> yaml.constructor.ConstructorError:
    return yaml.constructor.ConstructorError(None, None, why, node.start_mark)


def read_cases(path: Path) -> list[dict[str, Any]]:
    """The cases of one file. Raises FileError for anything that is no case or list of cases."""
    try:
        if path.stat().st_size > MAX_BYTES:
            raise FileError(path, f"larger than {MAX_BYTES:,} bytes, which no case file needs")
        text = path.read_bytes().decode("utf-8-sig")
    except OSError as error:
        raise FileError(path, f"cannot be read: {error.strerror or error}") from None
    except UnicodeDecodeError:
        raise FileError(path, "is not text in UTF-8") from None
    data = _parse(path, text)
    cases = data if isinstance(data, list) else [data]
    if not cases:
        raise FileError(path, "holds no case")
    for number, case in enumerate(cases):
        if not isinstance(case, dict):
            raise FileError(path, f"entry {number + 1} is no record of a case")
    return cases


def find_files(paths: Iterable[str | os.PathLike[str]]) -> list[Path]:
    """Case files at the paths; a folder stands for every one in it, in the order of their names.

    Raises FileError for a path that does not exist and for a folder that holds none.
    """
    found: list[Path] = []
    for each in paths:
        path = Path(each)
        if path.is_dir():
            inside = sorted(p for p in path.rglob("*") if p.suffix.lower() in SUFFIXES and p.is_file())
            if not inside:
                raise FileError(path, f"holds no file that ends in {', '.join(SUFFIXES)}")
            found.extend(inside)
        elif path.exists():
            found.append(path)
        else:
            raise FileError(path, "there is no such file or folder")
    if len(found) > MAX_FILES:
        raise FileError(found[0].parent, f"more than {MAX_FILES:,} files at once")
    return found


def _parse(path: Path, text: str) -> Any:
    try:
        if path.suffix.lower() == ".json":
            data = json.loads(text, object_pairs_hook=_unique)
        else:
            data = yaml.load(text, Loader=_Loader)  # noqa: S506  a SafeLoader with tighter bounds
    except RecursionError:
        raise FileError(path, "is nested too deeply") from None
    except (yaml.YAMLError, ValueError, OverflowError) as error:
        raise FileError(
            path, f"is not valid {'JSON' if path.suffix.lower() == '.json' else 'YAML'}: {error}"
        ) from None
    _count(path, data, 0, [MAX_NODES])
    return data


def _unique(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    held = dict(pairs)
    if len(held) < len(pairs):
        twice = next(key for n, (key, _) in enumerate(pairs) if key in dict(pairs[:n]))
        raise ValueError(f"the key {twice!r} stands twice")
    return held


def _count(path: Path, data: Any, depth: int, left: list[int]) -> None:
    """Walk the data as a reader would see it: a few aliases can stand for more than memory holds."""
    left[0] -= 1
    if left[0] < 0 or depth > MAX_DEPTH:
        raise FileError(path, "is larger or nested deeper than a case can be")
    if isinstance(data, dict):
        for key, value in data.items():
            if not isinstance(key, str | int | float | bool | None):
                raise FileError(path, f"has a key that is no word: {type(key).__name__}")
            _count(path, value, depth + 1, left)
    elif isinstance(data, list | tuple | set):
        for value in data:
            _count(path, value, depth + 1, left)
