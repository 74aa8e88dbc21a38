"use strict";
(() => {
  const job = document.body.dataset.job;
  const steps = [...document.querySelectorAll("[data-step]")];
  const by = (id) => document.getElementById(id);

  // Kept on this device; a browser that keeps nothing still shows the book.
  const store = {
    get(key) {
      try { return localStorage.getItem(key); } catch { return null; }
    },
    set(key, value) {
      try {
        if (value) localStorage.setItem(key, value);
        else localStorage.removeItem(key);
      } catch { /* nothing is kept */ }
    },
  };

  const boxOf = (step) => step.querySelector("[data-keep=done]");
  const fields = steps.flatMap((step) =>
    [...step.querySelectorAll("[data-keep]")].map((field) => ({
      field, key: `jigs:${job}:${step.dataset.step}:${field.dataset.keep}`,
    })));
  const valueOf = (field) => field.type === "checkbox" ? (field.checked ? "1" : "") : field.value;
  const put = (field, value) => {
    if (field.type === "checkbox") field.checked = value === "1";
    else field.value = value ?? "";
  };

  function tell() {
    const left = steps.filter((step) => !boxOf(step).checked);
    steps.forEach((step) => step.classList.toggle("is-done", boxOf(step).checked));
    by("progress").textContent = `${steps.length - left.length} of ${steps.length} steps done`;
    by("next").hidden = !left.length;
    if (left.length) by("next").href = `#${left[0].id}`;
  }

  for (const { field, key } of fields) {
    put(field, store.get(key));
    field.addEventListener("input", () => { store.set(key, valueOf(field)); tell(); });
  }
  by("clear").addEventListener("click", () => {
    if (!confirm("Clear every tick and reading of this job on this device?")) return;
    for (const { field, key } of fields) { put(field, ""); store.set(key, ""); }
    tell();
  });
  by("bar").hidden = !steps.length;
  tell();

  const large = by("large"), view = by("view"), shown = by("shown");
  document.addEventListener("click", (event) => {
    const button = event.target.closest(".zoom");
    if (!button || !large.showModal) return;
    const drawing = by(button.dataset.drawing); // a part's own, with its sizes
    const image = (drawing ?? button).querySelector("img");
    shown.src = image.src;
    shown.alt = image.alt;
    view.classList.remove("near");
    large.showModal();
  });
  shown.addEventListener("click", (event) => {
    const box = shown.getBoundingClientRect();
    const x = (event.clientX - box.left) / box.width, y = (event.clientY - box.top) / box.height;
    view.classList.toggle("near");
    view.scrollLeft = x * view.scrollWidth - view.clientWidth / 2;
    view.scrollTop = y * view.scrollHeight - view.clientHeight / 2;
  });
  addEventListener("beforeprint", () => {
    for (const drawings of document.querySelectorAll(".drawings")) drawings.open = true;
  });
  by("close").addEventListener("click", () => large.close());
})();
