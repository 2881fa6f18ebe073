import start from "./%GLUE%";
start({ module_or_path: "./%WASM%" }).catch((error) => {
  const said = document.getElementById("cannot-start");
  said.lastElementChild.textContent = String(error);
  said.hidden = false;
});
