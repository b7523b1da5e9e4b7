"""What sheets, columns and choices are called in a book: a list of names each, translated like any sentence.

The first name of a list is the one the template writes; every name, in every shipped language, is understood.
A translator gives as many names as people use; the number of names need not be the same in each language.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from pengan.words.reader import N_

SHEETS: Mapping[str, str] = MappingProxyType({
    "site": N_("Site, grounds, the site"),
    "supplies": N_("Supplies, supply, water supplies, sources, mains, sources and mains, wells and mains"),
    "controllers": N_("Controllers, controller, cabinets, timers"),
    "hydrozones": N_("Hydrozones, hydrozone, plantings, water zones"),
    "stations": N_("Stations, station, valves"),
    "programs": N_("Programs, program, programmes, programme, schedules"),
    "turns": N_("Turns, turn, run times, program stations"),
    "windows": N_("Water windows, windows, window, water window, watering hours"),
    "closures": N_("Closures, closure, closed times"),
    "apart": N_("Apart, never together, stations apart"),
    "asked": N_("Asked, asked for, requests, asked runs"),
})  # fmt: skip

_ANYWHERE = {
    "id": N_("Id, identifier, record id"),
    "name": N_("Name, description"),
    "notes": N_("Notes, note, remarks, comments"),
    "days": N_("Days, day rule, watering days"),
    "weekdays": N_("Weekdays, days of the week, week days"),
    "every_n_days": N_("Every n days, interval, day interval"),
    "every_from": N_("Counted from, interval from, starting on, first day"),
    "dates": N_("Dates, listed dates"),
    "season_from": N_("Season from, season start, from day"),
    "season_to": N_("Season to, season end, to day"),
    "limit_lpm": N_("Flow limit, limit, most flow, maximum flow, max flow"),
    "max_open": N_("Most open at once, max open, maximum open, open at once, most valves open"),
    "seasonal_pct": N_("Seasonal percentage, seasonal, season percentage"),
    "aim": N_("Aim, finish aim"),
    "finish_by": N_("Finish by, finish, done by"),
    "rank": N_("Rank, priority"),
    "supply": N_("Supply, source, main, water supply"),
    "controller": N_("Controller, cabinet, timer"),
    "hydrozone": N_("Hydrozone, planting, water zone"),
    "program": N_("Program, programme, schedule"),
    "station": N_("Station, valve, station number, valve number"),
    "run_s": N_("Run time, runtime, run, duration, minutes"),
}

_IN_ONE_TABLE = {
    "site.name": N_("Name, site name, site"),
    "site.zone": N_("Time zone, timezone, zone"),
    "site.zone_rule": N_("Time zone rule, zone rule, own clock rule"),
    "site.zone_changes": N_("Clock changes, zone changes, time zone changes"),
    "site.latitude_deg": N_("Latitude, lat"),
    "site.longitude_deg": N_("Longitude, long, lon"),
    "site.elevation_m": N_("Elevation, altitude, height"),
    "supplies.name": N_("Name, supply, supply name, source, main, description"),
    "supplies.fed_by": N_("Fed by, feeds from, parent, upstream"),
    "supplies.water": N_("Water, kind of water, water kind, type"),
    "supplies.steady_lpm": N_("Steady flow, flow to hold, steady"),
    "supplies.least_lpm": N_("Least flow, minimum flow, min flow"),
    "supplies.lead_s": N_("Lead time, lead, start-up time"),
    "controllers.name": N_("Name, controller, controller name, cabinet, description"),
    "controllers.max_current_ma": N_("Most current, max current, maximum current, current limit, current"),
    "controllers.valve_gap_s": N_("Gap between valves, valve gap, valve delay, station delay, gap"),
    "hydrozones.name": N_("Name, hydrozone, hydrozone name, description"),
    "hydrozones.planting": N_("Planting, plants, plant, plant type"),
    "hydrozones.soil": N_("Soil, soil type"),
    "hydrozones.slope_pct": N_("Slope, gradient"),
    "hydrozones.exposure": N_("Exposure, sun and shade"),
    "stations.number": N_("Number, no, nr, station number, valve number, station no, station, valve"),
    "stations.name": N_("Name, station name, description, location"),
    "stations.part": N_("Part of the site, part, place, block"),
    "stations.flow_lpm": N_("Flow, flow rate, discharge, design flow"),
    "stations.current_ma": N_("Current, solenoid current, holding current"),
    "stations.area_m2": N_("Area, surface, watered area"),
    "stations.pressure_kpa": N_("Pressure, working pressure"),
    "stations.heads": N_("Heads, head type, emitters, emitter type, type"),
    "programs.name": N_("Name, program, program name, programme, description"),
    "programs.letter": N_("Letter, program letter, short name"),
    "programs.start": N_("Start, start time, starts"),
    "programs.order": N_("Order, station order"),
    "turns.position": N_("Position, order, place in program, sequence"),
    "turns.cycles": N_("Cycles, number of cycles, repeats"),
    "turns.soak_s": N_("Soak, soak time, rest"),
    "windows.name": N_("Name, water window, window, description"),
    "windows.opens": N_("Opens, open from, from, start, start time"),
    "windows.closes": N_("Closes, open until, until, to, end, end time"),
    "closures.name": N_("Name, closure, description"),
    "closures.cause": N_("Cause, reason, kind"),
    "closures.starts": N_("Starts daily at, starts, start, start time, from time"),
    "closures.ends": N_("Ends daily at, ends, end, end time, to time"),
    "closures.starts_on": N_("Starts on, closed from, from, starts at date and time"),
    "closures.ends_on": N_("Ends on, closed until, until, to, ends at date and time"),
    "apart.station": N_("Station, first station, station a"),
    "apart.other": N_("Other station, other, second station, station b"),
    "apart.reason": N_("Reason, why"),
    "asked.night": N_("Night, night of, date"),
    "asked.at": N_("At, start, start time, time"),
    "asked.by": N_("Asked by, by, who"),
}

_CHOICES = {
    "days.every_day": N_("every day, daily, all days"),
    "days.weekdays": N_("weekdays, days of the week, by weekday"),
    "days.every_n": N_("every n days, interval"),
    "days.odd": N_("odd dates, odd days, odd"),
    "days.even": N_("even dates, even days, even"),
    "days.dates": N_("listed dates, dates"),
    "days.asked": N_("only when asked, asked, on request, manual"),
    "aim.earliest": N_("earliest finish, earliest, early, as early as possible"),
    "aim.latest": N_("latest start, latest, late, as late as possible"),
    "water.well": N_("well, borehole, bore"),
    "water.pond": N_("pond, lake, reservoir, canal, river"),
    "water.town": N_("town, town connection, mains water, potable"),
    "water.reclaimed": N_("reclaimed, recycled, treated"),
    "water.rain": N_("rain, rainwater, cistern"),
    "soil.sand": N_("sand, sandy"),
    "soil.loamy_sand": N_("loamy sand"),
    "soil.sandy_loam": N_("sandy loam"),
    "soil.loam": N_("loam, loamy"),
    "soil.silt_loam": N_("silt loam, silty loam"),
    "soil.clay_loam": N_("clay loam"),
    "soil.clay": N_("clay, clayey"),
    "exposure.open": N_("open, full sun, sun"),
    "exposure.half_shade": N_("half shade, part shade, part sun"),
    "exposure.shade": N_("shade, shaded, full shade"),
    "heads.spray": N_("spray, sprays, spray head"),
    "heads.rotor": N_("rotor, rotors, rotary"),
    "heads.drip": N_("drip, drip line, dripline"),
    "heads.bubbler": N_("bubbler, bubblers"),
    "heads.micro": N_("micro, micro spray, micro-spray"),
    "order.free": N_("free order, free, any"),
    "order.listed": N_("as listed, listed, in order, sequential"),
    "cause.authority": N_("water authority, authority, restriction"),
    "cause.event": N_("event, match, wedding"),
    "cause.mowing": N_("mowing, cutting"),
    "cause.works": N_("works, repair, building works"),
    "cause.tide": N_("tide, high tide"),
    "cause.other": N_("other"),
}

RUN_TIME_IN_PROGRAM = N_("Run time in program, run time program, minutes program, program")
"""How a column of the stations sheet begins that gives each station's run time in one program."""


def field_names(table: str, field: str) -> str:
    """The translatable list of a column's names. KeyError for a field nobody named."""
    return _IN_ONE_TABLE.get(f"{table}.{field}") or _ANYWHERE[field]


def choice_names(field: str, choice: str) -> str:
    """The translatable list of a choice's names."""
    return _CHOICES[f"{field}.{choice}"]


GUIDE = N_("How to, read me, instructions")
"""What the template's first sheet is called; it is not read."""

LISTS = N_("Lists")
"""What the template's hidden sheet of choices is called; it is not read."""
