"""Runs the published cases where pytest is not to be had, as in Pyodide, and prints one line a case.

A few lines stand in for what those test files use of pytest: `mark.parametrize` and `approx`.
"""

from __future__ import annotations

import site
import sys
from collections.abc import Callable, Iterator
from importlib import import_module
from itertools import product
from pathlib import Path
from types import ModuleType, SimpleNamespace
from typing import Any

FILES = ("test_reference_et", "test_crop_and_soil", "test_effective_rain", "test_allowance", "test_sprinklers")


class Approx:
    """Equal within 1e-6 of the number, or what is said: numbers, sequences and mappings of them."""

    def __init__(self, expected: Any, rel: float = 1e-6, abs: float = 1e-12) -> None:
        self.expected, self.rel, self.abs = expected, rel, abs

    def __eq__(self, other: object) -> bool:
        return self._near(other, self.expected)

    def _near(self, ours: Any, theirs: Any) -> bool:
        if isinstance(theirs, dict):
            return ours.keys() == theirs.keys() and all(self._near(ours[key], theirs[key]) for key in theirs)
        if isinstance(theirs, list | tuple):
            return len(ours) == len(theirs) and all(map(self._near, ours, theirs))
        return bool(abs(ours - theirs) <= max(self.abs, self.rel * abs(theirs)))


def parametrize(names: str | tuple[str, ...], values: list[Any]) -> Callable[[Any], Any]:
    """Keeps each set of arguments on the function, the way `calls` reads them."""
    keys = tuple(name.strip() for name in names.split(",")) if isinstance(names, str) else names

    def keep(function: Any) -> Any:
        sets = [dict(zip(keys, value if len(keys) > 1 else (value,), strict=True)) for value in values]
        function.sets = [*getattr(function, "sets", []), sets]
        return function

    return keep


def calls(module: ModuleType) -> Iterator[tuple[str, Callable[[], None]]]:
    """Every test of a module with every set of its arguments."""
    for name, function in vars(module).items():
        if name.startswith("test_"):
            for chosen in product(*getattr(function, "sets", [])):
                words = {key: value for one in chosen for key, value in one.items()}
                yield f"{module.__name__}.{name}{sorted(words)}", lambda f=function, w=words: f(**w)  # type: ignore[misc]


def main() -> None:
    """Runs them all; the first that fails ends the run with its fault."""
    stand_in = SimpleNamespace(approx=Approx, mark=SimpleNamespace(parametrize=parametrize))
    sys.modules["pytest"] = stand_in  # type: ignore[assignment]
    sys.path.insert(0, str(Path(site.getsitepackages()[0]) / "tests"))
    for file in FILES:
        for name, call in calls(import_module(f"engine.need.{file}")):
            call()
            print(name)


if __name__ == "__main__":
    main()
