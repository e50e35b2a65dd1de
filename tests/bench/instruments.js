// Put into every page before its own scripts: notes when things happen, and changes nothing.
(() => {
  const bench = { kept: [], taps: [], presses: 0, digits: 0, photos: 0, typed: 0, longTasks: [], events: [], shown: {} };
  window.bench = bench;

  // The moment a strict write is on the disk, as the page hears of it.
  const open = IDBDatabase.prototype.transaction;
  IDBDatabase.prototype.transaction = function transaction(stores, mode, options) {
    const tx = open.call(this, stores, mode, options);
    if (mode === "readwrite" && options?.durability === "strict") {
      tx.addEventListener("complete", () => bench.kept.push(performance.now()));
    }
    return tx;
  };

  addEventListener("click", (event) => event.isTrusted && bench.taps.push(performance.now()), true);
  addEventListener(
    "click",
    (event) => {
      if (!event.isTrusted) return;
      bench.presses += 1;
      const key = event.target.closest?.(".pad button")?.textContent.trim() ?? "";
      if (/^[0-9.,]$/.test(key)) bench.digits += 1;
    },
    true,
  );
  // A test hands over a file where a thumb would press the shutter.
  addEventListener("change", (event) => event.target.type === "file" && ((bench.presses += 1), (bench.photos += 1)), true);
  addEventListener(
    "input",
    (event) => {
      const now = event.target.value?.length ?? 0;
      bench.typed += Math.max(0, now - (event.target.benchLength ?? 0));
      event.target.benchLength = now;
    },
    true,
  );

  const watch = (type, into, more) => {
    if (!PerformanceObserver.supportedEntryTypes.includes(type)) return;
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) into.push({ at: entry.startTime, ms: entry.duration, id: entry.interactionId });
    }).observe({ type, buffered: true, ...more });
  };
  watch("longtask", bench.longTasks);
  watch("event", bench.events, { durationThreshold: 16 });

  // When something is first there and painted.
  bench.whenShown = (selector) => {
    const look = () => {
      if (bench.shown[selector] !== undefined || !document.querySelector(selector)) return false;
      bench.shown[selector] = 0;
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => (bench.shown[selector] = performance.now());
        port2.postMessage(0);
      });
      return true;
    };
    if (look()) return;
    const observer = new MutationObserver(() => look() && observer.disconnect());
    observer.observe(document, { childList: true, subtree: true });
  };

  // Frames while a task runs: their lengths in ms.
  bench.frames = (ms) =>
    new Promise((done) => {
      const lengths = [];
      let before = performance.now();
      const begun = before;
      const next = (now) => {
        lengths.push(now - before);
        before = now;
        if (now - begun > ms) done(lengths);
        else requestAnimationFrame(next);
      };
      requestAnimationFrame(next);
    });
})();
