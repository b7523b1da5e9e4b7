"""What the numbers of a trace are called."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from ..message import Saying, saying

NAMES: Mapping[str, Saying] = MappingProxyType(
    {
        "pressure": saying("figure.pressure", "Air pressure"),
        "gamma": saying("figure.gamma", "Psychrometric constant"),
        "slope": saying("figure.slope", "Slope of the saturation curve"),
        "saturation": saying("figure.saturation", "Vapour pressure of saturated air"),
        "vapour": saying("figure.vapour", "Vapour pressure"),
        "wind": saying("figure.wind", "Wind at two metres"),
        "above": saying("figure.above", "Sun above the air"),
        "solar": saying("figure.solar", "Sun on the ground"),
        "clear": saying("figure.clear", "Sun under a clear sky"),
        "cloud_ratio": saying("figure.cloud_ratio", "Share of a clear sky"),
        "net_short": saying("figure.net_short", "Sun not reflected"),
        "net_long": saying("figure.net_long", "Heat radiated away"),
        "net": saying("figure.net", "Net radiation"),
        "ground": saying("figure.ground", "Heat into the ground"),
        "reference": saying("figure.reference", "Reference evapotranspiration"),
        "coefficient": saying("figure.coefficient", "Coefficient of the planting"),
        "demand": saying("figure.demand", "What the plants would use"),
        "total": saying("figure.total", "Water the root zone holds"),
        "fraction": saying("figure.fraction", "Share taken with ease"),
        "ready": saying("figure.ready", "Water taken with ease"),
        "before": saying("figure.before", "Lacking the day before"),
        "rain": saying("figure.rain", "Rain"),
        "effective": saying("figure.effective", "Rain that reached the roots"),
        "rain_lost": saying("figure.rain_lost", "Rain that dried off"),
        "rain_ran_off": saying("figure.rain_ran_off", "Rain that ran off"),
        "applied": saying("figure.applied", "Water given"),
        "ran_off": saying("figure.ran_off", "Water that ran off"),
        "uneven": saying("figure.uneven", "Water on spots that were wet already"),
        "stress": saying("figure.stress", "Share of demand the plants could take"),
        "taken": saying("figure.taken", "Water the plants took"),
        "percolated": saying("figure.percolated", "Water that sank below the roots"),
        "depletion": saying("figure.depletion", "Lacking at the end of the day"),
        "lacking": saying("figure.lacking", "Lacking tonight"),
        "ready_ahead": saying("figure.ready_ahead", "Taken with ease on the next day"),
        "share": saying("figure.share", "Share of the need that is given"),
        "net_depth": saying("figure.net_depth", "Water for the roots tonight"),
        "rate": saying("figure.rate", "Depth an hour"),
        "uniformity": saying("figure.uniformity", "Evenness, lower quarter"),
        "multiplier": saying("figure.multiplier", "Extra for unevenness"),
        "gross_depth": saying("figure.gross_depth", "Water to give"),
        "run": saying("figure.run", "Run time"),
        "cycles": saying("figure.cycles", "Cycles"),
        "soak": saying("figure.soak", "Soak between cycles"),
        "fitting": saying("figure.fitting", "Run time that fits the night"),
    }
)
