// The wasm stands in the page as base64 of gzip; the glue above takes the unpacked stream.
try {
  const packed = atob(document.getElementById("wasm").textContent);
  const bytes = Uint8Array.from(packed, (letter) => letter.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  const headers = { "content-type": "application/wasm" };
  await __wbg_init({ module_or_path: new Response(stream, { headers }) });
} catch (error) {
  const said = document.getElementById("cannot-start");
  said.lastElementChild.textContent = String(error);
  said.hidden = false;
}
