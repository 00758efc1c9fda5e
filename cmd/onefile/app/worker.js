// @ts-check
// Runs in a worker, after Go's own wasm_exec.js: starts the program, hands it what the
// page asks, and hands the page what the program asks of the browser (see storage.go).

const here = /** @type {any} */ (globalThis); // with what Go's script and the engine add

const waiting = new Map();
let asked = 0;

/** host has the page do something for the program. @param {string} what */
const host = what => (/** @type {any[]} */ ...args) => new Promise((done, fail) => {
  waiting.set(++asked, { done, fail });
  here.postMessage({ host: asked, what, args });
});

Object.assign(globalThis, { stripesongHost: {
  read: host("read"), save: host("save"), become: host("become"), give: host("give"),
  keep: host("keep"), forget: host("forget"),
  opening: (/** @type {string} */ what) => postMessage({ opening: what }),
  ready: () => postMessage({ ready: true, brief: here.stripesongDefault }),
} });

onmessage = async ({ data }) => {
  if (data.program) return begin(data.program);
  if (data.hosted) {
    const { done, fail } = waiting.get(data.hosted);
    waiting.delete(data.hosted);
    return data.wrong === undefined ? done(data.value) : fail(data.wrong);
  }
  if (data.open) {
    const { number, name, text, fromFile, left } = data.open;
    const wrong = await here.stripesongOpen(number, name, text, fromFile, left);
    return postMessage({ id: data.id, wrong });
  }
  if (data.stopOpening) return here.stripesongStop();
  const { method, path, query, body } = data.ask;
  const answer = await here.stripesongAsk(method, path, query, body);
  here.postMessage({ id: data.id, answer }, [answer.body.buffer]);
};

/** begin unpacks and runs the program. @param {ArrayBuffer} packed */
async function begin(packed) {
  try {
    const unpacked = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
    const program = new Response(unpacked, { headers: { "Content-Type": "application/wasm" } });
    const go = new here.Go();
    const { instance } = await WebAssembly.instantiateStreaming(program, go.importObject);
    await go.run(instance);
    postMessage({ ended: "the program has ended" });
  } catch (e) {
    postMessage({ ended: String(e) });
  }
}
