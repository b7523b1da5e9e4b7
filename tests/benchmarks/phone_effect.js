// In a page: seconds from an edit to its effect, through the planner's own worker, JSON and all.
async function effectTimes(worker, data, edited, night, effort, times) {
  const list = await (await fetch("/planner/planner.json")).json();
  const planner = new Worker(worker, { type: "module" });
  const say = (word) =>
    new Promise((resolve, reject) => {
      planner.onerror = ({ message }) => reject(new Error(message));
      planner.onmessage = ({ data }) => {
        if (data.tell === "failed" || data.tell === "lost") reject(new Error(data.why));
        else if (data.tell !== "progress") resolve(data);
      };
      planner.postMessage(word);
    });
  const plan = async (document, before) => {
    const texts = { document: JSON.stringify(document), before: before && JSON.stringify(before) };
    return JSON.parse((await say({ ask: "plan", id: 1, night, effort, ...texts })).sheet);
  };
  await say({ ask: "start", list, life: "benchmark" });
  const before = await plan(data, null);
  const taken = [];
  for (let time = 0; time < times; time += 1) {
    const began = performance.now();
    await plan(edited, before);
    taken.push((performance.now() - began) / 1000);
  }
  planner.terminate();
  return taken;
}
