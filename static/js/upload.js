/* Photos go one by one, so that each shows where it stands and a bad one stops no other. */
(() => {
  const send = async (form, file) => {
    const data = new FormData(form);
    data.delete("photos");
    data.append("photos", file, file.name);
    const answer = await fetch(form.action, {
      method: "POST",
      body: data,
      headers: { Accept: "application/json" },
    });
    if (!(answer.headers.get("Content-Type") || "").startsWith("application/json")) {
      throw new Error(
        answer.status === 413
          ? `“${file.name}” is larger than this page takes.`
          : `“${file.name}” was not taken. Load the page again and retry.`,
      );
    }
    return (await answer.json()).refusals;
  };

  const tell = (list, sentence) => {
    const item = document.createElement("li");
    item.className = "refusal";
    item.textContent = sentence;
    list.append(item);
  };

  const show = (place) => {
    window.location.hash = place;
    window.location.reload();
  };

  // Sentences stay to be read; the log is shown when the maker asks for it.
  const offer = (form, place) => {
    const link = document.createElement("a");
    link.href = place;
    link.textContent = "Show the log with what was kept";
    link.addEventListener("click", (event) => {
      event.preventDefault();
      event.stopPropagation();
      show(place);
    });
    form.querySelector(".sending p").replaceChildren(link);
    form.querySelector("button").disabled = false;
  };

  document.addEventListener("submit", async (event) => {
    const form = event.target;
    if (!form.matches("[data-one-by-one]")) return;
    event.preventDefault();
    const files = [...form.querySelector('input[type="file"]').files];
    const sending = form.querySelector(".sending");
    const [bar, words, list] = ["progress", "p", "ul"].map((name) => sending.querySelector(name));
    form.querySelector("button").disabled = true;
    sending.hidden = false;
    list.replaceChildren();
    bar.max = files.length;
    for (const [at, file] of files.entries()) {
      words.textContent = `Photo ${at + 1} of ${files.length}: ${file.name}`;
      try {
        (await send(form, file)).forEach((sentence) => tell(list, sentence));
      } catch (error) {
        tell(list, error instanceof TypeError ? `“${file.name}” could not be sent. Is the program still running?` : error.message);
      }
      bar.value = at + 1;
    }
    const step = form.querySelector('[name="step"]').value;
    const place = step ? `#step-${step}` : "#photos";
    if (list.children.length) offer(form, place);
    else show(place);
  });
})();
