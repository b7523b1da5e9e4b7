/** Texts as files: what is unsent can be carried to a manager by any means where the line stays away. */

/** Hands a text to the browser to be saved as a file. */
export function saveFile(name: string, text: string, type = "application/json"): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
