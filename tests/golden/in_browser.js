// Runs in a page: starts the planner's own worker, asks it for nights, and gives back its answers in order.
// `asks` are [document, night, effort, before or null]. The page's script is a function body with these arguments.
async function planInWorker(worker, asks) {
  const list = await (await fetch("/planner/planner.json")).json();
  const planner = new Worker(worker, { type: "module" });
  const hear = () =>
    new Promise((resolve, reject) => {
      planner.onerror = ({ message }) => reject(new Error(message));
      planner.onmessage = ({ data }) => {
        if (data.tell === "failed" || data.tell === "lost") reject(new Error(data.why));
        else if (data.tell !== "progress") resolve(data);
      };
    });
  const say = (word) => {
    planner.postMessage(word);
    return hear();
  };
  try {
    await say({ ask: "start", list, life: "golden sheets" });
    const answers = [];
    for (const [id, [document, night, effort, before]] of asks.entries()) {
      answers.push(await say({ ask: "plan", id, document, night, effort, before }));
    }
    return answers;
  } finally {
    planner.terminate();
  }
}
