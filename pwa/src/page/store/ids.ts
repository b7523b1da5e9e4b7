/** Ids that no other phone makes: UUIDs of version 7 (RFC 9562, section 5.7), from the browser's own source of chance. */

/** In order of their making to the millisecond. The order is never relied on, the chance is. */
export function newId(now: number = Date.now()): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  const moment = Math.max(0, Math.floor(now));
  for (let place = 0; place < 6; place++) bytes[place] = Math.floor(moment / 256 ** (5 - place)) % 256;
  bytes[6] = 0x70 | ((bytes[6] ?? 0) & 0x0f);
  bytes[8] = 0x80 | ((bytes[8] ?? 0) & 0x3f);
  const digits = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return digits.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}
