import start from "./%GLUE%";
start({ module_or_path: "./%WASM%" }).catch((error) => {
  document.body.append(`Ringland cannot start in this browser: ${error}`);
});
