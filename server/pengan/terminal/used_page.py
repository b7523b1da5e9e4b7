"""What was used for a person to read: a line each, the whole, why water was lost, meters, and what faults cost."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from pengan.words import N_, Reader, _, isolate, ngettext, write, write_date, write_time
from pengan.words.money import write_money

from .columns import in_columns

Shown = Mapping[str, Any]
NONE = "—"
BY = {"month": N_("Month"), "supply": N_("Supply"), "program": N_("Program"), "hydrozone": N_("Hydrozone")}
OF_NONE = {
    "supply": N_("No supply"),
    "program": N_("Asked for, in no program"),
    "hydrozone": N_("Stations of no hydrozone"),
}
AMOUNTS = {
    "planned_l": N_("Planned"),
    "delivered_l": N_("Delivered"),
    "assumed_l": N_("Assumed"),
    "beyond_l": N_("Beyond the plan"),
    "lost_l": N_("Lost"),
    "came_l": N_("Came in all"),
    "before_l": N_("A year before"),
    "allowed_l": N_("Budget of the months"),
}
ALWAYS = ("planned_l", "delivered_l", "lost_l", "came_l")
"""The columns that stand whether anything is in them or not."""
WHY = {
    "power": N_("No power"),
    "shut": N_("Supply shut"),
    "stopped": N_("Watering stopped"),
    "not_opened": N_("Valve not opened"),
    "opened_late": N_("Valve opened late"),
    "closed_early": N_("Valve closed early"),
    "low_flow": N_("Flow too low"),
}


@dataclass(frozen=True, slots=True)
class UsedView:
    """An answer of the API (`UsedSchema`), the site's name, its records' names by kind and id, and who reads."""

    site: str
    shown: Shown
    names: Callable[[str, str], str]
    reader: Reader

    def litres(self, value: float | None) -> str:
        """A volume; what is not known has none."""
        return NONE if value is None else write("volume", value, self.reader)


def used_page(view: UsedView) -> Iterator[str]:
    """The whole page, a line at a time."""
    shown, reader = view.shown, view.reader
    first, last = (write_date(shown[end], reader) for end in ("from", "until"))
    yield _("{site}: what was used from {first} to {last}", site=isolate(view.site, reader), first=first, last=last)
    yield from _nights(shown["nights"], shown["told"])
    if shown["lines"]:
        yield ""
        yield from _lines(view)
    yield from _part(_("Lost, and why"), _lost(view))
    yield from _part(_("Meters"), _meters(view))
    yield from _part(_("What faults cost, about"), _faults(view))
    yield from _part(_("To know about these figures"), (one["detail"] for one in shown["said"]))
    yield ""
    yield shown["caution"]


def _nights(nights: int, told: int) -> Iterator[str]:
    """How much of it is known at all."""
    untold = nights - told
    if nights == 0:
        yield _("No night of these is over and reckoned up yet.")
    if told:
        yield ngettext("{count} night told of by its valves.", "{count} nights told of by their valves.", told)
    if untold:
        yield ngettext(
            "Nothing was told of {count} night: what was delivered is not known, and its plan is taken to have come.",
            "Nothing was told of {count} nights: what was delivered is not known, and their plan is taken to have "
            "come.",
            untold,
        )


def _lines(view: UsedView) -> Iterator[str]:
    shown, reader = view.shown, view.reader
    rows = [*shown["lines"], shown["total"]]
    kept = [name for name in AMOUNTS if name in ALWAYS or any(row[name] for row in rows)]
    by = BY[shown["by"]]
    heads = [reader.gettext(by), *(reader.gettext(AMOUNTS[name]) for name in kept)]
    names = [*(_name(view, row) for row in shown["lines"]), _("The whole site")]
    cells = [[name, *(view.litres(row[one]) for one in kept)] for name, row in zip(names, rows, strict=True)]
    yield from in_columns([heads, *cells], frozenset(range(1, len(heads))))


def _name(view: UsedView, row: Shown) -> str:
    by, key = view.shown["by"], row["key"]
    if by == "month":
        return write_date(date.fromisoformat(f"{key}-01"), view.reader, "month")
    if row["name"]:
        return isolate(row["name"], view.reader)
    return _("Removed since: {id}", id=key) if key else view.reader.gettext(OF_NONE[by])


def _lost(view: UsedView) -> Iterator[str]:
    lost = sorted(view.shown["total"]["lost"], key=lambda one: (-one["volume_l"], one["why"]))
    reasons = [(WHY[one["why"]], one["volume_l"]) for one in lost]
    rows = [(view.reader.gettext(reason), view.litres(volume_l)) for reason, volume_l in reasons]
    yield from in_columns(rows, frozenset({1}))


def _meters(view: UsedView) -> Iterator[str]:
    for meter in view.shown["meters"]:
        yield _(
            "{supply}, from {first} to {last}: counted {counted}, came to the stations below it {came}, "
            "unaccounted for {unaccounted}.",
            supply=isolate(view.names("supply", meter["supply"]), view.reader),
            first=_moment(meter["starts_local"], view.reader),
            last=_moment(meter["ends_local"], view.reader),
            **{name: view.litres(meter[f"{name}_l"]) for name in ("counted", "came", "unaccounted")},
        )
        yield from (f"  {one['detail']}" for one in meter["said"])


def _moment(local: str, reader: Reader) -> str:
    wall = datetime.fromisoformat(local)
    return _("{day}, {time}", day=write_date(wall.date(), reader), time=write_time(wall, reader))


def _faults(view: UsedView) -> Iterator[str]:
    for fault in view.shown["faults"]:
        yield fault["said"]["detail"]
        yield f"  {_cost(view, fault)}"


def _cost(view: UsedView, fault: Shown) -> str:
    if not fault["escaped_l"]:
        return _("{water} never came to the plants.", water=view.litres(fault["kept_l"]))
    water = view.litres(fault["escaped_l"])
    if fault["cost"] is None:
        return _("{water} escaped.", water=water)
    cost = write_money(Decimal(fault["cost"]), view.shown["currency"], view.reader)
    return _("{water} escaped; without it the months’ bills would have been {cost} less.", water=water, cost=cost)


def _part(title: str, lines: Iterator[str] | Sequence[str]) -> Iterator[str]:
    """A heading and what stands under it; nothing where nothing does."""
    found = list(lines)
    if found:
        yield ""
        yield title
        yield from (f"  {line}" for line in found)
