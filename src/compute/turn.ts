/**
 * Lets messages, signals and timers have their turn. By a message of its own: a timer would be held back by milliseconds, and in
 * a page that is not looked at by a second.
 */
export function nextTurn(): Promise<void> {
  return new Promise(resolve => {
    const {port1, port2} = new MessageChannel();
    port1.addEventListener(
      "message",
      () => {
        port1.close();
        resolve();
      },
      {once: true},
    );
    port1.start();
    port2.postMessage(null);
  });
}
