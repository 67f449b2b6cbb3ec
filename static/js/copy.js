// A button with data-copy="ID" copies the text of that element and says so.
// Without this script the button stays hidden and the text can be selected.
document.addEventListener("click", async (event) => {
  const button = event.target.closest("button[data-copy]");
  if (!button) return;
  const text = document.getElementById(button.dataset.copy).textContent;
  const said = button.nextElementSibling;
  try {
    await navigator.clipboard.writeText(text);
    said.textContent = "Copied";
  } catch {
    said.textContent = "Select the text and copy it by hand";
  }
});

function showCopyButtons() {
  for (const button of document.querySelectorAll("button[data-copy][hidden]")) {
    button.hidden = false;
  }
}
document.addEventListener("DOMContentLoaded", showCopyButtons);
document.addEventListener("htmx:load", showCopyButtons);
