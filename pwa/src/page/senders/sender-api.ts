/** Who sends to a site with a token of its own: what the server knows of them, and having it make or end one. */

import { sendJson } from "../line/fetching";
import { type KnownList, knownList } from "../more/known-list";
import { person } from "../store/queries";
import { language } from "../words/reader";

export interface Sender {
  id: string;
  name: string;
  /** Whole seconds since 1970. */
  made_at: number;
  heard_at: number | null;
}

/** A new one; its token is told this once. */
export interface MadeSender {
  id: string;
  name: string;
  token: string;
}

export interface SenderApi<One extends Sender> {
  list(site: string): KnownList<One>;
  /** Raises `LineFault`. */
  make(site: string, name: string): Promise<MadeSender>;
  /** Raises `LineFault`. */
  end(site: string, id: string): Promise<void>;
}

/** `folder`: where the server lists them, below a site. */
export function sendersUnder<One extends Sender>(folder: string): SenderApi<One> {
  const pathOf = (site: string, ...more: string[]) =>
    ["/api/sites", encodeURIComponent(site), folder, ...more.map(encodeURIComponent)].join("/");
  return {
    list: (site) => knownList(person.value?.id ?? "", pathOf(site)),
    make: (site, name) => sendJson<MadeSender>("POST", pathOf(site), { name: name.trim() }, language.peek()),
    end: (site, id) => sendJson<void>("DELETE", pathOf(site, id), {}, language.peek()),
  };
}
