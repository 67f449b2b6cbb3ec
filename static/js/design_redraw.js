/* A live redraw leaves open what was open, and marks the field that is at fault. */
(() => {
  let opened = new Set();
  const folds = () => document.querySelectorAll("#tried [data-fold]");
  const field = (name) => document.querySelector(`.designing .asking [name="${CSS.escape(name)}"]`);

  const remember = () => {
    // A refusal has no folds: what was open before it is open again after it.
    if (!folds().length) return;
    opened = new Set([...folds()].filter((one) => one.open).map((one) => one.dataset.fold));
  };

  const mark = () => {
    const faulty = (document.getElementById("tried").dataset.faulty || "").split(" ");
    for (const one of document.querySelectorAll(".designing .asking [name]")) {
      if (!faulty.includes(one.name)) {
        one.removeAttribute("aria-invalid");
        continue;
      }
      one.setAttribute("aria-invalid", "true");
      const fold = one.closest("details");
      if (fold) fold.open = true;
    }
  };

  document.addEventListener("htmx:beforeSwap", (event) => {
    if (event.detail.target.id === "tried") remember();
  });
  document.addEventListener("htmx:afterSwap", (event) => {
    if (event.detail.target?.id !== "tried") return;
    for (const one of folds()) one.open = opened.has(one.dataset.fold);
    mark();
  });
  document.addEventListener("click", (event) => {
    const use = event.target.closest('#tried button[name="use"]');
    const [name, ...value] = use ? use.value.split("=") : [""];
    const place = name && field(name);
    if (!place) return;
    event.preventDefault();
    event.stopPropagation();
    const fold = place.closest("details");
    if (fold) fold.open = true;
    place.value = value.join("=");
    place.focus();
    place.dispatchEvent(new Event("change", { bubbles: true }));
  }, true);
})();
