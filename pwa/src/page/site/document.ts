/** A site's document as the page reads it: flat records, looked up by table and id. */

export interface SiteRecord {
  table: string;
  id: string;
  [field: string]: unknown;
}

export interface DocumentData {
  format: number;
  records: SiteRecord[];
}

export interface Supply {
  id: string;
  name: string;
  fedBy: string | null;
  limitLpm: number | null;
}

export interface Station {
  id: string;
  number: string;
  name: string;
  part: string;
  hydrozone: string | null;
}

export interface Program {
  id: string;
  name: string;
  letter: string;
  /** Its place among the site's programs, which decides its colour and pattern for good. */
  place: number;
}

export class SiteDocument {
  readonly name: string;
  readonly supplies = new Map<string, Supply>();
  readonly stations = new Map<string, Station>();
  readonly programs = new Map<string, Program>();
  private readonly byTable = new Map<string, Map<string, SiteRecord>>();

  constructor(data: DocumentData) {
    for (const record of data.records) this.add(record);
    this.name = text([...this.table("site").values()][0], "name");
  }

  private add(record: SiteRecord): void {
    this.table(record.table).set(record.id, record);
    if (record.table === "supplies") this.supplies.set(record.id, supplyOf(record));
    if (record.table === "stations") this.stations.set(record.id, stationOf(record));
    if (record.table === "programs") this.programs.set(record.id, programOf(record, this.programs.size));
  }

  private table(name: string): Map<string, SiteRecord> {
    const found = this.byTable.get(name) ?? new Map<string, SiteRecord>();
    this.byTable.set(name, found);
    return found;
  }

  record(table: string, id: string): SiteRecord | undefined {
    return this.byTable.get(table)?.get(id);
  }

  /** Every record of a table, in the document's order. */
  all(table: string): SiteRecord[] {
    return [...(this.byTable.get(table)?.values() ?? [])];
  }

  /** What people call a record; its id where it has no name. A turn has the name of its station. */
  nameOf(kind: string, id: string): string {
    if (kind === "station") return this.stationName(id);
    if (kind === "turn" || kind === "asked") return this.turnName(id);
    return text(this.record(kind === "supply" ? "supplies" : kind === "site" ? "site" : `${kind}s`, id), "name") || id;
  }

  private stationName(id: string): string {
    const station = this.stations.get(id);
    return station ? `${station.number} ${station.name}` : id;
  }

  private turnName(id: string): string {
    const turn = this.record("turns", id) ?? this.record("asked", id);
    if (!turn) return id;
    return text(turn, "station")
      ? this.stationName(text(turn, "station"))
      : this.nameOf("program", text(turn, "program"));
  }
}

function supplyOf(record: SiteRecord): Supply {
  const limit = record.limit_lpm;
  return {
    id: record.id,
    name: text(record, "name"),
    fedBy: text(record, "fed_by") || null,
    limitLpm: typeof limit === "number" ? limit : null,
  };
}

function stationOf(record: SiteRecord): Station {
  return {
    id: record.id,
    number: text(record, "number"),
    name: text(record, "name"),
    part: text(record, "part"),
    hydrozone: text(record, "hydrozone") || null,
  };
}

function programOf(record: SiteRecord, place: number): Program {
  return { id: record.id, name: text(record, "name"), letter: text(record, "letter"), place };
}

function text(record: SiteRecord | undefined, field: string): string {
  const value = record?.[field];
  return typeof value === "string" ? value : "";
}
