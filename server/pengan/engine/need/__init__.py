"""How much water each planting needs: from weather to millimetres to minutes, every number with its inputs and source.

Reading order: `weather` (what was observed) and `quality` (what is odd about it), `ladder` (each day's reference
evapotranspiration and the rung it came from, by `penman`, `hargreaves` or `normals`), `coefficients` and `soil`
(the planting), `rain` and `balance` (the soil's water day by day), `decide` (how many millimetres, on which night),
`cans`, `rates`, `intake` and `minutes` (the run time), `seasonal`, `allowance` and `prices`, and `trace` (the work
shown). All figures are planning aids; local rules on water use stand above them.

Base units: millimetres, days of the site's calendar, degrees Celsius, kilopascals, metres per second,
megajoules per square metre, litres per minute, square metres, seconds.
"""
