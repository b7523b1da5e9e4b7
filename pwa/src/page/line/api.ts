/** The shapes of the API, as `tests/project/api_types.py` reads them from the server. Not written by hand. */

export interface About {
  version: string;
  planner: string;
  zone_data: string;
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
export interface Decision {
  decision: "accept" | "decline" | "discard";
}
export interface Device {
  id: string;
  name: string;
  enrolled_at: number;
  seen_at: number;
  this_one: boolean;
}
export interface Document {
  format: 1;
  records: {
    table:
      | "site"
      | "supplies"
      | "controllers"
      | "hydrozones"
      | "stations"
      | "programs"
      | "turns"
      | "windows"
      | "closures"
      | "apart"
      | "asked"
      | "weather"
      | "normals"
      | "soil_water"
      | "audits"
      | "cans"
      | "droughts"
      | "tiers";
  }[];
}
export interface DocumentThen {
  revision: number;
  document: {
    [k: string]: unknown;
  };
}
export interface Edit {
  id: string;
  kind: "set" | "add" | "remove" | "restore" | "settle";
  table?: string | null;
  record?: string | null;
  field?: string | null;
  seen?: unknown;
  was?: unknown;
  now?: unknown;
  format: number;
  phone_time?: string | null;
  settles?: string | null;
}
export interface EditSet {
  id: string;
  site: string;
  cursor?: number | null;
  /**
   * @minItems 1
   * @maxItems 100
   */
  edits: [Edit, ...Edit[]];
}
export interface FieldFault {
  table?: string | null;
  record?: string | null;
  field?: string | null;
  code: string;
  params: {
    [k: string]: unknown;
  };
  detail: string;
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
export interface Health {
  status: string;
}
export interface Hello {
  protocol: number;
  app_version?: string | null;
  device?: string | null;
  person?: string | null;
  site?: string | null;
  scope?: string | null;
  cursor?: number | null;
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
export interface Said {
  code: string;
  params: {
    [k: string]: unknown;
  };
  detail: string;
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
export interface Invite {
  site: string;
  role: "manager" | "lead" | "crew";
  name?: string | null;
}
export interface Invited {
  id: string;
  code: string;
  expires_at: number;
  address: string;
  qr: string;
}
export interface Join {
  name: string;
  language: string;
  units?: string | null;
  hour_cycle?: "12" | "24" | null;
  first_day?: "mon" | "tue" | "wed" | "thu" | "fri" | "sat" | "sun" | null;
  digits?: "latn" | "arab" | "arabext" | "deva" | null;
  code: string;
  device_name: string;
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
export interface NewWeatherStation {
  name: string;
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
export interface NightsAhead {
  next: number;
  revision: number;
  tonight: string;
  sheets: NightSheet[];
  clocks: NightClock[];
}
export interface Notice {
  night: string;
  message: Message;
  detail: string;
  people: string[];
  revision: number | null;
  made_at: number;
}
export interface PaginationMetadata {
  total?: number;
  total_pages?: number;
  first_page?: number;
  last_page?: number;
  page?: number;
  previous_page?: number;
  next_page?: number;
}
export interface Password {
  name: string;
  password: string;
  present_password?: string | null;
}
export interface Person {
  id: string;
  name: string;
  role: "manager" | "lead" | "crew";
}
export interface Problem {
  type: string;
  title: string;
  status: number;
  detail: string;
  code: string;
  params: {
    [k: string]: unknown;
  };
  fields: FieldFault[];
}
export interface Pull {
  site: string;
  cursor?: number | null;
  person?: string | null;
  scope?: string | null;
  after?: string | null;
  sheets?: number | null;
  limit?: number | null;
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
export interface Push {
  device?: string | null;
  person?: string | null;
  /**
   * @minItems 1
   * @maxItems 100
   */
  sets: [EditSet, ...EditSet[]];
}
export interface PushAnswer {
  protocol: number;
  answers: Answer[];
  unanswered: string[];
}
export interface ReadingFault {
  code: string;
  params: {
    [k: string]: unknown;
  };
  detail: string;
  field: string;
}
export interface Readings {
  units?: {
    [k: string]: string;
  };
  /**
   * @maxItems 400
   */
  days?: {
    [k: string]: unknown;
  }[];
  /**
   * @maxItems 1000
   */
  hours?: {
    [k: string]: unknown;
  }[];
}
export interface ReadingsTaken {
  days: number;
  hours: number;
  changed: string[];
  faults: ReadingFault[];
}
export interface Revision {
  site: string;
  revision: number;
}
export interface Role {
  site: string;
  role: "manager" | "lead" | "crew" | null;
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
export interface SignIn {
  name: string;
  password: string;
  device_name: string;
}
export interface Site {
  id: string;
  name: string;
  revision: number;
}
export interface Suggestion {
  program: string;
  from_pct: number;
  to_pct: number;
  by_itself: boolean;
  message: Said;
}
export interface Suggestions {
  night: string;
  suggestions: Suggestion[];
  messages: Said[];
  caution: string;
}
export interface Undo {
  which: string;
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
