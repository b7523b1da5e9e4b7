/** A sign of life that needs no messages: a lock that the browser lets go of when this worker is gone. */

/** Resolves once the lock is held. It is never given back. A page that came without TLS has no locks. */
export function live(name: string): Promise<void> {
  if (!navigator.locks) return Promise.resolve();
  return new Promise((held, refused) => {
    navigator.locks
      .request(name, () => {
        held();
        return new Promise<never>(() => {});
      })
      .catch(refused);
  });
}
