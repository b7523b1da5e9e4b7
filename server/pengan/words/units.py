"""The units people measure water in, each with its exact factor to the base unit a document stores.

Factors are fractions, so nothing is lost on the way. Definitions: NIST SP 811 (2008) appendix B and
NIST Handbook 44 appendix C: 1 in = 25.4 mm, 1 ft = 0.3048 m (international foot), 1 US gal = 231 in³,
1 UK gal = 4.54609 L, 1 lbf = 4.4482216152605 N, 1 bar = 100 kPa, 1 mi = 5280 ft, 1 langley = 41 840 J/m², all exact.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType

from .reader import N_, Reader

_INCH_MM = Fraction(254, 10)
_FOOT_M = Fraction(3048, 10_000)
_FOOT3_L = (_FOOT_M * 10) ** 3
_ACRE_M2 = 43_560 * _FOOT_M**2
_GALLON_L = 231 * (_INCH_MM / 100) ** 3
_UK_GALLON_L = Fraction(454_609, 100_000)
_PSI_KPA = Fraction(44_482_216_152_605, 10**13) / (_INCH_MM / 1000) ** 2 / 1000


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: `base = figure × factor + offset`. `places` is how many decimals people get to see, at most.

    `written` is a translatable pattern around the figure; `spellings` how people and column heads name it,
    separated by commas, translatable too.
    """

    key: str
    written: str
    factor: Fraction
    places: int
    spellings: str
    offset: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Quantity:
    """Something measured. `sets` gives each unit set's units, smallest first: (from how much base on, unit key)."""

    key: str
    units: Mapping[str, Unit]
    sets: Mapping[str, tuple[tuple[int, str], ...]]

    @property
    def base(self) -> Unit:
        """The unit that documents store it in."""
        return next(unit for unit in self.units.values() if unit.factor == 1 and unit.offset == 0)


def _quantity(key: str, metric: str, us: str, imperial: str, *units: Unit) -> Quantity:
    """Sets are written `lpm` or, where the unit grows with the amount, `l 1000:m3`."""
    sets = {"metric": _steps(metric), "us": _steps(us), "imperial": _steps(imperial)}
    return Quantity(key, MappingProxyType({unit.key: unit for unit in units}), MappingProxyType(sets))


def _steps(text: str) -> tuple[tuple[int, str], ...]:
    pairs = (step.rpartition(":") for step in text.split())
    return tuple((int(least or 0), unit) for least, _colon, unit in pairs)


