// Offline and updates. Begins when the app has started (data-started on the root element, and
// `ringland-started` on the window), so that it does not contend for files with a first start.
//
// The app listens for `ringland-update-ready` on the window (or, having started later than that, finds
// data-update="ready" on the root element) and dispatches `ringland-update-now` when the person says
// so.
//
// Where the browser offers to install the page, the offer is kept (data-install="ready" on the root
// element, `ringland-install` on the window whenever that changes) until the app dispatches
// `ringland-install-now`.
(() => {
  const root = document.documentElement;
  let offer = null;
  const offered = (event) => {
    offer = event;
    if (event) root.dataset.install = "ready";
    else delete root.dataset.install;
    dispatchEvent(new CustomEvent("ringland-install"));
  };
  addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    offered(event);
  });
  addEventListener("appinstalled", () => offered(null));
  addEventListener("ringland-install-now", () => {
    offer?.prompt();
    // An offer can be taken up once.
    offered(null);
  });
})();
(() => {
  if (!location.protocol.startsWith("http") || !("serviceWorker" in navigator)) return;
  const workers = navigator.serviceWorker;
  let first = !workers.controller;
  let asked = false;
  const ready = () => {
    document.documentElement.dataset.update = "ready";
    dispatchEvent(new CustomEvent("ringland-update-ready"));
  };
  workers.addEventListener("controllerchange", () => {
    // The first worker ever is no update; one that another tab asked for is offered, not forced.
    if (asked) location.reload();
    else if (!first) ready();
    first = false;
  });
  const register = async () => {
    const registration = await workers.register("sw.js", { updateViaCache: "none" });
    const watch = (worker) =>
      worker?.addEventListener("statechange", () => {
        if (worker.state === "installed" && workers.controller) ready();
      });
    if (registration.waiting && workers.controller) ready();
    watch(registration.installing);
    registration.addEventListener("updatefound", () => watch(registration.installing));
    addEventListener("ringland-update-now", () => {
      asked = true;
      if (registration.waiting) registration.waiting.postMessage("skip-waiting");
      else location.reload();
    });
  };
  const begin = () =>
    register().catch((error) => console.warn("Ringland is not kept for offline use:", error));
  if (document.documentElement.dataset.started) begin();
  else addEventListener("ringland-started", begin, { once: true });
})();
