/* A link to a place inside something folded opens it first. */
document.addEventListener("click", (event) => {
  const link = event.target.closest('a[href^="#"]');
  const place = link && document.getElementById(link.getAttribute("href").slice(1));
  for (let fold = place && place.closest("details"); fold; fold = fold.parentElement.closest("details")) {
    fold.open = true;
  }
});
