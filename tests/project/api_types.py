"""The shapes of the API as the page's TypeScript reads them, written from the server's own description of it.

`.venv/bin/python tests/project/api_types.py` writes them anew; a test fails while they are out of step. A field that
the server renames or drops then fails to compile where the page reads it.
"""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
PWA = ROOT / "pwa"
TYPES = PWA / "src" / "page" / "line" / "api.ts"
sys.path.insert(0, str(ROOT / "server"))

from pengan.web.app import create_app  # noqa: E402
from pengan.web.settings import Settings  # noqa: E402

HEAD = "/** The shapes of the API, as `tests/project/api_types.py` reads them from the server. Not written by hand. */"
DOCUMENT = "Document"
"""Its records are described as data, in the page's own `records/fields.ts`; here is only what carries them."""
WHOLE = "Api"
"""The name of the type that stands for the whole; nobody needs it."""


def described() -> dict[str, Any]:
    """Every schema of the API, by its name."""
    with TemporaryDirectory() as folder:
        client = create_app(Settings(data=Path(folder))).test_client()
        schemas: dict[str, Any] = client.get("/api/openapi.json").get_json()["components"]["schemas"]
    return schemas


def definitions(schemas: dict[str, Any]) -> dict[str, Any]:
    """The same, with the definitions inside of each schema beside it: `Document` and `$defs/site` → `DocumentSite`."""
    found: dict[str, Any] = {}
    for name, schema in schemas.items():
        inner = {} if name == DOCUMENT else schema.get("$defs", {})
        for part, definition in inner.items():
            found[name + _title(part)] = _without_rules(_pointed(definition, name))
        own = {key: value for key, value in schema.items() if key not in ("$defs", "$schema", "title")}
        found[name] = _without_rules(_pointed(own, name))
    return dict(sorted(found.items()))


def _title(part: str) -> str:
    return "".join(word[:1].upper() + word[1:] for word in part.replace("-", "_").split("_"))


def _pointed(node: Any, name: str) -> Any:
    """References that lead to where the definitions now are."""
    if isinstance(node, list):
        return [_pointed(item, name) for item in node]
    if not isinstance(node, dict):
        return node
    return {key: _target(value, name) if key == "$ref" else _pointed(value, name) for key, value in node.items()}


def _target(reference: str, name: str) -> str:
    kind, _, part = reference.rpartition("/")
    return f"#/definitions/{part if kind.endswith('schemas') else name + _title(part)}"


def _without_rules(node: Any) -> Any:
    """Without what TypeScript cannot say, conditions; titles, which would name the types; and what is said in words."""
    if isinstance(node, list):
        return [_without_rules(item) for item in node]
    if not isinstance(node, dict):
        return node
    said = [key for key in ("title", "description") if isinstance(node.get(key), str)]
    conditions = [key for key in ("allOf",) if any("if" in rule for rule in node.get(key, ()))]
    kept = {key: value for key, value in node.items() if key not in (*said, *conditions)}
    return {key: _without_rules(value) for key, value in kept.items()}


def read_by_the_page(found: dict[str, Any]) -> dict[str, Any]:
    """Those that the page's sources name, and whatever these are made of."""
    sources = [path.read_text(encoding="utf-8") for path in (PWA / "src").rglob("*.ts*") if path != TYPES]
    users = "\n".join(text for text in sources if '/api"' in text)
    wanted, kept = [name for name in found if re.search(rf"\b{name}\b", users)], dict[str, Any]()
    while wanted:
        name = wanted.pop()
        if name not in kept:
            kept[name] = found[name]
            wanted.extend(re.findall(r"#/definitions/(\w+)", json.dumps(found[name])))
    return dict(sorted(kept.items()))


def written() -> str:
    """The file as it should be. Needs the page's packages."""
    found = read_by_the_page(definitions(described()))
    schema = {"title": WHOLE, "type": "object", "properties": {}, "definitions": found}
    raw = _run(
        ["npx", "json2ts", "--unreachableDefinitions", "--no-additionalProperties", "--bannerComment", HEAD],
        json.dumps(schema),
    )
    raw = re.sub(r"/\*\*\n(?: \*.*\n)*? \*/\n", "", raw).replace(f"export interface {WHOLE} {{}}\n", "")
    return _run(["npx", "biome", "format", f"--stdin-file-path={TYPES.relative_to(PWA)}"], raw)


def _run(command: list[str], given: str) -> str:
    done = subprocess.run(command, cwd=PWA, input=given, capture_output=True, text=True, timeout=120, check=False)
    if done.returncode:
        raise RuntimeError(f"{command[1]}: {done.stderr}")
    return done.stdout


if __name__ == "__main__":
    TYPES.write_text(written(), encoding="utf-8")
