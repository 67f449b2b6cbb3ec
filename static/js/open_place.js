/* A place inside something folded, or a step itself, is opened by what leads to it. */
(() => {
  const open = (place) => {
    if (!place) return false;
    const own = place.matches(".step") ? place.querySelector("details") : null;
    let folded = false;
    for (let fold = own || place.closest("details"); fold; fold = fold.parentElement.closest("details")) {
      folded ||= !fold.open;
      fold.open = true;
    }
    return folded;
  };
  const named = (hash) => document.getElementById(decodeURIComponent(hash.slice(1)));
  const arrive = () => {
    const place = location.hash && named(location.hash);
    if (place && open(place)) place.scrollIntoView();
  };

  document.addEventListener("click", (event) => {
    const link = event.target.closest('a[href^="#"]');
    if (link) open(named(link.getAttribute("href")));
  });
  addEventListener("hashchange", arrive);
  document.addEventListener("DOMContentLoaded", arrive);
  document.addEventListener("htmx:afterSwap", (event) => {
    if (event.target === document.body) arrive();
  });
})();
