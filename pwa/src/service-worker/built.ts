/** The list of files that the build put into this worker. */

import type { BuiltFiles } from "../wire/shell";

declare const BUILT_FILES: BuiltFiles;

export const built: BuiltFiles = BUILT_FILES;
