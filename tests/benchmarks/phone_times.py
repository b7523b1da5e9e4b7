"""Times the planner on planted nights and prints JSON: the same script natively and in Pyodide.

Words: sizes. It imports nothing but the engine and the made-up nights. Processor time on both sides, so that other
work on the machine does not count; in Pyodide it is Node that knows it.
"""

import json
import sys
from time import process_time

from nights.measure import finish
from nights.planted import planted
from pengan.engine.plan.solve import default_effort, solve


def now() -> float:
    """Processor seconds of this process."""
    if sys.platform != "emscripten":
        return process_time()
    from js import process  # type: ignore[import-not-found]

    used = process.cpuUsage()
    return float(used.user + used.system) / 1e6


def times(stations: int) -> dict[str, float]:
    """Seconds to the first and to the best sheet of a planted night, and when the best finishes."""
    problem = planted(stations, 1).problem
    firsts = []
    for _ in range(3):
        began = now()
        solve(problem, 1)
        firsts.append(now() - began)
    began = now()
    best = solve(problem, default_effort(problem))
    return {"first": min(firsts), "best": now() - began, "finish": finish(problem, best)}


print(json.dumps({"loaded_ms": globals().get("loaded_ms"), **{size: times(int(size)) for size in sys.argv[1:]}}))
