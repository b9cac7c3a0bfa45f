/** Does something once the messages that have come are taken up, where a browser has no word of its own for that too. */
export const afterMessages: (work: () => void) => void =
  typeof setImmediate === 'function' ? (work) => void setImmediate(work) : throughChannel();

function throughChannel(): (work: () => void) => void {
  const waiting: (() => void)[] = [];
  const { port1, port2 } = new MessageChannel();
  port1.addEventListener('message', () => waiting.shift()?.());
  port1.start();
  return (work) => {
    waiting.push(work);
    port2.postMessage(null);
  };
}
