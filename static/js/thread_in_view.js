/* On a narrow screen the thread starts at the part in hand, not at the first. */
htmx.onLoad((place) => {
  const knot = place.querySelector(".thread .in-hand");
  const line = knot && knot.closest(".thread");
  if (line) line.scrollLeft = knot.offsetLeft - line.clientWidth / 3;
});
