"""The planner as the build leaves it, and what it is asked for: every golden night, and each once more after an edit.

The texts it is given have gone through a page's own JSON, as they do on a phone: whole numbers lose their `.0`.
"""

from __future__ import annotations

import json
import os
import subprocess
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from ground.house import APP
from pengan.engine.phone.answer import answer
from pengan.engine.phone.known import known

from .nights import EFFORT, NIGHTS
from .work_out import node

HERE = Path(__file__).resolve().parent
IN_NODE, IN_BROWSER = HERE / "in_node.mjs", HERE / "in_browser.js"
AFTER_AN_EDIT = 3
"""Constructions, as the app takes for an effect."""


@dataclass(frozen=True)
class Ask:
    """What the worker is asked, and the lines it has to answer."""

    document: str
    night: str
    effort: int
    before: str | None

    @property
    def words(self) -> list[object]:
        return [self.document, self.night, self.effort, self.before]

    def expected(self) -> str:
        """What this Python answers."""
        return answer(self.document, self.night, self.effort, self.before or "")


@dataclass(frozen=True)
class Question:
    """What the worker is asked besides nights."""

    about: str
    document: str
    given: str

    @property
    def words(self) -> list[object]:
        return [self.about, self.document, self.given]

    def expected(self) -> str:
        """What this Python answers."""
        return known(self.about, self.document, self.given)


def app_folder() -> Path:
    """The built app: the one that the server under test hands out."""
    folder = Path(os.environ.get("PENGAN_APP") or APP)
    assert (folder / "planner" / "planner.json").is_file(), "build the app first: python3 server, or npm run build"
    return folder


def worker_address() -> str:
    """Where the app has its planner's worker."""
    (found,) = (app_folder() / "assets").glob("worker-*.js")
    return f"/assets/{found.name}"


@cache
def golden_asks() -> tuple[Ask, ...]:
    """Each golden night, and after it the same site with one turn a third longer, from the golden sheet."""
    return tuple(ask for night in NIGHTS for ask in _asks(night.site, night.day, night.sheet))


def _asks(site: Path, day: str, sheet: Path) -> list[Ask]:
    data, golden = json.loads(site.read_text("utf-8")), json.loads(sheet.read_text("utf-8"))
    edited = {**data, "records": [dict(record) for record in data["records"]]}
    turn = next(record for record in edited["records"] if record["table"] == "turns")
    turn["run_s"] = turn["run_s"] * 4 // 3
    return [Ask(_as_a_page(data), day, EFFORT, None), Ask(_as_a_page(edited), day, AFTER_AN_EDIT, _as_a_page(golden))]


def _as_a_page(value: Any) -> str:
    """The text that `JSON.stringify` makes of it."""
    return json.dumps(_plain(value), separators=(",", ":"), ensure_ascii=False)


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {name: _plain(part) for name, part in value.items()}
    if isinstance(value, list):
        return [_plain(part) for part in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value


def unsound_ask() -> Ask:
    """A document with more than one fault."""
    records = [{"table": "site", "id": "here", "zone": "Europe/Lisboa"}, {"table": "turns", "id": "t", "run_s": -5}]
    return Ask(json.dumps({"format": 1, "records": records}), "2026-10-24", 1, None)


def every_ask() -> list[Ask]:
    return [*golden_asks(), unsound_ask()]


def browser_asks() -> list[Ask]:
    """Every golden night, one edit, and faults: the engine is the same file everywhere, the browsers are not."""
    fresh = [ask for ask in golden_asks() if ask.before is None]
    edited = next(ask for ask in golden_asks() if ask.before is not None)
    return [*fresh, edited, unsound_ask()]


def questions() -> list[Question]:
    """Suggestions and needs of sites that have weather, and one of a document with faults."""
    nights = [night for night in NIGHTS if night.site.stem in ("site", "by-need")]
    asked = [
        Question(about, _as_a_page(json.loads(night.site.read_text("utf-8"))), json.dumps({"night": night.day}))
        for night in nights
        for about in ("suggestions", "night")
    ]
    return [*asked, *_outdoors(), *_rests(), Question("suggestions", unsound_ask().document, '{"night": "2026-10-24"}')]


def _outdoors() -> list[Question]:
    """What is read by hand: the cans of an audit, and a fortnight of weather with an odd day in it."""
    demo = next(night for night in NIGHTS if night.site.stem == "site")
    document = _as_a_page(json.loads(demo.site.read_text("utf-8")))
    cans = {"audit": "audit-801", "today": "2026-10-24"}
    days = {"first": "2026-10-11", "last": "2026-10-24"}
    return [Question("wetting", document, json.dumps(cans)), Question("weather", document, json.dumps(days))]


def _rests() -> list[Question]:
    """The rest of a golden night: after a power cut, recovered and by the clock, and after no more than an edit."""
    night = NIGHTS[0]
    document, sheet = (json.loads(path.read_text("utf-8")) for path in (night.site, night.sheet))
    now = sheet["runs"][len(sheet["runs"]) // 3]["start"]
    cut = [
        {"id": f"cut-{kind}", "at": now - before_s, "kind": kind, "by": "person:demo"}
        for kind, before_s in (("power_lost", 2400), ("power_back", 0))
    ]
    given = {"before": sheet, "now": now, "effort": EFFORT}
    ways = [given, *({**given, "entries": cut, "way": way} for way in ("keep", "recover"))]
    return [Question("rest", _as_a_page(document), _as_a_page(each)) for each in ways]


def in_node(asks: Sequence[Ask | Question]) -> list[str]:
    """The built planner's answers, under Node."""
    with TemporaryDirectory() as folder:
        file = Path(folder) / "asks.json"
        file.write_text(json.dumps([ask.words for ask in asks]), "utf-8")
        command = [node(), str(IN_NODE), str(app_folder()), str(file)]
        done = subprocess.run(command, capture_output=True, text=True, encoding="utf-8", check=False, timeout=300)
    if done.returncode:
        raise RuntimeError(done.stderr[-2000:])
    answers: list[str] = json.loads(done.stdout)["answers"]
    return answers


def lines_of(answers: list[dict[str, str]]) -> list[str]:
    """What the worker tells, as the engine's own lines."""
    return [
        "\n".join((told["tell"], *((told["faults"],) if told["tell"] == "faulty" else (told["sheet"], told["clock"]))))
        for told in answers
    ]


def differing(answers: list[str], asks: list[Ask]) -> list[str]:
    """The asks that were answered otherwise than by this Python."""
    return [
        f"{ask.night} at effort {ask.effort}"
        for ask, given in zip(asks, answers, strict=True)
        if given != ask.expected()
    ]
