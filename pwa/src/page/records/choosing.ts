/** Searching as people type: by any part of a name, whatever its accents or case. */

export interface ChooserOption {
  value: string;
  label: string;
  about?: string | undefined;
}

const MARKS = /\p{M}/gu;

export function foldedText(text: string): string {
  return text.normalize("NFKD").replace(MARKS, "").toLowerCase().trim();
}

/** Whatever has all the words; what begins with them first. */
export function found(options: readonly ChooserOption[], asked: string): ChooserOption[] {
  const words = foldedText(asked).split(/\s+/).filter(Boolean);
  if (!words.length) return [...options];
  const whole = words.join(" ");
  const fitting = options.filter(({ label, about = "" }) => {
    const text = foldedText(`${label} ${about}`);
    return words.every((word) => text.includes(word));
  });
  const begins = (option: ChooserOption) => (foldedText(option.label).startsWith(whole) ? 0 : 1);
  return [...fitting].sort((a, b) => begins(a) - begins(b));
}
