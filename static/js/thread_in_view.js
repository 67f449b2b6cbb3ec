/* A thread too long for the page starts at the part in hand, and fades where it goes on. */
(() => {
  const fade = (line) => {
    const behind = line.scrollLeft;
    const ahead = line.scrollWidth - line.clientWidth - behind;
    line.classList.toggle("came-from", behind > 1);
    line.classList.toggle("goes-on", ahead > 1);
  };
  const seen = new ResizeObserver((all) => all.forEach((one) => fade(one.target)));

  htmx.onLoad((place) => {
    for (const line of place.querySelectorAll(".thread")) {
      const knot = line.querySelector(".in-hand");
      if (knot) line.scrollLeft = knot.offsetLeft - line.clientWidth / 3;
      line.addEventListener("scroll", () => fade(line), { passive: true });
      seen.observe(line);
    }
  });
})();
