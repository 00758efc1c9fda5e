// @ts-check
// Files in a browser: opened from a dialog or dropped, written to where the browser can
// do that and given as downloads elsewhere. No request leaves the page.

/** @typedef {{name: string, text: string, handle: any}} Opened */

const MOST = 4 << 20; // bytes of a brief; a long one has a few thousand

/** chosen has the weaver choose a brief. @returns {Promise<Opened | null>} null for none */
export async function chosen() {
  if ("showOpenFilePicker" in window) {
    try {
      const [handle] = await /** @type {any} */ (window).showOpenFilePicker({
        types: [{ description: "Brief", accept: { "text/plain": [".toml"] } }] });
      return opened(await handle.getFile(), handle);
    } catch (e) {
      if (/** @type {Error} */ (e).name === "AbortError") return null;
      throw e;
    }
  }
  const input = document.createElement("input");
  input.type = "file";
  input.accept = ".toml,text/plain";
  return new Promise((done, fail) => {
    input.addEventListener("cancel", () => done(null));
    input.addEventListener("change", () => opened(input.files?.[0], null).then(done, fail));
    input.click();
  });
}

/** dropped is the brief that was let fall on the page. @param {DataTransfer} on */
export async function dropped(on) {
  const item = [...on.items].find(i => i.kind === "file");
  const file = item?.getAsFile();
  if (!item || !file) return null;
  const asked = "getAsFileSystemHandle" in item
    ? /** @type {any} */ (item).getAsFileSystemHandle().catch(() => null) : null;
  const handle = await asked;
  return opened(file, handle && handle.kind === "file" ? handle : null);
}

/** @param {File | undefined} file @param {any} handle @returns {Promise<Opened | null>} */
async function opened(file, handle) {
  if (!file) return null;
  if (file.size > MOST) throw new Error(file.name + " is too large to be a brief: above 4 MB");
  const text = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
  const words = await file.arrayBuffer().then(b => text.decode(b)).catch(() => "\0");
  if (words.includes("\0")) {
    throw new Error(file.name + " is not a text, so it is no brief");
  }
  return { name: file.name, text: words, handle };
}

/** read is what is in the file now; null where it is gone. @param {any} handle */
export async function read(handle) {
  try {
    return await (await handle.getFile()).text();
  } catch (e) {
    if (/** @type {Error} */ (e).name === "NotFoundError") return null;
    throw e;
  }
}

/** write puts a text into the file, whole or not at all. @param {any} handle
 *  @param {string} text */
export async function write(handle, text) {
  const to = await handle.createWritable();
  await to.write(text);
  await to.close();
}

/** give gives a file as a download. @param {string} name @param {BlobPart} body */
export function give(name, body) {
  const url = URL.createObjectURL(new Blob([body]));
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 60000); // the browser has begun by then
}
