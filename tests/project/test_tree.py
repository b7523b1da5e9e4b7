"""What may be committed, where, and under which names."""

from __future__ import annotations

import re

import pytest

from project.sources import our_files, our_texts

FILES_ON_TOP = {"README.md", "DEVELOPERS.md", "LICENSE", "pyproject.toml"}
FOLDERS_ON_TOP = {"server", "pwa", "translations", "tests", "fixtures"}
NAMES_THAT_SAY_NOTHING = {"util", "utils", "helper", "helpers", "misc", "common", "shared", "lib", "stuff"}
BUILD_OUTPUT = {"node_modules", "__pycache__", "dist", ".venv", "compiled"}

# Spelt in pieces, so that this file does not hold what it looks for.
MACHINE_PATHS = re.compile(
    r"(?<![\w.$}/-])/(?:" + "|".join(["wo" + "rk", "ro" + "ot", "fa" + "rm", "ho" + "me"]) + r")/\w"
)
REGISTRY_HOSTS = re.compile(
    r"\b(?:py" + r"pi\.org|files\.python" + r"hosted\.org|registry\.npm" + r"js\.org|deb\.deb" + r"ian\.org)\b"
)


def test_the_top_level_holds_only_what_it_should() -> None:
    found = {path.parts[0] for path in our_files() if not path.parts[0].startswith(".")}
    assert found <= FILES_ON_TOP | FOLDERS_ON_TOP


def test_every_file_is_named_after_a_thing_or_a_verb() -> None:
    named = [
        path for path in our_files() for part in path.parts if part.split(".")[0].lower() in NAMES_THAT_SAY_NOTHING
    ]
    assert not named


def test_no_build_output_is_committed() -> None:
    assert not [path for path in our_files() if BUILD_OUTPUT & set(path.parts)]


@pytest.mark.parametrize("pattern", [MACHINE_PATHS, REGISTRY_HOSTS], ids=["machine paths", "registry hosts"])
def test_no_file_names_a_machine(pattern: re.Pattern[str]) -> None:
    faults = [
        f"{path}:{number} {line.strip()[:100]}"
        for path, text in our_texts()
        for number, line in enumerate(text.splitlines(), 1)
        if pattern.search(line)
    ]
    assert not faults, "\n".join(faults)


def test_the_machine_path_pattern_finds_one() -> None:
    assert MACHINE_PATHS.search('open("/' + 'root/file")')
    assert REGISTRY_HOSTS.search("https://py" + "pi.org/simple")
