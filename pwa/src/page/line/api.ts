/** The shapes of the API, as `tests/project/api_types.py` reads them from the server. Not written by hand. */

export interface About {
  version: string;
  planner: string;
  zone_data: string;
}
export interface Alarm {
  id: string;
  change: number;
  night: string;
  last_night: string;
  kind: "too_much" | "too_little" | "unasked" | "meter" | "silent" | "power" | "drift";
  gravity: "minor" | "serious" | "grave";
  supply: string | null;
  controller: string | null;
  station: string | null;
  size_lpm: number;
  lost_l: number;
  since: number;
  opened_at: number;
  spells: (number | null)[][];
  said: Said;
  culprits: Culprit[];
  trial: Trial;
  seen: Seen[];
  explained: Explained | null;
  ended: Ended | null;
}
export interface Said {
  code: string;
  params: {
    [k: string]: unknown;
  };
  detail: string;
}
export interface Culprit {
  cause: "break" | "stuck_open" | "dead_valve" | "low_flow" | "clogged" | "no_power";
  sure: number;
  size_lpm: number;
  station: string | null;
  supply: string | null;
  controller: string | null;
  said: Said;
}
export interface Trial {
  stations: string[];
  said: Said | null;
}
export interface Seen {
  person: string;
  at: number;
}
export interface Explained {
  kind: "fault" | "work" | "other_water" | "meter" | "nothing" | "other";
  text: string;
  by: string | null;
  at: number;
}
export interface Ended {
  at: number;
  by: string;
  why: Said;
}
export interface Answer {
  id: string;
  set: string;
  outcome: "taken" | "agreed" | "disputed" | "removed" | "refused" | "held" | "parked";
  version?: number | null;
  revision?: number | null;
  theirs?: unknown;
  by?: string | null;
  by_name?: string | null;
  when?: number | null;
  code?: string;
  params?: {
    [k: string]: unknown;
  };
  detail?: string;
  faults?: AnswerFault[];
  why?: string;
  format?: number;
  with?: string[];
  beside?: {
    [k: string]: unknown;
  }[];
}
export interface AnswerFault {
  table?: string | null;
  record?: string | null;
  field?: string | null;
  code: string;
  params: {
    [k: string]: unknown;
  };
  detail?: string;
}
export interface Budget {
  year: number;
  currency: string | null;
  lines: BudgetLine[];
  costs: MonthCost[];
  caution: string;
}
export interface BudgetLine {
  month: string;
  hydrozone: string;
  allowed_l: number;
  planned_l: number;
  used_l: number;
  left_l: number;
}
export interface MonthCost {
  month: string;
  used_l: number;
  amount: string | null;
  steps: PriceStep[];
  planned_l: number;
  planned_amount: string;
}
export interface PriceStep {
  volume_l: number;
  price: string;
  amount: string;
}
export interface Change {
  at: number;
  before_s: number;
  after_s: number;
}
export interface Clock {
  now: number;
  stands: boolean;
}
export interface Device {
  id: string;
  name: string;
  enrolled_at: number;
  seen_at: number;
  this_one: boolean;
}
export interface Figure {
  key: string;
  name: string;
  value: number | null;
  unit: string;
  inputs: string[];
  source: string;
  rung: string;
  row: string;
}
export interface HelloAnswer {
  outcome: "ok" | "update_needed" | "start_over" | "signed_out";
  protocol: number;
  format: number;
  now: number;
  scope: string | null;
  revision: number | null;
  role: string | null;
  signed_in: Session | null;
}
export interface Session {
  person: string;
  device: string;
  team: string;
  profile: Profile;
  sign_in_name: string | null;
  sites: SiteRole[];
}
export interface Profile {
  name: string;
  language: string;
  units?: string | null;
  hour_cycle?: "12" | "24" | null;
  first_day?: "mon" | "tue" | "wed" | "thu" | "fri" | "sat" | "sun" | null;
  digits?: "latn" | "arab" | "arabext" | "deva" | null;
}
export interface SiteRole {
  site: string;
  role: "manager" | "lead" | "crew";
  scope: number;
}
export interface History {
  site: string;
  edits: HistoryEdit[];
  people: {
    [k: string]: unknown;
  };
  next: number | null;
}
export interface HistoryEdit {
  id: string;
  set: string;
  kind: string;
  table: string;
  record: string;
  field: string | null;
  seen: unknown;
  was: unknown;
  before: unknown;
  now: unknown;
  format: number;
  outcome: "taken" | "agreed" | "disputed" | "removed" | "refused" | "held" | "parked";
  version: number | null;
  revision: number;
  person: string;
  device: string | null;
  at: number;
  phone_time: string | null;
  decided_by: string | null;
  decided_at: number | null;
  settles: string | null;
  undoes: string | null;
  effect: {
    [k: string]: unknown;
  } | null;
}
export interface HydrozoneNeed {
  hydrozone: string;
  by_hand: boolean;
  depletion_mm: number | null;
  ready_mm: number | null;
  total_mm: number | null;
  tonight_mm: number | null;
  share_pct: number | null;
  next_night: string | null;
  next_mm: number | null;
  decision: Said | null;
  stations: StationNeed[];
  messages: Said[];
}
export interface StationNeed {
  station: string;
  net_mm: number;
  gross_mm: number;
  rate_mm_h: number;
  rate_from: string;
  uniformity: number;
  multiplier: number;
  run_s: number;
  cycles: number;
  soak_s: number;
  messages: Said[];
}
export interface Invitation {
  id: string;
  role: "manager" | "lead" | "crew";
  name: string | null;
  made_at: number;
  expires_at: number;
}
export interface Invited {
  id: string;
  code: string;
  expires_at: number;
  address: string;
  qr: string;
}
export interface MadeWeatherStation {
  id: string;
  name: string;
  token: string;
}
export interface Message {
  code: string;
  params: {
    [k: string]: unknown;
  };
}
export interface NeedWeather {
  day: string;
  reference_mm: number | null;
  rung: string;
  row: string;
  flags: Said[];
}
export interface NightClock {
  night: string;
  starts: number;
  ends: number;
  offset_s: number;
  changes: Change[];
  sunset: number | null;
  sunrise: number | null;
}
export interface NightNeed {
  night: string;
  weather: NeedWeather | null;
  hydrozones: HydrozoneNeed[];
  messages: Said[];
  caution: string;
}
export interface NightSheet {
  site: string;
  night: string;
  starts: number;
  ends: number;
  starts_local: string;
  ends_local: string;
  zone: string;
  zone_data: string;
  engine: string;
  runs: NightSheetRun[];
  shortfalls: NightSheetShortfall[];
  draws: NightSheetDraw[];
  closed: NightSheetClosedSpan[];
  finish: number | null;
  bound: NightSheetBound | null;
  notices: NightSheetMessage[];
  volume_due_l: number;
  volume_l: number;
  moved_pct: number | null;
  order: string[];
  constructions: number;
  format: 1;
}
export interface NightSheetRun {
  turn: string;
  station: string;
  program: string | null;
  supply: string;
  controller: string | null;
  cycle: number;
  cycles: number;
  start: number;
  end: number;
  start_local: string;
  end_local: string;
  flow_lpm: number;
  volume_l: number;
  why: NightSheetMessage;
  ladder: NightSheetRung[];
}
export interface NightSheetMessage {
  code: string;
  params: {
    [k: string]: string | number | null;
  };
}
export interface NightSheetRung {
  why: NightSheetMessage;
  at: number;
}
export interface NightSheetShortfall {
  turn: string;
  station: string;
  program: string | null;
  supply: string;
  cycles: number;
  run_s: number;
  volume_l: number;
  why: NightSheetMessage;
}
export interface NightSheetDraw {
  supply: string;
  steps: [unknown, unknown][];
  volume_l: number;
  peak_lpm: number;
}
export interface NightSheetClosedSpan {
  closure: string | null;
  supply: string | null;
  whole: boolean;
  start: number;
  end: number;
}
export interface NightSheetBound {
  at: number;
  holder: NightSheetMessage;
  relief: NightSheetMessage | null;
}
export interface Notice {
  night: string;
  message: Message;
  detail: string;
  people: string[];
  revision: number | null;
  made_at: number;
}
export interface Person {
  id: string;
  name: string;
  role: "manager" | "lead" | "crew";
}
export interface Promise {
  kind: "power_back" | "freed" | "lifted";
  at: number;
  supply?: string;
  controller?: string;
}
export interface PullAnswer {
  protocol: number;
  site: string;
  fresh: boolean;
  first: boolean;
  cursor: number;
  scope: string;
  next: string | null;
  revision: number;
  format: number;
  role: string | null;
  records: PulledRecord[];
  removals: Removal[];
  waiting: Waiting[];
  people: {
    [k: string]: unknown;
  };
  sheets: {
    [k: string]: unknown;
  } | null;
  notices: Notice[];
  alarms: PulledAlarms | null;
}
export interface PulledRecord {
  record: {
    [k: string]: unknown;
  };
  versions: {
    [k: string]: number;
  };
  order: number;
}
export interface Removal {
  table: string;
  id: string;
  version: number;
  by?: string | null;
  when?: number | null;
}
export interface Waiting {
  tray: "disputed" | "removed" | "refused" | "held" | "parked";
  open: boolean;
  edit: {
    [k: string]: unknown;
  };
  answer: Answer;
  closed_how?: string | null;
  closed_by?: string | null;
  closed_at?: number | null;
  effect?: {
    [k: string]: unknown;
  } | null;
}
export interface PulledAlarms {
  next: number;
  more: boolean;
  alarms: Alarm[];
  names: {
    [k: string]: string;
  };
}
export interface Season {
  hydrozone: string;
  start_mm: number;
  days: SeasonDay[];
  messages: Said[];
  caution: string;
}
export interface SeasonDay {
  day: string;
  reference_mm: number | null;
  rung: string;
  row: string;
  demand_mm: number;
  rain_mm: number;
  effective_mm: number;
  lost_mm: number;
  rain_ran_off_mm: number;
  applied_mm: number;
  ran_off_mm: number;
  uneven_mm: number;
  taken_mm: number;
  percolated_mm: number;
  depletion_mm: number;
  ready_mm: number;
  total_mm: number;
  flags: Said[];
}
export interface Site {
  id: string;
  name: string;
  revision: number;
}
export interface Taken {
  id: string;
}
export interface Used {
  from: string;
  until: string;
  by: "supply" | "program" | "hydrozone" | "month";
  currency: string | null;
  nights: number;
  told: number;
  lines: UsedLine[];
  total: UsedLine;
  meters: UsedMeter[];
  unaccounted_l: number | null;
  faults: UsedFault[];
  said: Said[];
  caution: string;
}
export interface UsedLine {
  key: string;
  name: string;
  planned_l: number;
  delivered_l: number | null;
  assumed_l: number;
  beyond_l: number;
  lost_l: number;
  lost: UsedLost[];
  came_l: number;
  before_l: number | null;
  allowed_l: number | null;
}
export interface UsedLost {
  why: "power" | "shut" | "stopped" | "not_opened" | "opened_late" | "closed_early" | "low_flow";
  volume_l: number;
}
export interface UsedMeter {
  supply: string;
  starts: number;
  ends: number;
  starts_local: string;
  ends_local: string;
  counted_l: number;
  came_l: number;
  unaccounted_l: number;
  said: Said[];
}
export interface UsedFault {
  alarm: string;
  kind: string;
  supply: string | null;
  controller: string | null;
  since: number;
  until: number | null;
  escaped_l: number;
  kept_l: number;
  cost: string | null;
  said: Said;
}
export interface WeatherStation {
  id: string;
  name: string;
  made_at: number;
  heard_at: number | null;
}
export interface Work {
  turn: string;
  night: string;
  decision: Said | null;
  figures: Figure[];
  messages: Said[];
  caution: string;
}
