/** What the first screen needs, in one file: many small ones cost more in heads and round trips than they save. */

const ROOMS = /\/src\/page\/(?:way|site|line|night|picture|tonight|help|look|shell)\//;
const WORDS =
  /\/src\/page\/words\/(?:catalogue|reader|languages|figures|formats|isolates|moments|durations|units|say|numbers)\.ts$/;
const LIBRARIES = /\/node_modules\/(?:preact|@preact)\//;
/** Fetched when it is first shown, or by another room. */
const LATER =
  /\/(?:near-list|dry-panel|dry-check|dry-bar|help-panel|help-page|cautions|first-steps|lost-phone|texts|steps|offline-line|keeping-line|install-line|tray|records|more|ahead|stations|changes|fonts|need(?:-[a-z]+)?)\.(?:ts|tsx|css)$/;

export function isOfFirstScreen(id: string): boolean {
  return (ROOMS.test(id) || WORDS.test(id) || LIBRARIES.test(id)) && !LATER.test(id);
}
