/** Photos on their way to the server: one by one, until each is answered. Sent twice is kept once. */

import { detailOf, isAnswer, mayBeLater, PATIENCE_MS, type Reply, replyOf, SILENCE } from "../../line/line";
import type { Database } from "../../store/database";
import type { Ending } from "../../sync/round";
import { type PhotoRow, photoAnswered, unsentPhotos } from "./kept";

/** So many times as long as an edit, where signal is weak. */
const LONGER = 4;

export type SendPhoto = (path: string, row: PhotoRow) => Promise<Reply>;

/** The real line. */
export function photoLine(language: () => string): SendPhoto {
  return async (path, row) => {
    const digest = await digestOf(row.bytes);
    const headers = {
      "Accept-Language": language(),
      "Content-Type": row.kind,
      ...(digest ? { "Content-Digest": digest } : {}),
    };
    try {
      const signal = AbortSignal.timeout(PATIENCE_MS * LONGER);
      return await replyOf(await fetch(path, { method: "PUT", body: row.bytes, headers, signal, cache: "no-store" }));
    } catch {
      return SILENCE;
    }
  };
}

/** By it the server knows whether what arrives is what was sent (RFC 9530). Null: the browser works none out, as on a line
 * that is not secure; the server then looks at how the photo ends. */
export async function digestOf(bytes: ArrayBuffer): Promise<string | null> {
  if (!crypto.subtle) return null;
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return `sha-256=:${btoa(String.fromCharCode(...sum))}:`;
}

/** Send what waits. A photo that the server will not have is set aside with what it said, and delays no other. */
export async function photoRound(database: Database, person: string, send: SendPhoto): Promise<Ending> {
  for (const row of await unsentPhotos(database, person)) {
    const reply = await send(pathOf(row), row);
    if (isAnswer(reply)) await photoAnswered(database, row, null);
    else if (mayBeLater(reply)) return { how: "silent", wait_ms: reply.wait_ms };
    else await photoAnswered(database, row, detailOf(reply) || String(reply.status));
  }
  return { how: "in_step" };
}

export function pathOf({ site, id, person }: Pick<PhotoRow, "site" | "id" | "person">): string {
  return `${photoPath(site, id)}?${new URLSearchParams({ person })}`;
}

export function photoPath(site: string, id: string): string {
  return `/api/sites/${encodeURIComponent(site)}/photos/${encodeURIComponent(id)}`;
}
