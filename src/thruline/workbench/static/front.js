// The front: a new rig is begun with a name and its foot controller.

import { make, pick } from "./make.js";

async function told(response) {
  const answer = await response.json();
  if (!response.ok) throw new Error(answer.says);
  return answer;
}

function say(trouble) {
  pick("why").textContent = trouble.message;
}

pick("begin").onsubmit = async (event) => {
  event.preventDefault();
  pick("why").textContent = "";
  try {
    const answer = await told(await fetch("/begin", {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({
        name: pick("name").value,
        controller: pick("controller").value,
        sample: Boolean(event.target.elements.sample.value),
      }),
    }));
    location.assign(answer.place);
  } catch (trouble) {
    say(trouble);
  }
};

fetch("/controllers.json").then(told).then(({ controllers }) => {
  pick("controller").replaceChildren(...controllers.map((one) =>
    make("option", { value: one.id }, `${one.name} (${one.id})`)));
  document.body.dataset.loaded = "yes";
}).catch(say);
