// Runs beside the page. The glue above brings the work, packed as below; what it works on comes by message, one answer
// for each, in the order asked.
const begun = (async () => {
  const bytes = Uint8Array.from(atob("%WASM%"), (letter) => letter.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  const headers = { "content-type": "application/wasm" };
  await wasm_bindgen({ module_or_path: new Response(stream, { headers }) });
})();
let plate;
const acts = {
  picture({ width, rgba }) {
    plate?.free();
    plate = new wasm_bindgen.Plate(width, rgba);
    return null;
  },
  count({ corners, rectangle, leftOut, shade }) {
    plate.outline(corners, rectangle);
    for (const { way, width } of leftOut) plate.leave_out(way, width);
    return plate.count(shade);
  },
  paint: ({ cuts, colours, every }) => plate.paint(cuts, colours, every),
};
onmessage = async ({ data }) => {
  try {
    await begun;
    postMessage({ answer: acts[data.act](data) });
  } catch (why) {
    postMessage({ why: String(why) });
  }
};
