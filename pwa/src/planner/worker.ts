/** The planner's room: the engine in Pyodide, beside the page and never in its way. */

import type { FromPlanner } from "../wire/planning";

const answer: FromPlanner = { tell: "failed", why: "not built yet" };
postMessage(answer);
