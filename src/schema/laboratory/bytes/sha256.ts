/**
 * SHA-256 in hexadecimal.
 *
 * @throws Error in a page that came by plain http from another machine: browsers keep cryptography from it
 */
export async function sha256(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  if (globalThis.crypto?.subtle === undefined)
    throw new Error("the browser computes hashes only for pages opened over https or from this machine");
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(digest, byte => byte.toString(16).padStart(2, "0")).join("");
}
