// An output with data-counts="ID" tells how much is typed in that field:
// characters as people count them, and UTF-8 bytes, as some hosts do.
const bytes = new TextEncoder();

function count(output) {
  const text = document.getElementById(output.dataset.counts).value;
  const characters = [...text].length;
  const size = bytes.encode(text).length;
  const most = Number(output.dataset.most || 0);
  const over = most && characters > most;
  output.classList.toggle("wrong", Boolean(over));
  output.textContent =
    `${characters} characters, ${size} bytes` +
    (most ? ` of ${most}` : "") +
    (over ? `, ${characters - most} too many` : "");
}

document.addEventListener("input", (event) => {
  if (!event.target.id) return;
  const outputs = document.querySelectorAll("output[data-counts]");
  for (const output of outputs) {
    if (output.dataset.counts === event.target.id) count(output);
  }
});