FLOW = _quantity(
    "flow",
    "lpm",
    "gpm",
    "igpm",
    Unit("lpm", N_("{figure} L/min"), Fraction(1), 1, N_("L/min, lpm, l/m, litres per minute, liters per minute")),
    Unit(
        "m3h",
        N_("{figure} m³/h"),
        Fraction(1000, 60),
        2,
        N_("m³/h, m3/h, m3/hr, m3h, cmh, cubic metres per hour, cubic meters per hour"),
    ),
    Unit("lps", N_("{figure} L/s"), Fraction(60), 2, N_("L/s, l/sec, lps, litres per second, liters per second")),
    Unit("lph", N_("{figure} L/h"), Fraction(1, 60), 0, N_("L/h, l/hr, lph, litres per hour, liters per hour")),
    Unit("gpm", N_("{figure} gpm"), _GALLON_L, 1, N_("US gpm, gpm US, US gal/min, gpm, gal/min, gallons per minute")),
    Unit(
        "igpm",
        N_("{figure} imp gpm"),
        _UK_GALLON_L,
        1,
        N_("imp gpm, igpm, imp gal/min, UK gpm, imperial gpm, gpm imperial, imperial gallons per minute"),
    ),
)
VOLUME = _quantity(
    "volume",
    "l 1000:m3",
    "gal",
    "igal",
    Unit("l", N_("{figure} L"), Fraction(1), 0, N_("L, litre, litres, liter, liters")),
    Unit("m3", N_("{figure} m³"), Fraction(1000), 1, N_("m³, m3, cbm, cubic metre, cubic metres, cubic meters")),
    Unit("gal", N_("{figure} gal"), _GALLON_L, 0, N_("US gal, US gallons, gal, gallon, gallons")),
    Unit("igal", N_("{figure} imp gal"), _UK_GALLON_L, 0, N_("imp gal, UK gal, imperial gallon, imperial gallons")),
    Unit(
        "acft", N_("{figure} ac-ft"), _ACRE_M2 * _FOOT_M * 1000, 3, N_("ac-ft, ac ft, acre-foot, acre-feet, acre feet")
    ),
    Unit("ft3", N_("{figure} ft³"), _FOOT3_L, 1, N_("ft³, ft3, cu ft, cubic foot, cubic feet")),
)
DEPTH = _quantity(
    "depth",
    "mm",
    "in",
    "in",
    Unit("mm", N_("{figure} mm"), Fraction(1), 1, N_("mm, millimetre, millimetres, millimeters")),
    Unit("cm", N_("{figure} cm"), Fraction(10), 2, N_("cm, centimetre, centimetres, centimeters")),
    Unit("in", N_("{figure} in"), _INCH_MM, 2, N_('in, inch, inches, ″, "')),
)
LENGTH = _quantity(
    "length",
    "m",
    "ft",
    "ft",
    Unit("m", N_("{figure} m"), Fraction(1), 1, N_("m, metre, metres, meter, meters")),
    Unit("ft", N_("{figure} ft"), _FOOT_M, 1, N_("ft, foot, feet, ′, '")),
)
AREA = _quantity(
    "area",
    "m2 10000:ha",
    "ft2 4047:ac",
    "m2 4047:ac",
    Unit("m2", N_("{figure} m²"), Fraction(1), 1, N_("m², m2, sqm, sq m, square metre, square metres, square meters")),
    Unit("ha", N_("{figure} ha"), Fraction(10_000), 3, N_("ha, hectare, hectares")),
    Unit("ft2", N_("{figure} ft²"), _FOOT_M**2, 0, N_("ft², ft2, sq ft, square foot, square feet")),
    Unit("ac", N_("{figure} ac"), _ACRE_M2, 3, N_("ac, acre, acres")),
)
PRESSURE = _quantity(
    "pressure",
    "bar",
    "psi",
    "psi",
    Unit("kpa", N_("{figure} kPa"), Fraction(1), 1, N_("kPa, kilopascal, kilopascals")),
    Unit("bar", N_("{figure} bar"), Fraction(100), 2, N_("bar, bars")),
    Unit("psi", N_("{figure} psi"), _PSI_KPA, 1, N_("psi, lbf/in², pounds per square inch")),
)
TEMPERATURE = _quantity(
    "temperature",
    "c",
    "f",
    "c",
    Unit("c", N_("{figure} °C"), Fraction(1), 1, N_("°C, C, ºC, degC, celsius")),
    Unit("f", N_("{figure} °F"), Fraction(5, 9), 1, N_("°F, F, ºF, degF, fahrenheit"), Fraction(-160, 9)),
)
SPEED = _quantity(
    "speed",
    "mps",
    "mph",
    "mph",
    Unit("mps", N_("{figure} m/s"), Fraction(1), 1, N_("m/s, mps, m/sec, metres per second, meters per second")),
    Unit("kmh", N_("{figure} km/h"), Fraction(1000, 3600), 1, N_("km/h, kmh, kph, kilometres per hour")),
    Unit("mph", N_("{figure} mph"), 5280 * _FOOT_M / 3600, 1, N_("mph, mi/h, miles per hour")),
)
RADIATION = _quantity(
    "radiation",
    "mj",
    "mj",
    "mj",
    Unit("mj", N_("{figure} MJ/m²"), Fraction(1), 1, N_("MJ/m², MJ/m2, MJ m-2, megajoules per square metre")),
    Unit("kwh", N_("{figure} kWh/m²"), Fraction(36, 10), 2, N_("kWh/m², kWh/m2, kilowatt-hours per square metre")),
    Unit("ly", N_("{figure} Ly"), Fraction(4184, 100_000), 0, N_("Ly, langley, langleys, cal/cm²")),
)
CURRENT = _quantity(
    "current",
    "ma 1000:a",
    "ma 1000:a",
    "ma 1000:a",
    Unit("ma", N_("{figure} mA"), Fraction(1), 0, N_("mA, milliamp, milliamps, milliampere, milliamperes")),
    Unit("a", N_("{figure} A"), Fraction(1000), 2, N_("A, amp, amps, ampere, amperes")),
)

QUANTITIES: Mapping[str, Quantity] = MappingProxyType(
    {
        quantity.key: quantity
        for quantity in (FLOW, VOLUME, DEPTH, LENGTH, AREA, PRESSURE, TEMPERATURE, SPEED, RADIATION, CURRENT)
    }
)

BASE_SUFFIXES: Mapping[str, str] = MappingProxyType(
    {
        "lpm": "flow",
        "l": "volume",
        "mm": "depth",
        "m": "length",
        "m2": "area",
        "kpa": "pressure",
        "ma": "current",
        "degc": "temperature",
        "mps": "speed",
        "mj": "radiation",
    }
)
"""What the end of a field's or parameter's name says is measured: `limit_lpm` is a flow."""


def unit_for(quantity: Quantity, base: float, reader: Reader) -> Unit:
    """The unit this reader sees an amount in: their own choice, or the unit set's for that size."""
    chosen = quantity.units.get(reader.choices.get(quantity.key, ""))
    if chosen is not None:
        return chosen
    steps = quantity.sets[reader.units]
    return quantity.units[next(key for least, key in reversed(steps) if abs(base) >= least or least == 0)]


def preferred_unit(quantity: Quantity, reader: Reader) -> Unit:
    """The unit a bare figure is taken in, when this reader types one without a unit."""
    return unit_for(quantity, 0, reader)
